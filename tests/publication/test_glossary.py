"""Terms of the glossary, linked where a page first uses them in running text."""

from dataclasses import replace
from pathlib import Path
from urllib.parse import urldefrag

import pytest
from bs4 import BeautifulSoup, Tag
from hypothesis import given
from hypothesis import strategies as st

from guidegen.presentation.pieces import Term
from guidegen.publication.glossary import Glossary
from tests.publication.fixtures.guide import SITE

TERMS = (
    Term(address="words/#rail", written=("rail", "rails")), Term(address="words/#badge", written=("efficiency badge", "badge")),
    Term(address="words/#efficiency", written=("efficiency",)), Term(address="words/#decibel", written=("dB(A)",)),
)
GLOSSARY = Glossary(replace(SITE, terms=TERMS))
RAIL = '<a class="term" href="../../words/index.html#rail">'


def linked(body: str, page: str = "unit/one/") -> str:
    """The body of a page's main part, with links."""
    return GLOSSARY.linked(f"<main>{body}</main>", page).removeprefix("<main>").removesuffix("</main>")


def test_the_first_use_alone_becomes_a_link() -> None:
    """In any of its forms; capitals are kept."""
    assert f"<p>{RAIL}Rails</a> and a rail</p><p>rail</p>" == linked("<p>Rails and a rail</p><p>rail</p>")


def test_the_longest_term_wins() -> None:
    """An efficiency badge is no efficiency; a word in another word is none; a unit's sign may be one."""
    made = BeautifulSoup(linked("<p>An efficiency badge, derails, trail-rails, 20\u00a0dB(A).</p>"), "html.parser")

    assert ["efficiency badge", "dB(A)"] == [a.get_text() for a in made.find_all("a")]


@pytest.mark.parametrize("inside", [
    '<p><a href="#x">rail</a></p>', "<h2>rail</h2>", "<h3>rail</h3>", "<table><caption>rail</caption><tr><th>rail</th></tr></table>",
    "<p><code>rail</code></p>", "<p><button>rail</button></p>", "<svg><title>rail</title></svg>", "<details><summary>rail</summary></details>",
    "<li><h3>rail</h3></li>", '<p title="rail">x</p>', "<dl><dd>rail</dd></dl>", "<figcaption>rail</figcaption>",
])
def test_no_link_where_none_may_stand(inside: str) -> None:
    """Headings, headings of tables, code, buttons, drawings, names of links; and nothing before or behind the main part."""
    assert inside == linked(inside)
    assert f"<p>rail</p><main>{inside}</main><p>rail</p>" == GLOSSARY.linked(f"<p>rail</p><main>{inside}</main><p>rail</p>", "")


def test_a_word_is_not_explained_by_itself() -> None:
    """On the page of words a term is linked from the other entries, not from its own."""
    body = '<h2 id="rail">Rail</h2><p>A rail.</p><h2 id="ripple">Ripple</h2><p>On a rail.</p>'

    assert body.replace("On a rail", 'On a <a class="term" href="../words/index.html#rail">rail</a>') == linked(body, "words/")


@given(st.text(alphabet="<>/&;aeiilr pv\n", max_size=60))
def test_whatever_stands_there_no_text_changes(words: str) -> None:
    """The words of a page are the same with and without links."""
    page = f"<p>{words.replace('<', '&lt;')} rails</p>"

    def read(html: str) -> list[str]:
        return BeautifulSoup(html, "html.parser").get_text().split()

    assert read(page) == read(linked(page))


def test_the_terms_of_the_demo_lead_to_their_anchors(site: Path, pages: dict[str, BeautifulSoup]) -> None:
    """Each link has an anchor at its end, none stands in another, none leads to the same place twice on a page."""
    anchors = {str(tag["id"]) for tag in pages["words/index.html"].find_all("h2", id=True)}
    counted = 0
    for path, page in pages.items():
        found = page.select("a.term")
        ends = [urldefrag(str(a["href"])) for a in found]
        counted += len(found)
        assert len(ends) == len({end.fragment for end in ends})
        assert {end.fragment for end in ends} <= anchors
        assert [] == [a for a in found if a.find_parent(["a", "h1", "h2", "h3", "th", "caption", "code", "button"])]
        assert path == "404.html" or all(((site / path).parent / end.url).is_file() for end in ends)
    assert counted > len(pages)


def test_every_term_that_a_bracket_uses_is_linked_at_its_first_use(pages: dict[str, BeautifulSoup]) -> None:
    """Nothing of the kind stands before it in running text."""
    main = pages["watts/850/index.html"].find("main")
    assert isinstance(main, Tag)
    link = main.select_one("a.term[href$='#ripple']")
    assert isinstance(link, Tag)
    before = [t for t in link.find_all_previous(string=True) if t.find_parent(["p", "li"]) and t.find_parent("main")]
    outside = [t for t in before if not t.find_parent(["a", "table", "svg", "figcaption"]) and "ripple" in t.get_text().lower()]

    assert [] == outside
