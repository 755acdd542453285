"""Whether what is published is still what the content says, answered without reading any record.

A run notes how every file of the content and the theme lay before it read them, and how every file that it published
lay when it was done. As long as nothing lies otherwise, the next run has nothing to do.
"""

import os
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import guidegen
from guidegen.press.manifests import MANIFEST, Manifest, Mark
from guidegen.press.memory import LAY, read_kept, write_kept
from guidegen.press.rooms import Press

STANDING = "standing.memory"
"""File of the note."""
_FRESH_NS = 2_000_000_000
"""A file changed less than two seconds before it was looked at may change again without looking different."""

Lay = dict[str, list[int]]
"""Size and time of change of files, by path."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A publication that still holds."""

    files: int
    """How many files are published."""
    units: int
    """Units in the guide."""
    sessions: int
    """Bench sessions in the guide."""


def lay_of(content: Path, themes: Path) -> Lay:
    """How the content and the themes lie now."""
    now = time.time_ns()
    places = (content, themes, Path(guidegen.__file__).parent.parent / "themes")
    return {str(path): _lay(path, now) for place in places for path in _below(place)}


def _below(place: Path) -> Iterator[Path]:
    for folder, folders, names in os.walk(place):
        folders.sort()
        yield from (Path(folder, name) for name in sorted(names))


def _lay(path: Path, now: int) -> list[int]:
    mark = Mark.of(path)
    if mark is None:  # a link, say: whether what it leads to has changed can't be seen from here
        return [-1, -now]
    return [mark.size, mark.changed_ns if abs(now - mark.changed_ns) > _FRESH_NS else -now]


def note_standing(press: Press, program: str, lay: Lay, *, units: int, sessions: int) -> None:
    """Note what the publication was made of; ``lay`` is how it lay before it was read."""
    write_kept(press.room / STANDING, program, {"lay": lay, "units": units, "sessions": sessions})


def still_standing(content: Path, themes: Path, output: Path, program: str) -> Standing | None:
    """The publication, where neither what it was made of nor what was made of it has changed since; else nothing.

    What can't be looked at stands no longer: the publication that follows says why.
    """
    try:
        return _still_standing(content, themes, Press.of(output), program)
    except OSError:
        return None


def _still_standing(content: Path, themes: Path, press: Press, program: str) -> Standing | None:
    if press.note.exists() or press.ready.exists():
        return None
    noted = read_kept(press.room / STANDING, program)
    if not noted or noted["lay"] != lay_of(content, themes):
        return None
    marks = read_kept(press.room / LAY, program).get("marks", {})
    published = Manifest.read(press.output).files
    if not (press.output / MANIFEST).is_file() or published.keys() != marks.keys():
        return None
    if any(Mark.of(press.output / path) != Mark(*mark) for path, mark in marks.items()):
        return None
    return Standing(files=len(published), units=noted["units"], sessions=noted["sessions"])
