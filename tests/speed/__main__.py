"""``python3 -m tests.speed``: what publication costs, as ratios against the same work done plainly, in one run.

Makes libraries of 60, 500 and 2000 units from a seed. A round publishes one from nothing, takes the references
(``tests.speed.references``) and publishes it again after an edit of each kind, so that what is compared ran side by side;
figures are medians over the rounds with the lowest and highest. ``--quick`` takes a library of 20 units alone, once.
"""

import argparse
import json
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path

from tests.speed.libraries import make_library, more_ripple, new_price, new_session, new_weights
from tests.speed.previews import saves
from tests.speed.processes import ROOT, Run, median_of, run, spread_of
from tests.speed.ranking import compared

EDITS: dict[str, Callable[[Path], None]] = {
    "nothing": lambda _: None, "one new session": new_session, "one price row": new_price, "a change of weights": new_weights,
}
"""In the order in which a round makes them, each in a library that was published just before. Nothing comes first: what was
saved a moment ago is looked at again."""
SETTLED_S = 2.5
"""A library that has not been written to for so long is one that nobody is editing."""
MOST = {"one new session": 0.03, "one price row": 0.02, "a change of weights": 0.25}
"""What publishing again may cost at most, as a share of publishing from nothing."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One line of the table."""

    name: str
    each: tuple[float, ...]
    target: float
    unit: str = ""

    @property
    def found(self) -> float:
        """The median of the rounds."""
        return statistics.median(self.each)

    def line(self) -> str:
        """As it is printed."""
        word = "reached" if self.found <= self.target else "missed"
        span = f"{min(self.each):.3f} to {max(self.each):.3f}" if len(self.each) > 1 else ""
        return f"{self.name:50}{self.found:10.3f}{self.unit:3}{span:>20}{self.target:10.3f}{self.unit:3}  {word}"


Runs = dict[str, list[Run]]
"""Processes by what they did, one a round."""


def publish(content: Path, output: Path) -> Run:
    """A publication as a process."""
    return run("-m", "guidegen", "publish", "--quiet", "--content", str(content), "--output", str(output))


def reference(kind: str, content: Path, site: Path) -> Run:
    """A reference as a process; its seconds are those without its start-up."""
    told = subprocess.run([sys.executable, "-m", "tests.speed.references", kind, str(content), str(site)],
                          cwd=ROOT, capture_output=True, text=True, check=True)
    return Run(float(told.stdout), float(told.stdout), 0.0)


def one_round(library: Path, folder: Path) -> dict[str, Run]:
    """A library published from nothing, the references, and the library published again after each edit."""
    content, site = folder / "content", folder / "site"
    shutil.copytree(library, content)
    found = {"published from nothing": publish(content, site)}
    found |= {f"plain {kind}": reference(kind, content, site) for kind in ("charts", "pages", "copy")}
    for name, edit in EDITS.items():
        edit(content)
        found[f"published again after {name}"] = publish(content, site)
    return found


def measure(units: int, folder: Path, times: int) -> tuple[list[Figure], Runs]:
    """All figures of one library."""
    library = make_library(folder, units)
    time.sleep(SETTLED_S)
    runs: Runs = {}
    for _ in range(times):
        with tempfile.TemporaryDirectory(dir=folder) as place:
            for name, one in one_round(library, Path(place)).items():
                runs.setdefault(f"{units} units: {name}", []).append(one)
    for name, each in runs.items():
        say(name, each)

    def walls(name: str) -> list[float]:
        return [one.wall_s for one in runs[f"{units} units: {name}"]]

    cold, charts, pages, copy = (walls(name) for name in ("published from nothing", "plain charts", "plain pages", "plain copy"))
    again = {name: walls(f"published again after {name}") for name in EDITS}
    return [
        Figure("cold publish / plain charts", shares(cold, charts), 0.15),
        Figure("cold publish / (plain pages + copy)", shares(cold, [a + b for a, b in zip(pages, copy, strict=True)]), 6),
        *(Figure(f"publish after {name} / cold publish", shares(again[name], cold), most) for name, most in MOST.items()),
        Figure("publish after one new session", tuple(again["one new session"]), 1.5, " s"),
        Figure("publish after nothing", tuple(again["nothing"]), 0.4, " s"),
    ], runs


def shares(over: list[float], under: list[float]) -> tuple[float, ...]:
    """Ratios, round by round."""
    return tuple(a / b for a, b in zip(over, under, strict=True))


def large(folder: Path, cold: list[Run]) -> tuple[list[Figure], Runs]:
    """What 2000 units cost beside 500."""
    name, content = "2000 units: published from nothing", make_library(folder, 2000)
    one = publish(content, folder / "large")
    say(name, [one])
    return [Figure("cold publish, 2000 units / 500 units", (one.wall_s / median_of(cold).wall_s,), 4.2),
            Figure("peak memory, 2000 units", (one.peak_mb,), 600, " MB")], {name: [one]}


def small(folder: Path, units: int, times: int, *, shown: int, turns: int) -> list[Figure]:
    """The preview from a save to the refreshed page, the simulated ranking, and the start of a command."""
    pages, desk = saves(make_library(folder / "shown", shown), more_ripple, turns)
    print(f"{f'{shown} units: preview, from save to pages':58}{pages:9.2f} s, the desk after {desk:.2f} s", flush=True)
    starts = [(run("-c", "import click").wall_s, run("-m", "guidegen", "--help").wall_s) for _ in range(turns)]
    return [
        Figure(f"preview: save to refreshed page, {shown} units", (pages,), 0.5, " s"),
        Figure(f"ranking {units} units in doubt / plain draws", compared(units, times).ratios, 1.5),
        Figure("guidegen --help / import click", tuple(told / bare for bare, told in starts), 1.6),
    ]


def say(name: str, runs: list[Run]) -> None:
    """A line of raw figures."""
    one = median_of(runs)
    more = f"{one.cpu_s:9.2f} s cpu{one.peak_mb:8.0f} MB" if one.peak_mb else ""
    print(f"{name:58}{one.wall_s:9.2f} s ±{spread_of(runs) / 2:4.0%}{more}", flush=True)


def main() -> None:
    """Measures and prints."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--quick", action="store_true", help="a library of 20 units alone, once")
    parser.add_argument("--times", type=int, default=3, help="rounds")
    parser.add_argument("--json", type=Path, default=None, help="also write the figures and all runs to this file")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as place:
        run("-c", "import guidegen.flow, guidegen.presentation.charts.drawn")  # compiled once, as by an installation
        folder, times, units = Path(place), 1 if asked.quick else asked.times, 20 if asked.quick else 500
        figures, runs = measure(units, folder, times)
        if not asked.quick:
            more, its_runs = large(folder, runs["500 units: published from nothing"])
            figures, runs = [*figures, *more], runs | its_runs
        figures += small(folder, units, times, shown=20, turns=1) if asked.quick else small(folder, units, times, shown=60, turns=5)
    print(f"\n{'':50}{'found':>10}{'':23}{'at most':>10}")
    for one in figures:
        print(one.line())
    if asked.json is not None:
        told = {"figures": [{**asdict(one), "found": one.found} for one in figures],
                "runs": {name: [asdict(one) for one in each] for name, each in runs.items()}}
        asked.json.write_text(json.dumps(told, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
