"""The content folder, walked and read: everything or every fault."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

from guidegen.errors import ContentError, Fault
from guidegen.origins import Origin
from guidegen.records import (
    GuideRecord,
    Library,
    Manuscript,
    PartsRecord,
    PolicyRecord,
    PriceList,
    Session,
    SessionRecord,
    Unit,
    UnitRecord,
)
from guidegen.sources.manuscripts import read_manuscript
from guidegen.sources.references import cross_check
from guidegen.sources.shaping import adapter, shape
from guidegen.sources.strict_yaml import decode, marks_of, parse
from guidegen.sources.tables import read_prices

T = TypeVar("T")

IDENTIFIER = re.compile(r"^[a-z0-9]+([._-][a-z0-9]+)*$")
SESSION_NAME = re.compile(r"^[0-9]{4}-[0-9]{2}-[0-9]{2}(-[a-z0-9]+)?\.yaml$")
UNIT_FILE = "unit.yaml"
KINDS: dict[str, type[Any]] = {
    "guide": GuideRecord, "policy": PolicyRecord, "parts": PartsRecord, "unit": UnitRecord, "session": SessionRecord,
}


@dataclass(slots=True)
class _Desk:
    """What is gathered while the folder is walked."""

    content: Path
    faults: list[Fault] = field(default_factory=list)

    def text(self, path: Path) -> tuple[str, str]:
        """Name and text of a file; an empty text where it can't be read, with the fault noted."""
        file = path.relative_to(self.content).as_posix()
        if not path.resolve().is_relative_to(self.content.resolve()):
            self.faults.append(Fault(origin=Origin(file), came="a link out of the content", expected="a file inside it", rule="link"))
            return file, ""
        try:
            raw = path.read_bytes()
        except OSError as error:
            self.faults.append(Fault(origin=Origin(file), came=error.strerror or "an error", expected="a readable file", rule="file"))
            return file, ""
        text, fault = decode(raw, file)
        if fault is not None:
            self.faults.append(fault)
        return file, text

    def record(self, kind: type[T], path: Path) -> T | None:
        """The record in a file, or nothing, with its faults noted."""
        before = len(self.faults)
        file, text = self.text(path)
        if len(self.faults) > before:
            return None
        parsed = parse(text, file)
        if parsed.fault is not None:
            self.faults.append(parsed.fault)
            return None
        made, faults = shape(kind, parsed.value, file=file, text=text)
        self.faults += faults
        return made


def read_library(content: Path) -> Library:
    """Everything below ``content``, or a ``ContentError`` that carries every fault of every file."""
    if not content.is_dir():
        raise ContentError((Fault(origin=Origin(str(content)), came="no folder", expected="the folder with the records", rule="file"),))
    desk = _Desk(content)
    guide = _single(desk, GuideRecord, "guide.yaml")
    policy = _single(desk, PolicyRecord, "policy.yaml")
    parts = _single(desk, PartsRecord, "parts.yaml")
    units, sessions = _units(desk)
    prices, manuscripts = _prices(desk), _manuscripts(desk)
    if guide is None or policy is None or parts is None:
        raise ContentError(tuple(desk.faults))
    library = Library(
        guide=guide, policy=policy, parts=parts, units=units, sessions=sessions, prices=prices, manuscripts=manuscripts
    )
    unread = {fault.origin.file for fault in desk.faults}
    desk.faults += [fault for fault in _crossed(content, library) if not _explained(fault, unread)]
    if desk.faults:
        raise ContentError(tuple(desk.faults))
    return library


def _explained(fault: Fault, unread: set[str]) -> bool:
    """Whether a cross check only stumbles over a file that could not be read itself."""
    folders = {file.rsplit("/", 1)[0] for file in unread if file.startswith("units/")}
    if fault.rule == "missing" and fault.came == "no session":
        return fault.origin.file.rsplit("/", 1)[0] in folders
    return fault.rule == "reference" and f"units/{fault.came}" in folders


def _crossed(content: Path, library: Library) -> Iterator[Fault]:
    for origin, came, expected, nearest, rule in cross_check(library):
        line, column, text = locate(content, origin)
        yield Fault(origin=origin, line=line, column=column, came=came, expected=expected, nearest=nearest, text=text, rule=rule)


def _single(desk: _Desk, kind: type[T], name: str) -> T | None:
    path = desk.content / name
    if not path.is_file():
        desk.faults.append(Fault(origin=Origin(name), came="no such file", expected=f"{name} in the content folder", rule="file"))
        return None
    return desk.record(kind, path)


