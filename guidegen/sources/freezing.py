"""A frozen edition on its way into the content: written file by file into a hidden folder, then named in one step.

Beside ``sources/writing`` the only module that writes below ``content/``; what is there already is never touched.
"""

import json
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict
from datetime import date
from hashlib import sha256
from pathlib import Path

from filelock import FileLock, Timeout

from guidegen.errors import RequestError
from guidegen.records import RECORDS, SITE, SUMS, EditionRecord, ListedFile
from guidegen.sources.folders import EDITIONS, is_name, walk
from guidegen.sources.shaping import identifier_like
from guidegen.sources.sums import build_of, sums_text


class FreezeDraft:
    """An edition that is being frozen; nobody sees it before it is whole."""

    def __init__(self, folder: Path) -> None:
        """An empty edition in a folder that is there."""
        self._folder = folder
        self._files: dict[str, ListedFile] = {}

    def take_site(self, path: str, content: bytes) -> None:
        """A file of the frozen site, by its path from the root of the site."""
        self._take(SITE + path, content)

    def text_of(self, path: str) -> str:
        """The text of a file of the site that was taken."""
        return (self._folder / SITE / path).read_text(encoding="utf-8")

    def take_records(self, content: Path) -> None:
        """Every record file of a content folder, as it stands."""
        for file in walk(content).files:
            self._take(RECORDS + file, (content / file).read_bytes())

    @property
    def build(self) -> str:
        """SHA-256 over the site's files."""
        return build_of(self._files.values())

    def finish(self, record: EditionRecord) -> int:
        """Describe the edition and list its files; how many they are."""
        text = json.dumps(asdict(record), indent=1, ensure_ascii=False, default=date.isoformat) + "\n"
        self._take("edition.json", text.encode())
        (self._folder / SUMS).write_text(sums_text(self._files.values()), encoding="utf-8", newline="\n")
        return len(self._files)

    def _take(self, path: str, content: bytes) -> None:
        place = self._folder / path
        place.parent.mkdir(parents=True, exist_ok=True)
        with place.open("xb") as stream:
            stream.write(content)
        self._files[path] = ListedFile(path=path, digest=sha256(content).hexdigest())


def refuse_name(content: Path, name: str) -> None:
    """Raise a ``RequestError`` where a name can't be that of a new edition."""
    if not is_name(name):
        nearest = identifier_like(name)
        hint = f"; did you mean {nearest}?" if nearest else ""
        raise RequestError(f"came the name {name}, expected small letters and digits with single -, . or _ between them{hint}")
    place = content / EDITIONS / name
    if os.path.lexists(place):
        raise RequestError(f"{place} is there already and was not touched; a frozen edition stays as it is, choose another name")


@contextmanager
def freezing(content: Path, name: str) -> Iterator[FreezeDraft]:
    """A draft that becomes ``editions/<name>`` when all went well; whatever goes wrong, nothing is left of it."""
    place = content / EDITIONS / name
    room = place.with_name(f".{name}.draft")
    try:
        room.mkdir(parents=True, exist_ok=True)
        with FileLock(room / "lock", timeout=0):
            shutil.rmtree(room / "edition", ignore_errors=True)
            (room / "edition").mkdir()
            try:
                yield FreezeDraft(room / "edition")
                os.sync()
                refuse_name(content, name)
                (room / "edition").rename(place)
            finally:
                _clear(room)
    except Timeout as error:
        raise RequestError(f"{place}: came another guidegen at work there, expected to be the only one") from error
    except OSError as error:
        raise RequestError(f"{error.filename or place} can't be written ({(error.strerror or 'no answer').lower()})") from error


def _clear(room: Path) -> None:
    """Leave nothing of the draft, nor an empty folder of editions."""
    shutil.rmtree(room, ignore_errors=True)
    if room.parent.is_dir() and not any(room.parent.iterdir()):
        room.parent.rmdir()
