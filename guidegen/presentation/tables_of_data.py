"""What the data set holds: its tables, with a name, a type, a unit and a rule for every column."""

from dataclasses import dataclass, field
from sys import intern
from typing import Literal

from guidegen.evaluation import Finding, Standing
from guidegen.presentation.choosing import place_text
from guidegen.presentation.formatting import rounded
from guidegen.records import Bracket, Library

Kind = Literal["string", "integer", "number", "date", "boolean"]
"""Type of a column, in the words of Table Schema."""
Value = str | float | int | bool | None
"""A value; nothing where there is none."""
NEVER_NEGATIVE = ("W", "A", "ms", "mm", "mV", "years")
"""Units of quantities that can't lie under nought."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DataColumn:
    """A column."""

    name: str
    """Heading in the CSV and field in the JSON; a measured number has its unit at the end."""
    title: str
    """What it is, in plain words."""
    kind: Kind = "string"
    """Type."""
    unit: str = ""
    """Unit as printed, or empty."""
    required: bool = False
    """Whether no row may lack it."""
    least: float | None = None
    """Least value that can be, or nothing."""
    measured: bool = False
    """Whether the bench measured it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DataTable:
    """A table of the data set."""

    name: str
    """Short name; the file is ``data/<name>.csv``."""
    title: str
    """What a row is, in plain words."""
    key: tuple[str, ...]
    """Columns that tell rows apart; empty where two rows may be alike."""
    columns: tuple[DataColumn, ...]
    """Columns, in order."""
    rows: tuple[tuple[Value, ...], ...] = field(repr=False)
    """Rows, as wide as ``columns``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredCell:
    """A measured number of a unit's row, with what its column needs to know."""

    column: str
    """Name of the column."""
    key: str
    """Key of the finding."""
    title: str
    """What it is, of this unit."""
    unit: str
    """Unit as printed, or empty."""
    value: float
    """Rounded as on the pages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitRow:
    """A unit's row before the columns of all units are known."""

    known: tuple[Value, ...]
    """What every unit has, as ``UNIT_COLUMNS``."""
    measured: tuple[MeasuredCell, ...]
    """What was measured of it."""


def unit_row(standing: Standing, bracket: Bracket) -> UnitRow:
    """The row of a unit: place, score, price and every published number."""
    findings = standing.candidate.result.findings
    cells = tuple(
        MeasuredCell(column=intern(_column_name(one)), key=one.key, title=one.title, unit=one.quantity.unit,
                     value=float(rounded(one.quantity.value, one.decimals)))
        for one in findings
    )
    bounds = " ".join(_column_name(one) for one in findings if one.upper_bound)
    return UnitRow(known=(*_known(standing, bracket), bounds or None), measured=cells)


UNIT_COLUMNS = (
    DataColumn(name="unit", title="Short name, part of the address of the unit's page", required=True),
    DataColumn(name="name", title="Maker and model", required=True),
    DataColumn(name="maker", title="Maker as on the box", required=True),
    DataColumn(name="bracket", title="Wattage bracket, part of the address of its page", required=True),
    DataColumn(name="rated_power_w", title="Rated power", kind="number", unit="W", required=True, least=0),
    DataColumn(name="place", title="Place in the bracket; empty where it is not advised", kind="integer", least=1),
    DataColumn(name="place_range", title="Places that the measurements leave open"),
    DataColumn(name="tier", title="Plain word for the score, by its short name", required=True),
    DataColumn(name="score", title="Score of 100, what is not known counted at its worst; empty where it has no place", kind="number", least=0),
    DataColumn(name="score_highest", title="Score of 100, what is not known counted at its best; empty where it has no place", kind="number", least=0),
    DataColumn(name="technical_score", title="Score of 100 before price, what is not known counted at its worst; empty where it has no place",
               kind="number", least=0),
    DataColumn(name="region", title="Region of the price", required=True),
    DataColumn(name="currency", title="Currency of the price, ISO 4217", required=True),
    DataColumn(name="price", title="Cheapest fresh price", kind="number", least=0),
    DataColumn(name="price_date", title="Day on which the price was seen", kind="date"),
    DataColumn(name="upper_bounds", title="Columns whose number is the most that it can be, a space between them; empty where none"),
)
"""Columns of the units that are no findings."""


def units_table(units: tuple[UnitRow, ...]) -> DataTable:
    """A row a unit; empty where nothing was tested."""
    cells: dict[str, list[MeasuredCell]] = {}
    for unit in units:
        for cell in unit.measured:
            cells.setdefault(cell.column, []).append(cell)
    measured = tuple(_measured_column(name, group) for name, group in cells.items())
    keys = [group[0].key for group in cells.values()]
    rows = tuple((*unit.known, *_numbers(unit, keys)) for unit in units)
    return DataTable(name="units", title="A row for every unit tested", key=("unit",),
                     columns=(*UNIT_COLUMNS, *measured), rows=rows)


