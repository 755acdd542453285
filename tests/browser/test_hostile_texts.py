"""Texts that mean harm in every field of the records: nothing runs, nothing is asked of others, all of it stands as text."""

import csv
import io
import os
import re
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from guidegen.errors import ContentError
from guidegen.flow import proof, publish
from guidegen.presentation.data_files import data_files
from guidegen.presentation.tables_of_data import DataColumn, DataTable
from guidegen.sources.documents import control_in
from tests.browser.hostile.edition import PUBLISHED, Slot, as_yaml, base, out_of_prose, refusals, slots_of, write
from tests.browser.hostile.published import RUN_BY_SPREADSHEETS, cells, is_number, machine_texts
from tests.browser.hostile.slots import ADDRESSES, CODES, LOOKED_UP, PROSE, Field, free_fields
from tests.browser.hostile.texts import texts
from tests.browser.serving import Served, served

ROOT = "https://guide.small-bench.example/"
PUBLICATIONS = 12
"""Publications that all texts are spread over; the usual run makes the first."""
HELD = tuple(text for text in texts() if not control_in(text))
"""Texts that the reader lets through."""
UNPUBLISHED: frozenset[Field] = frozenset({
    ("Limit", "title"), ("PartsRecord", "rest_of_platform_source"), ("Person", "role"), ("Provenance", "mapping"),
    ("Region", "tariff_source"),
})
"""Free texts that are printed nowhere but in the records as written."""
PARTLY: frozenset[Field] = frozenset({
    ("ProtectionTest", "tested_up_to"), ("ProtectionTest", "why_not_tested"),  # where the outcome asks for them
    ("Manuscript", "title"), ("Manuscript", "description"), ("GuideRecord", "tagline"),  # cut, or of the first page's steps
})
"""Free texts that are not printed each time."""
GONE = "units/wexcombe-cinder-550/unit.yaml"
"""A unit that was withdrawn; its page says who made it, what it is and why it left."""
SAID_OF_GONE: frozenset[Field] = frozenset({("UnitRecord", "maker"), ("UnitRecord", "model"), ("Withdrawn", "reason")})
"""What of it is printed."""
COUNTED = """() => { const counts = {};
  for (const one of document.querySelectorAll("*")) {
    if (one.closest("svg, .prose, .lead, .editor, .for, .correction, .strips") || one.src?.includes("sizing-strip")) continue;
    const names = [...one.attributes].map(({ name }) => name).filter((name) => name !== "tabindex").sort();
    const kind = [one.tagName, ...names].join(" ");
    counts[kind] = (counts[kind] || 0) + 1;
  }
  return counts; }"""
"""Elements outside drawings and Markdown, by their tag and the names of their attributes; strips that are drawn only when a
reader comes near them are left out, since how near depends on how long the texts are."""
WITHIN = """() => [...new Set([...document.querySelectorAll("svg, svg *, .prose *, .lead *, .editor *, .for *, .correction *")].map(
  (one) => [one.tagName, ...[...one.attributes].map(({ name }) => name).filter((name) => name !== "tabindex").sort()].join(" ")))]"""
"""Kinds of elements within drawings and Markdown."""
SHOWN = """() => { const walk = document.createTreeWalker(document.documentElement, NodeFilter.SHOW_TEXT), found = [];
  while (walk.nextNode()) if (!walk.currentNode.parentElement.closest("script, style")) found.push(walk.currentNode.data);
  return found.join(""); }"""
MARKDOWN = frozenset(
    {"A href", "A href title", "BLOCKQUOTE", "BR", "CODE", "EM", "HR", "LI", "OL", "OL start", "P", "PRE", "S", "STRONG", "UL",
     "TABLE", "THEAD", "TBODY", "TR", "TH", "TD", "H1", "H2", "H3"})
"""What prose may be set with."""


@dataclass(frozen=True, slots=True)
class Edition:
    """A publication of hostile texts."""

    site: Path
    """Its folder."""
    slots: tuple[Slot, ...]
    """Each field with its text."""


def published(folder: Path, share: tuple[str, ...]) -> Edition:
    """A publication of these texts."""
    slots = write(folder / "content", slots_of(share))
    publish(folder / "content", folder / "site")
    return Edition(folder / "site", slots)


def plain(text: str) -> str:
    """The text as it is compared: any blank is one space, capitals don't count."""
    return re.sub(r"[\s\u0085]+", " ", text).strip().casefold()


@pytest.fixture(scope="module")
def harmless(tmp_path_factory: pytest.TempPathFactory) -> Edition:
    """The same publication with plain words."""
    return published(tmp_path_factory.mktemp("harmless"), ("plain words", "and others"))


