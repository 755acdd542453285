"""A reader's own computer in a file: ``parts:`` with how many of each part class."""

from collections.abc import Iterator
from pathlib import Path

from guidegen.errors import ContentError, Fault
from guidegen.origins import Origin
from guidegen.records import BuildRecord, PartsRecord
from guidegen.sources.documents import lines_of
from guidegen.sources.draft import unknown
from guidegen.sources.mappings import name_of, record_in, text_in
from guidegen.sources.placing import put_in_place
from guidegen.sources.strict_yaml import Places


def read_build(path: Path, content: Path, parts: PartsRecord) -> BuildRecord:
    """The computer in a file, of the part classes of the content; raises a ``ContentError`` with every fault in it."""
    file = name_of(path, content)
    text, places = text_in(path, file), Places()
    build = record_in(BuildRecord, text, file=file, places=places)
    faults = tuple(_faults(build, Origin(file), tuple(part.id for part in parts.classes)))
    if faults:
        raise ContentError(put_in_place(faults, places, lines_of(text)))
    return build


def _faults(build: BuildRecord, top: Origin, known: tuple[str, ...]) -> Iterator[Fault]:
    for name, count in build.parts.items():
        at = top.at("parts", name)
        if name not in known:
            yield unknown(at, name, "part class", known)
        elif count < 1:
            yield Fault(origin=at, came=str(count), expected="a whole number of at least 1", rule="shape")
