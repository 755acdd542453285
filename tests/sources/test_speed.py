"""Reading keeps pace with a lab that has tested for decades."""

import shutil
import time
from pathlib import Path

from guidegen.sources import read_library

SMALL_EDITION = Path(__file__).parents[1] / "small_edition" / "content"


def test_a_hundred_units_are_read_in_well_under_a_second(tmp_path: Path) -> None:
    """Three files a unit; the bound leaves room for a slow machine (measured: 0.2 s on two cores)."""
    content = tmp_path / "content"
    shutil.copytree(SMALL_EDITION, content)
    for number in range(100):
        folder = content / "units" / f"tarnbeck-kiln-650-{number}"
        shutil.copytree(content / "units" / "tarnbeck-kiln-650", folder)
        shutil.copy(folder / "2026-03-02.yaml", folder / "2026-03-02-b.yaml")
    read_library(SMALL_EDITION)

    started = time.perf_counter()
    library = read_library(content)

    assert 104 == len(library.units)
    assert time.perf_counter() - started < 2
