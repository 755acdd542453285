"""Prices in words: fresh, stale, hard to find, and what they include."""

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from guidegen.evaluation import evaluate_units
from guidegen.presentation.price_lines import price_line, tax_words
from guidegen.presentation.sheets import PriceLine
from guidegen.records import Library, PriceList, PriceRow, PriceRules
from guidegen.sources import read_library

TODAY = date(2026, 4, 15)
RULES = PriceRules(stale_after_days=45, hard_to_find_below_pct=50.0)
LINK = "https://harbour-parts.example/a"


@pytest.fixture(scope="module")
def small_library() -> Library:
    """The small edition."""
    return read_library(Path(__file__).parents[1] / "small_edition" / "content")


def row(days_ago: int, price: float | None, *, stock: str = "in_stock", paid: bool = False) -> PriceRow:
    """A row some days before the edition."""
    return PriceRow(date=TODAY - timedelta(days=days_ago), unit="tarnbeck-kiln-650", price=price, currency="EUR", stock=stock,  # type: ignore[arg-type]
                    shop="Harbour Parts", shop_kind="shop", link=LINK, paid_link=paid)


def line(library: Library, *rows: PriceRow) -> PriceLine:
    """What the unit's page says over these rows, with ordinary spaces."""
    prices = (PriceList(region="ie", file="prices/ie.csv", rows=rows),)
    own = replace(library, prices=prices, policy=replace(library.policy, prices=RULES),
                  guide=replace(library.guide, edition=replace(library.guide.edition, date=TODAY)))
    result = evaluate_units(own).result("tarnbeck-kiln-650")
    assert result is not None
    found = price_line(own, result, own.guide.regions[0])
    return replace(found, now=" ".join(found.now.split()), stock=" ".join(found.stock.split()))


def test_a_stale_price_says_its_day_and_why_it_does_not_count(small_library: Library) -> None:
    """A day later than the policy allows."""
    assert ("€ 90, 1 March 2026", "in stock") == ((fresh := line(small_library, row(45, 90))).now, fresh.stock)
    assert "Stale: € 90, 28 February 2026, more than 45 days before this edition; it counts in no score and no choice" == line(
        small_library, row(46, 90)).now
    assert "never seen in a shop" == line(small_library).now


def test_hard_to_find_says_by_which_rule(small_library: Library) -> None:
    """How often it was in stock, and how often it would have to be."""
    gone = tuple(row(days, 90, stock="out_of_stock") for days in (30, 20, 10))

    assert "hard to find: in stock on 1 of 4 days that we looked in the last twelve weeks, less than 50 %" == line(small_library, *gone, row(1, 90)).stock
    assert "hard to find: nothing seen in the last twelve weeks" == line(small_library, row(200, 90)).stock


@pytest.mark.parametrize(("paid", "rel"), [(True, "sponsored noopener"), (False, "nofollow noopener")])
def test_a_paid_link_says_so_beside_the_link_and_to_machines(small_library: Library, paid: bool, rel: str) -> None:
    """The others are not followed."""
    offer = line(small_library, row(1, 90, paid=paid)).offers[0]

    assert (rel, paid) == (offer.rel, ", paid link" in offer.text)


def test_what_prices_include_is_said(small_library: Library) -> None:
    """By the region's own word where it has one."""
    region = small_library.guide.regions[0]

    assert "Prices include sales tax." == tax_words(replace(region, tax="included", price_includes=None))
    assert "Prices include no sales tax." == tax_words(replace(region, tax="excluded", price_includes=None))
    assert "Prices include VAT." == tax_words(replace(region, price_includes="VAT"))
