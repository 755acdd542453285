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

from tests.conftest import current

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
    """The price that counts by unit, from ``data/prices.csv``: the cheapest that is fresh and in stock by the newest row of each
    shop; where all are sold out, the newest at which it could be bought, while that is fresh.
    """
    with (site / "data" / "prices.csv").open(encoding="utf-8", newline="") as file:
        rows = [row for row in sorted(csv.DictReader(file), key=lambda row: row["date"]) if row["region"] == region and row["price"]]
    found: dict[str, float | None] = {}
    for unit in {row["unit"] for row in rows}:
        own = [row for row in rows if row["unit"] == unit]
        payable = [row for row in own if row["stock"] != "out_of_stock" and (EDITION - date.fromisoformat(row["date"])).days <= STALE_DAYS]
        now = [row for row in {row["shop"]: row for row in own}.values() if row in payable]
        last = [row for row in payable if row["date"] == payable[-1]["date"]]
        found[unit] = min((float(row["price"]) for row in now or last), default=None)
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

    assert [there.get(row["unit"]) for row in units if row["bracket"] == bracket] == came
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
    came = [there.get(unit) for unit in page.evaluate(SHOWN)]

    assert sorted(came, key=lambda price: price or 0.0) == came
    assert 6 == len(came)


def test_a_price_that_is_not_known_is_said_to_be(site: Path, page: Page, units: list[Row]) -> None:
    """The unit without a fresh price keeps no limit on price, and the sentence names it."""
    page.goto(address(site, "650", price=500))
    name = next(row["name"] for row in units if row["unit"] == "halmer-quill-650-2022" and not row["price"])

    assert "halmer-quill-650-2022" not in page.evaluate(SHOWN)
    assert page.locator(STATUS).inner_text().endswith(f"The {name} has no fresh price and is left out.")


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


def test_show_all_again_shows_all(site: Path, page: Page) -> None:
    """The button is there only when a limit is; it clears limits and address, keeps region and load, and gives focus on."""
    page.goto(address(site, "850", depth=150, price=140, mark=480, region="us"))
    before = len(page.evaluate(SHOWN))
    page.get_by_role("button", name="Show all again").click()
    page.wait_for_url(lambda url: "depth" not in url)

    assert before < 7
    assert 7 == len(page.evaluate(SHOWN))
    assert "?mark=480&region=us" == page.evaluate("location.search")
    assert "7 of 7 shown." == page.locator(STATUS).inner_text()
    assert not page.get_by_role("button", name="Show all again").is_visible()
    assert "sieve-region" == page.evaluate("document.activeElement.id")


def test_where_nothing_is_left_the_nearest_way_back_is_told(site: Path, page: Page, units: list[Row]) -> None:
    """The least depth that brings a unit back, and its names; both counted from the data set. Who fails a gate is said to."""
    field = [row for row in units if row["bracket"] == "850"]
    least = min(float(row["size_depth_mm"]) for row in field)
    names = [f"the {row['name']}{'' if row['place'] else ' (not advised)'}" for row in field if float(row["size_depth_mm"]) == least]
    page.goto(address(site, "850", depth=100))
    told = page.locator(STATUS).inner_text()

    assert 2 <= len(names) <= 4
    assert "(not advised)" in " ".join(names)
    assert (f"0 of 7 shown. Nothing of this wattage keeps all these limits. Depth at most {least:.0f}{NO_BREAK}mm instead of "
            f"100{NO_BREAK}mm would bring back {', '.join(names[:-1])} and {names[-1]}.") == told


def test_two_limits_are_relaxed_one_at_a_time_the_nearest_first(site: Path, page: Page, units: list[Row]) -> None:
    """Price and depth: for each the least change that brings a unit back while the other stays; typed in, it does."""
    field = [row for row in units if row["bracket"] == "850"]
    page.goto(address(site, "850", price=120, depth=150, pcie_8=4))
    told = page.locator(STATUS).inner_text()
    priced = [row for row in field if row["price"]]
    cheapest = min(float(row["price"]) for row in priced if keeps(row, "depth", 150) and keeps(row, "pcie_8", 4))
    most = max(float(row["cables_pcie_8"]) for row in priced if keeps(row, "depth", 150) and keeps(row, "price", 120))
    page.fill("#sieve-price", f"{cheapest:.2f}")
    back = page.evaluate(SHOWN)

    assert [] == [row for row in priced if keeps(row, "depth", 150) and keeps(row, "pcie_8", 4) and keeps(row, "price", 120)]
    assert 0 <= told.find(f"Price at most €{NO_BREAK}{cheapest:.2f} instead of €{NO_BREAK}120 ") < told.find(
        f"8-pin graphics plugs at least {most:.0f} instead of 4 ")
    assert [row["unit"] for row in priced if float(row["price"]) == cheapest] == back


