"""New rows on their way into a price table: read, checked against all other records, then put behind the rows there."""

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path

from guidegen.errors import ContentError, Fault, RequestError, unknown
from guidegen.origins import Origin
from guidegen.records import PriceList, PriceRow
from guidegen.sources.documents import LARGEST_TABLE, UTF8_MARK, lines_of, read_text
from guidegen.sources.draft import Draft
from guidegen.sources.folders import walk
from guidegen.sources.library import draft_of
from guidegen.sources.placing import placed, put_in_place
from guidegen.sources.references import check_prices
from guidegen.sources.tables import COLUMNS, places_of_table, read_rows
from guidegen.sources.writing import write_grown, write_new

_Key = tuple[object, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceEntry:
    """Rows that may be put behind those of a region's table."""

    file: str
    """The table below the content folder."""
    rows: tuple[PriceRow, ...]
    """Rows that are new, in the order in which they came."""
    source: str
    """The table that they came from."""
    lines: tuple[int, ...]
    """Where each of them begins there."""
    known: int
    """Rows left out because the table has them already, or because they came twice."""
    before: bytes | None
    """The table as it was read; nothing where there is none yet."""
    added: str
    """What will stand behind it."""
    draft: Draft
    """The content with the new rows, for checks of what numbers can be."""


def price_entry(content: Path, table: Path, region: str) -> PriceEntry:
    """What a table brings to a region; raises a ``ContentError`` with every fault, and writes nothing."""
    faults: list[Fault] = []
    draft = draft_of(walk(content), faults)
    if draft.guide is None:
        raise ContentError(placed(content, tuple(faults)))
    regions = tuple(one.id for one in draft.guide.regions)
    if region not in regions:
        raise RequestError(unknown("region", region, regions))
    file = f"prices/{region}.csv"
    faulty = tuple(fault for fault in faults if fault.origin.file == file)
    if faulty:
        raise ContentError(placed(content, faulty))
    there = next((one for one in draft.prices if one.file == file), PriceList(region=region, file=file, rows=()))
    came = _read(table, draft, there)
    fresh = _fresh(there, came)
    rows = tuple(fresh)
    before = (content / file).read_bytes() if (content / file).is_file() else None
    grown = PriceList(region=region, file=file, rows=(*there.rows, *rows))
    return PriceEntry(
        file=file, rows=rows, source=table.as_posix(), lines=tuple(fresh.values()), known=len(came) - len(rows),
        before=before, added=_text(rows, before), draft=_with_prices(draft, grown),
    )


def store_prices(content: Path, entry: PriceEntry) -> Path:
    """The new rows behind those of the table, all of them or none; nothing is done where there are none."""
    path = content / entry.file
    if not entry.rows:
        return path
    if entry.before is None:
        path.parent.mkdir(exist_ok=True)
        write_new(path, entry.added)
    else:
        write_grown(path, entry.before, entry.added.encode())
    return path


def _read(table: Path, draft: Draft, there: PriceList) -> tuple[tuple[PriceRow, int], ...]:
    """The rows of a table that fit the guide, each with its line; raises with every fault in it."""
    name = table.as_posix()
    text = read_text(table, name, largest=LARGEST_TABLE)
    if isinstance(text, Fault):
        raise ContentError((text,))
    rows, shapeless = read_rows(text, name)
    came, numbers = PriceList(region=there.region, file=name, rows=tuple(rows.values())), tuple(rows)
    found = (*check_prices(came, draft), *_contradictions(came, there))
    faults = (*shapeless, *(_renumbered(fault, numbers) for fault in found))
    places = places_of_table(text)
    if faults:
        raise ContentError(put_in_place(faults, places, lines_of(text)))
    return tuple((row, places[number,].line) for number, row in rows.items())


def _renumbered(fault: Fault, numbers: tuple[int, ...]) -> Fault:
    """The fault of a row at its place among all rows of the table, those without shape counted."""
    place, *rest = fault.origin.path
    return replace(fault, origin=Origin(fault.origin.file, (numbers[int(place)], *rest)))


def _contradictions(came: PriceList, there: PriceList) -> Iterator[Fault]:
    """A second price of a unit on a day in a shop."""
    seen = {_place(row): row for row in there.rows}
    for number, row in enumerate(came.rows):
        known = seen.setdefault(_place(row), row)
        if known != row:
            shown = "no price" if known.price is None else f"{known.price:.2f}"
            expected = f"one row a day, unit and shop; there is one with {shown}, {known.stock}, already"
            yield Fault(origin=Origin(came.file, (number,)), came="another row", expected=expected, rule="duplicate")


def _place(row: PriceRow) -> _Key:
    return row.date, row.unit, row.shop, row.shop_kind


def _fresh(there: PriceList, came: tuple[tuple[PriceRow, int], ...]) -> dict[PriceRow, int]:
    """The rows that the table does not have yet, each once, with the line where it came first."""
    known, fresh = frozenset(there.rows), dict[PriceRow, int]()
    for row, line in came:
        if row not in known:
            fresh.setdefault(row, line)
    return fresh


def _with_prices(draft: Draft, grown: PriceList) -> Draft:
    others = (one for one in draft.prices if one.file != grown.file)
    return replace(draft, prices=tuple(sorted((*others, grown), key=lambda one: one.file)))


def _text(rows: tuple[PriceRow, ...], before: bytes | None) -> str:
    """The rows as the table has them: its columns, its ends of lines."""
    written = before.removeprefix(UTF8_MARK).decode() if before is not None else ""
    end = "\r\n" if "\r\n" in written else "\n"
    columns = next((cells for cells in csv.reader(io.StringIO(written, newline="")) if any(cells)), list(COLUMNS))
    out = io.StringIO()
    writer = csv.writer(out, lineterminator=end)
    if before is None:
        writer.writerow(columns)
    writer.writerows([_cell(row, name) for name in columns] for row in rows)
    between = end if written and not written.endswith(("\n", "\r")) else ""
    return between + out.getvalue()


def _cell(row: PriceRow, column: str) -> str:
    value = getattr(row, column)
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, float):
        return f"{value:.2f}" if float(f"{value:.2f}") == value else f"{Decimal(repr(value)):f}"
    return "" if value is None else str(value)
