"""What a page of the demo may weigh, as sent with gzip, and how many elements it may have: the guide's own budgets."""

import gzip
import re
import zlib
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tests.conftest import current

Pages = dict[str, BeautifulSoup]
HTML, PAGE, SCRIPT, STYLE, CHART = 30_000, 60_000, 12_000, 8_000, 8_000
"""Most bytes."""
ELEMENTS = 1500
"""Most elements; a bracket of more units than ``LARGE`` may have more."""
LARGE = 40
FIRST = 14_000
"""Bytes that a fresh connection brings in its first round: ten packets of 1460 bytes (RFC 6928), less their headers."""


def sent(content: bytes) -> int:
    """Bytes with gzip."""
    return len(gzip.compress(content, mtime=0))


def asked_for(site: Path, path: str, page: BeautifulSoup, kind: str) -> int:
    """What a page asks for when it is opened: its style sheets or its scripts."""
    wanted, place = {"style": ('link[rel="stylesheet"]', "href"), "script": ("script[src]", "src")}[kind]
    addresses = [str(tag[place]) for tag in page.select(wanted)]
    root = {address: site / address.lstrip("/") if address.startswith("/") else (site / path).parent / address for address in addresses}
    return sum(sent(file.read_bytes()) for file in root.values())


def html_of(site: Path, path: str, page: BeautifulSoup) -> int:  # noqa: ARG001 - called as all the others
    """The page itself."""
    return sent((site / path).read_bytes())


def styles_of(site: Path, path: str, page: BeautifulSoup) -> int:
    """Its style sheets."""
    return asked_for(site, path, page, "style")


def scripts_of(site: Path, path: str, page: BeautifulSoup) -> int:
    """Its scripts, without those that are loaded when a reader wants what they do."""
    return asked_for(site, path, page, "script")


def whole_of(site: Path, path: str, page: BeautifulSoup) -> int:
    """Everything together."""
    return html_of(site, path, page) + styles_of(site, path, page) + scripts_of(site, path, page)


@pytest.mark.parametrize(("measure", "most"), [(html_of, HTML), (styles_of, STYLE), (scripts_of, SCRIPT), (whole_of, PAGE)])
def test_every_page_is_small(site: Path, pages: Pages, measure: Callable[[Path, str, BeautifulSoup], int], most: int) -> None:
    """Page, styles, scripts, and all of it."""
    sizes = {path: measure(site, path, page) for path, page in pages.items()}

    assert min(sizes.values()) > 0
    assert {} == {path: size for path, size in sizes.items() if size > most}


def drawings(site: Path) -> Iterator[tuple[str, int]]:
    """Page and bytes of every drawing."""
    for path in current(site, "*.html"):
        for drawing in re.findall(rb"<svg.*?</svg>", path.read_bytes(), re.DOTALL):
            yield path.relative_to(site).as_posix(), sent(drawing)


def test_every_drawing_is_small(site: Path) -> None:
    """Charts, strips and parts of scores."""
    sizes = list(drawings(site))

    assert len(sizes) > 100
    assert [] == [(path, size) for path, size in sizes if size > CHART]


def test_no_page_has_too_many_elements(pages: Pages) -> None:
    """A telephone lays them all out; only a bracket of very many units may have more."""
    counts = {path: len(page.find_all()) for path, page in pages.items() if len(page.select("#ranking tbody tr")) <= LARGE}

    assert len(counts) > 60
    assert {} == {path: count for path, count in counts.items() if count > ELEMENTS}


@pytest.mark.parametrize(("start", "choice"), [("index.html", b'<div class="pick'), ("watts/", b'<article class="choice')])
def test_the_first_round_brings_head_and_choices(site: Path, pages: Pages, start: str, choice: bytes) -> None:
    """On the first page and on every bracket's: what a reader came for is there before anything else is asked for."""
    for path in (path for path in pages if path.startswith(start)):
        whole = (site / path).read_bytes()
        first = zlib.decompressobj(wbits=31).decompress(gzip.compress(whole, mtime=0)[:FIRST])

        assert b"</head>" in first
        assert whole.count(choice) > 0
        assert whole.count(choice) == first.count(choice), path
