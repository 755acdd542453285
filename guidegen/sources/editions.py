"""Frozen editions below ``content/editions/``: read, found by name, and held against their own lists of files."""

import json
from datetime import date
from pathlib import Path
from typing import Any

from guidegen.errors import ContentError, Fault, RequestError, unknown
from guidegen.origins import Origin
from guidegen.records import RECORDS, SUMS, EditionRecord, FrozenEdition
from guidegen.sources.documents import LARGEST_TABLE, read_text
from guidegen.sources.folders import EDITIONS, Folder, walk
from guidegen.sources.placing import placed
from guidegen.sources.shaping import shape
from guidegen.sources.sums import RULE, held_against, read_sums


def read_editions(folder: Folder, faults: list[Fault]) -> tuple[FrozenEdition, ...]:
    """The frozen editions, the latest first; notes the faults of those that can't be read."""
    made = (edition for name in folder.editions if (edition := _read(folder.content, name, faults)) is not None)
    return tuple(sorted(made, key=lambda one: (one.record.date, one.record.printing, one.record.name), reverse=True))


def verified(content: Path, name: str | None = None) -> tuple[FrozenEdition, ...]:
    """The frozen editions, or the one of a name, found to be as they were frozen; raises ``ContentError`` with every fault."""
    folder = walk(content)
    if name is not None:
        _known(content, folder, name)
        folder.editions = [name]
    faults = [fault for fault in folder.faults if fault.origin.file.startswith(f"{EDITIONS}/")]
    editions = read_editions(folder, faults)
    faults += tampered(content, editions)
    if faults:
        raise ContentError(placed(content, tuple(faults)))
    return editions


def tampered(content: Path, editions: tuple[FrozenEdition, ...]) -> tuple[Fault, ...]:
    """Every file of the editions that does not lie there as it was frozen."""
    return placed(content, tuple(fault for edition in editions for fault in held_against(content, edition)))


def records_of(content: Path, name: str) -> Path:
    """The records that an edition kept; raises a ``RequestError`` where there is none of this name."""
    _known(content, walk(content), name)
    return content / EDITIONS / name / RECORDS


def youngest_records(content: Path) -> Path:
    """The records that the youngest edition kept; raises ``ContentError`` where one can't be read, ``RequestError`` without any."""
    faults: list[Fault] = []
    editions = read_editions(walk(content), faults)
    if faults:
        raise ContentError(placed(content, tuple(faults)))
    if not editions:
        raise RequestError(f"{content / EDITIONS}: came no edition, expected one to compare with; `guidegen freeze NAME` keeps "
                           "one, and --against takes a folder of content")
    return records_of(content, editions[0].record.name)


def _known(content: Path, folder: Folder, name: str) -> None:
    if name not in folder.editions:
        there = unknown("edition", name, tuple(folder.editions)) if folder.editions else f"no edition {name}; none is frozen yet"
        raise RequestError(f"{content / EDITIONS}: {there}")


def _read(content: Path, name: str, faults: list[Fault]) -> FrozenEdition | None:
    file, sums = f"{EDITIONS}/{name}/edition.json", f"{EDITIONS}/{name}/{SUMS}"
    texts = [read_text(content / one, one, largest=LARGEST_TABLE) for one in (file, sums)]
    wrong = [text for text in texts if isinstance(text, Fault)]
    described, listed = (text if isinstance(text, str) else "" for text in texts)
    if wrong:
        faults += wrong
        return None
    files, unfit = read_sums(listed, sums)
    record, shapeless = _record(described, file)
    if record is not None and record.name != name:
        shapeless = (Fault(origin=Origin(file, ("name",)), came=record.name, expected=f"{name}, the name of its folder", rule=RULE),)
    faults += (*unfit, *shapeless)
    return None if record is None or unfit or shapeless else FrozenEdition(file=file, record=record, files=files)


def _record(text: str, file: str) -> tuple[EditionRecord | None, tuple[Fault, ...]]:
    try:
        value = json.loads(text)
    except json.JSONDecodeError as error:
        expected = "the description that guidegen wrote when it froze the edition"
        return None, (Fault(origin=Origin(file), line=error.lineno, column=error.colno, came=error.msg, expected=expected, rule=RULE),)
    except (ValueError, RecursionError):
        came = "a number or a nesting beyond all measure"
        return None, (Fault(origin=Origin(file), came=came, expected="the description that guidegen wrote when it froze the edition", rule=RULE),)
    return shape(EditionRecord, _with_day(value), file=file)


def _with_day(value: Any) -> Any:
    """The description with its day as a day, where it has one."""
    try:
        return {**value, "date": date.fromisoformat(value["date"])}
    except (TypeError, KeyError, ValueError):
        return value
