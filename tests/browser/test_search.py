"""The search field in real Chromium: found by words, walked by keys, absent without script."""

import gzip
import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from guidegen.presentation.search_index import page_entries, search_index
from tests.publication.fixtures.guide import small_guide


@pytest.fixture
def page(site: Path, browser: Browser) -> Iterator[Page]:
    """A bracket's page, opened from the file system."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    page = context.new_page()
    page.goto((site / "watts/850/index.html").as_uri())
    yield page
    context.close()


def entries(site: Path) -> list[list[str]]:
    """The published index."""
    (file,) = site.glob("search-index.js")
    found: list[list[str]] = json.loads(file.read_text(encoding="utf-8").removeprefix("globalThis.guideIndex=").removesuffix(";\n"))
    return found


def test_every_entry_leads_to_a_page_and_a_place_on_it(site: Path) -> None:
    """Units, brackets, pages, and the words by their anchors."""
    listed = entries(site)
    for title, address, _, _ in listed:
        file, _, anchor = address.partition("#")
        text = (site / file).read_text(encoding="utf-8")
        assert title
        assert not anchor or f'id="{anchor}"' in text
    assert {"Halmer Quill 850", "Ripple", "The data", "All units"} <= {title for title, *_ in listed}


def test_the_index_is_small_and_the_same_each_time(site: Path) -> None:
    """At most 30 kB as sent with gzip; equal entries give equal bytes."""
    (file,) = site.glob("search-index.js")
    listed = tuple(entry for sheet in small_guide().sheets for entry in page_entries(sheet))

    assert len(gzip.compress(file.read_bytes(), mtime=0)) <= 30_000
    assert search_index(listed) == search_index(listed)
    assert search_index(listed).text != search_index(listed[:1]).text


def test_nothing_is_loaded_before_the_field_is_used(page: Page) -> None:
    """Index and style come with the first focus."""
    before = page.evaluate("typeof guideIndex")
    page.get_by_role("searchbox").focus()
    for _ in range(200):  # asked from outside: a page under its policy can't be told to wait by a text
        if page.evaluate("typeof guideIndex") == "object":
            break
        page.wait_for_timeout(50)

    assert ("undefined", "object") == (before, page.evaluate("typeof guideIndex"))


def test_what_is_found_is_counted_aloud_and_titles_come_first(page: Page) -> None:
    """In a status line; capitals and marks over letters make no difference."""
    page.get_by_role("searchbox").fill("HALMER quíll 850")
    status = page.locator(".search [role=status]")
    expect(status).to_contain_text("result")

    assert page.locator(".search li a b").first.inner_text() == "Halmer Quill 850"
    page.get_by_role("searchbox").fill("no such thing at all")
    expect(status).to_have_text("No results. You can search for the names of units, for wattages such as 850, and for words on these pages.")


@pytest.mark.parametrize(("words", "title"), [
    ("quiet", "Quietest choice: Brevik Tarn 850"), ("quiet", "Decibel, dB(A)"), ("OCP", "Protection"), ("guarantee", "Warranty"),
    ("warranty", "Warranty"), ("best value", "Best value: Tallow & Pike Steady 850"),
])
def test_other_words_lead_to_a_term_and_a_choice_is_found_by_its_kind(page: Page, words: str, title: str) -> None:
    """Nobody needs to know how the glossary calls it."""
    page.get_by_role("searchbox").fill(words)
    expect(page.locator(".search [role=status]")).to_contain_text("result")

    assert title in page.locator(".search li a b").all_inner_texts()


def found(page: Page, words: str) -> list[str]:
    """What is found and how many, as shown for some words."""
    page.get_by_role("searchbox").fill(words)
    status = page.locator(".search [role=status]")
    expect(status).to_contain_text("result")
    return [status.inner_text(), *page.locator(".search li a").all_inner_texts()]


@pytest.mark.parametrize(("words", "other"), [
    ("850w", "850"), ("850 W", "850"), ("quill 850 watts", "quill 850"), ("psu", "power supply"), ("PSUs", "power supplies"),
])
def test_what_means_the_same_finds_the_same(page: Page, words: str, other: str) -> None:
    """A number of watts is read as the number, and a power supply has two names."""
    first = found(page, words)

    assert len(first) > 1
    assert first == found(page, other)
    assert first != found(page, "ripple")


def test_a_number_stays_with_its_unit_in_results(page: Page) -> None:
    """In titles and in what is said beside them."""
    texts = found(page, "choice: norvane plain 450")[1:] + found(page, "300 to 500")[1:]

    assert any("500\N{NO-BREAK SPACE}W" in text for text in texts)
    assert [] == [text for text in texts if "500 W" in text]


def test_a_unit_without_a_place_is_said_to_be_not_advised(page: Page) -> None:
    """And of which wattage it is."""
    page.get_by_role("searchbox").fill("Kestrin Bolt 850")
    found = page.locator(".search li a").first
    expect(found).to_contain_text("Kestrin Bolt 850")

    assert "Kestrin Bolt 850 not advised, 800 to 900 W" == found.inner_text().replace("\N{NO-BREAK SPACE}", " ")


def test_keys_walk_the_results_and_leave_them(page: Page) -> None:
    """Down to the first, up to the field, Escape closes, Enter opens."""
    field = page.get_by_role("searchbox")
    field.fill("Ripple")
    first = page.locator(".search li a").first
    expect(first).to_be_visible()
    page.keyboard.press("ArrowDown")
    expect(first).to_be_focused()
    page.keyboard.press("ArrowUp")
    expect(field).to_be_focused()
    page.keyboard.press("Escape")
    expect(page.locator(".search-found")).to_be_hidden()
    field.fill("Ripple")
    page.keyboard.press("Enter")
    page.wait_for_url("**/words/index.html#ripple")


def test_a_telephone_of_320_px_does_not_scroll_sideways_while_searching(page: Page) -> None:
    """The results stay within the page."""
    page.set_viewport_size({"width": 320, "height": 640})
    page.get_by_role("searchbox").fill("w")
    expect(page.locator(".search [role=status]")).to_contain_text("the first 12 shown")

    assert page.evaluate("document.documentElement.scrollWidth") <= 320


def test_the_field_moves_nothing_when_it_appears(page: Page) -> None:
    """No layout shift while the page loads."""
    shift = page.evaluate(
        "new Promise(done => new PerformanceObserver(list => done(list.getEntries().reduce((sum, one) => sum + one.value, 0)))"
        ".observe({type: 'layout-shift', buffered: true}) || setTimeout(() => done(0), 500))"
    )

    assert shift <= 0.02


def test_without_script_there_is_no_field(site: Path, browser: Browser) -> None:
    """And no room left for it; the list of all units stays in the navigation."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / "index.html").as_uri())

    assert (page.locator("input").count(), page.locator(".search").is_visible()) == (0, False)
    assert page.locator("nav a", has_text="All units").first.is_visible()
    context.close()