@pytest.fixture(scope="module", params=range(PUBLICATIONS if os.environ.get("GUIDEGEN_LONG") else 1))
def hostile(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Edition:
    """A publication of a share of the texts."""
    return published(tmp_path_factory.mktemp("hostile"), HELD[request.param::PUBLICATIONS])


@contextmanager
def reader(browser: Browser, edition: Edition, *, lenient: bool) -> Iterator[tuple[Served, Page]]:
    """Somebody who reads the edition; a lenient browser would run what the security policy forbids."""
    with served(browser, edition.site, ROOT, bypass_csp=lenient, reduced_motion="reduce") as one:
        yield one, one.context.new_page()


def addresses(edition: Edition) -> tuple[str, ...]:
    """Every page but those that only lead on to another."""
    return tuple(path.relative_to(edition.site).as_posix() for path in sorted(edition.site.rglob("*.html"))
                 if '<meta http-equiv="refresh"' not in path.read_text(encoding="utf-8")[:3000])


def test_there_are_many_texts_and_each_once() -> None:
    """At least two hundred; those that the reader refuses hold a character that can't be seen."""
    refused = set(texts()) - set(HELD)

    assert len(set(texts())) == len(texts()) >= 200
    assert {"U+0000", "U+0007", "U+0008", "U+000C", "U+001B", "U+001F", "U+007F", "U+202D", "U+202E", "U+2066", "U+2067", "U+2068",
            "U+FDD0", "U+1FFFF"} == {control_in(text).rpartition(" ")[2] for text in refused}


def test_every_free_text_of_every_record_takes_part(tmp_path: Path) -> None:
    """A new field is found by its type; a new optional record must be added to the edition."""
    slots = write(tmp_path, slots_of(HELD[:1]))
    looked_at = free_fields(*PUBLISHED) - LOOKED_UP - ADDRESSES - CODES - {("Manuscript", "file")}

    assert looked_at == {slot.field for slot in slots}


def test_what_can_not_stand_in_prose_is_refused_for_its_address_or_its_picture() -> None:
    """Few of the texts, and each for a link or a picture that leads where none may lead."""
    refused = [text for text in HELD if refusals(text)]

    assert 0 < len(refused) < len(HELD) / 10
    assert [] == [(text, said) for text in refused for said in refusals(text) if not said.startswith(("the link ", "the picture "))]


def test_every_text_comes_to_stand_in_every_field(tmp_path: Path) -> None:
    """Over all publications; Markdown does not take names in double braces, which have a test of their own."""
    missing = []
    for number in range(PUBLICATIONS):
        slots = write(tmp_path / str(number), slots_of(HELD[number::PUBLICATIONS]))
        for field in {slot.field for slot in slots}:
            whole = "\n".join(slot.text for slot in slots if slot.field == field)
            missing += [(field, text) for text in HELD[number::PUBLICATIONS]
                        if text not in whole and not (field in PROSE and out_of_prose(text))]

    assert [] == missing


@pytest.mark.parametrize("text", [text for text in texts() if control_in(text)], ids=ascii)
def test_what_can_not_be_seen_is_refused(tmp_path: Path, text: str) -> None:
    """In a quoted text of YAML, behind an escape, as well as in prose and in a table."""
    write(tmp_path, slots_of(("words",)))
    put(tmp_path / base().units[0].file, "maker", text)
    for name in ("prices/ie.csv", "pages/words.md"):
        path = tmp_path / name
        path.write_text(path.read_text(encoding="utf-8").replace("words", text), encoding="utf-8", newline="")
    with pytest.raises(ContentError) as caught:
        proof(tmp_path)

    assert {base().units[0].file, "prices/ie.csv", "pages/words.md"} == {fault.origin.file for fault in caught.value.faults}
    assert all(fault.came == control_in(text) for fault in caught.value.faults)


def put(path: Path, field: str, text: str) -> None:
    """Writes the text into a field of a record."""
    before, name, after = path.read_text(encoding="utf-8").partition(f'"{field}": ')
    path.write_text(before + name + as_yaml(text).strip() + after[after.index('",') + 1:], encoding="utf-8")


def test_names_in_double_braces_are_looked_up_and_never_run(tmp_path: Path) -> None:
    """Each expression in a note of the editor is answered as a name that nobody knows."""
    asked = [text for text in HELD if re.fullmatch(r"\{\{\s*[^{}\n]+?\s*\}\}", text)]
    came = []
    for text in asked:
        write(tmp_path, slots_of(("words",)))
        put(tmp_path / base().units[0].file, "editor_note", text)
        with pytest.raises(ContentError) as caught:
            proof(tmp_path)
        came += [(fault.origin.field, fault.came) for fault in caught.value.faults]

    assert [("editor_note", text.strip("{} ")) for text in asked] == came
    assert len(asked) >= 6


def test_every_text_survives_a_table_and_no_spreadsheet_runs_it() -> None:
    """Each as a cell of a CSV: read back equal, or with an apostrophe before it."""
    table = DataTable(name="cells", title="Cells", key=(), columns=(DataColumn(name="cell", title="Cell"),),
                      rows=tuple((text,) for text in HELD))
    text = data_files((table,), base().guide)[0].text
    came = [row[0] for row in csv.reader(io.StringIO(text, newline=""), strict=True) if row][1:]

    assert [f"'{one}" if one.startswith(RUN_BY_SPREADSHEETS) else one for one in HELD] == came


def test_machines_read_the_texts_as_text(hostile: Edition) -> None:
    """Feeds, CSV, JSON, JSON-LD, the index of the search: all can be parsed, and no cell is a formula."""
    whole = plain("\n".join(machine_texts(hostile.site)))
    guarded = [cell for path in hostile.site.rglob("*.csv") for cell in cells(path)
               if cell.startswith(RUN_BY_SPREADSHEETS) and not is_number(cell)]
    titles = [slot for slot in hostile.slots if slot.field in {("Bracket", "title"), ("GuideRecord", "tagline"), ("PriceRow", "shop")}]

    assert [] == guarded
    assert [] == [slot for slot in titles if plain(slot.text) not in whole]


def test_nothing_runs_and_every_text_is_seen(browser: Browser, harmless: Edition, hostile: Edition) -> None:
    """Even where the browser would run what the policy forbids: the same elements with the same attributes as with plain
    words, no call, no dialog, no message, nothing asked of others.
    """
    kinds: dict[str, list[dict[str, int]]] = {}
    within: list[set[str]] = []
    shown = ""
    for edition in (harmless, hostile):
        within.append(set())
        with reader(browser, edition, lenient=True) as (one, page):
            for address in addresses(edition):
                page.goto(ROOT + address)
                kinds.setdefault(address, []).append(page.evaluate(COUNTED))
                within[-1] |= set(page.evaluate(WITHIN))
                shown = shown + page.evaluate(SHOWN) if edition is hostile else ""
            assert ([], [], []) == (one.noted.reported, one.noted.messages, one.noted.asked)

    assert [] == [address for address, (plainly, harmfully) in kinds.items() if plainly != harmfully]
    assert within[1] <= within[0] | MARKDOWN
    assert unseen(hostile, shown) <= UNPUBLISHED | PARTLY


def unseen(edition: Edition, shown: str) -> frozenset[Field]:
    """Fields of which a text stands neither on a page nor in a file for machines."""
    whole = plain(shown) + plain("\n".join(machine_texts(edition.site)))
    wanted = {slot: slot.mark if slot.field in PROSE else plain(slot.text) for slot in edition.slots
              if slot.file != GONE or slot.field in SAID_OF_GONE}
    return frozenset(slot.field for slot, text in wanted.items() if text not in whole)


def test_the_policy_has_nothing_to_stop(browser: Browser, hostile: Edition) -> None:
    """With the security policy in force: no breach of it on any page, while searching, or in the worksheet."""
    with reader(browser, hostile, lenient=False) as (one, page):
        for address in addresses(hostile):
            page.goto(ROOT + address)
        page.goto(f"{ROOT}how-many-watts/index.html")
        classes = [slot.text for slot in hostile.slots if slot.field == ("PartClass", "title")]
        offered = plain(" ".join(page.locator("#worksheet label, #worksheet option").all_text_contents()))
        maker = next(slot for slot in hostile.slots if slot.field == ("UnitRecord", "model") and slot.file != GONE)
        page.get_by_role("searchbox").fill(maker.mark)
        expect(page.locator(".search [role=status]")).to_have_text(re.compile("^[1-9][0-9]* results?$"))
        found = page.locator(".search li").first

        assert plain(maker.text) in plain(found.inner_text())
        assert {"A": 1, "B": 1} == Counter(found.evaluate("one => [...one.querySelectorAll('*')].map(({ tagName }) => tagName)"))
        assert [] == [text for text in classes if plain(text) not in offered]
        assert ([], [], []) == (one.noted.reported, one.noted.messages, one.noted.asked)
