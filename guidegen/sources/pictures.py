"""Pictures of the content: known by their bytes, measured, and refused where they could do or ask for anything."""

import io
import re
import warnings
from pathlib import Path
from xml.etree import ElementTree as ET

from PIL import Image, UnidentifiedImageError

from guidegen.errors import Fault
from guidegen.origins import Origin
from guidegen.records import Picture

FORMATS = {".jpg": "JPEG", ".png": "PNG", ".webp": "WEBP"}
"""Formats of photographs by the ending of the file."""
ENDINGS = (*FORMATS, ".svg")
"""Endings of pictures."""
LARGEST = 600_000
"""Bytes that a picture may have."""
LONGEST_SIDE = 2400
"""Pixels that a side of a picture may have."""
_EXPECTED_SVG = "an SVG drawing of shapes and text alone, with its width and height in pixels"
_SVG = "{http://www.w3.org/2000/svg}"
_SHAPES = frozenset((
    "svg", "g", "defs", "title", "desc", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text",
    "tspan", "linearGradient", "radialGradient", "stop", "clipPath", "mask", "pattern", "marker",
))
"""Elements of a drawing; none of them runs, embeds or leads anywhere."""
_OUTSIDE = re.compile(r"url\(\s*[\"']?(?!#)|[a-z]+:|//|@import", re.IGNORECASE)
_DOCTYPE = re.compile(rb"<!(DOCTYPE|ENTITY)", re.IGNORECASE)
_NUMBER = re.compile(r"([0-9]+(?:\.[0-9]+)?)(?:px)?")


def read_picture(path: Path, file: str) -> Picture | Fault:
    """The picture in a file, or why it can't be shown."""
    fault = Fault(origin=Origin(file), rule="file")
    try:
        size = path.stat().st_size
        content = path.read_bytes() if size <= LARGEST else b""
    except OSError as error:
        return _said(fault, f"a file that can't be read ({(error.strerror or 'no answer').lower()})", "a readable file")
    if size > LARGEST:
        return _said(fault, f"{size} bytes", f"at most {LARGEST} bytes; make the picture smaller")
    measured = _drawing(content) if path.suffix == ".svg" else _photograph(content, FORMATS[path.suffix])
    if isinstance(measured, str):
        return _said(fault, measured, _EXPECTED_SVG if path.suffix == ".svg" else f"a {FORMATS[path.suffix]} picture, as its name says")
    width, height = measured
    if not 0 < min(measured) <= max(measured) <= LONGEST_SIDE:
        return _said(fault, f"{width} by {height} pixels", f"at least 1 and at most {LONGEST_SIDE} on a side")
    return Picture(file=file, content=content, width=width, height=height)


def _said(fault: Fault, came: str, expected: str) -> Fault:
    return Fault(origin=fault.origin, came=came, expected=expected, rule=fault.rule)


def _photograph(content: bytes, kind: str) -> tuple[int, int] | str:
    """Width and height, or what came instead; a picture within the limit is read to its end."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # what is too large is told below
            with Image.open(io.BytesIO(content)) as picture:
                found, size = picture.format, picture.size
                if found == kind and max(size) <= LONGEST_SIDE:
                    picture.load()
    except (UnidentifiedImageError, Image.DecompressionBombError):
        return "bytes that are no picture"
    except (OSError, SyntaxError, ValueError) as error:
        return f"a damaged picture ({error})"
    return size if found == kind else f"a {found} picture"


def _drawing(content: bytes) -> tuple[int, int] | str:
    """Width and height, or what came instead."""
    if _DOCTYPE.search(content):
        return "a document type or entity"
    try:
        # Without document types and entities there is nothing left that could grow or be fetched.
        top = ET.fromstring(content)  # noqa: S314
    except (ET.ParseError, ValueError) as error:
        return f"bytes that are no drawing ({error})"
    if top.tag != f"{_SVG}svg":
        return f"the element {top.tag.rpartition('}')[2]}"
    for element in top.iter():
        if (refused := _refused(element)) is not None:
            return refused
    sides = tuple(_NUMBER.fullmatch(top.get(side, "")) for side in ("width", "height"))
    if sides[0] is None or sides[1] is None:
        return "a drawing without width and height"
    return round(float(sides[0][1])), round(float(sides[1][1]))


def _refused(element: ET.Element) -> str | None:
    """What an element of a drawing may not be or hold, in words; nothing where all is well."""
    name = str(element.tag).removeprefix(_SVG)
    if name not in _SHAPES:
        return f"the element {name.rpartition('}')[2]}"
    for attribute, value in element.attrib.items():
        bare = attribute.rpartition("}")[2]
        if bare.lower().startswith("on") or bare in {"href", "src"} or _OUTSIDE.search(value):
            return f"the attribute {bare} of {name}"
    return None
