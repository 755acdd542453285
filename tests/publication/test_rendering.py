"""Rendered pages: escaped, strict, complete."""

import gzip
import re
from dataclasses import fields, is_dataclass, replace
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

import html5lib
import pytest
from bs4 import BeautifulSoup

from guidegen.presentation.sheets import UnitSheet
from guidegen.publication import Edition, find_theme, render_edition
from tests.publication.fixtures.guide import small_guide

THEME = find_theme("test-sheet", Path("/nowhere"))
HOSTILE = "<script>alert(1)</script>\"'&<!--"
MARKUP = {"html", "svg", "lead", "serves", "note"}
"""Fields that hold HTML or SVG already; a note does so on a unit's page alone."""
KEPT = {"id", "key", "kind", "address", "public_address", "rel", "language", "date", "width", "filled", "order", "contact",
        "score_order", "title", "linked_data"}
"""Fields that are names, numbers or addresses; titles must differ from page to page and are spoilt by adding."""


@cache
def rendered() -> Edition:
    """The small guide in memory."""
    return render_edition(small_guide(), THEME)


def page(path: str) -> BeautifulSoup:
    """A page of the small guide."""
    return BeautifulSoup(next(file.content for file in rendered().files if file.path == path), "html.parser")


def spoilt(value: Any, name: str = "") -> Any:
    """The value with hostile text in every field that holds plain words."""
    if is_dataclass(value) and not isinstance(value, type):
        markup = MARKUP if isinstance(value, UnitSheet) else MARKUP - {"note"}
        return replace(value, **{f.name: spoilt(getattr(value, f.name), f.name) for f in fields(value)
                                 if f.name not in markup and f.name != "files"})
    if isinstance(value, tuple):
        return tuple(spoilt(one, name) for one in value)
    if isinstance(value, str) and name == "title":
        return f"{value} {HOSTILE}"
    return HOSTILE if isinstance(value, str) and name not in KEPT else value


def test_hostile_text_is_escaped_in_every_field() -> None:
    """With hostile words everywhere the pages stay well formed, and hold no script but the theme's own."""
    edition = render_edition(spoilt(small_guide()), THEME)

    for file in edition.pages:
        html5lib.HTMLParser(strict=True).parse(file.content.decode())
        scripts = BeautifulSoup(file.content, "html.parser").find_all("script")
        assert {None, "application/ld+json", "application/json"} >= {script.get("type") for script in scripts}, file.path
        assert all(script.get("src") or script.get("type") for script in scripts), file.path
        assert "&lt;script&gt;alert(1)&lt;/script&gt;" in file.content.decode(), file.path


def test_linked_data_can_not_close_its_element() -> None:
    """JSON-LD keeps its meaning, with every angle bracket written as JSON."""
    guide = small_guide()
    sheets = (replace(guide.sheets[0], linked_data='{"name": "</script><b>&"}'), *guide.sheets[1:])
    edition = render_edition(replace(guide, sheets=sheets), THEME)

    data = BeautifulSoup(edition.pages[0].content, "html.parser").find("script", type="application/ld+json")

    assert data is not None
    assert '{"name": "\\u003c/script\\u003e\\u003cb\\u003e\\u0026"}' == data.string


@pytest.mark.parametrize("path", [file.path for file in rendered().pages])
def test_every_page_is_strict_html(path: str) -> None:
    """html5lib in strict mode reads each page, and no element is styled or scripted in place."""
    text = next(file.content for file in rendered().files if file.path == path).decode()
    html5lib.HTMLParser(strict=True).parse(text)
    soup = BeautifulSoup(text, "html.parser")

    assert [] == [name for tag in soup.find_all(True) for name in tag.attrs if name == "style" or name.startswith("on")]
    assert [] == soup.find_all("style")


@pytest.mark.parametrize("path", [file.path for file in rendered().pages])
def test_the_security_policy_comes_before_what_it_governs(path: str) -> None:
    """Only the site's own hashed style, script and pictures are allowed; nothing inline, nothing from elsewhere."""
    head = page(path).head
    assert head is not None
    policy = head.find("meta", attrs={"http-equiv": "Content-Security-Policy"})
    assert policy is not None
    before = {tag.name for tag in policy.find_previous_siblings()}

    assert ("default-src 'none'; img-src 'self' data:; style-src 'self'; script-src 'self'; connect-src 'self'; "
            "base-uri 'none'; form-action 'none'") == policy["content"]
    assert {"meta"} == before


def test_assets_bear_the_hash_of_their_content() -> None:
    """The name changes with the content and only with it."""
    names = []
    for file in rendered().files:
        found = re.fullmatch(r"assets/([a-z-]+)\.([0-9a-f]{10})\.(css|js)", file.path)
        if found:
            names.append(f"{found[1]}.{found[3]}")
            assert sha256(file.content).hexdigest()[:10] == found[2]

    assert ["bracket.css", "bracket.js", "comparison.js", "numbers.js", "script.js", "search.css", "search.js",
            "sizing-strip.js", "sizing.css", "sizing.js", "style.css"] == sorted(names)


def test_equal_publications_give_equal_bytes() -> None:
    """Two renderings of one publication don't differ in a byte."""
    again = render_edition(small_guide(), THEME)

    assert rendered().files == again.files


def test_the_canonical_address_is_clean() -> None:
    """Search engines are told the public address without the file's name; a lost page has none."""
    link = page("watts/850/index.html").find("link", rel="canonical")

    assert link is not None
    assert "https://bench.example/guide/watts/850/" == link["href"]
    assert page("404.html").find("link", rel="canonical") is None


def test_a_paid_link_keeps_its_relation_and_words() -> None:
    """The relation reaches the page, and the words say that the link is paid."""
    links = page("watts/850/index.html").find_all("a", rel="sponsored")

    assert ["Lantern Parts (paid\u00a0link)"] == [link.get_text() for link in links]


def test_the_table_holds_every_unit_in_order() -> None:
    """All rows are there without a script, those without a place last and marked."""
    rows = page("watts/850/index.html").select("#ranking tbody tr")

    assert ["1–2", "1–2", "3–4", "3–5", "4–5", "6", "—"] == [row.select(".place")[0].get_text() for row in rows]
    assert [6] == [i for i, row in enumerate(rows) if row.get("class") == ["out"]]


def test_the_parts_of_a_score_are_said_in_words() -> None:
    """The drawing's name holds every criterion; what is unknown has a track and no bar."""
    drawings = page("watts/850/index.html").select("#ranking svg.parts")

    assert "Efficiency: 97 of 100, weight 18\u00a0%" in drawings[0].get_text()
    assert [5, 5, 5, 5, 4, 5] == [len(drawing.select(".p-fill")) for drawing in drawings]


def test_style_and_script_are_small() -> None:
    """The budgets of what every page loads: 6 kB of style and 5 kB of script, compressed."""
    shared = [file for file in rendered().files if file.path.startswith(("assets/style.", "assets/script."))]
    sizes = {file.path[-3:]: len(gzip.compress(file.content, mtime=0)) for file in shared}

    assert sizes["css"] <= 6000
    assert sizes[".js"] <= 5000


def test_a_bracket_says_how_sure_its_order_is() -> None:
    """A sentence on what would unseat the first, and a row for every unit that has a place."""
    section = page("watts/850/index.html").select("section[aria-labelledby=sure]")[0]

    assert "so little is a matter of taste" in section.select("p")[0].get_text()
    assert ["1–2", "1–2", "3–4", "3–5", "4–5", "6"] == [row.select("td")[0].get_text() for row in section.select("tbody tr")]
