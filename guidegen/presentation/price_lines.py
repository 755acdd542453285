"""A unit's prices, region by region, in words."""

from datetime import date

from guidegen.evaluation import YEAR, PriceView, UnitResult, view_prices
from guidegen.presentation.formatting import NO_BREAK, counted, day, money, number
from guidegen.presentation.names import STOCKS
from guidegen.presentation.pieces import Link
from guidegen.presentation.sheets import PriceLine
from guidegen.records import Library, PriceRow, PriceRules, Region


def price_line(library: Library, result: UnitResult, region: Region) -> PriceLine:
    """A unit's prices in one region, in words."""
    prices = next((p for p in library.prices if p.region == region.id), None)
    view = view_prices(result.unit, region, prices, rules=library.policy.prices, today=library.guide.edition.date)
    return PriceLine(
        id=region.id,
        region=region.name[:1].upper() + region.name[1:],
        now=now_words(view, library.policy.prices),
        tax=tax_words(region),
        lowest=_lowest_words(view, library.guide.edition.date),
        stock=stock_words(view, library.policy.prices),
        offers=tuple(_offer(offer.row, region, stale=offer.stale) for offer in view.offers if offer.row.link),
    )


def now_words(view: PriceView, rules: PriceRules) -> str:
    """The price that counts with its day; a stale one with its day and why it does not count."""
    tax = "" if view.region.tax == "included" else ", before tax"
    if view.best is not None and view.best.row.price is not None:
        return f"{money(view.best.row.price, view.region)}{tax}, {day(view.best.row.date)}"
    if not view.history:
        return "never seen in a shop"
    last = view.history[-1]
    if view.only_out_of_stock:
        return f"{money(last.price or 0.0, view.region)}{tax}, {day(last.date)}, but out of stock: what nobody can pay counts in no score and no choice"
    return (
        f"Stale: {money(last.price or 0.0, view.region)}{tax}, {day(last.date)}, more than {rules.stale_after_days} days before "
        "this edition; it counts in no score and no choice"
    )


def _lowest_words(view: PriceView, today: date) -> str:
    """The lowest price at which it could be bought, and since when we have looked; empty where it never could."""
    if view.lowest is None:
        return ""
    first = view.history[0].date
    since = "in twelve months" if today - first >= YEAR else f"since {day(first)}"
    return f"Lowest in stock {since}: {money(view.lowest.price or 0.0, view.region)}, {day(view.lowest.date)}"


def tax_words(region: Region) -> str:
    """What prices of a region include."""
    usual = "sales tax" if region.tax == "included" else "no sales tax"
    return f"Prices include {region.price_includes or usual}."


def stock_words(view: PriceView, rules: PriceRules) -> str:
    """Stock; of what is hard to find also by which rule."""
    stock = STOCKS[view.availability]
    if view.availability != "hard_to_find":
        return stock
    if not view.looks:
        return f"{stock}: nothing seen in the last twelve weeks"
    least = f"{number(rules.hard_to_find_below_pct, 0)}{NO_BREAK}%"
    return f"{stock}: in stock on {view.looks_in_stock} of {counted(view.looks, 'day')} that we looked in the last twelve weeks, less than {least}"


def _offer(row: PriceRow, region: Region, *, stale: bool) -> Link:
    paid = ", paid link" if row.paid_link else ""
    old = f", stale, {day(row.date)}" if stale else ""
    return Link(
        text=f"{row.shop}: {money(row.price or 0.0, region)}{paid}{old}",
        address=row.link,
        rel="sponsored noopener" if row.paid_link else "nofollow noopener",
    )
