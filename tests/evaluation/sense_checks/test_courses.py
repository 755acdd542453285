"""Losses and levels from load to load: what is published passes, one digit does not, and the odd one out is named."""

from dataclasses import replace

import pytest

from guidegen.evaluation import SenseRecords, check_sense
from guidegen.standards import levels
from tests.evaluation.invented import GUIDE, POINTS, UNIT, session, unit
from tests.evaluation.sense_checks.planted import MIDDLE, of_three, with_point

BADGES = [(mains, one.name) for mains in ("115v_internal", "230v_redundant", "230v_eu_internal") for one in levels(mains)]


def supply(rated_w: float, efficiencies: dict[float, float]) -> SenseRecords:
    """A unit of this rating with these efficiencies at these loads, on instruments without doubt."""
    points = tuple(
        replace(POINTS[0], load_pct=load, delivered_power_w=load / 100 * rated_w, input_power_w=load * rated_w / pct)
        for load, pct in sorted(efficiencies.items())
    )
    rails = (replace(UNIT.record.rails[0], rated_current_a=rated_w / 12), *UNIT.record.rails[1:])
    return SenseRecords(
        guide=replace(GUIDE, instruments=()), units=(unit(rated_power_w=rated_w, rails=rails),),
        sessions=(session(load_points=points, instruments=()),),
    )


def said(found: SenseRecords) -> list[tuple[str, str]]:
    """Rule and field of every objection."""
    return [(one.rule, one.origin.field) for one in check_sense(found).objections]


@pytest.mark.parametrize(("mains", "badge"), BADGES)
@pytest.mark.parametrize("rated_w", [300.0, 750.0, 1600.0])
def test_a_supply_that_just_meets_a_badge_is_not_objected_to(mains: str, badge: str, rated_w: float) -> None:
    """The tables themselves are the sharpest courses that anybody asks for; measured at the badge's loads alone."""
    level = next(one for one in levels(mains) if one.name == badge)

    assert [] == said(supply(rated_w, dict(level.floors)))


def test_a_digit_in_the_middle_of_three_loads_is_found() -> None:
    """255.7 W written as 225.7 W makes 99.7 % between 85 and 85 %; as 240.7 W, 93.5 %."""
    field = "load_points[1].input_power_w"

    assert [[], [("energy-balance", field)], [("loss-curve", field)]] == [said(of_three(watts)) for watts in (255.7, 225.7, 240.7)]


def test_the_objection_names_the_efficiencies_beside_it_and_the_watts_to_be_expected() -> None:
    """So that the editor sees which digit it was."""
    (one,) = check_sense(of_three(240.7)).objections

    assert "240.7 W in for 225 W delivered, 93.5 % at 50 % load" == one.came
    assert one.expected.startswith("251.2 to 264.7 W by the efficiency beside it (85.0 % at 20 % and 85.0 % at 100 %), within ")


@pytest.mark.parametrize(("place", "slip_w"), [
    (0, 20.0), (1, 12.0), (4, -15.0), (4, 15.0), (MIDDLE, -20.0), (MIDDLE, 30.0), (11, -40.0), (11, 40.0), (12, -60.0), (12, 60.0),
])
def test_the_load_that_slipped_is_named_and_not_its_neighbours(place: int, slip_w: float) -> None:
    """Whether it lies between others or at an end."""
    found = with_point(place, input_power_w=POINTS[place].input_power_w + slip_w)

    assert [("loss-curve", f"load_points[{place}].input_power_w")] == said(found)
