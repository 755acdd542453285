"""What holds for every drawing."""

import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from guidegen.presentation.charts import STYLE_NAMES

KINDS = ("efficiency", "noise", "ripple", "score", "field", "prices", "panels", "strip", "large", "legend")
HOSTILE = "</text><i>'\"&\x00"
SVG = "{http://www.w3.org/2000/svg}"
DRAW_ALL = """
import hashlib, runpy, sys
drawn = runpy.run_path(sys.argv[1])["drawings"]()
print(hashlib.sha256("".join(drawn.values()).encode()).hexdigest())
"""


@pytest.mark.parametrize("kind", KINDS)
def test_a_drawing_is_well_formed_and_named(drawn: dict[str, str], kind: str) -> None:
    """A drawing is XML, an image to a screen reader, and its name and description stand in it."""
    root = ET.fromstring(drawn[kind])
    ids = {node.get("id") for node in root.iter() if node.get("id")}
    assert root.get("role") == "img"
    assert set((root.get("aria-labelledby") or "").split()) <= ids
    assert all((node.text or "").strip() for node in root if node.tag in {f"{SVG}title", f"{SVG}desc"})


@pytest.mark.parametrize("kind", KINDS)
def test_a_drawing_holds_nothing_that_a_strict_policy_blocks(drawn: dict[str, str], kind: str) -> None:
    """No style attribute, style sheet, script, handler, or address outside the drawing."""
    root = ET.fromstring(drawn[kind])
    names = {name for node in root.iter() for name in node.attrib}
    assert {node.tag for node in root.iter()} & {f"{SVG}style", f"{SVG}script", f"{SVG}foreignObject"} == set()
    assert {name for name in names if name == "style" or name.startswith("on")} == set()
    assert all(node.get("href", "#").startswith("#") for node in root.iter())


@pytest.mark.parametrize("kind", KINDS)
def test_references_lead_to_ids_of_the_same_drawing(drawn: dict[str, str], kind: str) -> None:
    """Every ``url(#...)`` and ``href`` finds what it names."""
    referred = set(re.findall(r'(?:url\(|href=")#([\w-]+)', drawn[kind]))
    assert referred - set(re.findall(r' id="([\w-]+)"', drawn[kind])) == set()


def test_no_id_repeats_when_all_drawings_stand_on_one_page(drawn: dict[str, str]) -> None:
    """Ids carry the prefix of their drawing."""
    ids = re.findall(r' id="([^"]+)"', "".join(drawn.values()))
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("kind", KINDS)
def test_letters_can_be_read_on_a_small_telephone(drawn: dict[str, str], kind: str) -> None:
    """On a screen of 320 px with margins of 16 px letters are at least 9 px high."""
    root = ET.fromstring(drawn[kind])
    width = float((root.get("viewBox") or "").split()[2])
    sizes = [float(node.get("font-size", "0")) for node in root.iter(f"{SVG}text")]
    assert all(size * 288 / width >= 9 for size in sizes)


@pytest.mark.parametrize("kind", KINDS)
def test_coordinates_have_one_decimal_at_most(drawn: dict[str, str], kind: str) -> None:
    """Path data and places are written by one function."""
    root = ET.fromstring(drawn[kind])
    written = " ".join(node.get(name, "") for node in root.iter() for name in ("d", "x", "y", "x1", "x2", "width", "height"))
    assert re.findall(r"\.\d{2,}", written) == []


@pytest.mark.parametrize("kind", KINDS)
def test_every_class_is_told_to_the_theme(drawn: dict[str, str], kind: str) -> None:
    """``STYLE_NAMES`` lists all classes that a drawing bears."""
    known = {name for name, _ in STYLE_NAMES}
    borne = {name for node in ET.fromstring(drawn[kind]).iter() for name in node.get("class", "").split()}
    assert borne - known == set()


def test_every_class_told_to_the_theme_is_borne(drawn: dict[str, str]) -> None:
    """``STYLE_NAMES`` lists no class in vain."""
    borne = {name for svg in drawn.values() for node in ET.fromstring(svg).iter()
             for name in node.get("class", "").split()}
    assert {name for name, _ in STYLE_NAMES} - borne == set()


@pytest.mark.parametrize("kind", KINDS)
def test_shapes_can_be_seen_without_a_style_sheet(drawn: dict[str, str], kind: str) -> None:
    """Every shape outside a clip path states its fill, and its stroke where the fill is none."""
    root = ET.fromstring(drawn[kind])
    clipping = {node for clip in root.iter(f"{SVG}clipPath") for node in clip}
    shapes = [node for node in root.iter() if node.tag in {f"{SVG}path", f"{SVG}rect", f"{SVG}text"} and node not in clipping]
    assert all(node.get("fill") not in {None, "none"} or node.get("stroke") not in {None, "none"} for node in shapes)


@pytest.mark.parametrize("kind", KINDS)
def test_hostile_names_stay_words(draw: Callable[[str], dict[str, str]], kind: str) -> None:
    """Markup in a name is printed and never obeyed."""
    svg = draw(HOSTILE)[kind]
    root = ET.fromstring(svg)
    plain = {node.tag for node in ET.fromstring(draw("Plain")[kind]).iter()}
    assert {node.tag for node in root.iter()} <= plain
    assert "</text><i>'\"&" in "".join(root.itertext())


def test_numbers_and_units_stay_on_one_line(drawn: dict[str, str]) -> None:
    """No breaking space before %, mV or dB(A) in what the drawings compute."""
    words = "".join("".join(ET.fromstring(svg).itertext()) for svg in drawn.values())
    assert re.findall(r"\d (?:%|mV|dB)", words) == []


def test_drawings_are_the_same_in_every_process() -> None:
    """Two processes with different hash seeds draw the same bytes."""
    conftest = Path(__file__).with_name("conftest.py")
    seen = {subprocess.run([sys.executable, "-c", DRAW_ALL, str(conftest)], check=True, capture_output=True, text=True,
                           cwd=conftest.parents[3], env=os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": str(conftest.parents[3])},
                           ).stdout for seed in ("1", "2")}
    assert len(seen) == 1
