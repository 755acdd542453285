"""What is remembered from one publication to the next: which page came of which key, and how files lay on the disk.

Kept beside the published folder as plain values under a line with the hash of what follows and of the program that wrote it.
A memory that is damaged, half written or another program's is no memory: everything is then made anew.
"""

import os
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from pickle import UnpicklingError
from typing import Any, Self

from guidegen.press.manifests import Mark
from guidegen.press.packing import pack, unpack

PAGES, LAY = "pages.memory", "lay.memory"
"""Files of the memory: pages by key, and how everything lay."""
APART = "apart-"
"""Beginning of the folder of the values that have files of their own; a program's others are of no use to the next."""
DRAFT = ".draft"
"""Ending of what is being written; each process has its own."""


@dataclass(frozen=True, slots=True)
class Remembered:
    """A file that was made before."""

    key: str
    """Stands for everything that it shows."""
    digest: str
    """SHA-256 of its content."""
    found: Any = None
    """What proof-reading found in it, as plain values."""
    says: str = ""
    """Stands for what its sheet says; empty where it has none."""


@dataclass(slots=True)
class Memory:
    """The memory of one published folder."""

    made: dict[str, Remembered] = field(default_factory=dict)
    """Files made before, by path."""
    marks: dict[str, Mark] = field(default_factory=dict)
    """How the files of the last edition lay, by path."""

    @classmethod
    def read(cls, room: Path, program: str) -> Self:
        """What the last run of this very program left; empty where there is nothing, or nothing sound."""
        made, lay = read_kept(room / PAGES, program), read_kept(room / LAY, program)
        return cls(
            made={path: Remembered(*one) for path, one in made.items()},
            marks={path: Mark(*one) for path, one in lay.get("marks", {}).items()},
        )

    def write(self, room: Path, program: str) -> None:
        """Keep the memory for the next run."""
        write_kept(room / PAGES, program, {path: [one.key, one.digest, one.found, one.says] for path, one in self.made.items()})
        marks = {path: [mark.size, mark.changed_ns] for path, mark in self.marks.items()}
        write_kept(room / LAY, program, {"marks": marks})


def forget(room: Path) -> None:
    """Leave no memory, so that the next run makes everything anew."""
    for path in (*room.glob("*.memory"), *room.glob("*.shelf"), *room.glob(f"{APART}*/*.shelf")):
        path.unlink()


def read_kept(path: Path, program: str) -> dict[str, Any]:
    """An object that ``write_kept`` wrote; empty where it isn't there, isn't whole, or is another program's."""
    body = read_sealed(path, program)
    try:
        found = unpack(body) if body else {}
    except UnpicklingError:
        return {}
    return found if isinstance(found, dict) else {}


def write_kept(path: Path, program: str, value: Mapping[str, Any]) -> None:
    """An object kept as a whole or not at all; where there is no room for it, the next run does without."""
    write_sealed(path, program, pack(dict(value), once=True))


def read_sealed(path: Path, program: str) -> bytes:
    """Bytes that ``write_sealed`` wrote; empty where they aren't there, aren't whole, or are another program's."""
    try:
        head, _, body = path.read_bytes().partition(b"\n")
    except OSError:
        return b""
    return body if head.decode("ascii", "replace") == f"{program} {sha256(body).hexdigest()}" else b""


def write_sealed(path: Path, program: str, body: bytes) -> None:
    """Bytes kept as a whole or not at all, under a line with the program and their hash."""
    draft = path.with_name(f"{path.name}.{os.getpid()}{DRAFT}")
    try:
        with draft.open("wb") as written:
            written.write(f"{program} {sha256(body).hexdigest()}\n".encode())
            written.write(body)
        draft.replace(path)
    except OSError:
        for left in (draft, path):
            with suppress(OSError):
                left.unlink()
