"""Values made before, kept beside the published folder on shelves: what is asked for together lies in one file.

A shelf holds each value under the hash of what it was made of. It is headed like every memory by the program that wrote
it and by its own hash; what is damaged, half written or another program's is no shelf, and its values are made anew.
"""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from pickle import PicklingError, UnpicklingError
from typing import Any, TypeVar

from guidegen.press.memory import read_sealed, write_sealed
from guidegen.press.packing import pack, unpack

T = TypeVar("T")
SUFFIX = ".shelf"
"""Ending of the files."""


@dataclass(slots=True)
class _Shelf:
    """What one file holds, and what of it was asked for."""

    found: dict[str, bytes]
    asked: dict[str, bytes] = field(default_factory=dict)
    new: bool = False


@dataclass(slots=True)
class Shelves:
    """The shelves of one published folder, for one run."""

    room: Path
    """Where they stand."""
    program: str
    """The program that reads and writes them."""
    _open: dict[str, _Shelf] = field(default_factory=dict)

    def __call__(self, shelf: str, key: str, make: Callable[[], T], /) -> T:
        """The value kept under this key, or what ``make`` gives now."""
        one = self._open.get(shelf)
        if one is None:
            one = self._open[shelf] = _Shelf(self._read(shelf))
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

    def keep(self) -> None:
        """Write down the shelves that are not as they were, with what this run asked for and nothing else."""
        for left in self.room.glob(f"*{SUFFIX}"):
            if left.stem not in self._open:
                left.unlink()
        for name, shelf in self._open.items():
            if shelf.new or shelf.asked.keys() != shelf.found.keys():
                write_sealed(self._path(name), self.program, pack(shelf.asked))

    def _read(self, name: str) -> dict[str, bytes]:
        sealed = read_sealed(self._path(name), self.program)
        try:
            found: Any = unpack(sealed) if sealed else {}
        except UnpicklingError:
            return {}
        return found if isinstance(found, dict) else {}

    def _path(self, name: str) -> Path:
        return self.room / f"{name}{SUFFIX}"
