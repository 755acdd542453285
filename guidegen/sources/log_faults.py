"""A CSV log gone through line by line, when something in it is wrong: which line, which column, and what to do."""

import csv
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from itertools import islice
from pathlib import Path

from guidegen.errors import Fault
from guidegen.origins import Origin
from guidegen.sources.log_forms import Form

MOST_FAULTS = 20
"""Faults said at once; a log that was read wrongly has one a line."""
LARGEST_NUMBER = 1e12
"""Largest reading; what is beyond it is an overflow of the logger."""
_POINT = re.compile(r"[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?")
_EITHER = re.compile(r"[-+]?[0-9]+([.,])[0-9]+")


@dataclass(slots=True)
class _Scan:
    """What is known about the present row."""

    form: Form
    line: int = 0
    text: str = ""
    before: float = -math.inf
    stated: str = ""
    faults: list[Fault] = field(default_factory=list)

    def note(self, came: str, expected: str, *, place: int | None = None) -> None:
        """Notes a fault of the present row, or of one of its cells."""
        origin = Origin(self.form.file)
        column = 1
        if place is not None:
            origin, column = origin.at(self.form.heading[place]), _column(self.text, self.form.separator, place)
        text = _readable(self.text)[:200]
        self.faults.append(
            Fault(origin=origin, line=self.line, column=column, came=came, expected=expected, text=text, rule="log")
        )


def log_faults(path: Path, form: Form) -> tuple[Fault, ...]:
    """The first faults of a log, in the order of its lines."""
    scan = _Scan(form)
    with path.open(encoding="utf-8-sig", errors="surrogateescape", newline="") as stream:
        for _ in range(form.first_line - 1):
            stream.readline()
        try:
            for line, cells, text in _rows(stream, form):
                scan.line, scan.text = line, text.rstrip("\r\n")
                _row(scan, cells)
                if len(scan.faults) >= MOST_FAULTS:
                    break
        except csv.Error as error:
            scan.faults.append(Fault(origin=Origin(form.file), came=f"a table that breaks off ({error})", rule="log",
                                     expected="cells between separators, each opening quote closed"))
    return tuple(scan.faults[:MOST_FAULTS])


def _rows(stream: Iterator[str], form: Form) -> Iterator[tuple[int, list[str], str]]:
    """Rows with the line each begins on and its text."""
    kept: list[str] = []

    def lines() -> Iterator[str]:
        for line in stream:
            kept.append(line)
            yield line

    reader = csv.reader(lines(), delimiter=form.separator, strict=True)
    line = form.first_line
    for cells in reader:
        yield line, cells, kept[0] if kept else ""
        line += len(kept)
        kept.clear()


def _row(scan: _Scan, cells: list[str]) -> None:
    form = scan.form
    if not cells:
        scan.note("an empty line", "a row of readings; rows follow each other without a gap")
    elif len(cells) != len(form.heading):
        hint = "; decimal commas need another separator" if form.separator == "," and len(cells) > len(form.heading) else ""
        scan.note(f"{len(cells)} cells", f"{len(form.heading)}, as many as the heading has{hint}")
    elif scan.line == form.first_line and not any(_POINT.fullmatch(cells[u.place].strip().replace(",", ".")) for u in form.used):
        scan.note("a second row of headings", f"readings; the mapping says header_rows: {form.mapping.header_rows}")
    else:
        _time(scan, cells[form.time].strip())
        for used in form.used:
            cell = cells[used.place].strip()
            if not _is_number(cell, form.decimal):
                scan.note(_shown(cell), _wanted(cell, form.decimal), place=used.place)


def _time(scan: _Scan, cell: str) -> None:
    """The time of a row has to be one, and later than that of the row before."""
    form = scan.form
    iso = form.mapping.time.format == "iso"
    now = _stamp(cell) if iso else _figure(cell, form.decimal)
    if now is None:
        expected = "day and time such as 2026-03-02T14:05:00.5" if iso else _wanted(cell, form.decimal)
        scan.note(_shown(cell), expected, place=form.time)
        return
    if now <= scan.before:
        scan.note(cell, f"a time after that of the row before, {scan.stated}", place=form.time)
    scan.before, scan.stated = now, cell


def _stamp(cell: str) -> float | None:
    try:
        found = datetime.fromisoformat(cell)
    except ValueError:
        return None
    return (found if found.tzinfo else found.replace(tzinfo=UTC)).timestamp()


def _figure(cell: str, decimal: str) -> float | None:
    return float(cell.replace(decimal, ".")) if _is_number(cell, decimal) else None


def _is_number(cell: str, decimal: str) -> bool:
    if decimal == "," and "." in cell:
        return False
    plain = cell.replace(decimal, ".")
    return _POINT.fullmatch(plain) is not None and abs(float(plain)) <= LARGEST_NUMBER


def _wanted(cell: str, decimal: str) -> str:
    found = _EITHER.fullmatch(cell)
    if found is None or found[1] == decimal:
        return "a number"
    word, other = ("point", "comma") if decimal == "." else ("comma", "point")
    return f"a number with a {word} as decimal mark, {cell.replace(found[1], decimal)}, or decimal: {other} in the mapping"


def _column(text: str, separator: str, place: int) -> int:
    """Column of a cell in its line, from 1; quotes are not looked into."""
    return sum(len(cell) + 1 for cell in islice(text.split(separator), place)) + 1


def _shown(cell: str) -> str:
    clean = _readable(cell)
    return "an empty cell" if not clean else clean if len(clean) <= 60 else f"{clean[:59]}…"


def _readable(text: str) -> str:
    """Text without what can't be printed."""
    return "".join(char if char.isprintable() or char == "\t" else "�" for char in text)
