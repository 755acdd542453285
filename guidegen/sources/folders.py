"""The content folder walked: which file is which kind of record, and which files have no business there."""

import os
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from guidegen.errors import Fault, nearest_name
from guidegen.origins import Origin
from guidegen.records import CORRECTIONS
from guidegen.sources.pictures import ENDINGS
from guidegen.sources.shaping import identifier_like

SINGLE_FILES = ("guide.yaml", "policy.yaml", "parts.yaml")
"""Records that every guide has once."""
EDITIONS = "editions"
"""Folder of the frozen editions."""
_FOLDERS = ("units", "prices", "pages", "mappings", "pictures", EDITIONS)
_KNOWN_AT_TOP = (*SINGLE_FILES, CORRECTIONS, *_FOLDERS)
_RECORDS = (".yaml", ".yml", ".csv")
"""Endings of files that somebody meant to be read."""
_NAME = re.compile(r"[a-z0-9]+([._-][a-z0-9]+)*")
_SESSION = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})(-[a-z0-9]+)?\.yaml")
_LONGEST_NAME = 80
_DEVICES = frozenset((
    "con", "prn", "aux", "nul", "conin$", "conout$", "clock$", *(f"{port}{number}" for port in ("com", "lpt") for number in "0123456789¹²³"),
))
"""Names that Windows keeps for devices, whatever ending they have (Microsoft, "Naming Files, Paths, and Namespaces")."""


@dataclass(slots=True)
class Folder:
    """Files of the content by kind, as paths below it with ``/``, in the order of their names."""

    content: Path
    """The content folder."""
    single: list[str] = field(default_factory=list)
    """Those of ``SINGLE_FILES`` that are there, and ``corrections.yaml``."""
    units: list[str] = field(default_factory=list)
    """Names of the unit folders."""
    unit_files: list[str] = field(default_factory=list)
    """``units/<unit>/unit.yaml``."""
    session_files: list[str] = field(default_factory=list)
    """``units/<unit>/<date>.yaml``."""
    tables: list[str] = field(default_factory=list)
    """``prices/<region>.csv``."""
    pages: list[str] = field(default_factory=list)
    """``pages/<page>.md``."""
    mappings: list[str] = field(default_factory=list)
    """``mappings/<bench>.yaml``."""
    pictures: list[str] = field(default_factory=list)
    """``pictures/<picture>``."""
    editions: list[str] = field(default_factory=list)
    """Names of the folders of frozen editions."""
    faults: list[Fault] = field(default_factory=list)
    """Files that are missing or should not be there."""

    @property
    def files(self) -> tuple[str, ...]:
        """Every record file of the guide, without what was frozen."""
        return (*self.single, *self.unit_files, *self.session_files, *self.tables, *self.pages, *self.mappings, *self.pictures)


def walk(content: Path) -> Folder:
    """The files of a content folder by kind."""
    found = Folder(content)
    if not content.is_dir():
        _refuse(found, "guide.yaml", "no content folder", f"a folder {content.name} with the records of the guide")
        return found
    _walk_top(found)
    _walk_units(found)
    _walk_named(found, "prices", ".csv", kept=found.tables, example="a table named by its region, such as ie.csv")
    _walk_named(found, "pages", ".md", kept=found.pages, example="a page named in small letters, such as how-we-test.md")
    _walk_named(found, "mappings", ".yaml", kept=found.mappings, example="a mapping named in small letters, such as bench-load.yaml")
    example = f"a picture named in small letters that ends with one of {', '.join(ENDINGS)}"
    _walk_named(found, "pictures", ENDINGS, kept=found.pictures, example=example)
    _walk_editions(found)
    return found


def _walk_top(found: Folder) -> None:
    names = []
    for entry in _entries(found, ""):
        names.append(entry.name)
        meant = nearest_name(entry.name, tuple(n for n in _KNOWN_AT_TOP if not (found.content / n).exists()))
        if entry.name in _KNOWN_AT_TOP and entry.is_file():
            found.single.append(entry.name)
        elif meant and entry.name not in _KNOWN_AT_TOP:
            _refuse(found, entry.name, entry.name, f"a {'folder' if meant in _FOLDERS else 'file'} of the guide", nearest=meant)
        elif entry.name not in _KNOWN_AT_TOP and entry.name.lower().endswith(_RECORDS):
            expected = f"one of {', '.join((*SINGLE_FILES, CORRECTIONS))}; a unit's records lie in units/<unit>/, prices in prices/"
            _refuse(found, entry.name, entry.name, expected)
    for name in SINGLE_FILES:
        if name not in found.single:
            _refuse(found, name, "no such file", f"the file {name} in the content folder")


