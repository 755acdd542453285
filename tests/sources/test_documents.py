"""Bytes of a file: UTF-8 with or without its mark, and every other thing named with its place."""

from pathlib import Path
from sys import maxunicode
from unicodedata import category

import pytest

from guidegen.errors import Fault
from guidegen.sources.documents import LARGEST_FILE, control_in, decoded, read_text


def fault_of(raw: bytes) -> Fault:
    """The fault of some bytes."""
    fault = decoded(raw, "x.yaml")
    assert isinstance(fault, Fault)
    return fault


def test_a_utf8_mark_is_no_part_of_the_text() -> None:
    """Some editors write it; nobody sees it."""
    assert "a: é" == decoded(b"\xef\xbb\xbfa: \xc3\xa9", "x.yaml")


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be"])
def test_utf16_is_refused(encoding: str) -> None:
    """With its mark it is named; without one its NUL characters are."""
    assert "UTF-8" in fault_of("a: 1\n".encode(encoding)).expected


def test_a_byte_that_is_no_utf8_has_line_and_column() -> None:
    """A file saved as Latin-1 is pointed at where its first umlaut stands."""
    fault = fault_of("a: 1\nb: Möbel\n".encode("latin-1"))

    assert (2, 5, "the byte f6", "b: M") == (fault.line, fault.column, fault.came, fault.text)


@pytest.mark.parametrize(("character", "name"), [("\0", "U+0000"), ("\x1b", "U+001B"), ("\x7f", "U+007F"), ("\uffff", "U+FFFF"),
                                                  ("\u202e", "U+202E"), ("\u2067", "U+2067"), ("\U0001fffe", "U+1FFFE")])
def test_control_characters_are_named(character: str, name: str) -> None:
    """They can't be seen, so their number is said."""
    fault = fault_of(f"a: 1\nb: x{character}".encode())

    assert (2, 5, f"the control character {name}") == (fault.line, fault.column, fault.came)


def test_nothing_but_what_cant_be_seen_is_refused() -> None:
    """Unicode itself says which those are: controls but those of lines and tabs, surrogates, overrides, no characters."""
    turning = {*range(0x202A, 0x202F), *range(0x2066, 0x206A)}
    hidden = [
        code for code in range(maxunicode + 1)
        if (category(chr(code)) in ("Cc", "Cs") and chr(code) not in "\t\n\r\x85")
        or code in turning or 0xFDD0 <= code <= 0xFDEF or code & 0xFFFE == 0xFFFE
    ]

    assert [f"the control character U+{code:04X}" for code in hidden] == [control_in(chr(code)) for code in hidden]
    assert "" == control_in("".join(map(chr, sorted(set(range(maxunicode + 1)) - set(hidden)))))


def test_a_file_that_is_too_large_is_not_read(tmp_path: Path) -> None:
    """Two megabytes are a thousand times a usual record."""
    path = tmp_path / "x.yaml"
    path.write_bytes(b"#" * (LARGEST_FILE + 1))

    fault = read_text(path, "x.yaml")
    assert isinstance(fault, Fault)
    assert "x.yaml: came 2000001 bytes, expected at most 2000000 bytes; split the file" == fault.message
