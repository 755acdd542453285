"""Words stay whole on every width: no cell is so narrow that a word of it goes over to the next line."""

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import Reader
from tests.browser.serving import KINDS

UNITS = {kind: KINDS[kind] for kind in ("unit", "not advised", "bench record")}
BROKEN = """(within) => {
  const broken = [];
  for (const holder of document.querySelectorAll(within)) {
    const walk = document.createTreeWalker(holder, NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) {
      const text = walk.currentNode, parent = text.parentElement;
      if (parent.closest("script, style, svg, code, .verbatim, .cite, .unseen") || !parent.checkVisibility()) continue;
      for (const word of text.data.replace(/\\S+:\\/\\S+|\\S+\\/\\S+\\/\\S*|\\w+_\\w+/g, (address) => " ".repeat(address.length)).matchAll(/[\\p{L}\\p{N}]+/gu)) {
        const range = document.createRange();
        range.setStart(text, word.index);
        range.setEnd(text, word.index + word[0].length);
        const lines = new Set([...range.getClientRects()].filter((box) => box.width > 0).map((box) => Math.round(box.top)));
        if (lines.size > 1) broken.push(`${word[0]} in ${holder.textContent.trim().slice(0, 40)}`);
      }
    }
  }
  return [...new Set(broken)]; }"""
"""Words that stand on more than one line; addresses, names of columns and what is set as code, such as names of files, may."""
CLOSE = """() => [...document.querySelectorAll("#limits-caption ~ tbody td")].filter((cell) => {
    const lines = cell.getBoundingClientRect().height / parseFloat(getComputedStyle(cell).lineHeight);
    return cell.textContent.trim().length < 40 && lines > 3.5;
  }).map((cell) => `${Math.round(cell.getBoundingClientRect().height)} px: ${cell.textContent.trim()}`)"""
"""Cells of the limits that hold a few words in many lines."""


def whole(page: Page, within: str) -> list[str]:
    """Words broken inside any element that the selector finds."""
    found: list[str] = page.evaluate(BROKEN, within)
    return found


@pytest.mark.parametrize("width", [320, 480, 639, 960, 1280])
def test_no_word_breaks_in_a_table_of_a_unit(reader: Reader, width: int) -> None:
    """No cell is narrower than its longest word; on narrow screens a verdict takes few lines."""
    one, found = reader(viewport={"width": width, "height": 900}), []
    for kind, address in UNITS.items():
        page = one.open(address)
        assert page.locator("table.stacked td").count() > 10
        found += [(kind, word) for word in (*whole(page, "th, td"), *(page.evaluate(CLOSE) if width < 640 else []))]
        page.close()

    assert [] == found


@pytest.mark.parametrize("width", [320, 480])
def test_no_word_breaks_on_a_page_of_any_kind(reader: Reader, width: int) -> None:
    """Headings, sentences, lists and tables."""
    one, found = reader(viewport={"width": width, "height": 900}), []
    for kind, address in KINDS.items():
        if kind != "frozen":  # kept as it was printed
            page = one.open(address)
            found += [(kind, word) for word in whole(page, "main")]
            page.close()

    assert [] == found


def test_a_broken_word_is_seen(reader: Reader) -> None:
    """In a cell made narrow."""
    page = reader(viewport={"width": 320, "height": 900}).open(KINDS["unit"])
    page.evaluate("document.querySelectorAll('#limits-caption ~ tbody td').forEach((cell) => { cell.style.width = '2rem'; })")

    assert whole(page, "#limits-caption ~ tbody td")
