"""What a unit costs, how old that price is, and whether it can be had."""

from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial
from typing import Literal

from guidegen.evaluation.findings import Finding
from guidegen.origins import Origin
from guidegen.quantities import Quantity
from guidegen.records import PriceList, PriceRow, PriceRules, Region, Unit

YEAR = timedelta(days=365)
STOCK_WINDOW = timedelta(weeks=12)

Availability = Literal["in_stock", "few_left", "out_of_stock", "hard_to_find", "no_price"]
"""Stock of the newest rows; ``hard_to_find`` by the policy's rule; ``no_price`` where no shop was ever seen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """The newest row of one shop."""

    row: PriceRow
    """The row."""
    origin: Origin
    """Where it stands."""
    stale: bool
    """Whether it is older than the policy allows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceView:
    """A unit's prices in one region, on the day of the edition."""

    region: Region
    """The region."""
    best: Offer | None
    """The price that counts: the cheapest fresh offer in stock; failing that the last at which it could be bought, while that is
    fresh; nothing where there is neither, for what nobody can pay is no price."""
    offers: tuple[Offer, ...]
    """Newest row of each shop, cheapest first."""
    last_seen: date | None
    """Day of the newest row with a price."""
    lowest: PriceRow | None
    """Lowest price at which it could be bought in the twelve months before the edition."""
    availability: Availability
    """Whether it can be had."""
    history: tuple[PriceRow, ...]
    """All rows with a price, by date."""
    looks: int = 0
    """Days of the last twelve weeks on which somebody looked, with and without a price."""
    looks_in_stock: int = 0
    """Those of them on which it could be bought."""

    @property
    def available(self) -> bool:
        """Whether there is a fresh price and the unit is not hard to find."""
        return self.best is not None and self.availability in ("in_stock", "few_left")

    @property
    def only_out_of_stock(self) -> bool:
        """Whether there are fresh prices, and none of them counts because it can't be bought at any."""
        return self.best is None and any(not offer.stale for offer in self.offers)

    @property
    def absence(self) -> str:
        """Why it can't be bought now: its stock, or ``no_price`` where none is fresh; empty where it can."""
        if self.available:
            return ""
        return self.availability if self.best or self.only_out_of_stock else "no_price"


def view_prices(unit: Unit, region: Region, prices: PriceList | None, *, rules: PriceRules, today: date) -> PriceView:
    """The unit's prices in a region as of ``today``, the day of the edition."""
    rows = [(i, row) for i, row in (prices.of_unit(unit.id) if prices else ()) if row.date <= today]
    rows.sort(key=lambda pair: (pair[1].date, pair[0]))
    priced = [(i, row) for i, row in rows if row.price is not None]
    newest = {row.shop: (i, row) for i, row in priced}
    offer = partial(_offer, prices.file if prices else "", rules, today)
    offers = tuple(map(offer, sorted(newest.values(), key=lambda pair: (pair[1].price or 0.0, pair[1].shop))))
    now = next((one for one in offers if not one.stale and one.row.stock != "out_of_stock"), None)
    payable = [pair for pair in priced if pair[1].stock != "out_of_stock"]
    last = max(map(offer, payable), key=lambda one: (one.row.date, -(one.row.price or 0.0)), default=None)
    recent = [row for _, row in rows if today - row.date <= STOCK_WINDOW]
    looks, in_stock = len({row.date for row in recent}), len({row.date for row in recent if row.stock != "out_of_stock"})
    last_year = [row for _, row in payable if today - row.date <= YEAR]
    return PriceView(
        region=region,
        best=now or (last if last is not None and not last.stale else None),
        offers=offers,
        last_seen=priced[-1][1].date if priced else None,
        lowest=min(last_year, key=lambda row: (row.price or 0.0, row.date), default=None),
        availability=_availability(now, (in_stock, looks), rules) if rows else "no_price",
        history=tuple(row for _, row in priced),
        looks=looks,
        looks_in_stock=in_stock,
    )


def _offer(file: str, rules: PriceRules, today: date, placed: tuple[int, PriceRow]) -> Offer:
    """A row, with its place in the table, as an offer on a day."""
    place, row = placed
    return Offer(row=row, origin=Origin(file, (place,)), stale=(today - row.date).days > rules.stale_after_days)


def _availability(now: Offer | None, looks: tuple[int, int], rules: PriceRules) -> Availability:
    in_stock, recent = looks
    if not recent or 100 * in_stock < rules.hard_to_find_below_pct * recent:
        return "hard_to_find"
    return now.row.stock if now else "out_of_stock"


def price_finding(unit: Unit, view: PriceView) -> Finding | None:
    """Price per watt of rated power in the region's currency, or nothing without a price that counts."""
    if view.best is None or view.best.row.price is None:
        return None
    return Finding(
        key="price.per_watt",
        title="Price per watt",
        quantity=Quantity(view.best.row.price / unit.record.rated_power_w, f"{view.region.currency_mark}/W"),
        decimals=3,
        better="lower",
        origins=(view.best.origin, Origin(unit.file, ("rated_power_w",))),
    )
