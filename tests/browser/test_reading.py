"""The demo in real Chromium: nothing asked of others, nothing sideways, tables that sort."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser import serving

KINDS = tuple(f"{address}index.html" for address in serving.KINDS.values() if address != "404.html")


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page of its own."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_loads_in_silence_and_alone(site: Path, page: Page, kind: str) -> None:
    """No console message, no request but for files of the site."""
    messages: list[str] = []
    asked: list[str] = []
    page.on("console", lambda message: messages.append(message.text))
    page.on("pageerror", lambda error: messages.append(str(error)))
    page.on("request", lambda request: asked.append(request.url))
    page.goto((site / kind).as_uri())
    elsewhere = [url for url in asked if not url.startswith((site.as_uri(), "data:"))]

    assert [] == messages
    assert [] == elsewhere


@pytest.mark.parametrize("kind", KINDS)
def test_a_telephone_of_320_px_never_scrolls_sideways(site: Path, page: Page, kind: str) -> None:
    """Tables and charts scroll in their own box; the page does not."""
    page.set_viewport_size({"width": 320, "height": 640})
    page.goto((site / kind).as_uri())

    assert 320 >= page.evaluate("document.documentElement.scrollWidth")


def test_the_lost_page_asks_only_for_the_public_address(site: Path, page: Page) -> None:
    """It is served at any depth, so its files are asked for from the root of the public address, and nowhere else."""
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto((site / "404.html").as_uri())

    assert [] == [url for url in asked if not url.startswith((site.as_uri(), "file:///assets/", "data:"))]


def test_the_bracket_table_sorts_by_a_column_and_back(site: Path, page: Page) -> None:
    """By price, rising and falling, missing values last both ways."""
    page.goto((site / "watts/850/index.html").as_uri())
    button = page.locator("table.ranking thead th", has_text="Price").locator("button").first
    button.click()
    rising = prices(page)
    button.click()
    falling = prices(page)
    known = [value for value in rising if value]

    assert known == sorted(known, key=float)
    assert [value for value in falling if value] == known[::-1]
    assert rising[: len(known)] == known


def prices(page: Page) -> list[str]:
    """The price cells' sort values, in the order of the rows."""
    index: int = page.evaluate(
        "[...document.querySelectorAll('table.ranking thead th')].findIndex(th => th.textContent.includes('Price'))"
    )
    values: list[str] = page.evaluate(
        f"[...document.querySelectorAll('table.ranking tbody tr')].map(tr => tr.children[{index}].dataset.v || '')"
    )
    return values


def test_without_script_the_rows_and_numbers_are_the_same(site: Path, browser: Browser) -> None:
    """Script adds sorting, sifting and a box to tick for comparison, and changes no text of a row; no dead control is shown
    without it.
    """
    texts = []
    for script in (True, False):
        context = browser.new_context(java_script_enabled=script)
        page = context.new_page()
        page.goto((site / "watts/850/index.html").as_uri())
        if script:
            page.evaluate("document.querySelectorAll('#ranking .tick').forEach(one => one.remove())")
        texts.append(page.locator("table tbody").first.inner_text())
        if not script:
            assert 0 == page.locator("main button:visible").count()
        context.close()

    assert texts[0] == texts[1]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_reader_chooses_light_or_dark(site: Path, browser: Browser, scheme: str) -> None:
    """The page follows the reader's setting."""
    context = browser.new_context(color_scheme=scheme)  # type: ignore[arg-type]
    page = context.new_page()
    page.goto((site / "index.html").as_uri())
    channels = page.evaluate("getComputedStyle(document.documentElement).backgroundColor.match(/[0-9]+/g).slice(0, 3).map(Number)")
    context.close()

    assert (sum(channels) > 600) == (scheme == "light")