def _known(standing: Standing, bracket: Bracket) -> tuple[Value, ...]:
    """What stands in every row but the bounds; no score without a place, like the page."""
    one = standing.candidate
    best, score = one.prices.best, one.score
    scores = (score.low, score.high, score.technical) if standing.place is not None else (None, None, None)
    return (
        one.id, one.name, one.result.unit.record.maker, bracket.id,
        float(rounded(one.result.unit.record.rated_power_w, 0)), standing.place,
        place_text(standing).replace("–", "-"), standing.tier.id,
        *(None if points is None else float(rounded(points, 1)) for points in scores),
        one.prices.region.id, one.prices.region.currency,
        best.row.price if best else None, best.row.date.isoformat() if best else None,
    )


def _numbers(unit: UnitRow, keys: list[str]) -> tuple[Value, ...]:
    found = {cell.key: cell.value for cell in unit.measured}
    return tuple(found.get(key) for key in keys)


def _measured_column(name: str, group: list[MeasuredCell]) -> DataColumn:
    """The column of a finding; where its title differs from unit to unit, the key says what it is."""
    first = group[0]
    same = all(cell.title == first.title for cell in group)
    title = first.title if same else first.key.replace(".", ", ").replace("_", " ").capitalize()
    unit = first.unit
    return DataColumn(name=name, title=title, kind="number", unit=unit, measured=True,
                      least=0 if unit in NEVER_NEGATIVE else None)


def _column_name(finding: Finding) -> str:
    """The finding's key with its unit, in letters that every program takes."""
    words = {"%": "pct", "dB(A)": "dba", "°C": "c"}
    suffix = words.get(finding.quantity.unit, finding.quantity.unit.lower())
    name = finding.key.replace(".", "_")
    return f"{name}_{suffix}" if suffix else name


def sessions_table(library: Library, *, units: frozenset[str], used: frozenset[str]) -> DataTable:
    """A row a bench session of some units: what was on the bench, where it came from, and which record and logs say so.

    ``used`` are the files of the sessions that the numbers rest on that are compared.
    """
    rows = tuple(
        (
            s.file, s.unit, s.record.date.isoformat(), s.record.sample.id, s.record.sample.obtained, s.record.sample.from_whom,
            s.record.sample.hardware_revision, s.record.tested_by, s.record.mains.voltage_v, s.record.mains.frequency_hz,
            s.record.ambient_c, len(s.record.load_points), " ".join(s.record.instruments), s.file in used,
            " ".join(f"{log.log} {log.sha256}" for log in s.record.provenance) or None,
        )
        for s in library.sessions if s.unit in units
    )
    columns = (
        DataColumn(name="session", title="Record of the session below the content folder", required=True),
        DataColumn(name="unit", title="Unit", required=True),
        DataColumn(name="date", title="Day of the session", kind="date", required=True),
        DataColumn(name="sample", title="Sample of the unit", required=True),
        DataColumn(name="obtained", title="Whether the sample was bought, loaned or given", required=True),
        DataColumn(name="from_whom", title="From whom the sample came"),
        DataColumn(name="hardware_revision", title="Hardware revision on the sample's label", required=True),
        DataColumn(name="tested_by", title="Who stood at the bench", required=True),
        DataColumn(name="mains_v", title="Mains voltage", kind="number", unit="V", required=True, least=0),
        DataColumn(name="mains_hz", title="Mains frequency", kind="number", unit="Hz", required=True, least=0),
        DataColumn(name="ambient_c", title="Air in the room", kind="number", unit="°C", required=True),
        DataColumn(name="load_points", title="How many steady loads were taken", kind="integer", required=True, least=3),
        DataColumn(name="instruments", title="Instruments by their short names, a space between them", required=True),
        DataColumn(name="compared", title="Whether the numbers that are compared rest on it", kind="boolean", required=True),
        DataColumn(name="logs", title="Logs that it was made from, each with its SHA-256; empty where none"),
    )
    return DataTable(name="sessions", title="A row for every session on the bench", key=("session",), columns=columns, rows=rows)


def prices_table(library: Library, *, units: frozenset[str]) -> DataTable:
    """A row a price or stock that was seen, in every region, of some units."""
    rows = tuple(
        (
            prices.region, row.date.isoformat(), row.unit, row.price, row.currency, row.stock, row.shop, row.shop_kind,
            row.paid_link, row.link or None,
        )
        for prices in library.prices for row in prices.rows if row.unit in units
    )
    columns = (
        DataColumn(name="region", title="Region", required=True),
        DataColumn(name="date", title="Day on which it was seen", kind="date", required=True),
        DataColumn(name="unit", title="Unit", required=True),
        DataColumn(name="price", title="Price; empty where only the stock was seen", kind="number", least=0),
        DataColumn(name="currency", title="Currency, ISO 4217", required=True),
        DataColumn(name="stock", title="Stock", required=True),
        DataColumn(name="shop", title="Shop", required=True),
        DataColumn(name="shop_kind", title="Kind of shop", required=True),
        DataColumn(name="paid_link", title="Whether the lab earns through the link", kind="boolean", required=True),
        DataColumn(name="link", title="Address of the offer"),
    )
    return DataTable(name="prices", title="A row for every price or stock seen", key=(), columns=columns, rows=rows)
