"""Prices: fresh or stale, found or hard to find, never mixed."""

from dataclasses import replace
from datetime import date, timedelta

from guidegen.evaluation import PriceView, view_prices
from guidegen.records import Library, PriceList, PriceRow, PriceRules

TODAY = date(2026, 11, 18)
RULES = PriceRules(stale_after_days=45, hard_to_find_below_pct=50.0)


def row(days_ago: int, price: float, *, stock: str = "in_stock", shop: str = "A") -> PriceRow:
    """A price row some days before the edition."""
    return PriceRow(date=TODAY - timedelta(days=days_ago), unit="u", price=price, currency="EUR",
                    stock=stock, shop=shop, shop_kind="shop")  # type: ignore[arg-type]


def seen(library: Library, *rows: PriceRow) -> PriceView:
    """The view of a unit over these rows."""
    unit = replace(library.units[0], id="u")
    prices = PriceList(region="ie", file="prices/ie.csv", rows=rows)
    return view_prices(unit, library.guide.regions[0], prices, rules=RULES, today=TODAY)


def test_the_price_is_the_cheapest_fresh_one_in_stock(small_library: Library) -> None:
    """A cheaper offer that is sold out does not count."""
    view = seen(small_library, row(2, 90, stock="out_of_stock", shop="A"), row(3, 100, shop="B"), row(1, 95, shop="C"))

    assert view.best is not None
    assert (95, "C") == (view.best.row.price, view.best.row.shop)


def test_what_nobody_can_pay_is_no_price(small_library: Library) -> None:
    """Fresh prices out of stock count for nothing, and the lowest is one that could be paid."""
    view = seen(small_library, row(60, 80), row(2, 70, stock="out_of_stock"), row(1, 75, stock="out_of_stock", shop="B"))

    assert (None, True, "hard_to_find") == (view.best, view.only_out_of_stock, view.availability)
    assert view.lowest is not None
    assert 80 == view.lowest.price


def test_where_all_are_sold_out_the_last_price_in_stock_counts_while_it_is_fresh(small_library: Library) -> None:
    """The newest of them, not the cheapest: that may be older; and it is not for sale now."""
    rows = (row(30, 60), row(20, 80), row(13, 82), row(13, 84, shop="B"), row(1, 50, stock="out_of_stock"), row(1, 55, stock="out_of_stock", shop="B"))
    view = seen(small_library, *rows)

    assert view.best is not None
    assert (82, False, "out_of_stock", False) == (view.best.row.price, view.only_out_of_stock, view.availability, view.available)


def test_a_price_counts_up_to_the_last_day_and_not_beyond(small_library: Library) -> None:
    """45 days is fresh, 46 is stale."""
    assert (True, False) == (seen(small_library, row(45, 90)).best is not None, seen(small_library, row(46, 90)).best is not None)


def test_only_the_newest_row_of_a_shop_counts(small_library: Library) -> None:
    """An old low price of the same shop is history."""
    view = seen(small_library, row(20, 70), row(1, 99))

    assert view.best is not None
    assert view.lowest is not None
    assert (99, 70) == (view.best.row.price, view.lowest.price)


def test_mostly_out_of_stock_is_hard_to_find(small_library: Library) -> None:
    """Two of five rows in stock is below half."""
    rows = [row(d, 90, stock="in_stock" if d in (1, 8) else "out_of_stock") for d in (29, 22, 15, 8, 1)]

    assert ("hard_to_find", False) == (seen(small_library, *rows).availability, seen(small_library, *rows).available)


def test_a_unit_that_no_shop_lists_has_no_price(small_library: Library) -> None:
    """Absence is said, not guessed."""
    view = seen(small_library)

    assert ("no_price", None, False) == (view.availability, view.best, view.available)


def test_a_price_from_after_the_edition_is_not_seen(small_library: Library) -> None:
    """The edition's date is the only clock."""
    view = seen(small_library, row(-1, 10), row(1, 90))

    assert view.best is not None
    assert 90 == view.best.row.price
