"""The content folder as records: everything, or every fault of every file at once."""

from dataclasses import dataclass
from functools import lru_cache, partial
from hashlib import sha256
from pathlib import Path
from typing import Any, TypeVar

from guidegen.errors import ContentError, Fault, RequestError, nearest_name
from guidegen.origins import Origin
from guidegen.recalling import Recall, Wanted, anew
from guidegen.records import (
    CORRECTIONS,
    Correction,
    GuideRecord,
    Library,
    LogMapping,
    Manuscript,
    PartsRecord,
    Picture,
    PolicyRecord,
    PriceList,
    PriceRow,
    Session,
    SessionRecord,
    Unit,
    UnitRecord,
)
from guidegen.sources.corrections import read_corrections
from guidegen.sources.documents import LARGEST_FILE, LARGEST_PAGE, LARGEST_TABLE, decoded, read_raw, read_text
from guidegen.sources.draft import Draft, Survey
from guidegen.sources.editions import read_editions
from guidegen.sources.folders import Folder, walk
from guidegen.sources.manuscripts import read_manuscript
from guidegen.sources.mappings import check_mapping
from guidegen.sources.pictures import read_picture
from guidegen.sources.placing import placed
from guidegen.sources.references import cross_check
from guidegen.sources.shaping import adapter, meant, shape, unechoed
from guidegen.sources.strict_yaml import read_yaml
from guidegen.sources.tables import read_prices, row_lines

T = TypeVar("T")
RECORDS, PRICES = SHELVES = ("records", "prices")
"""Where what was read is kept."""

KINDS: dict[str, type[Any]] = {
    "guide": GuideRecord, "policy": PolicyRecord, "parts": PartsRecord, "unit": UnitRecord, "session": SessionRecord,
    "mapping": LogMapping, "corrections": tuple[Correction, ...],
}
"""Kinds of record files by the word that ``schema`` knows them by."""


def read_library(content: Path) -> Library:
    """Everything below ``content``; raises a ``ContentError`` that carries every fault of every file."""
    found = survey(content)
    if found.library is None:
        raise ContentError(found.faults)
    return found.library


def survey(content: Path, recall: Recall = anew) -> Survey:
    """Everything below ``content`` as far as it can be read, with every fault of the rest; what was read before is recalled."""
    folder = walk(content)
    faults = list(folder.faults)
    draft = draft_of(folder, faults, recall=recall)
    faults += cross_check(draft)
    return Survey(draft=draft, faults=placed(content, tuple(faults)))


