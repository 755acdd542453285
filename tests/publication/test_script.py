"""Sorting in the browser."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from guidegen.press import Press
from guidegen.publication import find_theme, publish_edition
from tests.publication.fixtures.guide import small_guide

NAMES = "rows => rows.map(row => row.cells[1].querySelector('a').textContent.split(' ')[0])"
AS_PUBLISHED = ["Halmer", "Ostrand", "Brevik", "Tallow", "Norvane", "Calder", "Kestrin"]


@pytest.fixture(scope="module")
def browser_page(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """The bracket's page, opened from the file system."""
    output = tmp_path_factory.mktemp("output")
    press = Press.of(output)
    with press.held():
        publish_edition(small_guide(), find_theme("test-sheet", Path("/nowhere")), press=press, program="")
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.goto((output / "watts" / "850" / "index.html").as_uri())
    yield page
    page.close()


def order_after(page: Page, heading: str, clicks: int) -> list[str]:
    """Makers in the order of the rows after so many clicks on a heading of the page as it was published."""
    page.reload()
    for _ in range(clicks):
        page.get_by_role("button", name=heading).click()
    found: list[str] = page.eval_on_selector_all("#ranking tbody tr", NAMES)
    return found


@pytest.mark.parametrize(("heading", "clicks", "order"), [
    ("Place", 1, AS_PUBLISHED),
    ("Place", 2, ["Calder", "Norvane", "Tallow", "Brevik", "Ostrand", "Halmer", "Kestrin"]),
    ("Ripple", 1, ["Ostrand", "Tallow", "Halmer", "Brevik", "Calder", "Kestrin", "Norvane"]),
    ("Ripple", 2, ["Kestrin", "Calder", "Brevik", "Halmer", "Tallow", "Ostrand", "Norvane"]),
    ("Unit", 1, ["Brevik", "Calder", "Halmer", "Kestrin", "Norvane", "Ostrand", "Tallow"]),
])
def test_a_heading_sorts_its_column(browser_page: Page, heading: str, clicks: int, order: list[str]) -> None:
    """Up, then down; what is missing comes last either way; words sort as words."""
    assert order == order_after(browser_page, heading, clicks)


def test_rows_of_equal_value_keep_their_order(browser_page: Page) -> None:
    """Sorting is stable: with all values equal the rows stay as they were published, up and down."""
    browser_page.reload()
    browser_page.eval_on_selector_all("#ranking tbody td:nth-child(4)", "cells => cells.forEach(cell => cell.dataset.v = '1')")
    found = []
    for _ in range(2):
        browser_page.get_by_role("button", name="Efficiency").click()
        found.append(browser_page.eval_on_selector_all("#ranking tbody tr", NAMES))

    assert [AS_PUBLISHED, AS_PUBLISHED] == found


def test_the_sorted_heading_says_so(browser_page: Page) -> None:
    """One heading alone bears aria-sort, and a status line tells of the change."""
    order_after(browser_page, "Price", 1)
    browser_page.get_by_role("button", name="Score").click()

    sorted_by = browser_page.eval_on_selector_all("[aria-sort]", "all => all.map(one => [one.innerText.slice(0, 5), one.ariaSort])")

    assert [["Score", "ascending"]] == sorted_by
    assert "Sorted by Score and its parts, ascending." == browser_page.locator("#ranking-caption").evaluate(
        "caption => document.querySelector('[role=status]').textContent")


@pytest.mark.parametrize("width", [320, 390, 639, 768, 959, 960, 1100, 1247, 1249, 1280, 1600])
def test_the_ranking_fits_every_window(browser_page: Page, width: int) -> None:
    """Neither the page nor the ranking scrolls sideways (WCAG 2.2, 1.4.10), on the narrowest telephone or on a wide screen."""
    browser_page.set_viewport_size({"width": width, "height": 900})

    beyond = browser_page.evaluate(
        "[document.documentElement, document.querySelector('.scroll')].map(box => box.scrollWidth - box.clientWidth)")

    assert [0, 0] == beyond


def test_the_printed_page_is_whole(browser_page: Page) -> None:
    """On paper nothing is cut at the width of A4, the drawers are open, and headings stand without buttons."""
    browser_page.set_viewport_size({"width": 688, "height": 900})
    browser_page.emulate_media(media="print")

    beyond = browser_page.evaluate("document.querySelector('.scroll').scrollWidth - document.querySelector('.scroll').clientWidth")
    drawers = browser_page.eval_on_selector_all("details table", "tables => tables.map(one => one.checkVisibility({contentVisibilityAuto: true}))")
    colours = browser_page.evaluate("getComputedStyle(document.documentElement).backgroundColor")
    browser_page.emulate_media(media="screen")

    assert 0 == beyond
    assert [True, True] == drawers
    assert "rgb(255, 255, 255)" == colours
