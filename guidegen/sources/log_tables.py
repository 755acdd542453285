"""CSV logs, read in pieces by pandas; whatever looks wrong sends the log to ``log_faults`` for the line and the words."""

from array import array
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import pandas as pd

from guidegen.errors import ContentError
from guidegen.records import LogMapping
from guidegen.sources.log_faults import LARGEST_NUMBER, log_faults
from guidegen.sources.log_forms import Form, form_of, refuse

PIECE = 100_000
"""Rows read at once."""
MOST_ROWS = 5_000_000
"""Rows that a log may have: a reading a second for two months."""
PER_SECOND = {"s": 1.0, "ms": 0.001, "min": 60.0}
"""Seconds in a unit of time."""
_START = 65_536
_BLOCK = 1 << 20


@dataclass(slots=True)
class Filling:
    """A log on its way from the file: a number a row for the time and for every used column."""

    form: Form
    """How it is read."""
    seconds: "array[float]"
    """Time, s."""
    values: "list[array[float]]"
    """Columns in the order of the form."""
    day: date | None = None
    """Day of the first row where the log tells it."""
    doubtful: bool = False
    """Whether something has to be looked at line by line."""


@dataclass(frozen=True, slots=True)
class _Counts:
    """What can be counted in the bytes of a file."""

    lines: int
    separators: int
    odd: bool
    """Whether there are quotes or bytes that are no text."""


def read_table(path: Path, mapping: LogMapping, file: str) -> Filling:
    """A CSV log; raises a ``ContentError`` with the first faults in it."""
    with path.open("rb") as stream:
        start = stream.read(_START)
    form = form_of(start if len(start) < _START else start[: start.rfind(b"\n") + 1], mapping, file)
    counts = _counted(path, form)
    filling = Filling(form, array("d"), [array("d") for _ in form.used])
    try:
        for piece in _pieces(path, form):
            _take(filling, piece)
            if filling.doubtful:
                break
    except (ValueError, OverflowError, pd.errors.ParserError):
        filling.doubtful = True
    rows = len(filling.seconds)
    expected = rows * (len(form.heading) - 1)
    whole = not filling.doubtful and counts == _Counts(rows, expected, odd=False)
    if not whole and (faults := log_faults(path, form)):
        raise ContentError(faults)
    if rows == 0:
        raise refuse(file, "a log without a row", "rows of readings below the heading", line=form.first_line)
    if filling.doubtful or counts.lines != rows:
        raise refuse(file, f"a table of {counts.lines} lines and {rows} rows", "a line a row, each closed by a line feed")
    return filling


def _counted(path: Path, form: Form) -> _Counts:
    """Lines and separators below the heading; raises a ``ContentError`` for a last line that is not closed."""
    lines = separators = 0
    odd, last = False, b""
    with path.open("rb") as stream:
        for _ in range(form.first_line - 1):
            last = stream.readline() or last
        while block := stream.read(_BLOCK):
            lines += block.count(b"\n")
            separators += block.count(form.separator.encode())
            odd = odd or b'"' in block or b"\x00" in block
            last = block
    if last and not last.endswith(b"\n"):
        tail = last[last.rfind(b"\n") + 1 :][:200].decode("utf-8", errors="replace")
        expected = "whole rows, each closed by a line feed; take the last one out if the log was cut"
        raise refuse(form.file, "a last line that breaks off", expected, line=form.first_line + lines, text=tail)
    return _Counts(lines, separators, odd)


def _pieces(path: Path, form: Form) -> Iterator[pd.DataFrame]:
    """The log in pieces; columns by their place."""
    iso = form.mapping.time.format == "iso"
    kinds: dict[int, Any] = {one.place: "float64" for one in form.used} | {form.time: "str" if iso else "float64"}
    kinds.setdefault(len(form.heading) - 1, "str")
    reader = pd.read_csv(
        path, sep=form.separator, decimal=form.decimal, header=None, names=list(range(len(form.heading))), index_col=False,
        usecols=sorted(kinds), dtype=kinds, skiprows=form.first_line - 1, keep_default_na=False, chunksize=PIECE,
        encoding="utf-8-sig", encoding_errors="replace",
    )
    with reader:
        yield from reader


def _take(filling: Filling, piece: pd.DataFrame) -> None:
    """A piece put behind those before it; in doubt where a number or a time is not what it should be."""
    form = filling.form
    seconds = _seconds(filling, piece[form.time])
    before = filling.seconds[-1] if filling.seconds else None
    steps = seconds.diff().iloc[1:]
    filling.doubtful = (
        bool((steps <= 0).any()) or not bool(seconds.between(-LARGEST_NUMBER, LARGEST_NUMBER).all())
        or (before is not None and seconds.iloc[0] <= before)
        or bool((piece.iloc[:, -1] == "").any())
        or len(filling.seconds) + len(piece) > MOST_ROWS
    )
    if len(filling.seconds) + len(piece) > MOST_ROWS:
        raise refuse(form.file, f"more than {MOST_ROWS} rows", f"at most {MOST_ROWS}; split the log")
    filling.seconds.frombytes(seconds.to_numpy(dtype="float64").tobytes())
    for values, used in zip(filling.values, form.used, strict=True):
        column = piece[used.place]
        filling.doubtful = filling.doubtful or not bool(column.between(-LARGEST_NUMBER, LARGEST_NUMBER).all())
        values.frombytes(column.to_numpy(dtype="float64").tobytes())


def _seconds(filling: Filling, column: "pd.Series[Any]") -> "pd.Series[float]":
    """Time of rows in s; of days and times, since midnight UTC of 1970."""
    unit = filling.form.mapping.time.format
    if unit != "iso":
        return column * PER_SECOND[unit]
    if filling.day is None:
        filling.day = date.fromisoformat(str(column.iloc[0]).strip()[:10])
    stamps = pd.to_datetime(column, format="ISO8601", utc=True)
    return (stamps - pd.Timestamp(0, tz="UTC")).dt.total_seconds()
