"""What the units of a bracket cost on given days: the lowest, the middle and the highest price that could be paid."""

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from statistics import median

from guidegen.evaluation.prices import PriceView
from guidegen.records import PriceRow

FEWEST = 3
"""Units with a price that make a range worth the name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceRange:
    """What the units of a bracket cost on a day."""

    day: date
    """The day."""
    low: float
    """Lowest price, in the region's currency."""
    middle: float
    """The median: as many units cost more as cost less."""
    high: float
    """Highest price."""


def cheapest_by_day(rows: Iterable[PriceRow]) -> tuple[PriceRow, ...]:
    """The cheapest row of each day, what could be bought before what could not, by day."""
    by_day: dict[date, PriceRow] = {}
    for row in rows:
        held = by_day.get(row.date)
        if held is None or _worth(row) < _worth(held):
            by_day[row.date] = row
    return tuple(by_day[day] for day in sorted(by_day))


def _worth(row: PriceRow) -> tuple[bool, float]:
    return row.stock == "out_of_stock", row.price or 0.0


class BracketPrices:
    """The prices of a bracket's units; a day that one unit asked for is not reckoned again for the next."""

    def __init__(self, views: tuple[PriceView, ...], *, lasts_days: float) -> None:
        """Of these units; a price holds until the next, but no longer than so many days."""
        self._courses = tuple(cheapest_by_day(view.history) for view in views)
        self._starts = tuple(tuple(row.date for row in course) for course in self._courses)
        self._lasts_days = lasts_days
        self._known: dict[date, PriceRange | None] = {}

    def ranges(self, days: Iterable[date]) -> tuple[PriceRange, ...]:
        """The range on each of the days on which enough units could be bought."""
        return tuple(found for day in days if (found := self._range(day)) is not None)

    def _range(self, day: date) -> PriceRange | None:
        if day not in self._known:
            newest = (c[at - 1] for c, s in zip(self._courses, self._starts, strict=True) if (at := bisect_right(s, day)))
            prices = [row.price for row in newest
                      if row.price is not None and row.stock != "out_of_stock" and (day - row.date).days <= self._lasts_days]
            self._known[day] = (PriceRange(day=day, low=min(prices), middle=median(prices), high=max(prices))
                                if len(prices) >= FEWEST else None)
        return self._known[day]
