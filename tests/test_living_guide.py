"""A unit is tested after an edition was frozen: what the guide then says, in one run from the edit to the pages."""

import json
import random
import shutil
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from bs4 import BeautifulSoup

from guidegen.flow import compare, freeze, proof, publish
from guidegen.presentation.changes import change_lines
from tests.edits import add_a_unit

SMALL = Path(__file__).parent / "small_edition" / "content"
ATOM = "{http://www.w3.org/2005/Atom}"


@pytest.fixture(scope="module")
def guide(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small edition published, frozen, published with its archive, and again with one more unit."""
    folder = tmp_path_factory.mktemp("living")
    content = folder / "content"
    shutil.copytree(SMALL, content)
    freeze(content, "first")
    settings = content / "guide.yaml"
    settings.write_text(settings.read_text(encoding="utf-8").replace("printing: 1", "printing: 2"), encoding="utf-8")
    publish(content, folder / "before")
    add_a_unit(content, random.Random(3))
    publish(content, folder / "after")
    return folder


def added(guide: Path) -> str:
    """The unit that was added."""
    (unit,) = (path.name for path in (guide / "content" / "units").iterdir() if path.name.startswith("added-"))
    return unit


def entries(site: Path) -> dict[str, str]:
    """Titles of a feed's entries, by id."""
    root = ET.fromstring((site / "feed.atom").read_bytes())
    return {entry.findtext(f"{ATOM}id") or "": entry.findtext(f"{ATOM}title") or "" for entry in root.iter(f"{ATOM}entry")}


def text_of(page: Path) -> str:
    """The words of a page's main part."""
    main = BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser").main
    assert main is not None
    return " ".join(main.get_text(" ").split())


def test_the_changes_name_the_newcomer_and_its_place(guide: Path) -> None:
    """The first thing that the editor looks at."""
    content = guide / "content"
    changes = compare(content, content / "editions" / "first" / "content")
    lines = [line for one in changes.guides.brackets for line in change_lines(changes, one.id)]
    unit = changes.guides.after.library.unit(added(guide))

    assert unit is not None
    assert [line for line in lines if "is new" in line and unit.name in line]


def test_the_pages_say_what_the_command_says(guide: Path) -> None:
    """Every sentence stands on the page of all changes, and those of a bracket on the bracket's page."""
    content = guide / "content"
    changes = compare(content, content / "editions" / "first" / "content")
    everything = text_of(guide / "after" / "changes" / "index.html").replace("\N{NO-BREAK SPACE}", " ")
    for one in changes.guides.brackets:
        beside = text_of(guide / "after" / "watts" / one.id / "index.html").replace("\N{NO-BREAK SPACE}", " ")
        for line in change_lines(changes, one.id):
            words = " ".join(line.split())
            assert words in everything
            assert words in beside


def test_the_newcomer_s_page_says_that_it_is_new(guide: Path) -> None:
    """On the unit's own page, with the way to all changes."""
    page = BeautifulSoup((guide / "after" / "unit" / added(guide) / "index.html").read_text(encoding="utf-8"), "html.parser")
    (since,) = page.select(".since")

    assert "is new" in since.get_text(" ")
    assert "../../changes/index.html" in [link["href"] for link in since.find_all("a")]


def test_nothing_of_the_archive_moves(guide: Path) -> None:
    """Its bytes are those of before, file by file."""
    before, after = ({path.relative_to(guide / name).as_posix(): path.read_bytes()
                      for path in (guide / name / "archive" / "first").rglob("*") if path.is_file()} for name in ("before", "after"))

    assert len(before) > 10
    assert before == after


def test_the_feeds_have_one_new_entry(guide: Path) -> None:
    """The newcomer's, under an id that is its own for ever; both feeds alike."""
    before, after = entries(guide / "before"), entries(guide / "after")
    new = after.keys() - before.keys()
    listed = {item["id"] for item in json.loads((guide / "after" / "feed.json").read_text(encoding="utf-8"))["items"]}

    assert [f"unit/{added(guide)}/#tested"] == ["/".join(one.rsplit("/", 3)[1:]) for one in new]
    assert before.keys() <= after.keys()
    assert listed == after.keys()


def test_before_anything_changed_the_page_says_so(guide: Path) -> None:
    """An edition just frozen differs in nothing."""
    assert "nothing has changed" in text_of(guide / "before" / "changes" / "index.html")


def test_the_proof_is_without_a_fault(guide: Path) -> None:
    """Nothing waits to be put right."""
    assert proof(guide / "content").library.editions
