"""A unit's prices, region by region, in words."""

from guidegen.evaluation import UnitResult, view_prices
from guidegen.presentation.formatting import day, money
from guidegen.presentation.names import STOCKS
from guidegen.presentation.pieces import Link
from guidegen.presentation.sheets import PriceLine
from guidegen.records import Library, PriceRow, Region


def price_line(library: Library, result: UnitResult, region: Region) -> PriceLine:
    """A unit's prices in one region, in words."""
    prices = next((p for p in library.prices if p.region == region.id), None)
    view = view_prices(result.unit, region, prices, rules=library.policy.prices, today=library.guide.edition.date)
    tax = "" if region.tax == "included" else ", before tax"
    now = (
        f"{money(view.best.row.price, region)}{tax}, {day(view.best.row.date)}"
        if view.best and view.best.row.price is not None
        else f"no fresh price; last seen {day(view.last_seen)}" if view.last_seen else "never seen in a shop"
    )
    return PriceLine(
        id=region.id,
        region=region.name[:1].upper() + region.name[1:],
        now=now,
        lowest=f"Lowest in twelve months: {money(view.lowest.price or 0.0, region)}, {day(view.lowest.date)}"
        if view.lowest else "",
        stock=STOCKS[view.availability],
        offers=tuple(_offer(offer.row, region, stale=offer.stale) for offer in view.offers if offer.row.link),
    )


def _offer(row: PriceRow, region: Region, *, stale: bool) -> Link:
    paid = ", paid link" if row.paid_link else ""
    old = f", stale, {day(row.date)}" if stale else ""
    return Link(
        text=f"{row.shop}: {money(row.price or 0.0, region)}{paid}{old}",
        address=row.link,
        rel="sponsored noopener" if row.paid_link else "nofollow noopener",
    )
