"""The index of the search field: a script file, so that it can be loaded from a file system, too."""

import json

from guidegen.evaluation import Standing
from guidegen.presentation.addresses import relative, unit_address
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
from guidegen.records import Bracket

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


def page_entries(sheet: AnySheet) -> tuple[Entry, ...]:
    """The entries of a bracket, or of a page that is read, with its sections."""
    here = relative("", sheet.address)
    if isinstance(sheet, BracketSheet):
        return ((sheet.heading, here, "wattage", sheet.description),)
    if isinstance(sheet, ProseSheet):
        sections = ((section.title, f"{here}#{section.id}", sheet.heading, "") for section in sheet.sections)
        return ((sheet.heading, here, "page", sheet.description), *sections)
    if isinstance(sheet, WithdrawnSheet):
        return ((sheet.heading, here, "withdrawn", ""),)
    return ((sheet.heading, here, "page", sheet.description),) if isinstance(sheet, ListSheet | CorrectionsSheet) else ()
