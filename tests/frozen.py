"""A copy of the small edition with one edition frozen, and what a later year changes in it."""

import shutil
from pathlib import Path

from guidegen.flow import freeze

SMALL = Path(__file__).parent / "small_edition" / "content"
NAME = "2026"
WITHDRAWN = 'withdrawn: {on: 2026-04-10, reason: "The maker recalled it: <no> protection acted."}\n'


def frozen_content(folder: Path) -> Path:
    """The small edition's content in a folder, frozen once."""
    content = Path(shutil.copytree(SMALL, folder / "content"))
    freeze(content, NAME)
    return content


def replaced(path: Path, old: str, new: str) -> None:
    """One text of a file in place of another, which must be there."""
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def move_on(content: Path) -> None:
    """The next printing: a unit withdrawn, another under a new name with its address led on, a price changed."""
    replaced(content / "guide.yaml", "printing: 1", "printing: 2")
    with (content / "units" / "tarnbeck-hearth-650" / "unit.yaml").open("a", encoding="utf-8") as record:
        record.write(WITHDRAWN)
    (content / "units" / "wexcombe-ember-550").rename(content / "units" / "wexcombe-ember-550-a")
    replaced(content / "prices" / "ie.csv", "wexcombe-ember-550", "wexcombe-ember-550-a")
    replaced(content / "prices" / "ie.csv", "94.50", "91.50")
    with (content / "guide.yaml").open("a", encoding="utf-8") as guide:
        guide.write("moved:\n  - {from_address: unit/wexcombe-ember-550/, to_address: unit/wexcombe-ember-550-a/}\n")


def snapshot(folder: Path) -> dict[str, bytes]:
    """Every file of a folder by its path."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}