def schema(kind: str) -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a kind of record file: guide, policy, parts, unit, session, mapping or corrections."""
    if kind not in KINDS:
        meant = nearest_name(kind, tuple(KINDS))
        hint = f"; did you mean {meant}?" if meant else ""
        raise RequestError(f"there is no record kind {kind}, expected one of {', '.join(KINDS)}{hint}")
    made = adapter(KINDS[kind]).json_schema()
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **made}


def draft_of(folder: Folder, faults: list[Fault], *, beside: tuple[Session, ...] = (), recall: Recall = anew) -> Draft:
    """What has the right shape, and sessions that are about to be added; notes the faults of the rest."""
    asked = [one for kind, files in ((UnitRecord, folder.unit_files), (SessionRecord, folder.session_files))
             for file in files if (one := _asked(kind, folder, file, faults)) is not None]
    recall.ahead(one.wanted for one in asked)
    read = [(one, made) for one in asked if (made := _read(one, faults, recall)) is not None]
    units = [Unit(id=one.folder, file=one.file, record=made, digest=one.digest) for one, made in read if one.kind is UnitRecord]
    sessions = [Session(unit=one.folder, file=one.file, record=made, digest=one.digest) for one, made in read if one.kind is SessionRecord]
    prices = [table for file in folder.tables if (table := _prices(folder, file, faults, recall)) is not None]
    pages = [page for file in folder.pages if (page := _page(folder, file, faults)) is not None]
    for file in folder.mappings:
        mapping = read_record(LogMapping, folder, file, faults, recall)
        faults += check_mapping(mapping, file) if mapping is not None else ()
    pictures = tuple(picture for file in folder.pictures if (picture := _picture(folder, file, faults)) is not None)
    editions = read_editions(folder, faults)
    guide = _single(GuideRecord, folder, "guide.yaml", faults, recall)
    policy = _single(PolicyRecord, folder, "policy.yaml", faults, recall)
    parts = _single(PartsRecord, folder, "parts.yaml", faults, recall)
    corrections = _corrections(folder, faults)
    return Draft(
        guide=guide, policy=policy, parts=parts, units=tuple(units),
        sessions=tuple(sorted((*sessions, *beside), key=lambda s: (s.unit, s.record.date, s.file))),
        prices=tuple(prices), manuscripts=tuple(pages), unit_names=tuple(folder.units),
        corrections=corrections, pictures=pictures, picture_names=tuple(folder.pictures),
        faulty=frozenset(fault.origin.file for fault in faults), editions=editions,
    )


def _single(kind: type[T], folder: Folder, file: str, faults: list[Fault], recall: Recall) -> T | None:
    return read_record(kind, folder, file, faults, recall) if file in folder.single else None


def read_record(kind: type[T], folder: Folder, file: str, faults: list[Fault], recall: Recall = anew) -> T | None:
    """The record in a file; nothing, with its faults noted, where it has any."""
    asked = _asked(kind, folder, file, faults)
    return None if asked is None else _read(asked, faults, recall)


@dataclass(frozen=True, slots=True)
class _Asked:
    """A file that is to be read."""

    kind: Any
    """What it should hold."""
    file: str
    """Its place below the content folder."""
    digest: str
    """SHA-256 of its bytes."""
    wanted: Wanted
    """The record in it."""

    @property
    def folder(self) -> str:
        """Identifier of the unit that it stands with."""
        return self.file.split("/")[1]


def _asked(kind: Any, folder: Folder, file: str, faults: list[Fault]) -> _Asked | None:
    """A file with its bytes, of which, where they were read before, not even a text is made."""
    raw = _raw(folder, file, faults)
    if raw is None:
        return None
    digest = sha256(raw).hexdigest()
    return _Asked(kind, file, digest, Wanted(RECORDS, f"{file} {digest}", partial(_of_bytes, kind, file, raw)))


def _read(asked: _Asked, faults: list[Fault], recall: Recall) -> Any:
    """The record in a file; nothing, with its faults noted, where it has any."""
    made, found = recall(asked.wanted.shelf, asked.wanted.key, asked.wanted.make)
    faults += found
    return made


def _of_bytes(kind: Any, file: str, raw: bytes) -> tuple[Any, tuple[Fault, ...]]:
    """The record that the bytes of a file hold, and its faults."""
    text = decoded(raw, file)
    return (None, (text,)) if isinstance(text, Fault) else _record(kind, file, text)


@lru_cache(maxsize=2048)
def _record(kind: type[Any], file: str, text: str) -> tuple[Any, tuple[Fault, ...]]:
    """The record that a text holds, and its faults; a text that was read before is not read again."""
    reading = read_yaml(file, text)
    if not reading.parsed:
        return None, tuple(reading.faults)
    if reading.value is None and not reading.faults:
        return None, (Fault(origin=Origin(file), came="an empty file", expected="the fields of the record", rule="file"),)
    made, shapeless = shape(kind, reading.value, file=file)
    return None if reading.faults else made, (*meant(reading.faults, shapeless), *unechoed(shapeless, reading.faults))


def _prices(folder: Folder, file: str, faults: list[Fault], recall: Recall) -> PriceList | None:
    raw = _raw(folder, file, faults, largest=LARGEST_TABLE)
    if raw is None:
        return None
    digest = sha256(raw).hexdigest()
    found = recall(PRICES, f"{file} {digest}", partial(_rows_of_bytes, file, raw))
    if isinstance(found, Fault):
        faults.append(found)
        return None
    faults += found[1]
    return PriceList(region=Path(file).stem, file=file, rows=found[0], digest=digest, lines=found[2])


def _rows_of_bytes(file: str, raw: bytes) -> tuple[tuple[PriceRow, ...], tuple[Fault, ...], tuple[int, ...]] | Fault:
    """The price rows that the bytes of a file hold, their faults, and the line of each row; or why they are no text."""
    text = decoded(raw, file)
    if isinstance(text, Fault):
        return text
    rows, faults = read_prices(text, file)
    return rows, faults, row_lines(text) if rows else ()


def _corrections(folder: Folder, faults: list[Fault]) -> dict[int, Correction]:
    text = _text(folder, CORRECTIONS, faults) if CORRECTIONS in folder.single else None
    if text is None:
        return {}
    made, found = read_corrections(text)
    faults += found
    return made


def _picture(folder: Folder, file: str, faults: list[Fault]) -> Picture | None:
    found = read_picture(folder.content / file, file)
    if isinstance(found, Fault):
        faults.append(found)
        return None
    return found


def _page(folder: Folder, file: str, faults: list[Fault]) -> Manuscript | None:
    text = _text(folder, file, faults, largest=LARGEST_PAGE)
    if text is None:
        return None
    made, found = read_manuscript(text, file, Path(file).stem)
    faults += found
    return made


def _text(folder: Folder, file: str, faults: list[Fault], *, largest: int = LARGEST_FILE) -> str | None:
    """The text of a file; nothing, with the fault noted, where it has none."""
    return _noting(read_text(folder.content / file, file, largest=largest), faults)


def _raw(folder: Folder, file: str, faults: list[Fault], *, largest: int = LARGEST_FILE) -> bytes | None:
    """The bytes of a file; nothing, with the fault noted, where it has none."""
    return _noting(read_raw(folder.content / file, file, largest=largest), faults)


def _noting(found: T | Fault, faults: list[Fault]) -> T | None:
    if isinstance(found, Fault):
        faults.append(found)
        return None
    return found
