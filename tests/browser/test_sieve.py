"""Sifting a bracket's table in real Chromium: the rows that the data set says, told in words, kept in the address."""

import csv
import gzip
import random
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from urllib.parse import urlencode

import pytest
import yaml
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

NO_BREAK = "\N{NO-BREAK SPACE}"
LIMITS = {
    "price": ("price", "most"), "depth": ("size_depth_mm", "most"), "noise": ("acoustic_noise_at_50_dba", "most"),
    "cpu_8": ("cables_cpu_8", "least"), "pcie_8": ("cables_pcie_8", "least"), "pcie_16": ("cables_pcie_16", "least"),
    "sata": ("cables_sata", "least"),
}
"""Limits in numbers: column of ``data/units.csv``, and which way it holds."""
EDITION, STALE_DAYS = date(2026, 11, 18), 45
"""Day of the demo's edition, and the age at which its policy drops a price."""
SHOWN = """[...document.querySelectorAll('#ranking tbody tr:not([hidden]) th a')]
  .map(link => link.getAttribute('href').split('/').at(-2))"""
STATUS = ".sieve [role=status]"

Row = dict[str, str]


@pytest.fixture(scope="module")
def units(site: Path) -> list[Row]:
    """The data set's units."""
    with (site / "data" / "units.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page of its own."""
    context = browser.new_context(viewport={"width": 1280, "height": 900}, reduced_motion="reduce")
    yield context.new_page()
    context.close()


def address(site: Path, bracket: str, **state: object) -> str:
    """Where a bracket stands, with what a reader has set."""
    return (site / "watts" / bracket / "index.html").as_uri() + (f"?{urlencode(state)}" if state else "")


def record(site: Path, unit: str) -> dict[str, object]:
    """A unit's record, as the site hands it out."""
    found: dict[str, object] = yaml.safe_load((site / "data" / "records" / unit / "unit.yaml").read_text(encoding="utf-8"))
    return found


def keeps(row: Row, name: str, limit: float) -> bool:
    """Whether a unit of the data set keeps a limit; what is not known keeps none."""
    column, way = LIMITS[name]
    if not row[column]:
        return False
    return float(row[column]) <= limit if way == "most" else float(row[column]) >= limit


def random_states(units: list[Row]) -> list[tuple[str, dict[str, float]]]:
    """Brackets with one to four limits each, near to what their units have, from a fixed seed."""
    rolled = random.Random(4)
    brackets = sorted({row["bracket"] for row in units})
    states = []
    for _ in range(40):
        bracket = rolled.choice(brackets)
        limits = {}
        for name in rolled.sample(sorted(LIMITS), rolled.randint(1, 4)):
            there = sorted({float(row[LIMITS[name][0]]) for row in units if row["bracket"] == bracket and row[LIMITS[name][0]]})
            limits[name] = rolled.choice([*there, there[-1] + 1, there[0] + 0.5])
        states.append((bracket, limits))
    return states


def test_the_rows_left_are_those_of_the_data_set(site: Path, page: Page, units: list[Row]) -> None:
    """Random limits from the address: the same units remain as ``data/units.csv`` gives, in the page's order, and are counted."""
    counts = set()
    for bracket, limits in random_states(units):
        page.goto(address(site, bracket, **limits))
        field = [row for row in units if row["bracket"] == bracket]
        expected = [row["unit"] for row in field if all(keeps(row, name, limit) for name, limit in limits.items())]
        counts.add(len(expected))

        assert expected == page.evaluate(SHOWN), limits
        assert page.locator(STATUS).inner_text().startswith(f"{len(expected)} of {len(field)} shown.")

    assert {0, 1, 2, 3} <= counts


def test_form_and_fan_are_those_of_the_record(site: Path, page: Page, units: list[Row]) -> None:
    """SFX alone, then fans that may stand still alone."""
    field = [row["unit"] for row in units if row["bracket"] == "750"]
    records = {unit: record(site, unit) for unit in field}
    page.goto(address(site, "750", form="SFX"))
    small = page.evaluate(SHOWN)
    page.goto(address(site, "750", fan="still"))
    still = page.evaluate(SHOWN)

    assert [unit for unit in field if records[unit]["form_factor"] == "SFX"] == small
    assert [unit for unit in field if records[unit]["fan"]["semi_passive"]] == still  # type: ignore[index]
    assert small
    assert 0 < len(still) < len(field)


def prices_in(site: Path, region: str) -> dict[str, float | None]:
    """Cheapest fresh price by unit, from ``data/prices.csv``: in stock where any is, the newest row of each shop."""
    newest: dict[tuple[str, str], Row] = {}
    with (site / "data" / "prices.csv").open(encoding="utf-8", newline="") as file:
        for row in sorted(csv.DictReader(file), key=lambda row: row["date"]):
            if row["region"] == region and row["price"]:
                newest[row["unit"], row["shop"]] = row
    found: dict[str, float | None] = {unit: None for unit, _ in newest}
    for unit in found:
        fresh = [r for (u, _), r in newest.items() if u == unit and (EDITION - date.fromisoformat(r["date"])).days <= STALE_DAYS]
        there = [r for r in fresh if r["stock"] != "out_of_stock"] or fresh
        found[unit] = min((float(r["price"]) for r in there), default=None)
    return found


@pytest.mark.parametrize("bracket", ["850", "1600"])
def test_another_region_brings_its_own_prices(site: Path, page: Page, units: list[Row], bracket: str) -> None:
    """Every price is that of ``data/prices.csv``, the column says the currency, a sentence what stays; and back again."""
    page.goto(address(site, bracket))
    column = "[...document.querySelectorAll('#ranking tbody tr')].map(row => [...row.querySelectorAll('td.number')].at(-1))"
    at_home = page.evaluate(f"{column}.map(cell => [cell.textContent, cell.dataset.v])")
    page.select_option("#sieve-region", "us")
    came = page.evaluate(f"{column}.map(cell => cell.dataset.v ? Number(cell.dataset.v) : null)")
    heading = page.locator("#ranking thead th.number").last.inner_text()
    note = page.locator(".sieve .notes").inner_text()
    page.select_option("#sieve-region", "ie")
    there = prices_in(site, "us")

    assert [there[row["unit"]] for row in units if row["bracket"] == bracket] == came
    assert "Price, $" == heading
    assert "Prices of the United States in $, before tax, seen " in note
    assert "stay those of Ireland" in note
    assert at_home == page.evaluate(f"{column}.map(cell => [cell.textContent, cell.dataset.v])")


def test_sorting_by_price_follows_the_region(site: Path, page: Page) -> None:
    """Sorted by price, the table is sorted by the new region's prices at once; hidden rows stay hidden."""
    page.goto(address(site, "850", depth=160))
    page.locator("#ranking thead th.number").last.locator("button").click()
    page.select_option("#sieve-region", "us")
    there = prices_in(site, "us")
    came = [there[unit] for unit in page.evaluate(SHOWN)]

    assert sorted(came, key=lambda price: price or 0.0) == came
    assert 6 == len(came)


def test_a_price_that_is_not_known_is_said_to_be(site: Path, page: Page) -> None:
    """The unit without a fresh price keeps no limit on price, and the sentence names it."""
    page.goto(address(site, "650", price=500))
    told = page.locator(STATUS).inner_text()

    assert "halmer-quill-650-2022" not in page.evaluate(SHOWN)
    assert "The Halmer Quill 650 (2022) has no fresh price and is left out." in told or re.search(
        r"The Halmer Quill 650[^.]* has no fresh price and is left out\.", told)


def test_the_status_says_what_hides_most(site: Path, page: Page, units: list[Row]) -> None:
    """Counted from the data set; with one limit the sentence is another."""
    field = [row for row in units if row["bracket"] == "850"]
    hidden = {name: sum(not keeps(row, name, limit) for row in field) for name, limit in (("depth", 150), ("noise", 25))}
    page.goto(address(site, "850", depth=150, noise=25))
    both = page.locator(STATUS).inner_text()
    page.goto(address(site, "850", depth=150))
    one = page.locator(STATUS).inner_text()
    most = max(hidden.values())

    assert hidden["depth"] != hidden["noise"]
    assert f"Most are hidden by {'depth' if hidden['depth'] == most else 'noise at half load'}: {most}." in both
    assert f"The limit on depth hides {hidden['depth']}." in one
