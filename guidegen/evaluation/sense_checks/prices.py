"""Prices: none far from the unit's others, and none told twice."""

from collections.abc import Iterator
from statistics import median

from guidegen.evaluation.sense_checks.shapes import Clash, SenseRecords
from guidegen.origins import Origin
from guidegen.records import PriceList, PriceRow

FACTOR = 3.0
"""A price this many times above the unit's median in the region, or below its part of it, is out of line."""
FEWEST = 3
"""With fewer prices none can be told to be the odd one."""


def outliers(records: SenseRecords) -> Iterator[tuple[str, Clash]]:
    """Prices far from the median of the unit's own in the same region; accepted in the unit's record."""
    for prices in records.prices:
        priced: dict[str, list[tuple[int, PriceRow, float]]] = {}
        for place, row in enumerate(prices.rows):
            if row.price is not None:
                priced.setdefault(row.unit, []).append((place, row, row.price))
        for identifier, rows in priced.items():
            unit = records.unit(identifier)
            if unit is not None and len(rows) >= FEWEST:
                yield from ((unit.file, clash) for clash in _far(prices, rows))


def _far(prices: PriceList, rows: list[tuple[int, PriceRow, float]]) -> Iterator[Clash]:
    middle = median(price for _, _, price in rows)
    for place, row, price in rows:
        if not middle / FACTOR <= price <= middle * FACTOR:
            yield Clash(
                Origin(prices.file, (place, "price")), f"{price:.2f} {row.currency}",
                f"within {FACTOR:g} times of the unit's median here, {middle:.2f} {row.currency}",
                name=f"{prices.region} {row.date.isoformat()} {row.shop}",
            )


def twice(records: SenseRecords) -> Iterator[tuple[str, Clash]]:
    """Rows of one unit, shop and day, of which only the last would count; accepted in the unit's record."""
    for prices in records.prices:
        seen: dict[tuple[object, ...], int] = {}
        for place, row in enumerate(prices.rows):
            first, unit = seen.setdefault((row.date, row.unit, row.shop, row.shop_kind), place), records.unit(row.unit)
            if first != place and unit is not None:
                came, expected = _again(prices, place, first)
                name = f"{prices.region} {row.date.isoformat()} {row.shop}"
                yield unit.file, Clash(Origin(prices.file, (place,)), came, expected, name=name)


def _again(prices: PriceList, place: int, first: int) -> tuple[str, str]:
    """What to say of a row that comes after another of the same unit, shop and day."""
    row, before = prices.rows[place], prices.rows[first]
    where = f"line {prices.lines[first]}" if prices.lines else f"row {first + 1}"
    if row == before:
        return f"the row of {where} a second time", "each row once"
    expected = f"one row a unit, shop and day; {where} has {_offer(before)}"
    return f"{_offer(row)} of {row.unit} at {row.shop} on {row.date.isoformat()}", expected


def _offer(row: PriceRow) -> str:
    price = "no price" if row.price is None else f"{row.price:.2f} {row.currency}"
    return f"{price}, {row.stock}"
