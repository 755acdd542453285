"""``python3 -m tests.speed``: what publication costs, as ratios against the same work done plainly, in one run.

Makes libraries of 60, 500 and 2000 units from a seed, publishes them from nothing and again after an edit of each kind,
and takes the references (``tests.speed.references``) in turn with them. Medians of several runs with their spread, by the
clock; processor time and peak memory beside them. ``--quick`` takes the library of 60 units alone, once.
"""

import argparse
import json
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from tests.speed.libraries import make_library, more_ripple, new_price, new_session, new_weights
from tests.speed.previews import saves
from tests.speed.processes import ROOT, Run, median_of, run, spread_of

EDITS: dict[str, Callable[[Path], None]] = {
    "one new session": new_session, "one price row": new_price, "a change of weights": new_weights, "nothing": lambda _: None,
}


@dataclass(frozen=True, slots=True)
class Figure:
    """One line of the table."""

    name: str
    found: float
    target: float
    unit: str = ""

    def line(self) -> str:
        """As it is printed."""
        word = "reached" if self.found <= self.target else "missed"
        return f"{self.name:58}{self.found:10.3f}{self.unit:3}{self.target:10.3f}{self.unit:3}  {word}"


def publish(content: Path, output: Path, *more: str) -> Run:
    """A publication as a process."""
    return run("-m", "guidegen", "publish", "--quiet", "--content", str(content), "--output", str(output), *more)


def reference(kind: str, content: Path, site: Path) -> float:
    """Seconds of a reference, without its start-up."""
    told = subprocess.run([sys.executable, "-m", "tests.speed.references", kind, str(content), str(site)],
                          cwd=ROOT, capture_output=True, text=True, check=True)
    return float(told.stdout)


def say(name: str, runs: list[Run]) -> Run:
    """A line of raw figures; their median."""
    one = median_of(runs)
    print(f"{name:58}{one.wall_s:9.2f} s ±{spread_of(runs) / 2:4.0%}{one.cpu_s:9.2f} s cpu{one.peak_mb:8.0f} MB", flush=True)
    return one


def cold_runs(content: Path, folder: Path, times: int) -> list[Run]:
    """Publications from nothing."""
    runs = []
    for _ in range(times):
        shutil.rmtree(folder / "site", ignore_errors=True)
        shutil.rmtree(folder / ".site.press", ignore_errors=True)
        runs.append(publish(content, folder / "site"))
    return runs


def edited(content: Path, folder: Path, edit: Callable[[Path], None], times: int) -> list[Run]:
    """Publications after an edit, each from the same state before it."""
    runs = []
    for i in range(times):
        copy = folder / f"edited-{i}"
        shutil.copytree(content, copy)
        publish(copy, folder / "again")
        edit(copy)
        runs.append(publish(copy, folder / "again"))
        shutil.rmtree(copy)
    return runs


def measure(units: int, folder: Path, times: int) -> tuple[list[Figure], Run]:
    """All figures of one library."""
    content, figures = make_library(folder, units), []
    cold = say(f"{units} units: published from nothing", cold_runs(content, folder, times))
    plain = {kind: reference(kind, content, folder / "site") for kind in ("charts", "pages", "copy")}
    for kind, seconds in plain.items():
        print(f"{f'{units} units: plain {kind}':58}{seconds:9.2f} s", flush=True)
    figures += [Figure("cold publish / plain charts", cold.wall_s / plain["charts"], 0.15),
                Figure("cold publish / (plain pages + copy)", cold.wall_s / (plain["pages"] + plain["copy"]), 6)]
    for (name, edit), most in zip(EDITS.items(), (0.03, 0.02, 0.25, None), strict=True):
        again = say(f"{units} units: published again after {name}", edited(content, folder, edit, times))
        if most is not None:
            figures.append(Figure(f"publish after {name} / cold publish", again.wall_s / cold.wall_s, most))
        if name in ("one new session", "nothing"):
            figures.append(Figure(f"publish after {name}", again.wall_s, 1.5 if name != "nothing" else 0.4, " s"))
    return figures, cold


def previewed(folder: Path, times: int) -> Figure:
    """From a save of a session to the refreshed page, in a preview of 60 units; the first page counts, the desk follows it."""
    pages, desk = saves(make_library(folder / "shown", 60), more_ripple, times)
    print(f"{'60 units: preview, from save to pages':58}{pages:9.2f} s, the desk after {desk:.2f} s", flush=True)
    return Figure("preview: save to refreshed page, 60 units", pages, 0.5, " s")


def main() -> None:
    """Measures and prints."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--quick", action="store_true", help="the library of 60 units alone, once")
    parser.add_argument("--times", type=int, default=3)
    parser.add_argument("--json", type=Path, default=None, help="also write the figures to this file")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as place:
        folder, times = Path(place), 1 if asked.quick else asked.times
        figures, cold = measure(60 if asked.quick else 500, folder, times)
        if not asked.quick:
            (folder / "large").mkdir()
            large = say("2000 units: published from nothing", cold_runs(make_library(folder / "large", 2000), folder / "large", 1))
            figures += [Figure("cold publish, 2000 units / 500 units", large.wall_s / cold.wall_s, 4.2),
                        Figure("peak memory, 2000 units", large.peak_mb, 600, " MB")]
        figures.append(previewed(folder, 5))
        bare = [run("-c", "import click") for _ in range(5)]
        told = [run("-m", "guidegen", "--help") for _ in range(5)]
        figures.append(Figure("guidegen --help / import click", median_of(told).wall_s / median_of(bare).wall_s, 1.6))
    print(f"\n{'':58}{'found':>10}   {'at most':>10}")
    for one in figures:
        print(one.line())
    if asked.json is not None:
        asked.json.write_text(json.dumps([[f.name, f.found, f.target, f.unit] for f in figures], indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