def test_limits_that_only_go_together_are_named_together(site: Path, page: Page) -> None:
    """Nothing keeps either of two limits: giving up one is no help, giving up both is."""
    page.goto(address(site, "850", depth=50, noise=5))

    assert "Giving up the limits on depth and noise at half load together would bring back " in page.locator(STATUS).inner_text()


def test_bounds_are_told_as_bounds(site: Path, page: Page) -> None:
    """A level that is an upper bound and above the limit is left out, and the sentence says that it may be quieter."""
    page.goto(address(site, "850", noise=16.0))
    told = page.locator(STATUS).inner_text()

    assert "The Ostrand Level 850 II and the Quennel Belfry 850 may be quieter than the room let us measure" in told


def test_what_was_set_is_kept_in_the_address(site: Path, page: Page) -> None:
    """Typed in, then opened elsewhere: the same fields, rows and words; and back after the reader typed more."""
    page.goto(address(site, "850"))
    for name, text in (("price", "150,5"), ("depth", "165"), ("pcie_8", "3"), ("mark", "480")):
        page.fill(f"#sieve-{name}", text)
    page.select_option("#sieve-region", "us")
    page.select_option("#sieve-fan", "still")
    entries = "[...document.querySelectorAll('.sieve :is(input, select)')].map(one => one.value)"
    seen = (page.evaluate(entries), page.evaluate(SHOWN), page.locator(".sieve").inner_text())
    page.wait_for_url(lambda url: "fan=still" in url)
    url = page.url
    page.goto("about:blank")
    page.goto(url)

    assert seen == (page.evaluate(entries), page.evaluate(SHOWN), page.locator(".sieve").inner_text())
    assert {"region", "price", "depth", "pcie_8", "mark", "fan"} == set(re.findall(r"[?&]([a-z_0-9]+)=", url))


@pytest.mark.parametrize("state", [{"form": "nonsense"}, {"region": "atlantis"}, {"fan": "<b>"}, {"unknown": "1"}])
def test_an_address_that_makes_no_sense_changes_nothing(site: Path, page: Page, state: dict[str, str]) -> None:
    """Unknown names and values are passed over."""
    page.goto(address(site, "750", **state))

    assert "5 of 5 shown." == page.locator(STATUS).inner_text()


def test_a_text_that_is_no_number_is_answered_beside_its_field(site: Path, page: Page) -> None:
    """The limit counts for nothing, the field is marked and its message belongs to it."""
    page.goto(address(site, "850", depth="deep"))
    field = page.locator("#sieve-depth")
    marked = (field.get_attribute("aria-invalid"), page.locator(f"#{field.get_attribute('aria-describedby')}").inner_text())
    rows = len(page.evaluate(SHOWN))
    field.fill("150")

    assert ("true", "A number, please; “deep” is none.") == marked
    assert 7 == rows
    assert field.get_attribute("aria-invalid") is None


def test_all_of_it_goes_from_the_keyboard(site: Path, page: Page) -> None:
    """Tab from the summary through the fields, type a depth, tick a row with the space bar; every target is 24 px or more."""
    page.goto(address(site, "850"))
    page.focus(".sieve summary")
    order = []
    for _ in range(4):
        page.keyboard.press("Tab")
        order.append(page.evaluate("document.activeElement.id"))
        if order[-1] == "sieve-depth":
            page.keyboard.type("150")
    small = page.evaluate(
        "[...document.querySelectorAll('.sieve :is(input, select, button, summary), .tick :is(input, label)')]"
        ".filter(one => one.checkVisibility()).map(one => one.getBoundingClientRect().height).filter(high => high < 24)")
    page.focus("#tick-halmer-quill-850")
    page.keyboard.press("Space")

    assert ["sieve-region", "sieve-price", "sieve-depth", "sieve-mark"] == order
    assert 4 == len(page.evaluate(SHOWN))
    assert [] == small
    assert page.locator("#tick-halmer-quill-850").is_checked()


