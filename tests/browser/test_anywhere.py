"""The same folder below a path of another host, and opened from a file system: everything works, and nothing is told."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.serving import Served, served

PLACES = ("top of its host", "below a path", "file system")
"""Where the folder may lie."""
ROOTS = {"top of its host": "https://harrow-bench.example/", "below a path": "https://readers.example/shelf/guide/"}


@pytest.fixture(params=PLACES)
def place(site: Path, browser: Browser, request: pytest.FixtureRequest) -> Iterator[Served]:
    """The demo in one of the places, and what the browser tells there."""
    root = ROOTS.get(request.param, f"{site.as_uri()}/")
    with served(browser, site, root) as reader:
        if root.startswith("file:"):
            reader.context.unroute_all()  # the browser reads the files itself; one that is missing is told on the console
        yield reader


def home(place: Served) -> Page:
    """The first page, by its file."""
    return place.open("index.html")


def silent(place: Served) -> None:
    """Nothing was told on the console or refused, and nothing asked for that is not there."""
    assert ([], [], []) == (place.noted.messages, place.noted.reported, place.noted.asked)


def test_links_lead_from_page_to_page(place: Served) -> None:
    """From the first page to a wattage, a unit, its bench record, and back home."""
    page = home(place)
    titles = []
    for link in ("main a[href*='watts/850/']", "main a[href*='/ostrand-level-850-ii/index.html']", "main a[href*='bench/']", "header a"):
        page.locator(link).first.click()
        page.wait_for_load_state()
        titles.append(page.locator("h1").inner_text())

    assert page.url.startswith(place.root)
    assert len(titles) == len(set(titles))
    assert f"{place.root}index.html" == page.url
    silent(place)


def test_the_search_field_finds_and_leads(place: Served) -> None:
    """A word typed two folders down, and its first result opened."""
    page = place.open("watts/850/index.html")
    page.get_by_role("searchbox").fill("Halmer Quill 850")
    expect(page.locator(".search li a b").first).to_have_text("Halmer Quill 850")
    page.keyboard.press("Enter")

    expect(page.locator("h1")).to_contain_text("Halmer Quill 850")
    assert page.url.startswith(place.root)
    silent(place)


def test_the_worksheet_answers_and_leads(place: Served) -> None:
    """Another graphics card asks for another rating, whose page is there; the strips of units that fit are drawn."""
    page = place.open("how-many-watts/index.html")
    before = page.locator("#worksheet .rating").inner_text()
    page.locator("#ws-graphics").select_option(index=0)
    expect(page.locator("#worksheet .rating")).not_to_have_text(before)
    page.locator("#worksheet .rating a").click()

    expect(page.locator("h1")).to_contain_text("W")
    assert page.url.startswith(f"{place.root}watts/")
    silent(place)
