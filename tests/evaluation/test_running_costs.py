"""Energy in a year, its price, and whether the dearer unit pays for itself."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.evaluation import Assessment, Curve, CurvePoint
from guidegen.evaluation.running_costs import (
    UseLoad,
    annual_energy,
    annual_kwh,
    compare,
    cost,
    loss_difference_kwh,
    payback,
    saving,
    unit_energy,
    use_loads,
)
from guidegen.quantities import Quantity
from guidegen.records import ProfileUse, ReaderProfile

LOSS = Curve(key="loss", title="Loss", points=tuple(
    CurvePoint(load_w=load, load_pct=load / 10, quantity=Quantity(lost, "W", own=0.3, shared=0.4))
    for load, lost in ((50.0, 10.0), (100.0, 12.0), (500.0, 50.0), (1000.0, 120.0))
))


def test_energy_is_delivered_and_lost_power_by_the_hour() -> None:
    """112 W for 4 h and 550 W for 2 h, 365 days: 163.52 + 401.5 kWh."""
    found = annual_energy(LOSS, (UseLoad(use="work", delivered_w=100.0, hours_per_day=4.0),
                                 UseLoad(use="gaming", delivered_w=500.0, hours_per_day=2.0)))

    assert () == found.unmeasured
    assert pytest.approx(565.02) == found.energy.value
    assert [163.52, 401.5] == [pytest.approx(line.energy_kwh) for line in found.lines]


def test_doubt_of_readings_adds_in_quadrature_and_that_of_meters_in_line() -> None:
    """0.3 W and 0.4 W for 4 h and 2 h a day."""
    found = annual_energy(LOSS, (UseLoad(use="work", delivered_w=100.0, hours_per_day=4.0),
                                 UseLoad(use="gaming", delivered_w=500.0, hours_per_day=2.0))).energy

    assert math.hypot(annual_kwh(0.3, 4.0), annual_kwh(0.3, 2.0)) == pytest.approx(found.own)
    assert annual_kwh(0.4, 6.0) == pytest.approx(found.shared)


def test_the_rest_of_the_day_the_standby_rail_is_fed() -> None:
    """0.5 W for the 20 hours that are left."""
    found = annual_energy(LOSS, (UseLoad(use="work", delivered_w=100.0, hours_per_day=4.0),), standby=Quantity(0.5, "W"))
    off = found.lines[-1]

    assert UseLoad(use="off", delivered_w=0.0, hours_per_day=20.0) == off.load
    assert pytest.approx(3.65) == off.energy_kwh


def test_a_load_beyond_the_measured_ones_is_named_not_guessed() -> None:
    """1100 W lies above the last point."""
    found = annual_energy(LOSS, (UseLoad(use="all_out", delivered_w=1100.0, hours_per_day=4.0),))

    assert (("all_out",), ()) == (found.unmeasured, found.lines)


def test_a_profile_becomes_loads() -> None:
    """Shares of the reader's own full load."""
    profile = ReaderProfile(id="p", title="P", uses=(
        ProfileUse(use="idle", share_of_full_pct=15.0, hours_per_day=3.0), ProfileUse(use="gaming", share_of_full_pct=90.0, hours_per_day=2.0),
    ))

    assert [("idle", 60.0, 3.0), ("gaming", 360.0, 2.0)] == [
        (one.use, one.delivered_w, one.hours_per_day) for one in use_loads(profile, 400.0)
    ]


def test_a_unit_counts_its_own_standby_power(small: Assessment) -> None:
    """The last line is the hours off, at what the bench measured."""
    found = unit_energy(small.results[0], (UseLoad(use="work", delivered_w=100.0, hours_per_day=4.0),))
    standby = small.results[0].finding("standby.no_load")
    assert found is not None
    assert standby is not None

    assert annual_kwh(standby.quantity.value, 20.0) == pytest.approx(found.lines[-1].energy_kwh)


def test_cost_is_energy_by_tariff() -> None:
    """100 ± 3 kWh at 0.30."""
    found = cost(Quantity(100.0, "kWh", own=3.0), 0.3)

    assert [30.0, 0.9] == pytest.approx([found.value, found.own])


