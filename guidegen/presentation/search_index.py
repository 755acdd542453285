"""The index of the search field: a script file, so that it can be loaded from a file system, too."""

import json

from guidegen.presentation.addresses import relative
from guidegen.presentation.sheets import AnySheet, BenchSheet, BracketSheet, DataFile, ListSheet, ProseSheet, UnitSheet

Entry = tuple[str, str, str, str]
"""Title, file from the root of the site, what it is, and further words to find it by."""


def search_index(sheets: tuple[AnySheet, ...]) -> DataFile:
    """Units, brackets, pages and their sections, as a script that sets ``guideIndex``; its name holds its hash."""
    entries = [entry for sheet in sheets for entry in _entries(sheet)]
    written = json.dumps(entries, ensure_ascii=False, separators=(",", ":"))
    text = f"globalThis.guideIndex={written};\n"
    digest = DataFile(address="", text=text).digest
    return DataFile(address=f"assets/search-index.{digest[:10]}.js", text=text)


def _entries(sheet: AnySheet) -> tuple[Entry, ...]:
    here = relative("", sheet.address)
    if isinstance(sheet, UnitSheet):
        facts = {fact.label: fact.text for fact in sheet.facts}
        return ((sheet.heading, here, facts.get("Place", ""), facts.get("Form", "")),)
    if isinstance(sheet, BracketSheet):
        return ((sheet.heading, here, "wattage", sheet.description),)
    if isinstance(sheet, ProseSheet) and not isinstance(sheet, BenchSheet):  # a record is found through its unit
        sections = ((section.title, f"{here}#{section.id}", sheet.heading, "") for section in sheet.sections)
        return ((sheet.heading, here, "page", sheet.description), *sections)
    return ((sheet.heading, here, "page", sheet.description),) if isinstance(sheet, ListSheet) else ()
