"""Efficiency at nominal loads, between them, at its best, and with its doubt."""

import math
from dataclasses import replace

import pytest

from guidegen.evaluation.measures import efficiency
from guidegen.origins import Origin
from tests.evaluation.invented import FILE, POINTS, bench, found, lost_w, point, value


def eta(load_w: float) -> float:
    """Efficiency of the invented unit, %."""
    return 100.0 * load_w / (load_w + lost_w(load_w))


@pytest.mark.parametrize(("name", "load_w"), [
    ("light", 15.0), ("at_10", 75.0), ("at_20", 150.0), ("at_50", 375.0), ("at_100", 750.0), ("at_110", 825.0),
])
def test_efficiency_at_a_nominal_load_is_delivered_over_drawn(name: str, load_w: float) -> None:
    """Generalized Test Protocol for internal supplies: DC out over AC in; light load of a 750 W unit is 2 %, 15 W."""
    assert round(eta(load_w), 6) == value(efficiency.measure(bench()), f"efficiency.{name}")


def test_the_light_load_of_a_small_unit_is_ten_watts() -> None:
    """ATX design guide: 10 W up to 500 W of rating; at 450 W the 9 W of 2 % are near enough, 15 W are not."""
    made = bench()
    small = replace(made, unit=replace(made.unit, record=replace(made.unit.record, rated_power_w=450.0)))
    ten = replace(small, session=replace(small.session, record=replace(
        small.session.record, load_points=(replace(point(2.2), delivered_power_w=10.0, input_power_w=16.0), *POINTS[2:]))))

    assert (None, 62.5) == tuple(value(efficiency.measure(b), "efficiency.light") for b in (small, ten))


def test_the_mean_is_that_of_twenty_fifty_and_full() -> None:
    """Common practice: three loads, equal weights."""
    expected = math.fsum(map(eta, (150.0, 375.0, 750.0))) / 3

    assert round(expected, 6) == value(efficiency.measure(bench()), "efficiency.average")


def test_a_load_that_was_not_on_the_bench_is_taken_from_the_loss_and_says_so() -> None:
    """Without the 50 % point the value lies within a few hundredths of the truth, and is not called measured."""
    gap = tuple(p for p in POINTS if p.load_pct != 50.0)
    half = found(efficiency.measure(bench(load_points=gap)))["efficiency.at_50"]

    assert (False, efficiency.BETWEEN) == (efficiency.is_measured(half), half.note)
    assert math.isclose(eta(375.0), half.quantity.value, abs_tol=0.03)
    assert (Origin(FILE, ("load_points",)),) == half.origins
    assert half.quantity.own > 0
    assert half.quantity.shared > 0


def test_nothing_is_said_beyond_the_measured_loads() -> None:
    """A bench that stopped at 90 % knows nothing of full load, nor of the mean."""
    short = efficiency.measure(bench(load_points=POINTS[:-2]))

    assert not {"efficiency.at_100", "efficiency.at_110", "efficiency.average"} & set(found(short))


def test_a_point_stands_for_a_load_within_one_point() -> None:
    """49.2 % stands for half load, 48.9 % does not."""
    near, far = (
        found(efficiency.measure(bench(load_points=(*POINTS[:6], point(load), *POINTS[7:]))))["efficiency.at_50"]
        for load in (49.2, 48.9)
    )

    assert (True, False) == (efficiency.is_measured(near), efficiency.is_measured(far))


def test_the_best_load_of_a_quadratic_loss_is_the_closed_form() -> None:
    """P* = √(a/c) = 282.84 W and η* = 1/(1 + b + 2√(ac)) = 92.0329 % for 8 W, .03, 1e-4/W (closed forms)."""
    made = found(efficiency.measure(bench()))

    assert round(100 * math.sqrt(8 / 1e-4) / 750, 4) == round(made["efficiency.peak_load"].quantity.value, 4)
    assert math.isclose(100 / (1.03 + 2 * math.sqrt(8e-4)), made["efficiency.peak"].quantity.value, abs_tol=1e-9)
    assert 0 < made["efficiency.peak_load"].quantity.own < 5
    assert "95 of 100 lie between" in made["efficiency.peak_load"].note


def test_a_best_load_at_the_end_of_the_measured_ones_says_so() -> None:
    """Three loads that all rise: the best may lie beyond the last."""
    rising = (point(5.0), point(10.0), point(20.0))
    best = found(efficiency.measure(bench(load_points=rising)))["efficiency.peak_load"]

    assert (20.0, "At an end of the measured loads; the best may lie beyond.") == (round(best.quantity.value, 6), best.note)


def test_the_doubt_of_an_efficiency_keeps_what_the_meters_share_apart() -> None:
    """Two gains of 0.1 % in quadrature are shared: η·0.1 %·√2; scatter and last digit are the reading's own."""
    half = found(efficiency.measure(bench()))["efficiency.at_50"].quantity
    one = math.hypot(0.05, 0.1 / math.sqrt(12))
    drawn = 375.0 + lost_w(375.0)

    assert math.isclose(eta(375.0) * 1e-3 * math.sqrt(2), half.shared, rel_tol=1e-9)
    assert math.isclose(eta(375.0) * math.hypot(one / 375.0, one / drawn), half.own, rel_tol=1e-9)


def test_the_same_records_give_the_same_numbers() -> None:
    """The simulation behind the doubt of the best load is seeded by the edition."""
    assert efficiency.measure(bench()) == efficiency.measure(bench())


def test_curves_run_over_all_loads_in_watts_and_percent() -> None:
    """One point a load, loss in watts."""
    made, loss = efficiency.measure(bench()).curves

    assert (("efficiency", 13), ("loss", 13)) == ((made.key, len(made.points)), (loss.key, len(loss.points)))
    assert (375.0, 50.0) == (loss.points[6].load_w, loss.points[6].load_pct)
    assert math.isclose(lost_w(375.0), loss.points[6].quantity.value, abs_tol=1e-9)