def test_what_the_same_meter_does_to_both_falls_out_of_a_saving() -> None:
    """Own doubts of 3 and 4 remain, shared ones of 10 and 11 leave their difference."""
    better, worse = Quantity(500.0, "kWh", own=3.0, shared=10.0), Quantity(540.0, "kWh", own=4.0, shared=11.0)

    assert Quantity(40.0, "kWh", own=5.0, shared=1.0) == saving(better, worse)


@pytest.mark.parametrize(("price", "yearly", "warranty", "outcome"), [
    (40.0, Quantity(10.0, "", own=0.5), 7.0, "within_warranty"),
    (40.0, Quantity(5.0, "", own=0.2), 7.0, "never_within_warranty"),
    (40.0, Quantity(6.0, "", own=2.0), 7.0, "undecided"),
    (40.0, Quantity(-2.0, "", own=0.5), 7.0, "never_within_warranty"),
    (40.0, Quantity(-2.0, "", own=10.0), 7.0, "undecided"),
    (0.0, Quantity(5.0, ""), 7.0, "at_once"),
    (-10.0, Quantity(5.0, ""), 7.0, "at_once"),
])
def test_payback_is_said_with_its_doubt(price: float, yearly: Quantity, warranty: float, outcome: str) -> None:
    """Sure, sure not, or open."""
    assert outcome == payback(price, yearly, warranty_years=warranty).outcome


def test_payback_in_years() -> None:
    """40 over 10 a year is 4 years; with 10 ± 1.96 it is 3.3 to 5.0 years."""
    found = payback(40.0, Quantity(10.0, "", own=1.0), warranty_years=7.0)

    assert (4.0, 3.34, 4.98) == (found.years, round(found.earliest or 0, 2), round(found.latest or 0, 2))


def test_where_nothing_is_saved_there_are_no_years() -> None:
    """The dearer unit takes more: it never pays."""
    found = payback(40.0, Quantity(-2.0, "", own=0.5), warranty_years=7.0)

    assert (None, None, None) == (found.years, found.earliest, found.latest)


def test_two_units_are_compared_at_the_same_loads(small: Assessment) -> None:
    """What one saves against the other is what the other loses against it, and money follows the tariff."""
    one, other = small.results[0], small.results[1]
    loads = (UseLoad(use="gaming", delivered_w=300.0, hours_per_day=4.0),)
    there = compare(one, other, loads=loads, tariff_per_kwh=0.5, price_difference=20.0)
    back = compare(other, one, loads=loads, tariff_per_kwh=0.5, price_difference=20.0)
    assert there is not None
    assert back is not None

    assert there.energy.value == pytest.approx(-back.energy.value)
    assert there.money.value == pytest.approx(0.5 * there.energy.value)
    assert {"never_within_warranty"} <= {there.payback.outcome, back.payback.outcome}


def test_units_are_not_compared_at_loads_that_were_not_measured(small: Assessment) -> None:
    """3000 W is beyond both."""
    loads = (UseLoad(use="all_out", delivered_w=3000.0, hours_per_day=1.0),)

    assert compare(small.results[0], small.results[1], loads=loads, tariff_per_kwh=0.3, price_difference=20.0) is None


@given(st.floats(1, 1000), st.floats(0, 24), st.floats(60, 98), st.floats(60, 98))
def test_the_loss_alone_makes_the_difference(power_w: float, hours: float, one: float, other: float) -> None:
    """Two energies from the wall, subtracted, and the formula agree."""
    direct = annual_kwh(power_w * 100 / one, hours) - annual_kwh(power_w * 100 / other, hours)

    assert loss_difference_kwh(power_w, hours, one, against_pct=other) == pytest.approx(direct, abs=1e-6)


@given(st.floats(1, 500), st.floats(0.1, 50), st.floats(0, 10), st.floats(1, 12))
def test_the_years_lie_between_their_ends(price: float, yearly: float, doubt: float, warranty: float) -> None:
    """Earliest, expected, latest, or never."""
    found = payback(price, Quantity(yearly, "", own=doubt), warranty_years=warranty)

    assert found.earliest is not None
    assert found.years is not None
    assert found.earliest <= found.years <= (found.latest or math.inf)
