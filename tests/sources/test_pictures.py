"""Pictures of the content: what their bytes are, how large, and that a drawing can't do anything."""

import io
import shutil
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from guidegen.errors import ContentError, Fault
from guidegen.records import Picture
from guidegen.sources import read_library
from guidegen.sources.pictures import LARGEST, read_picture

SMALL = Path(__file__).parents[1] / "small_edition" / "content"
DRAWING = '<svg xmlns="http://www.w3.org/2000/svg" width="40" height="20">{}</svg>'


def bytes_of(kind: str, size: tuple[int, int] = (4, 3)) -> bytes:
    """A picture of this format."""
    written = io.BytesIO()
    Image.new("RGB", size, (11, 90, 102)).save(written, format=kind)
    return written.getvalue()


def read(folder: Path, name: str, content: bytes) -> Picture | Fault:
    """The picture of these bytes."""
    (folder / name).write_bytes(content)
    return read_picture(folder / name, f"pictures/{name}")


@pytest.mark.parametrize(("name", "kind"), [("a.png", "PNG"), ("a.jpg", "JPEG"), ("a.webp", "WEBP")])
def test_a_picture_is_measured_and_kept_byte_for_byte(tmp_path: Path, name: str, kind: str) -> None:
    """The formats of ISO/IEC 15948, ISO/IEC 10918-1 and RFC 9649, as Pillow writes them."""
    found = read(tmp_path, name, bytes_of(kind))

    assert Picture(file=f"pictures/{name}", content=bytes_of(kind), width=4, height=3) == found


def test_a_drawing_is_measured() -> None:
    """A drawing of the demo: shapes, text and a title."""
    found = read_picture(SMALL.parents[2] / "content/pictures/halmer-quill-850.svg", "pictures/halmer-quill-850.svg")

    assert isinstance(found, Picture)
    assert (600, 344) == (found.width, found.height)


@pytest.mark.parametrize(("name", "content", "came", "expected"), [
    ("a.png", bytes_of("JPEG"), "a JPEG picture", "a PNG picture, as its name says"),
    ("a.png", b"<html>", "bytes that are no picture", "a PNG picture, as its name says"),
    ("a.png", b"", "bytes that are no picture", "a PNG picture, as its name says"),
    ("a.png", bytes_of("PNG", (400, 300))[:60], "a damaged picture", "a PNG picture"),
    ("a.png", bytes_of("PNG", (3000, 2)), "3000 by 2 pixels", "at most 2400 on a side"),
    ("a.jpg", b"x" * (LARGEST + 1), "600001 bytes", "at most 600000 bytes; make the picture smaller"),
])
def test_what_is_no_picture_is_refused(tmp_path: Path, name: str, content: bytes, came: str, expected: str) -> None:
    """Said in words, whatever the bytes are."""
    found = read(tmp_path, name, content)

    assert isinstance(found, Fault)
    assert found.came.startswith(came)
    assert expected in found.expected


@pytest.mark.parametrize(("inside", "came"), [
    ("<script>x</script>", "the element script"), ("<foreignObject/>", "the element foreignObject"),
    ('<a href="#x"/>', "the element a"), ('<image href="x.png"/>', "the element image"), ("<style>*{}</style>", "the element style"),
    ('<animate attributeName="x"/>', "the element animate"), ('<set attributeName="onload"/>', "the element set"),
    ('<use href="#a"/>', "the element use"),
    ('<rect onload="x"/>', "the attribute onload of rect"), ('<rect ONCLICK="x"/>', "the attribute ONCLICK of rect"),
    ('<rect fill="url(https://x.example/a)"/>', "the attribute fill of rect"), ('<rect fill="url(\'//x.example\')"/>', "the attribute fill of rect"),
    ('<rect style="background:url(x)"/>', "the attribute style of rect"),
    ('<path xmlns:x="http://www.w3.org/1999/xlink" x:href="#a"/>', "the attribute href of path"),
    ('<x:script xmlns:x="http://www.w3.org/2000/svg">x</x:script>', "the element script"),
    ('<script xmlns="http://www.w3.org/1999/xhtml"/>', "the element script"), ("<rect>", "bytes that are no drawing"),
])
def test_a_drawing_that_could_do_something_is_refused(tmp_path: Path, inside: str, came: str) -> None:
    """Elements and attributes through which SVG runs script or fetches (SVG 2, chapters 5, 14, 15 and 16)."""
    found = read(tmp_path, "a.svg", DRAWING.format(inside).encode())

    assert isinstance(found, Fault)
    assert found.came.startswith(came)


def test_a_drawing_with_entities_is_refused_before_it_is_parsed(tmp_path: Path) -> None:
    """An entity could grow without end (XML 1.0, 4.4)."""
    found = read(tmp_path, "a.svg", b'<!DOCTYPE svg [<!ENTITY a "aaaa">]>' + DRAWING.format("<text>&a;</text>").encode())

    assert isinstance(found, Fault)
    assert "a document type or entity" == found.came


@settings(max_examples=60)
@given(where=st.integers(0, 2000), byte=st.integers(0, 255), name=st.sampled_from(("a.png", "a.jpg", "a.webp", "a.svg")))
def test_a_damaged_picture_is_a_picture_or_a_fault(tmp_path_factory: pytest.TempPathFactory, where: int, byte: int, name: str) -> None:
    """One byte wrong: never an error from below."""
    kinds = {"a.png": "PNG", "a.jpg": "JPEG", "a.webp": "WEBP"}
    good = bytes_of(kinds[name], (60, 40)) if name in kinds else DRAWING.format('<rect width="3" height="4"/>').encode()
    at = where % len(good)
    found = read(tmp_path_factory.mktemp("damaged"), name, good[:at] + bytes([byte]) + good[at + 1:])

    assert isinstance(found, Picture | Fault)


def test_a_unit_names_its_pictures(tmp_path: Path) -> None:
    """A name that is none is told with its line and the nearest; a file that may not lie there, too."""
    content = tmp_path / "content"
    shutil.copytree(SMALL, content)
    (content / "pictures").mkdir()
    (content / "pictures" / "cairn.png").write_bytes(bytes_of("PNG"))
    (content / "pictures" / "notes.txt").write_text("x", encoding="utf-8")
    unit = content / "units" / "ostrevant-cairn-550" / "unit.yaml"
    text = unit.read_text(encoding="utf-8")
    unit.write_text(f'{text}pictures:\n  - {{file: pictures/carin.png, words: The sockets}}\n  - {{file: pictures/cairn.png, words: ""}}\n', encoding="utf-8")
    with pytest.raises(ContentError) as raised:
        read_library(content)
    lines = text.count("\n")

    assert [
        "pictures/notes.txt: came notes.txt, expected a picture named in small letters that ends with one of .jpg, .png, .webp, .svg",
        f'units/ostrevant-cairn-550/unit.yaml:{lines + 3}, pictures[1].words: came "", expected at least 1 character',
    ] == [fault.message for fault in raised.value.faults]
