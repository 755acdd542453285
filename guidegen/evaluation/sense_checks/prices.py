"""Prices: none far from the unit's others."""

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
