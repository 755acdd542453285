"""The packaged limits: readable, complete, each with its document and how sure it is."""

from itertools import pairwise
from typing import get_args

import pytest

from guidegen.evaluation import Bench
from guidegen.evaluation.measures import MEASURES
from guidegen.records import HoldUp, Session, Timing, Transient
from guidegen.records.kinds import Rail
from guidegen.records.limit import Standing
from guidegen.records.unit import Protection
from guidegen.standards import excursion_pairs, levels, limits, protection_rule, transient_step, trip_window
from tests.evaluation.invented import GUIDE, POLICY, UNIT, session, with_points

STANDINGS = get_args(Standing)


def everything() -> Session:
    """A session in which everything was tested that a limit speaks of."""
    readings = {f"ripple_{rail}_mv": (9.0,) * 4 for rail in ("12v", "5v", "3v3", "5vsb")}
    light = with_points(**readings).session.record.load_points
    rails: tuple[Rail, ...] = ("12v", "5v", "3v3", "5vsb")
    return session(
        load_points=(*session().record.load_points[:1], *light), hold_up=(HoldUp(load_pct=100.0, power_good_ms=17.0, rails_ms=19.0),),
        timing=Timing(power_on_t1_ms=110.0, rise_t2_ms=6.0, power_good_delay_t3_ms=140.0, power_good_rise_t4_ms=0.4),
        transients=tuple(Transient(rail=rail, from_a=0.5, to_a=2.0, lowest_v=4.9, highest_v=5.1) for rail in rails),
    )


def test_every_limit_has_a_bound_a_document_and_a_standing() -> None:
    """A number without its source does not stand in the data."""
    for limit in limits():
        assert limit.at_least is not None or limit.at_most is not None
        assert limit.document
        assert limit.standing in STANDINGS


def test_every_limit_names_a_finding_in_its_unit_and_by_its_title() -> None:
    """What a reader is told was not tested has the same name as when it was."""
    bench = Bench(unit=UNIT, session=everything(), guide=GUIDE, policy=POLICY)
    found = {finding.key: finding for measure in MEASURES.values() for finding in measure(bench).findings}
    light = "efficiency.light"
    expected = {limit.finding: (limit.unit, limit.title) for limit in limits()}
    made = {key: (found[key].quantity.unit, found[key].title) for key in expected if key in found}

    assert set(expected) == set(made)
    assert {**expected, light: ("%", "Efficiency at 15 W")} == made


def test_no_finding_has_two_limits_for_one_claim_and_mains() -> None:
    """A later standard replaces the earlier one; both together would contradict each other."""
    cells = [
        (limit.finding, standard, mains)
        for limit in limits()
        for standard in limit.applies_to or ("atx12v_2.4", "atx_2.52", "atx_3.0", "atx_3.1")
        for mains in ((limit.mains_v,) if limit.mains_v else (115, 230))
    ]

    assert sorted(set(cells)) == sorted(cells)


def test_the_design_guides_efficiency_holds_at_115_volts_alone() -> None:
    """336521: required 60 % at the light load, 65, 72 and 70 % at 20, 50 and 100 % (seen)."""
    guide = {limit.finding: limit.at_least for limit in limits() if limit.finding.startswith("efficiency.")}

    assert {"efficiency.light": 60, "efficiency.at_20": 65, "efficiency.at_50": 72, "efficiency.at_100": 70} == guide
    assert {115} == {limit.mains_v for limit in limits() if limit.finding in guide}


@pytest.mark.parametrize("mains_class", ["115v_internal", "230v_eu_internal", "230v_redundant"])
def test_a_higher_level_never_asks_for_less(mains_class: str) -> None:
    """Level by level at each load."""
    table = levels(mains_class)
    for lower, higher in pairwise(table):
        above = dict(higher.floors)
        assert all(above[load] >= floor for load, floor in lower.floors)


def test_a_class_that_does_not_exist_has_no_levels() -> None:
    """And the redundant class has no white."""
    assert ((), "bronze") == (levels("12v_internal"), levels("230v_redundant")[0].name)


@pytest.mark.parametrize("protection", get_args(Protection))
def test_every_protection_has_a_rule_with_its_standing(protection: str) -> None:
    """Where no document asks for it, the rule says so."""
    assert protection_rule(protection).standing in ("seen", "second_hand", "house_rule")


def test_only_over_voltage_has_a_published_window() -> None:
    """The ATX design guides give no figure for current, power, under-voltage or temperature."""
    assert ["ovp_12v", "ovp_5v", "ovp_3v3"] == [p for p in get_args(Protection) if trip_window(p) is not None]


def test_the_excursion_table_of_both_kinds_of_supply() -> None:
    """ATX12VO design guide table 3-3 (seen): peak %, ms, duty %."""
    small, large = ([(p.peak_pct, p.duration_ms, p.duty_pct) for p in excursion_pairs(large=one)] for one in (False, True))

    assert [(150, 0.1, 5), (145, 1, 8), (135, 10, 12.5), (110, 100, 25)] == small
    assert [(200, 0.1, 5), (180, 1, 8), (160, 10, 12.5), (120, 100, 25)] == large


def test_the_steps_of_load_that_rails_must_stand() -> None:
    """336521 table 4-3 (seen): 40 % on 12 V, 30 % on 5 and 3.3 V, .5 A on standby."""
    steps = {rail: transient_step(rail) for rail in get_args(Rail)}

    assert {"12v": 40.0, "5v": 30.0, "3v3": 30.0} == {r: s.share_pct for r, s in steps.items() if s and s.share_pct}
    assert {"5vsb": 0.5, "minus_12v": 0.1} == {r: s.current_a for r, s in steps.items() if s and s.current_a}
    assert transient_step("24v") is None
