"""Picture cards as published."""

import struct
from pathlib import Path

from bs4 import BeautifulSoup, Tag

from guidegen.presentation.charts import ShareCard, share_card
from guidegen.presentation.picture_cards import card_words
from tests.conftest import current

ROOT = "https://harrow-bench.example/"


def told(page: BeautifulSoup, name: str) -> str:
    """What a page's head says under a name of the Open Graph protocol."""
    tag = page.find("meta", property=name)
    return str(tag["content"]) if isinstance(tag, Tag) else ""


def test_every_page_has_a_picture_of_the_size_it_announces(site: Path, pages: dict[str, BeautifulSoup]) -> None:
    """A PNG (ISO/IEC 15948, 5.2 and 11.2.2) of 1200 by 630 pixels below the public address, with words beside it."""
    for path, page in pages.items():
        if path == "404.html":
            continue
        content = (site / told(page, "og:image").removeprefix(ROOT)).read_bytes()
        size = tuple(int(told(page, f"og:image:{side}")) for side in ("width", "height"))
        assert content[:8] == b"\x89PNG\r\n\x1a\n"
        assert struct.unpack(">II", content[16:24]) == size == (1200, 630)
        assert told(page, "og:image:alt")
        assert told(page, "og:url") == ROOT + path.removesuffix("index.html")


def test_a_bracket_shows_its_first_choice_and_its_other_reports_share_a_picture_of_no_unit(pages: dict[str, BeautifulSoup]) -> None:
    """One card a bracket, one a first choice, one for the other reports of a bracket, one for the rest."""
    bracket, unit = pages["watts/850/index.html"], pages["unit/kestrin-bolt-850/index.html"]
    bench = pages["bench/halmer-quill-850/index.html"]
    first = bracket.select_one("a[href*='/unit/']")
    pictures = {told(page, "og:image") for page in pages.values()} - {""}

    assert first is not None
    assert first.get_text() in told(bracket, "og:image:alt")
    assert told(bracket, "og:image") == f"{ROOT}cards/watts-850.png"
    assert told(unit, "og:image") == told(bench, "og:image") == f"{ROOT}cards/reports-850.png"
    assert "Test report: a power supply of 800 to 900 W. What our bench measured, what of it counts, and how sure we are of it." == told(unit, "og:image:alt")
    assert 8 + 8 + 8 + 1 == len(pictures)


def test_a_first_choice_has_a_picture_of_its_own_with_its_verdict(pages: dict[str, BeautifulSoup]) -> None:
    """Named by the unit, in the head of the page and in its JSON-LD; the words are those of the page."""
    page = pages["unit/halmer-quill-850/index.html"]
    data = page.find("script", type="application/ld+json")

    assert f"{ROOT}cards/unit-halmer-quill-850.png" == told(page, "og:image")
    assert told(page, "og:image:alt").startswith("Halmer Quill 850. ")
    assert isinstance(data, Tag)
    assert f'"{ROOT}cards/unit-halmer-quill-850.png"' in data.get_text()


def test_no_picture_is_published_that_no_page_shows(site: Path, pages: dict[str, BeautifulSoup]) -> None:
    """And none is missing."""
    shown = {told(page, "og:image").removeprefix(ROOT) for page in pages.values()} - {""}

    assert shown == {path.relative_to(site).as_posix() for path in current(site, "*.png")}


def test_same_words_give_the_same_bytes() -> None:
    """Drawn twice; other words give others."""
    card = ShareCard(title="Power supplies, 800 to 900 W", sentence="First choice: Halmer Quill 850.", publisher="The Harrow Bench")
    other = ShareCard(title="Power supplies, 800 to 900 W", sentence="No choice.", publisher="The Harrow Bench")

    assert share_card(card) == share_card(card)
    assert share_card(card) != share_card(other)
    assert card_words(other) == "Power supplies, 800 to 900 W. No choice."
