"""Files as text: bytes in, characters out, or the fault that stands in the way."""

import re
from pathlib import Path

from guidegen.errors import Fault
from guidegen.origins import Origin

LARGEST_FILE = 2_000_000
"""Bytes that a file of the content may have; a session record has about ten thousand."""
LARGEST_PAGE = 50_000
"""Bytes that a page of prose may have, eight thousand words; brackets alone would keep Markdown busy for two seconds."""
LARGEST_TABLE = 20_000_000
"""Bytes that a price table may have; a year of daily rows of a thousand units has about that."""
MOST_FAULTS = 200
"""Faults of a kind that are told of one file; whoever has more has a file of another kind."""
UTF8_MARK = b"\xef\xbb\xbf"
"""What some editors write at the start of a UTF-8 file."""
_LINE_END = re.compile("\r\n|[\n\r\x85\u2028\u2029]")
# All but control characters, those that turn the direction of what follows (UAX #9), and code points that are no characters:
# none of them can be seen, XML 1.0 can't hold the first, and an override left open turns the words round it, too. Said by
# what may stand, the letters of a text pass the first look; held against a list of what may not, each goes through all of it.
_SEEN = "\t\n\r -~\x85\xa0-\u2029\u202f-\u2065\u206a-\ud7ff\ue000-\ufdcf\ufdf0-\ufffd" + "".join(
    f"{chr(plane)}-{chr(plane + 0xFFFD)}" for plane in range(0x10000, 0x110000, 0x10000)
)
_CONTROL = re.compile(f"[^{_SEEN}]")
_WIDE_MARKS = (b"\xff\xfe", b"\xfe\xff")


def lines_of(text: str) -> list[str]:
    r"""The lines of a text, as YAML counts them.

    >>> lines_of("a: 1\r\nb: 2")
    ['a: 1', 'b: 2']
    """
    return _LINE_END.split(text)


def line_text(lines: list[str], line: int) -> str:
    """The line counted from 1, or an empty text where there is none."""
    return lines[line - 1] if 0 < line <= len(lines) else ""


def within(lines: list[str], line: int, column: int) -> tuple[int, int]:
    """A place of a text; the end of its last line for one behind it."""
    return (line, column) if line <= len(lines) else (len(lines), len(lines[-1]) + 1)


def control_in(text: str) -> str:
    r"""The first control character of a text, as a fault names it; empty where there is none.

    >>> control_in("12\u202e V"), control_in("12 V")
    ('the control character U+202E', '')
    """
    found = _CONTROL.search(text)
    return f"the control character U+{ord(found[0]):04X}" if found else ""


def read_text(path: Path, file: str, *, largest: int = LARGEST_FILE) -> str | Fault:
    """The characters of a file, or why they can't be had."""
    raw = read_raw(path, file, largest=largest)
    return raw if isinstance(raw, Fault) else decoded(raw, file)


def read_raw(path: Path, file: str, *, largest: int = LARGEST_FILE) -> bytes | Fault:
    """The bytes of a file, or why they can't be had."""
    try:
        size = path.stat().st_size
        raw = path.read_bytes() if size <= largest else b""
    except OSError as error:
        reason = (error.strerror or "no answer").lower()
        return Fault(origin=Origin(file), came=f"a file that can't be read ({reason})", expected="a readable file", rule="file")
    if size > largest:
        return Fault(
            origin=Origin(file), came=f"{size} bytes", expected=f"at most {largest} bytes; split the file", rule="file"
        )
    return raw


def decoded(raw: bytes, file: str) -> str | Fault:
    """The characters of some bytes in UTF-8, or the place of the first that are none."""
    if raw.startswith(_WIDE_MARKS):
        return Fault(
            origin=Origin(file), line=1, column=1, came="a file in UTF-16",
            expected="UTF-8; choose it when saving the file", rule="file",
        )
    try:
        text = raw.removeprefix(UTF8_MARK).decode()
    except UnicodeDecodeError as error:
        good = error.object[: error.start].decode()
        return _at(file, good, came=f"the byte {error.object[error.start]:02x}", text=lines_of(good)[-1])
    found = _CONTROL.search(text)
    if found is None:
        return text
    lines = lines_of(text[: found.start()])
    return _at(file, text[: found.start()], came=control_in(found[0]), text=lines[-1])


def _at(file: str, before: str, *, came: str, text: str) -> Fault:
    """A fault of the characters right behind ``before``."""
    lines = lines_of(before)
    return Fault(
        origin=Origin(file), line=len(lines), column=len(lines[-1]) + 1, came=came,
        expected="text in UTF-8 without control characters; choose UTF-8 when saving the file", text=text, rule="file",
    )
