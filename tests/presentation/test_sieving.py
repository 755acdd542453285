"""What the browser gets to sift and compare by: the table's own figures, and nothing that a browser would have to guess."""

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from guidegen.evaluation import Assessment, BracketAssessment, assess
from guidegen.presentation import sieving
from guidegen.presentation.comparing import compare
from guidegen.presentation.formatting import day
from guidegen.presentation.sieving import PROPERTIES, price_cell, sieve_of
from guidegen.rounding import number
from guidegen.sources import read_library

DEMO = Path(__file__).parent.parent.parent / "content"


@pytest.fixture(scope="module")
def demo() -> Assessment:
    """The demo, assessed."""
    return assess(read_library(DEMO))


def bracket(demo: Assessment, name: str) -> BracketAssessment:
    """A bracket of the home region."""
    return next(one for one in demo.home if one.ranking.bracket.id == name)


def told(demo: Assessment, name: str) -> dict[str, Any]:
    """What the page of a bracket carries."""
    data: dict[str, Any] = json.loads(sieve_of(demo, bracket(demo, name)))
    return data


def test_units_stand_in_the_order_of_the_table(demo: Assessment) -> None:
    """The browser goes by the row's place, so in every bracket the order is that of the ranking."""
    for one in demo.home:
        data = json.loads(sieve_of(demo, one))

        assert [s.candidate.id for s in one.ranking.standings] == [unit["id"] for unit in data["units"]]
        assert len(PROPERTIES) == len(data["properties"])
        assert {len(PROPERTIES)} == {len(unit["values"]) for unit in data["units"]}


def test_figures_are_printed_ones_and_missing_ones_are_nothing(demo: Assessment) -> None:
    """Each figure is its finding through the one rounding route; what was not tested is nothing, never a nought."""
    missing = 0
    for one in demo.home:
        for unit in json.loads(sieve_of(demo, one))["units"]:
            result = next(r for r in demo.results if r.unit.id == unit["id"])
            for wanted, value in zip(PROPERTIES, unit["values"], strict=True):
                found = result.finding(wanted.finding)
                missing += found is None

                assert (found is None) == (value is None)
                assert found is None or number(found.quantity.value, found.decimals) == value[0]

    assert missing


def test_upper_bounds_are_marked(demo: Assessment) -> None:
    """The quiet Quill is as quiet as the room, the Bolt is not (both in the demo's records)."""
    noise = next(i for i, wanted in enumerate(PROPERTIES) if wanted.name == "noise")
    values = {unit["id"]: unit["values"][noise] for unit in told(demo, "850")["units"]}

    assert [1] == values["halmer-quill-850"][4:]
    assert [] == values["kestrin-bolt-850"][4:]


def test_every_region_has_its_prices_with_their_days(demo: Assessment) -> None:
    """By region and unit what the table prints there; the days in words; tax where it is not in the price."""
    data = told(demo, "1600")
    for region in demo.library.guide.regions:
        standings = next(b for b in demo.in_region(region.id) if b.ranking.bracket.id == "1600").ranking.standings
        cells = {s.candidate.id: price_cell(s.candidate.prices) for s in standings}
        days = {s.candidate.prices.best.row.date for s in standings if s.candidate.prices.best}
        words = next(one["seen"] for one in data["regions"] if one["id"] == region.id)

        assert {i: [c.text, c.order] if c.order else [c.text] for i, c in cells.items()} == {
            unit["id"]: unit["prices"][region.id] for unit in data["units"]}
        assert day(max(days)) in words
        assert (region.tax == "excluded") == ("before tax" in words)


def test_the_editors_words_stand_for_every_two_units(demo: Assessment, monkeypatch: pytest.MonkeyPatch) -> None:
    """In the order of the table, first with second, first with third and so on; a large field goes without."""
    one = bracket(demo, "850")
    first, second, *_, last = (s.candidate.id for s in one.ranking.standings)
    pairs = told(demo, "850")["pairs"]
    monkeypatch.setattr(sieving, "MOST_IN_PAIRS", 6)

    assert 21 == len(pairs)
    assert " ".join(compare(one.ranking, (first, second), one.robustness)) == pairs[0]
    assert " ".join(compare(one.ranking, (first, last), one.robustness)) == pairs[5]
    assert [] == told(demo, "850")["pairs"]


def test_a_bracket_without_units_has_nothing_to_sift(demo: Assessment) -> None:
    """An empty bracket makes no fault and no unit."""
    one = bracket(demo, "850")
    empty = replace(one, ranking=replace(one.ranking, standings=()))
    data = json.loads(sieve_of(demo, empty))

    assert [] == data["units"]
    assert [] == data["pairs"]