def _units(desk: _Desk) -> tuple[tuple[Unit, ...], tuple[Session, ...]]:
    units: list[Unit] = []
    sessions: list[Session] = []
    folded: dict[str, str] = {}
    for folder in _children(desk.content / "units"):
        file = folder.relative_to(desk.content).as_posix()
        if not folder.is_dir() or not IDENTIFIER.match(folder.name):
            desk.faults.append(
                Fault(origin=Origin(file), came=folder.name, expected="a folder named in small letters, digits and single -", rule="name")
            )
            continue
        if folder.name.casefold() in folded:
            desk.faults.append(Fault(origin=Origin(file), came=folder.name, expected=f"a name unlike {folded[folder.name.casefold()]}", rule="name"))
        folded[folder.name.casefold()] = folder.name
        if not (folder / UNIT_FILE).is_file():
            desk.faults.append(Fault(origin=Origin(f"{file}/{UNIT_FILE}"), came="no such file", expected="the unit's record", rule="file"))
        for path in _children(folder):
            _unit_file(desk, folder.name, path, units=units, sessions=sessions)
    ordered = sorted(sessions, key=lambda s: (s.unit, s.record.date, s.file))
    return tuple(sorted(units, key=lambda u: u.id)), tuple(ordered)


def _unit_file(desk: _Desk, unit: str, path: Path, *, units: list[Unit], sessions: list[Session]) -> None:
    file = path.relative_to(desk.content).as_posix()
    if path.is_dir() and path.name == "logs":
        return
    if path.name == UNIT_FILE:
        made = desk.record(UnitRecord, path)
        if made is not None:
            units.append(Unit(id=unit, file=file, record=made))
    elif SESSION_NAME.match(path.name):
        session = desk.record(SessionRecord, path)
        if session is not None:
            sessions.append(Session(unit=unit, file=file, record=session))
    else:
        desk.faults.append(Fault(origin=Origin(file), came=path.name, expected="unit.yaml, or a session named by its day such as 2026-03-02.yaml", rule="name"))


def _prices(desk: _Desk) -> tuple[PriceList, ...]:
    lists: list[PriceList] = []
    for path in _children(desk.content / "prices"):
        if path.suffix != ".csv":
            desk.faults.append(Fault(origin=Origin(f"prices/{path.name}"), came=path.name, expected="a table named by its region, such as ie.csv", rule="name"))
            continue
        before = len(desk.faults)
        file, text = desk.text(path)
        if len(desk.faults) > before:
            continue
        rows, faults = read_prices(text, file)
        desk.faults += faults
        lists.append(PriceList(region=path.stem, file=file, rows=rows))
    return tuple(lists)


def _manuscripts(desk: _Desk) -> tuple[Manuscript, ...]:
    kept: list[Manuscript] = []
    for path in _children(desk.content / "pages"):
        if path.suffix != ".md" or not IDENTIFIER.match(path.stem):
            desk.faults.append(Fault(origin=Origin(f"pages/{path.name}"), came=path.name, expected="a page named in small letters, ending in .md", rule="name"))
            continue
        before = len(desk.faults)
        file, text = desk.text(path)
        if len(desk.faults) > before:
            continue
        made, faults = read_manuscript(text, file, path.stem)
        desk.faults += faults
        if made is not None:
            kept.append(made)
    return tuple(kept)


def _children(folder: Path) -> list[Path]:
    """What a folder holds, by name, without dot files; nothing where it doesn't exist."""
    if not folder.is_dir():
        return []
    return sorted((path for path in folder.iterdir() if not path.name.startswith(".")), key=lambda path: path.name)


def locate(content: Path, origin: Origin) -> tuple[int, int, str]:
    """Line, column and text of the place, or of the nearest field around it; 0 and an empty text where unknown."""
    path = content / origin.file
    if not path.is_file():
        return 0, 0, ""
    text, fault = decode(path.read_bytes(), origin.file)
    lines = text.splitlines()
    if fault is not None or not lines:
        return 0, 0, ""
    if path.suffix == ".csv":
        row = origin.path[0] if origin.path and isinstance(origin.path[0], int) else -1
        return row + 2, 0, lines[row + 1] if row + 1 < len(lines) else ""
    marks = marks_of(text, origin.file)
    steps = next((origin.path[:i] for i in range(len(origin.path), 0, -1) if origin.path[:i] in marks), None)
    if steps is None:
        return 0, 0, ""
    line, column = marks[steps]
    return line, column, lines[line - 1]


def schema(kind: str) -> dict[str, Any]:
    """JSON Schema of a kind of record: guide, policy, parts, unit or session."""
    return adapter(KINDS[kind]).json_schema()
