"""What a published folder says to machines, read with the usual readers: each text that it holds."""

import csv
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

from bs4 import BeautifulSoup

RUN_BY_SPREADSHEETS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""Beginnings of a cell that one spreadsheet or another takes for a formula (OWASP, CSV injection; from memory)."""


def machine_texts(site: Path) -> Iterator[str]:
    """Every text of every file for machines; a file that can't be parsed raises."""
    for path in sorted(site.rglob("*.csv")):
        yield from (words for cell in cells(path) for words in {cell, cell.removeprefix("'")})
    for path in sorted({*site.rglob("*.json"), site / "feed.json"}):
        yield from strings(json.loads(path.read_text(encoding="utf-8")))
    for node in ET.parse(site / "feed.atom").iter():
        yield from (text for text in (node.text, *node.attrib.values()) if text)
    for path in sorted(site.rglob("*.html")):
        page = BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser")
        for script in page.select('script[type="application/ld+json"], script[type="application/json"]'):
            yield from strings(json.loads(script.get_text()))
    (index,) = site.glob("search-index.js")
    yield from strings(json.loads(index.read_text(encoding="utf-8").removeprefix("globalThis.guideIndex=").removesuffix(";\n")))


def cells(path: Path) -> list[str]:
    """Every cell of a CSV."""
    with path.open(encoding="utf-8", newline="") as stream:
        return [cell for row in csv.reader(stream, strict=True) for cell in row]


def strings(value: Any) -> Iterator[str]:
    """Every text in a document of JSON, names among them."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for name, inner in value.items():
            yield name
            yield from strings(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from strings(inner)


def is_number(cell: str) -> bool:
    """Whether a cell is a plain number, which a spreadsheet takes for no more than that."""
    try:
        float(cell)
    except ValueError:
        return False
    return True
