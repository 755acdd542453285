"""The index of the search field: a script file, so that it can be loaded from a file system, too."""

import json
import re
from collections.abc import Mapping
from types import MappingProxyType

from guidegen.evaluation import Standing
from guidegen.presentation.addresses import page_address, relative, unit_address
from guidegen.presentation.pages.unit import form_words, place_words
from guidegen.presentation.sheets import (
    AnySheet,
    BracketSheet,
    CorrectionsSheet,
    DataFile,
    ListSheet,
    ProseSheet,
    WithdrawnSheet,
)
from guidegen.records import GLOSSARY, Bracket, Manuscript

Entry = tuple[str, str, str, str]
"""Title, file from the root of the site, what it is, and further words to find it by."""


ADDRESS = "search-index.js"
"""Where the index stands: one name for ever, as every page names it and no page should change when another does."""


def search_index(entries: tuple[Entry, ...]) -> DataFile:
    """The entries as a script that sets ``guideIndex``."""
    written = json.dumps(entries, ensure_ascii=False, separators=(",", ":"))
    return DataFile(address=ADDRESS, text=f"globalThis.guideIndex={written};\n")


def unit_entry(standing: Standing, bracket: Bracket) -> Entry:
    """The entry of a unit's page, made from the unit itself, since its page may not be composed anew."""
    unit = standing.candidate.result.unit
    return (unit.name, relative("", unit_address(unit)), place_words(standing, bracket), form_words(unit.record))


def found_by(manuscripts: tuple[Manuscript, ...]) -> dict[str, str]:
    """By page and heading, as ``page#heading``: the words by which a term of the glossary is found, its forms among them."""
    return {
        f"{page_address(page)}#{term.heading}": " ".join((*term.written, *term.found_by))
        for page in manuscripts if page.id == GLOSSARY for term in page.terms
    }


def page_entries(sheet: AnySheet, others: Mapping[str, str] = MappingProxyType({})) -> tuple[Entry, ...]:
    """The entries of a bracket with its choices, or of a page that is read, with its sections.

    ``others`` are further words of headings, as ``found_by`` has them.
    """
    here = relative("", sheet.address)
    if isinstance(sheet, BracketSheet):
        choices = ((f"{one.title}: {one.unit.text}", f"{here}#choice-{one.id}", sheet.heading, "") for one in sheet.choices)
        return ((sheet.heading, here, "wattage", sheet.description), *choices)
    if isinstance(sheet, ProseSheet):
        sections = (
            (section.title, f"{here}#{section.id}", sheet.heading,
             " ".join((others.get(f"{sheet.address}#{section.title}", ""), *_abbreviations(section.html))).strip())
            for section in sheet.sections
        )
        return ((sheet.heading, here, "page", sheet.description), *sections)
    if isinstance(sheet, WithdrawnSheet):
        return ((sheet.heading, here, "withdrawn", ""),)
    return ((sheet.heading, here, "page", sheet.description),) if isinstance(sheet, ListSheet | CorrectionsSheet) else ()


_ABBREVIATION = re.compile(r"\b[A-Z]{2,}\b")


def _abbreviations(html: str) -> tuple[str, ...]:
    """What a stretch of prose writes in capitals, such as OCP, each once."""
    return tuple(dict.fromkeys(_ABBREVIATION.findall(re.sub(r"<[^>]*>", " ", html))))
