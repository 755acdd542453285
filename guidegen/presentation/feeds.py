"""Feeds: an entry for each bracket of the edition and each correction, as Atom (RFC 4287) and as JSON Feed 1.1.

Dates are the edition's and the corrections'.
"""

import json
from dataclasses import dataclass
from datetime import date
from html import escape
from xml.sax.saxutils import escape as escape_xml
from xml.sax.saxutils import quoteattr

from guidegen.presentation.addresses import CORRECTIONS
from guidegen.presentation.picture_cards import choice_words
from guidegen.presentation.pieces import CorrectionNote
from guidegen.presentation.sheets import BracketSheet, DataFile
from guidegen.records import GuideRecord

ATOM, JSON = "feed.atom", "feed.json"
"""Addresses of the feeds."""


@dataclass(frozen=True, slots=True)
class _Entry:
    """A bracket in this edition, or a correction."""

    id: str
    title: str
    address: str
    summary: str
    html: str
    updated: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NewUnit:
    """A unit that the last edition that was kept did not have."""

    name: str
    """Maker and model."""
    address: str
    """Address of its page."""
    lines: tuple[str, ...]
    """What it is and what it moved, a sentence each."""


def feeds(
    sheets: tuple[BracketSheet, ...], guide: GuideRecord, *, new: tuple[NewUnit, ...] = (), notes: tuple[CorrectionNote, ...] = ()
) -> tuple[DataFile, ...]:
    """Both feeds with the same entries: units new since the last edition, brackets in their order, corrections, the latest first."""
    entries = (*(_newcomer(unit, guide) for unit in new), *(_entry(sheet, guide) for sheet in sheets),
               *(_correction(note, guide) for note in notes))
    return (DataFile(address=ATOM, text=_atom(entries, guide)), DataFile(address=JSON, text=_json(entries, guide)))


def _entry(sheet: BracketSheet, guide: GuideRecord) -> _Entry:
    """An entry; its id names bracket and edition, so that a new printing updates it and a new edition adds one."""
    address = f"{guide.public_address}{sheet.address}"
    said = [choice_words(choice) for choice in sheet.choices] + [f"{none.title}: {none.why}" for none in sheet.missing]
    return _Entry(
        id=f"{address}#edition-{guide.edition.name}", title=f"{sheet.heading}: edition {guide.edition.name}", address=address,
        summary=sheet.description, html="".join(f"<p>{escape(words, quote=False)}</p>" for words in said),
        updated=_moment(guide.edition.date),
    )


def _newcomer(unit: NewUnit, guide: GuideRecord) -> _Entry:
    """An entry of its own for ever: its id names the unit alone."""
    address = f"{guide.public_address}{unit.address}"
    return _Entry(
        id=f"{address}#tested", title=f"Tested: {unit.name}", address=address, summary=unit.lines[0],
        html="".join(f"<p>{escape(line, quote=False)}</p>" for line in unit.lines),
        updated=_moment(guide.edition.date),
    )


def _correction(note: CorrectionNote, guide: GuideRecord) -> _Entry:
    """A correction; its id and day are its own, whatever the edition."""
    address = f"{guide.public_address}{CORRECTIONS}#{note.id}"
    said = (note.text, *((note.record,) if note.record else ()), *note.effect)
    return _Entry(
        id=address, title=f"Correction: {note.about}", address=address, summary=note.text,
        html="".join(f"<p>{escape(words, quote=False)}</p>" for words in said), updated=_moment(date.fromisoformat(note.date)),
    )


def _moment(when: date) -> str:
    """A day at midnight (RFC 3339)."""
    return f"{when.isoformat()}T00:00:00Z"


def _atom(entries: tuple[_Entry, ...], guide: GuideRecord) -> str:
    moment = _moment(guide.edition.date)
    authors = "".join(f"<author><name>{escape_xml(person.name)}</name></author>\n" for person in guide.publisher.people)
    items = "".join(
        f"<entry>\n<id>{escape_xml(entry.id)}</id>\n<title>{escape_xml(entry.title)}</title>\n<updated>{entry.updated}</updated>\n"
        f'<link rel="alternate" href={quoteattr(entry.address)}/>\n<summary>{escape_xml(entry.summary)}</summary>\n'
        f'<content type="html">{escape_xml(entry.html)}</content>\n</entry>\n'
        for entry in entries
    )
    root = guide.public_address
    return (
        '<?xml version="1.0" encoding="utf-8"?>\n'
        f'<feed xmlns="http://www.w3.org/2005/Atom" xml:lang={quoteattr(guide.records_language)}>\n'
        f"<id>{escape_xml(root)}</id>\n<title>{escape_xml(guide.title)}</title>\n<subtitle>{escape_xml(guide.tagline)}</subtitle>\n"
        f'<updated>{moment}</updated>\n<link rel="self" href={quoteattr(root + ATOM)}/>\n'
        f'<link rel="alternate" href={quoteattr(root)}/>\n{authors}{items}</feed>\n'
    )


def _json(entries: tuple[_Entry, ...], guide: GuideRecord) -> str:
    root = guide.public_address
    document = {
        "version": "https://jsonfeed.org/version/1.1", "title": guide.title, "home_page_url": root, "feed_url": root + JSON,
        "description": guide.tagline, "language": guide.records_language,
        "authors": [{"name": person.name} for person in guide.publisher.people],
        "items": [
            {
                "id": entry.id, "url": entry.address, "title": entry.title, "summary": entry.summary,
                "content_html": entry.html, "date_modified": entry.updated,
            }
            for entry in entries
        ],
    }
    return json.dumps(document, indent=1, ensure_ascii=False) + "\n"
