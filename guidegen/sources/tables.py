"""Price tables: CSV with a strict header, a row a price."""

import csv
import io
import re
from datetime import date
from typing import Any

from guidegen.errors import Fault, nearest_name
from guidegen.origins import Origin
from guidegen.records import PriceRow
from guidegen.sources.shaping import shape

COLUMNS = ("date", "unit", "price", "currency", "stock", "shop", "shop_kind", "link", "paid_link")
_AMOUNT = re.compile(r"^-?[0-9]+(\.[0-9]+)?$")
_DAY = re.compile(r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$")


def read_prices(text: str, file: str) -> tuple[tuple[PriceRow, ...], list[Fault]]:
    """The rows of a price file, or every fault in it."""
    lines = text.splitlines()
    rows = list(csv.reader(io.StringIO(text)))
    if not rows:
        return (), [Fault(origin=Origin(file), line=1, expected=f"the heading {','.join(COLUMNS)}", rule="table")]
    faults = _heading_faults(rows[0], file, lines)
    if faults:
        return (), faults
    kept: list[PriceRow] = []
    for number, cells in enumerate(rows[1:]):
        line = number + 2
        if not any(cells):
            continue
        shown_line = lines[line - 1] if line <= len(lines) else ""
        if len(cells) != len(rows[0]):
            faults.append(
                Fault(
                    origin=Origin(file, (number,)), line=line, came=f"{len(cells)} cells",
                    expected=f"{len(rows[0])}, as the heading has", text=shown_line, rule="table",
                )
            )
            continue
        row, found = _row(dict(zip(rows[0], cells, strict=True)), file, number, line=line, text=shown_line)
        faults += found
        if row is not None:
            kept.append(row)
    return tuple(kept), faults


def _heading_faults(heading: list[str], file: str, lines: list[str]) -> list[Fault]:
    text = lines[0] if lines else ""
    unknown = [name for name in heading if name not in COLUMNS]
    missing = [name for name in COLUMNS if name not in heading]
    twice = sorted({name for name in heading if heading.count(name) > 1})
    faults = [
        Fault(origin=Origin(file, (name,)), line=1, came=name, expected="a column of a price table",
              nearest=nearest_name(name, COLUMNS), text=text, rule="table")
        for name in unknown
    ]
    faults += [Fault(origin=Origin(file), line=1, expected=f"the column {name}", text=text, rule="table") for name in missing]
    faults += [Fault(origin=Origin(file), line=1, came=f"{name} twice", expected="each column once", text=text, rule="table")
               for name in twice]
    return faults


def _row(
    cells: dict[str, str], file: str, number: int, *, line: int, text: str
) -> tuple[PriceRow | None, list[Fault]]:
    value: dict[str, Any] = {name: _cell(name, cell.strip()) for name, cell in cells.items()}
    row, faults = shape(PriceRow, value, file=file, text="")
    placed = [
        Fault(
            origin=Origin(file, (number, *fault.origin.path)), line=line, came=fault.came,
            expected=_cell_wanted(fault), nearest=fault.nearest, text=text, rule=fault.rule,
        )
        for fault in faults
    ]
    return row, placed


def _cell(name: str, cell: str) -> Any:
    """A cell as the record wants it; what does not look right stays text, for the checker to refuse."""
    if name == "price":
        if cell == "":
            return None
        return float(cell) if _AMOUNT.match(cell) else cell
    if name == "date":
        return _day(cell)
    if name == "paid_link":
        return {"true": True, "false": False}.get(cell, cell)
    return cell


def _day(cell: str) -> date | str:
    if not _DAY.match(cell):
        return cell
    try:
        return date.fromisoformat(cell)
    except ValueError:
        return cell


def _cell_wanted(fault: Fault) -> str:
    if fault.origin.path and fault.origin.path[-1] == "price" and fault.came[:1] in "€$£¥":
        return "the amount alone: the currency has a column of its own"
    return fault.expected
