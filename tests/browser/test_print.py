"""Pages on paper: each cell of each table is there, drawers too, and nothing is cut at the right edge."""

import io
import unicodedata
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from pypdf import PdfReader

from tests.browser.conftest import Reader
from tests.browser.serving import KINDS

MARGIN = 14 / 25.4 * 72
"""The margin of a sheet, 14 mm, in points."""
Placed = list[tuple[float, str]]
"""Text with the place of its beginning from the left edge, in points."""


def plain(text: str) -> str:
    """Letters and digits alone, compatible forms made one (NFKC): a PDF has ligatures, and breaks lines where it likes."""
    return "".join(letter for letter in unicodedata.normalize("NFKC", text) if letter.isalnum())


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_paper_has_every_cell_and_cuts_nothing(reader: Reader, site: Path, paper: str) -> None:
    """Of a bracket, a unit and the sizing page without what script adds."""
    one = reader(java_script_enabled=False)
    for kind in ("bracket", "unit", "sizing"):
        printed = PdfReader(io.BytesIO(one.open(KINDS[kind]).pdf(format=paper)))
        placed = texts_of(printed)
        text = plain("".join(words for _, words in placed))
        page = BeautifulSoup((site / KINDS[kind] / "index.html").read_text(encoding="utf-8"), "html.parser")
        cells = {plain(words) for cell in page.select("main td, main th") for words in own_words(cell)}

        assert [] == sorted(words for words in cells if words not in text)
        assert len(cells) > 50
        assert all(0 < left < float(printed.pages[0].mediabox.width) - MARGIN for left, _ in placed)


def texts_of(printed: PdfReader) -> Placed:
    """Every stretch of text, in order."""
    placed: Placed = []

    def visit(text: str, matrix: list[float], inner: list[float], *_font: object) -> None:
        if text.strip():
            placed.append((matrix[0] * inner[4] + matrix[4], text))

    for sheet in printed.pages:
        sheet.extract_text(visitor_text=visit)
    return placed


def own_words(cell: Tag) -> list[str]:
    """The stretches of text of a cell, but for those of drawings."""
    return [str(one) for one in cell.find_all(string=True) if one.find_parent("svg") is None and one.strip()]


def test_nothing_is_wider_than_the_paper(reader: Reader) -> None:
    """Laid out for print as wide as A4 and Letter between their margins, no box juts out and nothing scrolls."""
    one = reader(java_script_enabled=False)
    for width in (688, 710):
        for kind in ("bracket", "unit", "sizing"):
            page = one.open(KINDS[kind])
            page.emulate_media(media="print")
            page.set_viewport_size({"width": width, "height": 1000})
            beyond = page.evaluate("""() => [...document.querySelectorAll("main *")].filter((one) => !one.closest("svg, .unseen")
              && one.checkVisibility() && one.getBoundingClientRect().right > innerWidth + 1).map((one) => one.tagName + " " + one.textContent.slice(0, 40))""")

            assert (kind, []) == (kind, beyond)
            page.close()


def test_no_head_of_a_table_stands_alone_at_the_foot_of_a_page(reader: Reader) -> None:
    """Wherever the cautions come to stand on a sheet, a row of them is on the page of their caption."""
    page = reader(java_script_enabled=True).open(KINDS["sizing"])
    page.evaluate("""() => {
      const table = document.querySelector("section:has(> #cautions)");
      document.body.replaceChildren(Object.assign(document.createElement("main"), { id: "alone" }));
      document.getElementById("alone").append(Object.assign(document.createElement("div"), { id: "above" }), table);
    }""")
    alone, apart = [], 0
    for height in range(800, 1000, 10):
        page.evaluate("height => { document.getElementById('above').style.setProperty('height', `${height}px`); }", height)
        sheets = [plain(sheet.extract_text()) for sheet in PdfReader(io.BytesIO(page.pdf(format="A4"))).pages]
        here = next(text for text in sheets if "Beforeyoubuyandbuild" in text)
        apart += len(sheets) > 1 and here != sheets[0]
        if "Neveropenapowersupply" not in here:
            alone.append(height)

    assert [] == alone
    assert apart > 0


def test_closed_drawers_are_printed(reader: Reader) -> None:
    """Each has its content on paper, though closed on the screen."""
    page = reader(java_script_enabled=False).open(KINDS["unit"])
    inside = "() => [...document.querySelectorAll('details')].map((one) => [one.open, one.lastElementChild.getBoundingClientRect().height > 20])"
    page.emulate_media(media="print")

    assert {(False, True)} == {tuple(one) for one in page.evaluate(inside)}
