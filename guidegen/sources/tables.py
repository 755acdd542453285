"""Price tables: CSV with a strict heading, a row a price."""

import csv
import io
import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from functools import lru_cache

from guidegen.errors import Fault, nearest_name
from guidegen.origins import Origin
from guidegen.records import PriceRow
from guidegen.sources.documents import MOST_FAULTS, lines_of
from guidegen.sources.scalars import without_comma
from guidegen.sources.shaping import shape
from guidegen.sources.strict_yaml import Place, Places

COLUMNS = ("date", "unit", "price", "currency", "stock", "shop", "shop_kind", "link", "paid_link")
"""Columns of a price table, in any order; each has to be there."""
_AMOUNT = re.compile(r"-?[0-9]+(\.[0-9]+)?")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_CURRENCY_MARK = re.compile(r"^\s*[$€£¥]|[$€£¥]\s*$|^[A-Z]{3}\s|\s[A-Z]{3}$")
_ROWS = tuple[PriceRow, ...]


def read_prices(text: str, file: str) -> tuple[_ROWS, tuple[Fault, ...]]:
    """The rows of a price table and every fault in it; the place of a row among all rows is part of its path."""
    rows, faults = read_rows(text, file)
    return (() if faults else tuple(rows.values())), faults


def read_rows(text: str, file: str) -> tuple[dict[int, PriceRow], tuple[Fault, ...]]:
    """The rows of a price table that have the right shape, by their place among all rows, and every fault of the others."""
    try:
        table = list(_rows(text))
    except csv.Error as error:
        return {}, (Fault(origin=Origin(file), line=1, came=f"a table that breaks off ({error})",
                          expected="cells between commas, each opening quote closed", rule="table"),)
    if not table:
        expected = f"the heading {','.join(COLUMNS)}"
        return {}, (Fault(origin=Origin(file), line=1, came="an empty file", expected=expected, rule="table"),)
    line, heading = table[0]
    faults = _heading_faults(heading, Origin(file), line=line, text=lines_of(text)[line - 1])
    return ({}, faults) if faults else _shaped(heading, table[1:], Origin(file))


def row_lines(text: str) -> tuple[int, ...]:
    r"""The line on which each row of a table below its heading begins.

    >>> row_lines("a,b\n1,2\n\n3,4\n")
    (2, 4)
    """
    return tuple(line for line, _ in _rows(text))[1:]


def places_of_table(text: str) -> Places:
    """Where each row and cell of a table stands; a cell's column is that of its line's start."""
    try:
        table = list(_rows(text))
    except csv.Error:
        return {}
    if not table:
        return {}
    places: Places = {(): Place(table[0][0], 1, table[0][0], 1, "a table", scalar=False)}
    lines = lines_of(text)
    for number, (line, cells) in enumerate(table[1:]):
        places[number,] = Place(line, 1, line, 1, "a row", scalar=False)
        start = 0
        for name, cell in zip(table[0][1], cells, strict=False):
            found = lines[line - 1].find(cell, start)
            column = found + 1 if found >= 0 else 1
            start = max(found, start) + len(cell)
            places[number, name] = Place(line, column, line, column, cell or "an empty cell", scalar=True)
    return places


def _rows(text: str) -> Iterator[tuple[int, list[str]]]:
    """Rows that are not empty, each with the line it begins on."""
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    line = 1
    for cells in reader:
        if any(cells):
            yield line, cells
        line = reader.line_num + 1


def _heading_faults(heading: list[str], origin: Origin, *, line: int, text: str) -> tuple[Fault, ...]:
    fault = Fault(origin=origin, line=line, text=text, rule="table")
    if len(heading) == 1 and ";" in heading[0]:
        return (replace(fault, came="cells between semicolons", expected="cells between commas"),)
    unknown = [name for name in dict.fromkeys(heading) if name not in COLUMNS]
    meant = {name: nearest_name(name, tuple(c for c in COLUMNS if c not in heading)) for name in unknown}
    missing = [name for name in COLUMNS if name not in heading and name not in meant.values()]
    twice = [name for name in dict.fromkeys(heading) if heading.count(name) > 1]
    return (
        *(replace(fault, origin=origin.at(name), came=name or "a column without a name",
                  expected="a column of a price table", nearest=meant[name]) for name in unknown),
        *(replace(fault, came="nothing", expected=f"the column {name}") for name in missing),
        *(replace(fault, origin=origin.at(name), came=f"{name} a second time", expected="each column once") for name in twice),
    )


def _decimal_comma(heading: list[str], cells: list[str]) -> str:
    """What to write for a price whose comma makes two cells of it, or empty."""
    at = heading.index("price") if "price" in heading else len(cells)
    halves = [cell.strip() for cell in cells[at:at + 2]]
    if len(cells) != len(heading) + 1 or len(halves) < 2 or not all(half.replace(".", "", 1).isdecimal() for half in halves):
        return ""
    return f"; for the price, {without_comma(*halves)}"


def _shaped(heading: list[str], table: list[tuple[int, list[str]]], origin: Origin) -> tuple[dict[int, PriceRow], tuple[Fault, ...]]:
    """The rows as records; one that has the wrong number of cells is not looked into."""
    faults: list[Fault] = []
    rows: dict[int, PriceRow] = {}
    columns = tuple((name, _MEANT.get(name, str)) for name in heading)
    for number, (_, cells) in enumerate(table):
        if len(faults) >= MOST_FAULTS:
            break
        if len(cells) != len(heading):
            faults.append(Fault(origin=origin.at(number), came=f"{len(cells)} cells", rule="table",
                                expected=f"{len(heading)}, as many as the heading has{_decimal_comma(heading, cells)}"))
            continue
        value = {name: meant(cell.strip()) for (name, meant), cell in zip(columns, cells, strict=True)}
        row, found = shape(PriceRow, value, file=origin.file, above=(number,))
        faults += [_about_money(fault) for fault in found]
        if row is not None:
            rows[number] = row
    return rows, tuple(faults)


def _price(cell: str) -> float | str | None:
    return None if not cell else float(cell) if _AMOUNT.fullmatch(cell) else cell


def _truth(cell: str) -> bool | str:
    return {"true": True, "false": False}.get(cell, cell)


@lru_cache(maxsize=4096)
def _day(cell: str) -> date | str:
    try:
        return date.fromisoformat(cell) if _DAY.fullmatch(cell) else cell
    except ValueError:
        return cell


_MEANT: dict[str, Callable[[str], object]] = {"price": _price, "paid_link": _truth, "date": _day}
"""What makes of a cell what the record wants, by column; what does not look right stays text, for the checker to refuse."""


def _about_money(fault: Fault) -> Fault:
    """A price with the mark of its currency, or with more than a decimal comma in it."""
    if fault.origin.path[-1] == "price" and _CURRENCY_MARK.search(fault.came):
        return replace(fault, expected="the amount alone; the currency has a column of its own")
    return replace(fault, expected=fault.expected.replace(" without quotes", ""))
