"""Marks of a drawing as SVG text: every text escaped, every number through one function, no style attributes."""

import re
from collections.abc import Mapping
from xml.sax.saxutils import escape, quoteattr

from guidegen.presentation.charts.coordinates import Box, Point, coordinate, path_data

TEXT_SIZE = 11
"""Size of letters in units: 9 px or more where a drawing of ``WIDTH`` units stands on a 320 px telephone."""
WIDTH = 340
"""Width of a chart in units."""
LETTER = 0.58
"""Mean width of a letter as a share of its size, on the wide side of what system fonts have."""
NAMESPACE = "http://www.w3.org/2000/svg"
_UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff\ud800-\udfff]")
_TO_ESCAPE = re.compile(f'{_UNPRINTABLE.pattern}|[&<>"\t\n\r]')
_ID = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")


def safe(words: str) -> str:
    """The words as they may stand in XML.

    >>> safe("<b> & co")
    '&lt;b&gt; &amp; co'
    """
    return escape(_UNPRINTABLE.sub("\N{REPLACEMENT CHARACTER}", words))


def element_id(prefix: str, name: str) -> str:
    """The id of a part of a drawing; the prefix must be fit to stand in ``url(#...)``."""
    if not _ID.fullmatch(prefix):
        message = f"came {prefix!r}, expected an id of letters, digits, - and _ that begins with a letter"
        raise ValueError(message)
    return f"{prefix}-{name}"


def element(tag: str, attributes: Mapping[str, str | float], *children: str) -> str:
    """An element with its attributes in the order given; children are SVG already.

    >>> element("rect", {"x": 1.25, "class": "c-band"})
    '<rect x="1.2" class="c-band"/>'
    """
    written = "".join([f" {name}={_quoted(value)}" for name, value in attributes.items()])
    return f"<{tag}{written}>{''.join(children)}</{tag}>" if children else f"<{tag}{written}/>"


def _quoted(value: str | float) -> str:
    """An attribute's value; most hold nothing that has to be written otherwise."""
    if not isinstance(value, str):
        return f'"{coordinate(value)}"'
    return quoteattr(_UNPRINTABLE.sub("", value)) if _TO_ESCAPE.search(value) else f'"{value}"'


def text_width(words: str, size: float = TEXT_SIZE) -> float:
    """About how wide the words stand, in units; letters beyond Latin count double."""
    broad = 0 if words.isascii() else sum(letter > "\u2e7f" for letter in words)
    return (len(words) + broad) * LETTER * size


def text(place: Point, words: str, *, style: str = "c-text", anchor: str = "start", size: float = TEXT_SIZE) -> str:
    """A line of text whose baseline begins, is centred or ends at ``place``."""
    attributes: dict[str, str | float] = {"class": style, "x": place[0], "y": place[1]}
    if anchor != "start":
        attributes["text-anchor"] = anchor
    attributes |= {"font-size": size, "fill": "currentColor"}
    return element("text", attributes, safe(words))


def line(points: tuple[Point, ...], *, style: str, width: str = "1", dashes: str = "") -> str:
    """A line through the points."""
    attributes = {"class": style, "d": path_data(points), "fill": "none", "stroke": "currentColor",
                  "stroke-width": width}
    if dashes:
        attributes["stroke-dasharray"] = dashes
    return element("path", attributes)


def segments(pairs: tuple[tuple[Point, Point], ...], *, style: str, width: str = "1") -> str:
    """Separate straight lines in one path; nothing where there are none."""
    if not pairs:
        return ""
    data = "".join(path_data(pair) for pair in pairs)
    return element("path", {"class": style, "d": data, "fill": "none", "stroke": "currentColor",
                            "stroke-width": width})


def area(points: tuple[Point, ...], *, style: str, fill: str = "currentColor", opacity: str = "1") -> str:
    """A closed area."""
    attributes = {"class": style, "d": path_data(points, closed=True), "fill": fill}
    if opacity != "1":
        attributes["fill-opacity"] = opacity
    return element("path", attributes)


def dots(points: tuple[Point, ...], *, style: str = "c-mark", radius: float = 2) -> str:
    """Round marks in one path; nothing where there are none."""
    r = coordinate(radius)
    d = coordinate(2 * radius)
    data = "".join(f"M{coordinate(x - radius)} {coordinate(y)}a{r} {r} 0 1 0 {d} 0a{r} {r} 0 1 0 -{d} 0Z"
                   for x, y in points)
    return element("path", {"class": style, "d": data, "fill": "currentColor"}) if data else ""


def hatch(pattern_id: str, *, style: str = "c-warn", under: str = "") -> str:
    """A pattern of slanting lines for what lies beyond a limit; it can be told from a plain area without colour."""
    stroke = element("path", {"class": style, "d": "M-1 1l2-2M0 5L5 0M4 6l2-2", "fill": "none",
                              "stroke": "currentColor", "stroke-width": "1.4"})
    return element("pattern", {"id": pattern_id, "width": 5, "height": 5, "patternUnits": "userSpaceOnUse"}, under, stroke)


def clip(clip_id: str, box: Box) -> str:
    """A clip path that keeps ink inside the axes; marks on the left and right edges stay whole."""
    return element("clipPath", {"id": clip_id}, element("rect", {
        "x": box.left - 3, "y": box.top, "width": box.right - box.left + 6, "height": box.bottom - box.top}))


def drawing(chart_id: str, size: Point, *, words: tuple[str, str], body: str) -> str:
    """A drawing with its name and its description for those who can't see it."""
    title, description = element_id(chart_id, "title"), element_id(chart_id, "desc")
    return element("svg", {
        "xmlns": NAMESPACE, "class": "chart", "viewBox": f"0 0 {coordinate(size[0])} {coordinate(size[1])}",
        "width": size[0], "height": size[1], "role": "img", "aria-labelledby": f"{title} {description}",
    }, element("title", {"id": title}, safe(words[0])), element("desc", {"id": description}, safe(words[1])), body)
