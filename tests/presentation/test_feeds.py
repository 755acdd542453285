"""Feeds as published: the rules of RFC 4287 and of JSON Feed 1.1."""

import json
import re
from collections import Counter
from dataclasses import replace
from datetime import date
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from bs4 import BeautifulSoup

from guidegen.presentation.feeds import feeds
from guidegen.presentation.pieces import CorrectionNote
from guidegen.records import GuideRecord
from guidegen.sources import read_library
from tests.conftest import CONTENT
from tests.publication.fixtures.pages import bracket_sheet

ATOM = "{http://www.w3.org/2005/Atom}"
MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ")
"""RFC 3339, in UTC."""


@pytest.fixture(scope="module")
def guide() -> GuideRecord:
    """The demo's guide."""
    return read_library(CONTENT).guide


def test_atom_keeps_its_rules(site: Path, pages: dict[str, BeautifulSoup]) -> None:
    """RFC 4287, 4.1: one id, title and updated for the feed and each entry, an author, a link to itself, unique ids."""
    feed = ET.fromstring((site / "feed.atom").read_text(encoding="utf-8"))
    entries = feed.findall(f"{ATOM}entry")
    ids = [entry.findtext(f"{ATOM}id") for entry in entries]

    assert feed.tag == f"{ATOM}feed"
    assert feed.findall(f"{ATOM}author")
    assert {link.get("rel"): link.get("href") for link in feed.findall(f"{ATOM}link")} == {
        "self": "https://harrow-bench.example/feed.atom", "alternate": "https://harrow-bench.example/"}
    for one in (feed, *entries):
        assert [len(one.findall(f"{ATOM}{name}")) for name in ("id", "title", "updated")] == [1, 1, 1]
        assert MOMENT.fullmatch(one.findtext(f"{ATOM}updated") or "")
    new = [one for one in pages["changes/index.html"].select("li") if " is new: " in one.get_text()]
    assert len(ids) == len(set(ids)) == 10 + len(new)
    assert {"watts": 8, "corrections": 2, "unit": len(new)} == Counter(
        (one or "").removeprefix("https://harrow-bench.example/").split("/")[0] for one in ids)


def test_json_feed_keeps_its_rules(site: Path) -> None:
    """JSON Feed 1.1: version, title, items with an id of text and content; ``authors`` and not ``author``."""
    feed = json.loads((site / "feed.json").read_text(encoding="utf-8"))

    assert feed["version"] == "https://jsonfeed.org/version/1.1"
    assert feed["feed_url"] == "https://harrow-bench.example/feed.json"
    assert all(author["name"] for author in feed["authors"])
    assert "author" not in feed
    for item in feed["items"]:
        assert isinstance(item["id"], str)
        assert item["content_html"].startswith("<p>")
        assert MOMENT.fullmatch(item["date_modified"])


def test_both_feeds_say_the_same(site: Path) -> None:
    """Ids, titles, days and content."""
    atom = ET.fromstring((site / "feed.atom").read_text(encoding="utf-8"))
    told = [tuple(entry.findtext(f"{ATOM}{name}") for name in ("id", "title", "updated", "content")) for entry in atom.findall(f"{ATOM}entry")]
    items = json.loads((site / "feed.json").read_text(encoding="utf-8"))["items"]

    assert told == [(item["id"], item["title"], item["date_modified"], item["content_html"]) for item in items]


def test_every_page_points_at_the_feeds(pages: dict[str, BeautifulSoup]) -> None:
    """In its head, with their media types."""
    for page in pages.values():
        types = [link["type"] for link in page.find_all("link", rel="alternate")]
        assert types == ["application/atom+xml", "application/feed+json"]


def test_a_new_printing_updates_and_a_new_edition_adds(guide: GuideRecord) -> None:
    """An id holds while the edition does: readers of the feed meet a correction as an update."""
    sheet = bracket_sheet(1)
    later = replace(guide, edition=replace(guide.edition, printing=9, date=date(2026, 12, 1)))
    next_year = replace(guide, edition=replace(guide.edition, name="2027"))
    first, printed, new = (json.loads(feeds((sheet,), one)[1].text)["items"][0] for one in (guide, later, next_year))

    assert first["id"] == printed["id"] != new["id"]
    assert (first["date_modified"], printed["date_modified"]) == ("2026-11-18T00:00:00Z", "2026-12-01T00:00:00Z")


def test_a_correction_is_an_entry_of_its_own_day_whatever_the_edition(guide: GuideRecord) -> None:
    """Its id names the correction alone, so that a new edition does not tell it again."""
    note = CorrectionNote(id="correction-2026-11-09-page-words", date="2026-11-09", day="9 November 2026", about="Words", page=None,
                          html="<em>Wrong</em> &amp; right.", text="Wrong & right.", record="", effect=("Nothing changed.",))
    next_year = replace(guide, edition=replace(guide.edition, name="2027", date=date(2027, 11, 18)))
    now, later = (json.loads(feeds((), one, notes=(note,))[1].text)["items"] for one in (guide, next_year))

    assert now == later
    assert [("https://harrow-bench.example/corrections/#correction-2026-11-09-page-words", "2026-11-09T00:00:00Z",
             "<p>Wrong &amp; right.</p><p>Nothing changed.</p>")] == [(one["id"], one["date_modified"], one["content_html"]) for one in now]


def test_words_with_marks_of_html_stay_words(guide: GuideRecord) -> None:
    """A title with < and & is neither a tag of the feed nor one of its content."""
    sheet = replace(bracket_sheet(1), heading="Less < more & so on", description="<b>no tag</b>")
    atom, feed = feeds((sheet,), guide)

    assert ET.fromstring(atom.text).findtext(f"{ATOM}entry/{ATOM}summary") == "<b>no tag</b>"
    assert json.loads(feed.text)["items"][0]["title"].startswith("Less < more & so on")
