"""Pictures of units, as published."""

import json
from pathlib import Path

from bs4 import BeautifulSoup, Tag

from tests.conftest import CONTENT

ROOT = "https://harrow-bench.example/"


def test_a_unit_shows_its_picture_with_its_size_and_words(site: Path, pages: dict[str, BeautifulSoup]) -> None:
    """Byte for byte the file of the content; loaded when it comes near; the words are its name and its caption."""
    image = pages["unit/halmer-quill-850/index.html"].select_one("main img")

    assert isinstance(image, Tag)
    assert ("600", "344", "lazy") == (image["width"], image["height"], image["loading"])
    assert "Drawing of the side with its 10 sockets, invented like the unit" == image["alt"]
    assert (CONTENT / "pictures/halmer-quill-850.svg").read_bytes() == (site / "unit/halmer-quill-850" / str(image["src"])).read_bytes()


def test_the_linked_data_have_the_picture_before_the_card(pages: dict[str, BeautifulSoup]) -> None:
    """A product's ``image`` may be a list (schema.org, Product)."""
    script = pages["unit/halmer-quill-850/index.html"].find("script", type="application/ld+json")
    assert isinstance(script, Tag)
    product = json.loads(script.get_text())["@graph"][0]

    assert [f"{ROOT}pictures/halmer-quill-850.svg", f"{ROOT}cards/unit-halmer-quill-850.png"] == product["image"]
