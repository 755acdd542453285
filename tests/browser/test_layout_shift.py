"""Nothing that is seen moves while a page loads or is read to its end, in real Chromium."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser

MOST = 0.02
"""Most shift of a page: a fifth of what search engines' documentation calls good (0.1, from memory)."""
WATCH = """
  globalThis.shifted = 0;
  const count = (entries) => { for (const one of entries) if (!one.hadRecentInput) globalThis.shifted += one.value; };
  globalThis.watching = new PerformanceObserver((list) => count(list.getEntries()));
  watching.observe({ type: "layout-shift", buffered: true });
  globalThis.shiftedSoFar = () => { count(watching.takeRecords()); return globalThis.shifted; };
"""
TWO_FRAMES = "new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))"
KINDS = ("index", "watts/850/index", "unit/halmer-quill-650/index", "bench/halmer-quill-650/index", "how-many-watts/index",
         "how-we-test/index", "units/index", "words/index", "data/index", "404")


@pytest.mark.parametrize("width", [1280, 412, 320])
@pytest.mark.parametrize("page_name", KINDS)
def test_nothing_moves(site: Path, browser: Browser, page_name: str, width: int) -> None:
    """From the first paint to the last line; scripts add what they add where room was left for it."""
    context = browser.new_context(viewport={"width": width, "height": 823}, reduced_motion="reduce")
    page = context.new_page()
    page.add_init_script(WATCH)
    page.goto((site / f"{page_name}.html").as_uri())
    page.evaluate(TWO_FRAMES)
    for _ in range(page.evaluate("Math.ceil(document.documentElement.scrollHeight / innerHeight)")):
        page.evaluate("scrollBy(0, innerHeight)")
        page.evaluate(TWO_FRAMES)
    shift = page.evaluate("shiftedSoFar()")
    context.close()

    assert shift < MOST


@pytest.mark.parametrize("width", [1280, 320])
def test_the_masthead_stands_as_it_was_painted(site: Path, browser: Browser, width: int) -> None:
    """The search field takes the room that was left for it, to the pixel."""
    context = browser.new_context(viewport={"width": width, "height": 823})
    page = context.new_page()
    page.goto((site / "index.html").as_uri())
    places = "[...document.querySelectorAll('.masthead, .masthead .name, .masthead nav, .search, .notice')].map((one) => one.getBoundingClientRect().toJSON())"
    after = page.evaluate(places)
    page.evaluate("document.querySelector('.search').replaceChildren()")
    before = page.evaluate(places)
    context.close()

    assert before == after
