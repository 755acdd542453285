"""What matplotlib writes, made fit to stand inside a page.

matplotlib's SVG has a prolog, a rule for every element of the page, style attributes (which a strict content
security policy drops) and ids that repeat from drawing to drawing. Only straight lines and letters are wanted of it,
so they are taken out and written anew: one path a class, letters as text, no ids.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from guidegen.presentation.charts.coordinates import Point, coordinate
from guidegen.presentation.charts.marks import element, text

_SVG = "{http://www.w3.org/2000/svg}"
_LINK = "{http://www.w3.org/1999/xlink}href"
_STEP = re.compile(r"([ML])\s*(-?[\d.]+)\s+(-?[\d.]+)")
_ANCHOR = re.compile(r"text-anchor:\s*(\w+)")


@dataclass(frozen=True, slots=True)
class _Found:
    """A line or a text of the figure."""

    style: str
    data: str = ""
    place: Point = (0.0, 0.0)
    words: str = ""
    anchor: str = "start"


def _moved(data: str, by: Point) -> str:
    """Straight path data, shifted and written with one decimal."""
    return "".join(f"{step}{coordinate(float(x) + by[0])} {coordinate(float(y) + by[1])}"
                   for step, x, y in _STEP.findall(data))


def _found(node: ET.Element, style: str, markers: dict[str, str]) -> Iterator[_Found]:
    """Lines and letters under ``node`` whose group bears a class of ours."""
    group = node.get("id", "")
    style = group if node.tag == f"{_SVG}g" and group.startswith("c-") else style
    if style and node.tag == f"{_SVG}path":
        yield _Found(style, data=_moved(node.get("d", ""), (0, 0)))
    elif style and node.tag == f"{_SVG}use":
        by = (float(node.get("x", "0")), float(node.get("y", "0")))
        yield _Found(style, data=_moved(markers[node.get(_LINK, "")[1:]], by))
    elif style and node.tag == f"{_SVG}text":
        anchor = _ANCHOR.search(node.get("style", ""))
        yield _Found(style, place=(float(node.get("x", "0")), float(node.get("y", "0"))),
                     words="".join(node.itertext()).strip(), anchor=anchor.group(1) if anchor else "start")
    if node.tag != f"{_SVG}defs":
        for child in node:
            yield from _found(child, style, markers)


_STROKES = {"c-grid": {"stroke-opacity": "0.18", "stroke-width": "1"}, "c-axis": {"stroke-width": "1"},
            "c-limit": {"stroke-width": "1.2"}}


def cleaned(svg: str) -> str:
    """The lines and letters of a figure, by class: hairlines first, letters last."""
    root = ET.fromstring(svg)  # noqa: S314 - written by matplotlib a moment ago
    markers = {node.get("id", ""): node.get("d", "") for node in root.iter(f"{_SVG}path") if node.get("id")}
    found = tuple(_found(root, "", markers))
    lines = [element("path", {"class": style, "d": data, "fill": "none", "stroke": "currentColor"} | attributes)
             for style, attributes in _STROKES.items()
             if (data := "".join(one.data for one in found if one.style == style))]
    letters = [text(one.place, one.words, style=one.style, anchor=one.anchor) for one in found if one.words]
    return "".join(lines + letters)
