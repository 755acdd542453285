"""Mapping files: YAML that a lab writes once for a bench, and the list of protections that goes with a session."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any, TypeVar

from guidegen.errors import ContentError, Fault, nearest_name
from guidegen.origins import Origin
from guidegen.records import NEEDED, LogMapping, ProtectionTest
from guidegen.sources.documents import lines_of, read_text
from guidegen.sources.placing import put_in_place
from guidegen.sources.shaping import shape
from guidegen.sources.strict_yaml import Places, read_yaml

T = TypeVar("T")
_PROTECTIONS: Any = tuple[ProtectionTest, ...]


def name_of(path: Path, content: Path) -> str:
    """The name of a file as it is printed: below the content folder if it lies there, else its own."""
    whole = path.resolve()
    return whole.relative_to(content.resolve()).as_posix() if whole.is_relative_to(content.resolve()) else path.name


def read_mapping(path: Path, content: Path) -> LogMapping:
    """The mapping in a file; raises a ``ContentError`` with every fault in it."""
    file = name_of(path, content)
    text, places = text_in(path, file), Places()
    mapping = record_in(LogMapping, text, file=file, places=places)
    faults = tuple(check_mapping(mapping, file))
    if faults:
        raise ContentError(put_in_place(faults, places, lines_of(text)))
    return mapping


def read_protections(path: Path, content: Path) -> tuple[ProtectionTest, ...]:
    """The protections in a file, a list as in a session record; raises a ``ContentError`` with every fault in it."""
    file = name_of(path, content)
    tests: tuple[ProtectionTest, ...] = record_in(_PROTECTIONS, text_in(path, file), file=file, places=Places())
    if not tests:
        raise ContentError((Fault(origin=Origin(file), came="an empty list", expected="at least one protection", rule="file"),))
    return tests


def check_mapping(mapping: LogMapping, file: str) -> Iterator[Fault]:
    """What the shape of a mapping does not tell: columns that are missing, named twice, or named nowhere."""
    top, fields = Origin(file), tuple(mapping.columns.values())
    for needed in NEEDED[mapping.kind]:
        if needed not in fields:
            expected = f"a column for {needed}, which a {mapping.kind.replace('_', ' ')} needs"
            yield Fault(origin=top.at("columns"), came=f"{len(fields)} columns", expected=expected, rule="reference")
    if mapping.kind == "noise_sweep" and "background_dba" not in fields and mapping.background_dba is None:
        expected = "a column for background_dba, or the field background_dba"
        yield Fault(origin=top.at("columns"), came=f"{len(fields)} columns", expected=expected, rule="reference")
    for name, field in mapping.columns.items():
        first = next(one for one, other in mapping.columns.items() if other == field)
        if first != name and field != "level_dba":
            expected = f"each field once; {first} is {field} already"
            yield Fault(origin=top.at("columns", name), came=field, expected=expected, rule="duplicate")
        if name == mapping.time.column:
            expected = "another column than that of the time"
            yield Fault(origin=top.at("columns", name), came=name, expected=expected, rule="duplicate")
    for name in mapping.factors:
        if name not in mapping.columns:
            yield Fault(
                origin=top.at("factors", name), came=name, expected="a heading that stands in columns",
                nearest=nearest_name(name, tuple(mapping.columns)), rule="reference",
            )
    if mapping.decimal == "comma" and mapping.separator == "comma":
        expected = "another separator than the decimal mark"
        yield Fault(origin=top.at("separator"), came="comma", expected=expected, rule="reference")


def text_in(path: Path, file: str) -> str:
    """The text of a file; raises a ``ContentError`` where it can't be read."""
    text = read_text(path, file)
    if isinstance(text, Fault):
        raise ContentError((text,))
    return text


def record_in(kind: type[T], text: str, *, file: str, places: Places) -> T:
    """A record from the text of a file; ``places`` are filled."""
    reading = read_yaml(file, text, places=places)
    if reading.faults:
        raise ContentError(reading.faults)
    if reading.value is None:
        raise ContentError((Fault(origin=Origin(file), came="an empty file", expected="the fields of the record", rule="file"),))
    made, faults = shape(kind, reading.value, file=file)
    if made is None or faults:
        raise ContentError(put_in_place(faults, places, lines_of(text)))
    return made