def test_the_load_is_marked_on_every_strip(site: Path, page: Page) -> None:
    """480 W of 850 W: the line stands at that share of a strip from 0 to 110 %, the sentence says it; without, as published."""
    page.goto(address(site, "850"))
    lines = "[...document.querySelectorAll('#ranking .wide .s-mark')].map(line => Number(line.getAttribute('d').match(/^M([0-9.]+)/)[1]))"
    usual = page.evaluate(lines)
    page.fill("#sieve-mark", "480")
    moved = page.evaluate(lines)
    told = page.locator(".sieve .notes").inner_text()
    page.fill("#sieve-mark", "900")
    beyond = page.locator(".sieve .notes").inner_text()
    page.fill("#sieve-mark", "")

    assert [pytest.approx(290 * 100 * 480 / 850 / 110, abs=0.05)] * 7 == moved
    assert f"The line on each strip stands at your 480{NO_BREAK}W: 56{NO_BREAK}% of 850{NO_BREAK}W." == told
    assert "That is more than the Halmer Quill 850, the Ostrand Level 850 II, the Brevik Tarn 850 and 4 more are rated for." in beyond
    assert usual == page.evaluate(lines)


def test_the_worksheet_leads_to_the_list_with_the_readers_wishes(site: Path, page: Page) -> None:
    """Case, price, plugs and load go along; every unit that the worksheet says fits is among the rows that are left."""
    page.goto((site / "how-many-watts" / "index.html").as_uri() + "#processor.top=1&graphics.top=1&depth=180&budget=400&region=us")
    fitting = page.evaluate("[...document.querySelectorAll('#worksheet-units tbody th a')].map(a => a.getAttribute('href').split('/').at(-2))")
    load = page.locator("#worksheet .line.total .figure").first.inner_text().removesuffix(f"{NO_BREAK}W")
    link = page.locator("#worksheet .to-list a")
    words = link.inner_text()
    link.click()
    page.wait_for_selector(".sieve")

    assert re.fullmatch(r"See these in the list of [0-9 to]+\sW, with your price, case, plugs and load", words)
    assert ("us", "400", "180", load) == tuple(page.locator(f"#sieve-{name}").input_value() for name in ("region", "price", "depth", "mark"))
    assert fitting
    assert set(fitting) <= set(page.evaluate(SHOWN))


def test_without_script_there_is_no_control_and_every_row(site: Path, browser: Browser) -> None:
    """Whatever the address says, the whole table stands there and nothing asks to be pressed."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address(site, "850", depth=100, compare="halmer-quill-850,brevik-tarn-850"))
    controls = page.locator("main").locator("form, input, select, button, fieldset").count()
    rows = page.locator("#ranking tbody tr:visible").count()
    context.close()

    assert (0, 7) == (controls, rows)


COMPARED = {"depth": 160, "noise": "x", "mark": 480, "compare": "quennel-belfry-850,halmer-quill-850,kestrin-bolt-850"}
"""A state with a limit, a fault, a mark and a comparison."""


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 1280])
@pytest.mark.parametrize("state", [COMPARED, {"depth": 10, "region": "us"}])
def test_axe_finds_nothing(site: Path, browser: Browser, scheme: str, width: int, state: dict[str, object]) -> None:
    """No violation of WCAG 2.2 A and AA nor of good practice that a program can find; and nothing scrolls sideways at 320 px."""
    context = browser.new_context(
        color_scheme=scheme, viewport={"width": width, "height": 800}, reduced_motion="reduce")  # type: ignore[arg-type]
    page = context.new_page()
    page.goto(address(site, "850", **state))
    page.evaluate("document.querySelector('.sieve details').open = true")
    beyond = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    found = Axe().run(page).response["violations"]
    context.close()

    assert [] == [(one["id"], [node["html"] for node in one["nodes"]]) for one in found]
    assert 0 == beyond


@pytest.mark.parametrize("width", [320, 1280])
@pytest.mark.parametrize("place", ["", "#tested", "#ranking"])
def test_nothing_moves_while_the_page_comes_in(site: Path, browser: Browser, width: int, place: str) -> None:
    """The form, hidden rows and a comparison shift what is in sight by less than 0.02, also where the address leads to the table."""
    context = browser.new_context(viewport={"width": width, "height": 900})
    page = context.new_page()
    page.goto(address(site, "850", **COMPARED) + place)
    shift = page.evaluate(
        """new Promise(done => {
          let all = 0;
          new PerformanceObserver(list => { for (const one of list.getEntries()) all += one.value; })
            .observe({ type: "layout-shift", buffered: true });
          setTimeout(() => done(all), 300);
        })""")
    context.close()

    assert shift < 0.02


def test_the_page_stays_small(site: Path) -> None:
    """At most 30 kB for a bracket's page as sent with gzip; its script stands on bracket pages alone."""
    pages = [path for path in current(site, "*.html") if "assets/bracket." in path.read_text(encoding="utf-8")]

    assert {path.parent.parent for path in pages} == {site / "watts"}
    assert max(len(gzip.compress(path.read_bytes())) for path in pages) <= 30_000