def _walk_units(found: Folder) -> None:
    folded: dict[str, str] = {}
    for entry in _entries(found, "units"):
        file = f"units/{entry.name}"
        if not entry.is_dir():
            _refuse(found, file, "a file", "a folder for each unit, with unit.yaml and its sessions")
            continue
        twin = folded.setdefault(entry.name.casefold(), entry.name)
        if twin != entry.name:
            _refuse(found, file, f"a name that differs from {twin} in capitals only", "a name of its own, in small letters")
        elif not is_name(entry.name):
            expected = "a folder named in small letters and digits with single -, . or _ between them"
            _refuse(found, file, entry.name, expected, nearest=identifier_like(entry.name))
        else:
            found.units.append(entry.name)
            _walk_unit(found, file)


def _walk_unit(found: Folder, folder: str) -> None:
    before = len(found.unit_files)
    for entry in _entries(found, folder):
        file = f"{folder}/{entry.name}"
        if entry.is_dir():
            if entry.name != "logs":
                _refuse(found, file, "a folder", "records only; bench logs lie in logs/")
        elif entry.name == "unit.yaml":
            found.unit_files.append(file)
        elif (named := _SESSION.fullmatch(entry.name)) and is_day(named[1]):
            found.session_files.append(file)
        elif named:
            _refuse(found, file, f"the day {named[1]}, which the calendar has not", "the day of the session, such as 2026-03-02.yaml")
        else:
            expected = "unit.yaml, or a session named by its day such as 2026-03-02.yaml or 2026-03-02-b.yaml"
            _refuse(found, file, entry.name, expected, nearest=nearest_name(entry.name, ("unit.yaml",)))
    if len(found.unit_files) == before:
        _refuse(found, f"{folder}/unit.yaml", "no such file", "the record of the unit, unit.yaml, in its folder")


def _walk_named(found: Folder, folder: str, ending: str | tuple[str, ...], *, kept: list[str], example: str) -> None:
    for entry in _entries(found, folder):
        file = f"{folder}/{entry.name}"
        if entry.is_file() and entry.name.endswith(ending) and is_name(entry.name.rpartition(".")[0]):
            kept.append(file)
        else:
            _refuse(found, file, f"{entry.name}/" if entry.is_dir() else entry.name, example)


def _walk_editions(found: Folder) -> None:
    for entry in _entries(found, EDITIONS):
        if entry.is_dir() and is_name(entry.name):
            found.editions.append(entry.name)
        else:
            came = f"{entry.name}/" if entry.is_dir() else entry.name
            _refuse(found, f"{EDITIONS}/{entry.name}", came, "nothing but the editions that guidegen freeze wrote")


def _entries(found: Folder, folder: str) -> Iterator[os.DirEntry[str]]:
    """What a folder holds, by name, without dot files and links that lead out; nothing where it does not exist.

    A folder that is itself such a link was refused with those beside it, and is not looked into.
    """
    path = found.content / folder
    if not path.is_dir() or (folder and not _inside(path, found.content)):
        return
    try:
        entries = sorted(os.scandir(path), key=lambda entry: entry.name)
    except OSError as error:
        _refuse(found, folder, f"a folder that can't be read ({error.strerror})", "a readable folder")
        return
    for entry in entries:
        if entry.name.startswith("."):
            continue
        file = f"{folder}/{entry.name}" if folder else entry.name
        if entry.is_symlink() and not _inside(Path(entry.path), found.content):
            _refuse(found, file, "a link that leads out of the content folder", "the file itself")
        elif _is_device(entry.name):
            _refuse(found, file, entry.name, "another name; Windows keeps this one for a device, whatever its ending")
        elif not entry.is_file() and not entry.is_dir():
            _refuse(found, file, "neither a file nor a folder", "a file or folder")
        else:
            yield entry


def _inside(path: Path, content: Path) -> bool:
    try:
        return path.resolve(strict=True).is_relative_to(content.resolve())
    except (OSError, RuntimeError):
        return False


def is_name(words: str) -> bool:
    """Whether words may name a unit, a page, a region or an edition."""
    return len(words) <= _LONGEST_NAME and _NAME.fullmatch(words) is not None and not _is_device(words)


def is_day(words: str) -> bool:
    """Whether words of the form year-month-day are a day of the calendar.

    >>> is_day("2026-02-28"), is_day("2026-02-30")
    (True, False)
    """
    try:
        date.fromisoformat(words)
    except ValueError:
        return False
    return True


def _is_device(name: str) -> bool:
    return name.partition(".")[0].rstrip(" ").lower() in _DEVICES


def _refuse(found: Folder, file: str, came: str, expected: str, *, nearest: str = "") -> None:
    found.faults.append(Fault(origin=Origin(file), came=came, expected=expected, nearest=nearest, rule="file"))
