"""Records as YAML that a person would write, a row a load point, and that the strict reader reads back equal.

Beside frozen editions, guidegen writes two things into the content: a new session, where a file that is there is never
touched, and new rows behind those of a price table, which stay as they are.
"""

import os
import re
import tempfile
from dataclasses import MISSING, Field, fields, is_dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from guidegen.errors import RequestError
from guidegen.sources.scalars import plain_value

WIDTH = 116
"""Columns of a line, where a cell is not longer by itself."""
_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9_-]*(?: [A-Za-z0-9_-]+)*")
_ESCAPES = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t"}


def record_text(record: Any, *, head: str = "") -> str:
    """A record as YAML; fields that say what a missing field says too are left out.

    >>> from guidegen.records import Mains
    >>> record_text(Mains(voltage_v=230.0, frequency_hz=50.0))
    'voltage_v: 230.0\\nfrequency_hz: 50.0\\n'
    """
    words = " ".join("".join(char if char.isprintable() else " " for char in head).split())
    comment = [f"# {words}"] if words else []
    return "\n".join((*comment, *_lines(record, ""))) + "\n"


def write_new(path: Path, text: str) -> None:
    """A new file, there whole or not at all; a file that is there already is an error and stays as it is."""
    part = _part(path, text.encode())
    try:
        # A link, unlike a renaming, never takes the place of a file that somebody else made in the meantime.
        os.link(part, path)
    except FileExistsError as error:
        raise RequestError(f"{path} is there already and was not touched; take it away first, or choose another --suffix") from error
    except OSError as error:
        raise RequestError(f"{path} can't be written ({_reason(error)})") from error
    finally:
        part.unlink(missing_ok=True)


def write_grown(path: Path, before: bytes, added: bytes) -> None:
    """A file with something behind what it held, there whole or as it was; one that has changed since it was read stays."""
    part = _part(path, before + added)
    try:
        if path.read_bytes() != before:
            raise RequestError(f"{path} was changed in the meantime and was not touched; try again")
        part.replace(path)
    except OSError as error:
        raise RequestError(f"{path} can't be written ({_reason(error)})") from error
    finally:
        part.unlink(missing_ok=True)


def _part(path: Path, content: bytes) -> Path:
    """The content complete in a hidden file beside the one that it is meant for."""
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=".", suffix=".part")
    except OSError as error:
        raise RequestError(f"{path.parent} can't be written ({_reason(error)})") from error
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        part.chmod(0o644)
    except OSError as error:
        part.unlink(missing_ok=True)
        raise RequestError(f"{path} can't be written ({_reason(error)})") from error
    return part


def _reason(error: OSError) -> str:
    return (error.strerror or "no answer").lower()


def _lines(record: Any, pad: str) -> list[str]:
    """The fields of a record, one below the other."""
    out: list[str] = []
    for field in fields(record):
        value = getattr(record, field.name)
        if value is None or _is_default(field, value):
            continue
        if isinstance(value, tuple) and value and is_dataclass(value[0]):
            out.append(f"{pad}{field.name}:")
            for row in value:
                out += _row(row, f"{pad}  - ")
        elif is_dataclass(value) and any(isinstance(getattr(value, inner.name), tuple) for inner in fields(value)):
            out += [f"{pad}{field.name}:", *_lines(value, f"{pad}  ")]
        elif is_dataclass(value):
            out += _row(value, f"{pad}{field.name}: ", under=len(pad) + 2)
        else:
            out.append(f"{pad}{field.name}: {scalar(value)}")
    return out


def _is_default(field: "Field[Any]", value: Any) -> bool:
    """Whether a field has the value that it has where it is left out; needed ones are always written."""
    return field.default is not MISSING and bool(field.default == value)


def _row(record: Any, lead: str, *, under: int = 0) -> list[str]:
    """A flat record in braces, going on under itself where it is long."""
    cells = [
        f"{field.name}: {scalar(value)}"
        for field in fields(record)
        if (value := getattr(record, field.name)) is not None and not _is_default(field, value)
    ]
    out, line = [], lead + "{"
    for place, cell in enumerate(cells):
        piece = cell + (", " if place < len(cells) - 1 else "}")
        if len(line) + len(piece) > WIDTH and not line.endswith("{"):
            out.append(line.rstrip())
            line = " " * (under or len(lead) + 1)
        line += piece
    return [*out, line if cells else lead + "{}"]


def scalar(value: Any) -> str:
    r"""A value as YAML has it; text in quotation marks unless it is plain words.

    >>> scalar("12v"), scalar("bought"), scalar("yes"), scalar(1e-7), scalar((1.5, 2))
    ('"12v"', 'bought', '"yes"', '0.0000001', '[1.5, 2]')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, float):
        return _figure(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return f"[{', '.join(scalar(item) for item in value)}]"
    text = str(value)
    return text if _PLAIN.fullmatch(text) and plain_value(text) == text else f'"{"".join(map(_character, text))}"'


def _figure(value: float) -> str:
    """A number without a power of ten, which the reader refuses."""
    short = repr(value)
    return f"{Decimal(short):f}" if "e" in short else short


def _character(char: str) -> str:
    """A character between quotation marks; those that can't be seen by their number."""
    if char in _ESCAPES:
        return _ESCAPES[char]
    if char.isprintable():
        return char
    code = ord(char)
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
