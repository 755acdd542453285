"""``python3 -m tests.speed``: how long publications take and how much memory they need, as medians of several runs."""

import argparse
import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
BARE = ("-c", "import click")


@dataclass(frozen=True, slots=True)
class Run:
    """One process, from start to end."""

    wall_s: float
    cpu_s: float
    peak_mb: float


def run(arguments: tuple[str, ...]) -> Run:
    """A Python process with these arguments, measured by the operating system's own account of it."""
    began = time.perf_counter()
    process = subprocess.Popen([sys.executable, *arguments], cwd=ROOT, stdout=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    wall = time.perf_counter() - began
    if status != 0:
        raise SystemExit(f"{' '.join(arguments)} ended with {status}")
    return Run(wall, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def medians(runs: list[Run]) -> Run:
    """The median of each figure."""
    return Run(*(statistics.median(getattr(one, name) for one in runs) for name in ("wall_s", "cpu_s", "peak_mb")))


def measure(times: int, content: Path) -> dict[str, Run]:
    """Every figure, the processes taken in turn so that a drifting machine touches all alike."""
    gathered: dict[str, list[Run]] = {"bare interpreter with click": [], "help": [], "cold publish": [], "publish again": []}
    for _ in range(times):
        with tempfile.TemporaryDirectory() as folder:
            publish = ("-m", "guidegen", "publish", "--quiet", "--content", str(content), "--output", folder)
            gathered["bare interpreter with click"].append(run(BARE))
            gathered["help"].append(run(("-m", "guidegen", "--help")))
            gathered["cold publish"].append(run(publish))
            gathered["publish again"].append(run(publish))
    return {name: medians(runs) for name, runs in gathered.items()}


def main() -> None:
    """Measures and prints."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=3)
    parser.add_argument("--content", type=Path, default=ROOT / "content")
    parser.add_argument("--json", type=Path, default=None, help="also write the figures to this file")
    asked = parser.parse_args()
    figures = measure(asked.times, asked.content)
    bare = figures["bare interpreter with click"].wall_s
    print(f"{'':30}{'wall, s':>9}{'cpu, s':>9}{'peak, MB':>10}{'× bare':>9}")
    for name, one in figures.items():
        print(f"{name:30}{one.wall_s:9.2f}{one.cpu_s:9.2f}{one.peak_mb:10.0f}{one.wall_s / bare:9.1f}")
    if asked.json is not None:
        document = {name: {"wall_s": f.wall_s, "cpu_s": f.cpu_s, "peak_mb": f.peak_mb} for name, f in figures.items()}
        asked.json.write_text(json.dumps(document, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
