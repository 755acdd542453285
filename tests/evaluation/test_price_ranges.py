"""What a bracket costs on a day: only what could be bought, only prices that still hold."""

from datetime import date, timedelta
from statistics import median

from hypothesis import given
from hypothesis import strategies as st

from guidegen.evaluation import BracketPrices, PriceRange, PriceView, cheapest_by_day
from guidegen.records import PriceRow, Region

TODAY = date(2026, 11, 18)
REGION = Region(id="ie", name="Ireland", mains_voltage_v=230.0, currency="EUR", currency_mark="€", tax="included",
                tariff_per_kwh=0.3, tariff_source="invented", circuit_a=16.0)


def row(days_ago: int, price: float, *, stock: str = "in_stock", shop: str = "A") -> PriceRow:
    """A price row some days before the edition."""
    return PriceRow(date=TODAY - timedelta(days=days_ago), unit="u", price=price, currency="EUR",
                    stock=stock, shop=shop, shop_kind="shop")  # type: ignore[arg-type]


def view(*rows: PriceRow) -> PriceView:
    """A unit with this history."""
    return PriceView(region=REGION, best=None, offers=(), last_seen=None, lowest=None, availability="in_stock", history=rows)


def test_a_day_has_the_cheapest_price_that_could_be_paid() -> None:
    """What is sold out counts only where all is."""
    day = cheapest_by_day((row(1, 90, stock="out_of_stock"), row(1, 95, shop="B"), row(0, 80, stock="out_of_stock")))

    assert [95, 80] == [found.price for found in day]


def test_the_range_runs_from_the_lowest_to_the_highest_with_the_median_between() -> None:
    """Worked by hand: 80, 100 and 150; a fourth is sold out and a fifth is too old."""
    views = (view(row(9, 80)), view(row(3, 100)), view(row(2, 150)), view(row(2, 20, stock="out_of_stock")), view(row(99, 10)))

    assert (PriceRange(day=TODAY, low=80, middle=100, high=150),) == BracketPrices(views, lasts_days=45).ranges((TODAY,))


def test_two_units_make_no_range() -> None:
    """A pair has no middle worth telling."""
    assert () == BracketPrices((view(row(1, 80)), view(row(1, 90))), lasts_days=45).ranges((TODAY,))


@given(st.lists(st.integers(1, 900), min_size=3, max_size=12))
def test_the_middle_is_the_median_of_the_standard_library(prices: list[int]) -> None:
    """Against ``statistics.median`` (Python's standard library) and the extremes, whatever is charged."""
    (found,) = BracketPrices(tuple(view(row(1, price)) for price in prices), lasts_days=45).ranges((TODAY,))

    assert (min(prices), median(prices), max(prices)) == (found.low, found.middle, found.high)


def test_a_price_of_tomorrow_is_not_seen() -> None:
    """Each day knows what was known then."""
    views = tuple(view(row(2, price), row(0, 1)) for price in (80, 90, 100))
    (found,) = BracketPrices(views, lasts_days=45).ranges((TODAY - timedelta(days=1),))

    assert 80 == found.low
