"""A new session on its way into the content: written as text, read back, checked against all other records, then stored."""

import re
from dataclasses import dataclass
from pathlib import Path

from guidegen.errors import ContentError, Fault, RequestError, nearest_name
from guidegen.origins import Origin
from guidegen.records import Session, SessionRecord, Unit, UnitRecord
from guidegen.sources.documents import lines_of
from guidegen.sources.draft import Draft
from guidegen.sources.folders import walk
from guidegen.sources.library import draft_of, read_record
from guidegen.sources.placing import placed, put_in_place
from guidegen.sources.references import cross_check
from guidegen.sources.shaping import shape
from guidegen.sources.strict_yaml import Places, read_yaml
from guidegen.sources.writing import record_text, write_new

_SUFFIX = re.compile(r"[a-z0-9]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A session that may be stored."""

    file: str
    """File below the content folder; not there yet."""
    text: str
    """What will stand in it."""
    draft: Draft
    """The content with the new session, for checks of what numbers can be."""

    def placed(self, faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
        """Faults of the new session at their places in its text."""
        places: Places = {}
        read_yaml(self.file, self.text, places=places)
        return put_in_place(faults, places, lines_of(self.text))


def read_unit(content: Path, name: str) -> Unit:
    """One unit of the content; raises a ``RequestError`` where there is none of this name, a ``ContentError`` for its faults."""
    folder = walk(content)
    if name not in folder.units:
        nearest = nearest_name(name, tuple(folder.units))
        hint = f"; did you mean {nearest}?" if nearest else ""
        raise RequestError(f"there is no unit {name} below {content / 'units'}{hint}")
    file, faults = f"units/{name}/unit.yaml", list[Fault]()
    record = read_record(UnitRecord, folder, file, faults) if file in folder.unit_files else None
    if record is None or faults:
        missing = Fault(origin=Origin(file), came="no such file", expected="the record of the unit", rule="file")
        raise ContentError(placed(content, tuple(faults) or (missing,)))
    return Unit(id=name, file=file, record=record)


def entry_of(content: Path, unit: str, record: SessionRecord, *, suffix: str = "", head: str = "") -> Entry:
    """The text of a new session and its place; raises a ``ContentError`` with every fault that reading it back would find."""
    if suffix and not _SUFFIX.fullmatch(suffix):
        raise RequestError(f"came the suffix {suffix}, expected small letters and digits")
    file = f"units/{unit}/{record.date.isoformat()}{'-' if suffix else ''}{suffix}.yaml"
    text = record_text(record, head=head)
    session = Session(unit=unit, file=file, record=_read_back(file, text, record))
    if (content / file).exists():
        raise RequestError(f"{content / file} is there already and was not touched; take it away first, or choose another --suffix")
    faults: list[Fault] = []
    draft = draft_of(walk(content), faults, beside=(session,))
    entry = Entry(file=file, text=text, draft=draft)
    own = tuple(fault for fault in cross_check(draft) if fault.origin.file == file)
    if own:
        raise ContentError(entry.placed(own))
    return entry


def store(content: Path, entry: Entry) -> Path:
    """The entry as a file; one that is there already is an error."""
    path = content / entry.file
    write_new(path, entry.text)
    return path


def _read_back(file: str, text: str, record: SessionRecord) -> SessionRecord:
    """The record as the strict reader has it from the text, which has to be the same."""
    places: Places = {}
    reading = read_yaml(file, text, places=places)
    made, faults = shape(SessionRecord, reading.value, file=file)
    if reading.faults or faults or made is None:
        raise ContentError((*reading.faults, *put_in_place(faults, places, lines_of(text))))
    if made != record:
        raise AssertionError(f"{file} would not read back as it was written")
    return made
