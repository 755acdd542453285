"""Values made before, kept beside the published folder on shelves: what is asked for together lies in one file.

A shelf holds each value under the hash of what it was made of. It is headed like every memory by the program that wrote
it and by its own hash; what is damaged, half written or another program's is no shelf, and its values are made anew.
"""

import shutil
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from functools import partial
from hashlib import sha256
from itertools import groupby, islice
from pathlib import Path
from pickle import PicklingError, UnpicklingError
from typing import Any, TypeVar

from guidegen.press.memory import APART, read_sealed, write_sealed
from guidegen.press.packing import pack, unpack
from guidegen.recalling import Wanted
from guidegen.sharing import processes_for, shared_out, slices

T = TypeVar("T")
MANY = 200
"""So many values of a shelf, and no more, are made by one process ahead of being asked for."""
SUFFIX = ".shelf"
"""Ending of the files."""


@dataclass(slots=True)
class _Shelf:
    """What one file holds, and what of it was asked for."""

    found: dict[str, bytes]
    asked: dict[str, bytes] = field(default_factory=dict)
    new: bool = False

    @property
    def stands_otherwise(self) -> bool:
        """Whether the file has to be written."""
        return self.new or self.asked.keys() != self.found.keys()


@dataclass(slots=True)
class Shelves:
    """The shelves of one published folder, for one run."""

    room: Path
    """Where they stand."""
    program: str
    """The program that reads and writes them."""
    _open: dict[str, _Shelf] = field(default_factory=dict)
    _away: set[str] = field(default_factory=set)

    def __call__(self, shelf: str, key: str, make: Callable[[], T], /) -> T:
        """The value kept under this key, or what ``make`` gives now."""
        one = self._opened(shelf)
        if key in one.found:
            with suppress(UnpicklingError):
                value: T = unpack(one.found[key])
                one.asked[key] = one.found[key]
                return value
        value = make()
        with suppress(PicklingError):
            one.asked[key] = pack(value)
            one.new = True
        return value

    def apart(self, key: str, make: Callable[[], T], /) -> T:
        """The value kept in a file of its own, by whichever process of this run or an earlier one made it."""
        path = self._apart / f"{sha256(key.encode()).hexdigest()}{SUFFIX}"
        sealed = read_sealed(path, self.program)
        if sealed:
            with suppress(UnpicklingError):
                value: T = unpack(sealed)
                return value
        value = make()
        with suppress(PicklingError, OSError):
            path.parent.mkdir(exist_ok=True)
            write_sealed(path, self.program, pack(value))
        return value

    def lies_apart(self) -> bool:
        """Whether a run of this program kept a value in a file of its own."""
        return any(self._apart.glob(f"*{SUFFIX}"))

    def ahead(self, wanted: Iterable[Wanted], /) -> None:
        """What isn't on its shelf is made now where several processes can do it; otherwise when it is asked for."""
        missing = [one for one in wanted if one.key not in self._opened(one.shelf).found]
        parts = list(_parts(missing))
        processes = processes_for(len(parts))
        if processes < 2:
            return
        for place, made in shared_out(partial(_made, parts), slices(len(parts), len(parts)), processes):
            for one, packed in zip(parts[place], made, strict=True):
                if packed is not None:
                    self._open[one.shelf].found[one.key] = packed
                    self._open[one.shelf].new = True

    def done(self, shelf: str, /) -> None:
        """The shelf is written down now, with what this run asked for, and its memory is free."""
        one = self._open.pop(shelf, None)
        if one is not None:
            self._write(shelf, one)
            self._away.add(shelf)

    def keep(self) -> None:
        """Write down the shelves that are not as they were, with what this run asked for and nothing else."""
        for left in self.room.glob(f"*{SUFFIX}"):
            if left.stem not in self._open.keys() | self._away:
                left.unlink()
        for folder in self.room.glob(f"{APART}*"):
            if folder != self._apart:
                shutil.rmtree(folder, ignore_errors=True)
        for name, shelf in self._open.items():
            self._write(name, shelf)

    def _write(self, name: str, shelf: _Shelf) -> None:
        if shelf.stands_otherwise:
            write_sealed(self._path(name), self.program, pack(shelf.asked))

    def _opened(self, name: str) -> _Shelf:
        if name not in self._open:
            found = self._read(name)
            self._open[name] = _Shelf(found, dict(found) if name in self._away else {})
        return self._open[name]

    def _read(self, name: str) -> dict[str, bytes]:
        sealed = read_sealed(self._path(name), self.program)
        try:
            found: Any = unpack(sealed) if sealed else {}
        except UnpicklingError:
            return {}
        return found if isinstance(found, dict) else {}

    @property
    def _apart(self) -> Path:
        return self.room / f"{APART}{self.program[:16]}"

    def _path(self, name: str) -> Path:
        return self.room / f"{name}{SUFFIX}"


def _parts(missing: list[Wanted]) -> Iterator[tuple[Wanted, ...]]:
    """What one process makes: neighbours of one shelf, not too many."""
    for _, found in groupby(missing, lambda one: one.shelf):
        while part := tuple(islice(found, MANY)):
            yield part


def _made(parts: list[tuple[Wanted, ...]], place: int) -> list[bytes | None]:
    """The values of a part, packed; nothing where one can't be made or packed: who asks for it meets the reason."""
    return [_packed(one) for one in parts[place]]


def _packed(one: Wanted) -> bytes | None:
    with suppress(Exception):
        return pack(one.make())
    return None
