"""Power excursions: what is demanded of whom, and what a milder test proves."""

from dataclasses import replace

import pytest

from guidegen.evaluation.measures import power_excursion
from guidegen.records import Excursion
from tests.evaluation.invented import UNIT, bench, checks, unit


def tried(**changes: object) -> Excursion:
    """200 % for 100 µs with the table's load between the peaks, held."""
    return replace(Excursion(peak_pct=200.0, duration_ms=0.1, base_pct=91.8, outcome="held", lowest_12v_v=11.71), **changes)  # type: ignore[arg-type]


@pytest.mark.parametrize(("changes", "outcome"), [
    ({}, "pass"), ({"outcome": "shut_down"}, "fail"), ({"outcome": "out_of_range"}, "fail"), ({"outcome": "not_tested"}, "not_tested"),
    ({"base_pct": 60.0}, "inconclusive"), ({"duration_ms": 0.05}, "inconclusive"),
    ({"duration_ms": 5.0, "outcome": "shut_down"}, "inconclusive"), ({"peak_pct": 220.0, "outcome": "shut_down"}, "inconclusive"),
])
def test_an_excursion_of_an_atx_3_unit(changes: dict[str, object], outcome: str) -> None:
    """750 W with a 16-pin plug: 200 % for 100 µs at 91.8 % between; a milder test proves nothing, a harder one fails nobody."""
    made = power_excursion.measure(bench(excursions=(tried(**changes),)))
    peak = changes.get("peak_pct", 200.0)

    assert outcome == checks(made)[f"power_excursion.{peak:g}"].outcome


def test_an_older_claim_demands_nothing() -> None:
    """A shut-down is told, and is no failure of what was claimed."""
    older = unit(claims=replace(UNIT.record.claims, standard="atx_2.52"))
    check = checks(power_excursion.measure(replace(bench(excursions=(tried(outcome="shut_down"),)), unit=older)))

    assert ("inconclusive", True) == (
        check["power_excursion.200"].outcome, check["power_excursion.200"].document.endswith("not demanded of this unit")
    )


def test_a_unit_without_a_16_pin_plug_has_the_lower_peaks() -> None:
    """Above 450 W and with a 16-pin plug 200 %, otherwise 150 % (ATX12VO table 3-3)."""
    plain = unit(cables=tuple(c for c in UNIT.record.cables if not c.connector.startswith("pcie_16")))
    large, small = (power_excursion.demanded(replace(bench(), unit=one), 200.0) for one in (UNIT, plain))

    assert (0.1, None) == (large.duration_ms if large else None, small)
