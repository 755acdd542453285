"""Processes measured from start to end by the operating system's own account."""

import os
import statistics
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent


_AS_INSTALLED = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
"""Python keeps its compiled modules, as an installation does; a machine on which it may not would compile them at each start."""


@dataclass(frozen=True, slots=True)
class Run:
    """One process."""

    wall_s: float
    """Seconds by the clock."""
    cpu_s: float
    """Seconds of processor time, with its children."""
    peak_mb: float
    """Most memory at a time, of the process or of the largest of its children."""


def run(*arguments: str) -> Run:
    """A Python process with these arguments; ends the program where it fails."""
    began = time.perf_counter()
    process = subprocess.Popen([sys.executable, *arguments], cwd=ROOT, env=_AS_INSTALLED, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    wall = time.perf_counter() - began
    if status != 0:
        raise SystemExit(f"{' '.join(arguments)} ended with {status}")
    return Run(wall, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def median_of(runs: list[Run]) -> Run:
    """The median of each figure."""
    return Run(*(statistics.median(getattr(one, name) for one in runs) for name in ("wall_s", "cpu_s", "peak_mb")))


def spread_of(runs: list[Run]) -> float:
    """The widest distance between two runs as a share of their median."""
    walls = [one.wall_s for one in runs]
    return (max(walls) - min(walls)) / statistics.median(walls)
