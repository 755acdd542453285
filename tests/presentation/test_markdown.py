"""Markdown: links and pictures that are known or plainly outside, and everything else a fault on its line."""

import pytest
from bs4 import BeautifulSoup, Tag
from hypothesis import given
from hypothesis import strategies as st

from guidegen.errors import Fault
from guidegen.origins import Origin
from guidegen.presentation.markdown import Place, set_markdown
from guidegen.records import Picture

PICTURE = Picture(file="pictures/bench.png", content=b"", width=400, height=300)
PLACE = Place(origin=Origin("pages/x.md"), first_line=5, page="how-we-test/", pictures={PICTURE.file: PICTURE})


def made(text: str) -> tuple[str, list[Fault]]:
    """The text as HTML, with the faults found in it."""
    faults: list[Fault] = []
    return set_markdown(text, PLACE, faults), faults


@pytest.mark.parametrize("address", [
    "javascript:alert(1)", "JaVaScRiPt:alert(1)", "&#106;avascript:alert(1)", "data:text/html,x", "vbscript:x", "file:///etc/passwd",
    "http://lab.example/", "//lab.example/", "/units/", "../units/", "units/", "#here", "https:lab.example", "https://me@lab.example/",
    "mailto:", "unknown:thing", "",
])
def test_an_address_that_may_not_be_linked_is_a_fault_on_its_line(address: str) -> None:
    """In any spelling that a browser would follow (URL Standard, 4.4); the page has no such address."""
    html, faults = made(f"One\nparagraph.\n\nTwo [words](<{address}>).")

    assert "href" not in html
    assert [(8, "prose")] == [(fault.line, fault.rule) for fault in faults]
    assert faults[0].came.startswith("the link")


@pytest.mark.parametrize(("address", "meant"), [("http://lab.example/a", "https://lab.example/a"), ("//lab.example", "https://lab.example")])
def test_the_address_that_was_meant_is_told(address: str, meant: str) -> None:
    """Where only the scheme is missing or old."""
    assert [meant] == [fault.nearest for fault in made(f"[words]({address})")[1]]


def test_a_picture_stands_with_its_size_and_words() -> None:
    """Relative to the page, loaded when it comes near, and nothing moves then."""
    html, faults = made("![The *bench* at night](pictures/bench.png)")
    image = BeautifulSoup(html, "html.parser").img

    assert [] == faults
    assert isinstance(image, Tag)
    assert {"src": "../pictures/bench.png", "alt": "The bench at night", "width": "400", "height": "300", "loading": "lazy"} == image.attrs


@pytest.mark.parametrize(("written", "came", "expected", "nearest"), [
    ("![x](pictures/bench.jpg)", "the picture pictures/bench.jpg", "a picture of the folder pictures/, such as pictures/name.png", "pictures/bench.png"),
    ("![x](https://other.example/p.png)", "the picture https://other.example/p.png", "a picture of the folder pictures/, such as pictures/name.png", ""),
    ("![](pictures/bench.png)", "the picture pictures/bench.png without words", "what it shows, ![words](pictures/bench.png)", ""),
])
def test_a_picture_that_cannot_be_shown_is_a_fault(written: str, came: str, expected: str, nearest: str) -> None:
    """None of that name, one of another host, or one without words."""
    html, faults = made(written)

    assert [(5, came, expected, nearest)] == [(f.line, f.came, f.expected, f.nearest) for f in faults]
    assert "other.example" not in html


@given(st.text(alphabet="![]()<>:/#*`\\ \njavscript:htp.enmlx&;\"'", max_size=80))
def test_no_text_makes_an_address_that_nobody_allowed(text: str) -> None:
    """Whatever is typed: addresses lead into the site or outside by https or mail, and pictures are those of the folder."""
    page = BeautifulSoup(made(text)[0], "html.parser")

    assert [] == [a for a in page.find_all(href=True) if not str(a["href"]).startswith(("https://", "mailto:", "../"))]
    assert [] == page.find_all(["script", "iframe", "style"])
    assert [] == [image for image in page.find_all("img") if image["src"] != "../pictures/bench.png"]
