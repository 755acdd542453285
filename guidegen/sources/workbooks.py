"""XLSX logs: cells read one row after the other; formulas, and files that unpack to a flood, are refused."""

import math
import warnings
import zipfile
import zlib
from array import array
from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from openpyxl import load_workbook
from openpyxl.utils.exceptions import InvalidFileException

from guidegen.errors import ContentError, Fault, nearest_name
from guidegen.origins import Origin
from guidegen.records import LogMapping
from guidegen.sources.log_faults import LARGEST_NUMBER, MOST_FAULTS
from guidegen.sources.log_forms import MOST_COLUMNS, Form, placed_columns, refuse
from guidegen.sources.log_tables import PER_SECOND, Filling

LARGEST_UNPACKED = 300_000_000
"""Bytes that a workbook may unpack to; half a million rows of ten numbers have about that."""
MOST_PACKED = 200
"""How many times larger than the file its content may be; numbers in XML pack to a tenth or a twentieth."""
_BROKEN = (
    zipfile.BadZipFile, InvalidFileException, SyntaxError, zlib.error, KeyError, ValueError, TypeError, AttributeError,
    IndexError, EOFError, NotImplementedError, RuntimeError, OSError,
)
"""What openpyxl and what it stands on raise for a file that is not quite a workbook; XML that breaks is a ``SyntaxError``."""


def read_workbook(path: Path, mapping: LogMapping, file: str) -> Filling:
    """An XLSX log; raises a ``ContentError`` with the first faults in it."""
    try:
        _check_size(path, file)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            book = load_workbook(path, read_only=True, data_only=False, keep_links=False)
            try:
                return _sheet(book[_sheet_name(book.sheetnames, mapping, file)], mapping, file)
            finally:
                book.close()
    except _BROKEN as error:
        raise refuse(file, f"a workbook that can't be read ({type(error).__name__})", "a workbook saved as XLSX") from error


def _check_size(path: Path, file: str) -> None:
    """Refuses a file whose content is much larger than it can be."""
    with zipfile.ZipFile(path) as packed:
        unpacked = sum(entry.file_size for entry in packed.infolist())
        if any(b"<!DOCTYPE" in _beginning(packed, entry) for entry in packed.infolist()):
            raise refuse(file, "a workbook that defines its own words for XML", "a workbook saved as XLSX")
    most = min(LARGEST_UNPACKED, max(MOST_PACKED * path.stat().st_size, 1_000_000))
    if unpacked > most:
        raise refuse(file, f"a workbook that unpacks to {unpacked} bytes", f"at most {most} bytes; save the log as CSV")


def _beginning(packed: zipfile.ZipFile, entry: zipfile.ZipInfo) -> bytes:
    with packed.open(entry) as part:
        return part.read(4096)


def _sheet_name(names: list[str], mapping: LogMapping, file: str) -> str:
    wanted = mapping.sheet
    if wanted is None and len(names) == 1:
        return names[0]
    if wanted is not None and wanted in names:
        return wanted
    expected = f"sheet: one of {', '.join(names[:10])} in the mapping" if wanted is None else f"the sheet {wanted} of the mapping"
    nearest = nearest_name(wanted, tuple(names)) if wanted else ""
    fault = Fault(origin=Origin(file), came=f"{len(names)} sheets", expected=expected, nearest=nearest, rule="log")
    raise ContentError((fault,))


def _sheet(sheet: Any, mapping: LogMapping, file: str) -> Filling:
    """The rows of a sheet; the heading's width is that of the table."""
    line = mapping.rows_above + 1
    top = list(sheet.iter_rows(min_row=line, max_row=line, max_col=MOST_COLUMNS + 1, values_only=True))
    names = ["" if value is None else str(value).strip() for value in (top[0] if top else ())]
    while names and not names[-1]:
        names.pop()
    if not names:
        raise refuse(file, "an empty log", f"a heading on row {line}", line=line)
    time, used = placed_columns(tuple(names), mapping, file)
    form = Form(file=file, mapping=mapping, heading=tuple(names), time=time, used=used)
    filling = Filling(form, array("d"), [array("d") for _ in used])
    faults: list[Fault] = []
    for number, row in enumerate(_rows(sheet, form), form.first_line):
        faults += _take(filling, row, number)
        if len(faults) >= MOST_FAULTS:
            break
    if faults:
        raise ContentError(tuple(faults[:MOST_FAULTS]))
    if not filling.seconds:
        raise refuse(file, "a log without a row", "rows of readings below the heading", line=form.first_line)
    return filling


def _rows(sheet: Any, form: Form) -> Iterator[tuple[Any, ...]]:
    """Rows below the heading, up to the last that is not empty."""
    empty: list[tuple[Any, ...]] = []
    for row in sheet.iter_rows(min_row=form.first_line, max_col=len(form.heading) + 1):
        if all(cell.value is None for cell in row):
            empty.append(row)
            if len(empty) > 1000:
                return
            continue
        yield from empty
        empty.clear()
        yield row


def _take(filling: Filling, row: tuple[Any, ...], number: int) -> Iterator[Fault]:
    """A row put behind those before it; a fault for each cell that is not what it should be."""
    form = filling.form
    if len(row) > len(form.heading) and row[len(form.heading)].value is not None:
        yield _fault(form, number, len(form.heading), came="a cell beside the table", expected="cells below the headings")
    seconds = _seconds(filling, row[form.time])
    if seconds is None:
        iso = form.mapping.time.format == "iso"
        yield _wrong(form, number, form.time, cell=row[form.time], expected="a day and time" if iso else "a number")
    elif filling.seconds and seconds <= filling.seconds[-1]:
        yield _wrong(form, number, form.time, cell=row[form.time], expected="a time after that of the row before")
    filling.seconds.append(math.nan if seconds is None else seconds)
    for values, used in zip(filling.values, form.used, strict=True):
        cell = row[used.place]
        figure = _number(cell)
        if figure is None:
            yield _wrong(form, number, used.place, cell=cell, expected="a number")
        values.append(math.nan if figure is None else figure)


def _number(cell: Any) -> float | None:
    value = cell.value
    plain = isinstance(value, int | float) and not isinstance(value, bool) and cell.data_type == "n"
    return float(value) if plain and abs(value) <= LARGEST_NUMBER else None


def _seconds(filling: Filling, cell: Any) -> float | None:
    """The time of a row, s."""
    unit = filling.form.mapping.time.format
    if unit != "iso":
        figure = _number(cell)
        return None if figure is None else figure * PER_SECOND[unit]
    stamp = cell.value
    if isinstance(stamp, str) and cell.data_type != "f":
        try:
            stamp = datetime.fromisoformat(stamp.strip())
        except ValueError:
            return None
    if not isinstance(stamp, datetime):
        return None
    if filling.day is None:
        filling.day = date(stamp.year, stamp.month, stamp.day)
    return (stamp if stamp.tzinfo else stamp.replace(tzinfo=UTC)).timestamp()


def _wrong(form: Form, number: int, place: int, *, cell: Any, expected: str) -> Fault:
    if cell.data_type == "f":
        return _fault(form, number, place, came="a formula", expected=f"{expected}; paste the values alone")
    came = "an empty cell" if cell.value is None else str(cell.value)[:60]
    return _fault(form, number, place, came=came, expected=expected)


def _fault(form: Form, number: int, place: int, *, came: str, expected: str) -> Fault:
    name = form.heading[place] if place < len(form.heading) else ""
    origin = Origin(form.file).at(name) if name else Origin(form.file)
    return Fault(origin=origin, line=number, column=place + 1, came=came, expected=expected, rule="log")
