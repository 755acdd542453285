"""From instruments to the doubt of a number: what each reading has of its own, and what all share."""

import math
from dataclasses import replace

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from guidegen.evaluation.uncertainty import (
    at_floor,
    combined,
    difference,
    mean,
    normal_draws,
    own_uncertainty,
    ratio,
    read,
    scaled,
    shared_uncertainty,
    symmetric_interval,
)
from guidegen.quantities import Quantity
from guidegen.records import Reading
from tests.evaluation.invented import bench

READING = Reading(quantity="input_power_w", gain_pct=0.1, offset=0.3, resolution=0.6, repeatability=0.1)


def test_scatter_and_last_digit_are_a_readings_own() -> None:
    """√(s² + d²/12): .1 and .6/√12 = .1732 give .2 (JCGM 100, 4.2 and F.2.2.1)."""
    assert 0.2 == round(own_uncertainty(READING), 12)


def test_gain_and_offset_are_shared_by_all_readings() -> None:
    """√((g·x)² + o²): .4 and .3 at 400 W give .5 W."""
    assert 0.5 == round(shared_uncertainty(READING, 400.0), 12)


def test_a_reading_without_an_instrument_has_no_doubt_that_anyone_knows() -> None:
    """The session's instruments decide, not the lab's."""
    none = bench(instruments=())

    assert Quantity(400.0, "W") == read(none, "input_power_w", 400.0, "W")
    assert 0.4 == round(read(bench(), "input_power_w", 400.0, "W").shared, 12)


def test_a_reading_at_the_lowest_that_the_meter_shows_may_be_less() -> None:
    """14 dB(A) is the meter's floor; a meter without one has none."""
    assert [True, True, False] == [at_floor(bench(), "noise_dba", level) for level in (13.9, 14.0, 14.1)]
    assert not at_floor(bench(), "voltage_v", 0.0)


def test_a_mean_shrinks_own_doubts_only() -> None:
    """Four readings of one meter: own halves, shared stays."""
    assert Quantity(3.0, "W", own=0.5, shared=2.0) == mean(tuple(Quantity(v, "W", own=1.0, shared=2.0) for v in (1, 2, 4, 5)))


def test_a_difference_adds_doubts_in_quadrature() -> None:
    """Of different meters."""
    assert Quantity(50.0, "W", own=5.0, shared=13.0) == difference(
        Quantity(550.0, "W", own=3.0, shared=5.0), Quantity(500.0, "W", own=4.0, shared=12.0)
    )


def test_a_scaled_quantity_scales_its_doubts() -> None:
    """Doubts stay positive under a negative factor."""
    assert Quantity(-20.0, "mV", own=2.0, shared=4.0) == scaled(Quantity(10.0, "V", own=1.0, shared=2.0), -2.0, "mV")


def test_nothing_delivered_is_an_efficiency_of_nothing() -> None:
    """0 W out of 5 W is 0 %, and no division by it."""
    assert 0.0 == ratio(Quantity(0.0, "W", own=0.1), Quantity(5.0, "W", own=0.1), "%", factor=100.0).value


@given(st.floats(-1, 1), st.floats(0.01, 10), st.floats(0.01, 10))
def test_two_correlated_parts_combine_by_the_law_of_cosines(r: float, first: float, second: float) -> None:
    """JCGM 100, 5.2.2: u² = u1² + u2² + 2·r·u1·u2."""
    expected = math.sqrt(max(0.0, first**2 + second**2 + 2 * r * first * second))

    assert math.isclose(expected, combined((1, 1), (first, second), ((1, r), (r, 1))), rel_tol=1e-9, abs_tol=1e-6)


def test_draws_are_decided_by_their_seed() -> None:
    """The same seed the same draws, another seed others; mean and scatter are those asked for."""
    values, doubts = np.array([10.0, 20.0]), np.array([1.0, 2.0])
    first, again, other = (normal_draws(values, doubts, seed=s, trials=4000) for s in (1, 1, 2))

    assert np.array_equal(first, again)
    assert not np.array_equal(first, other)
    assert np.allclose(first.mean(axis=0), values, atol=0.1)
    assert np.allclose(first.std(axis=0), doubts, rtol=0.05)


def test_a_symmetric_interval_leaves_the_same_on_both_sides() -> None:
    """Of 0 to 100 in steps of one, 90 % lie between 5 and 95."""
    assert (5.0, 95.0) == tuple(round(end, 9) for end in symmetric_interval(np.arange(101.0), coverage=0.9))


def test_the_doubt_of_a_ratio_has_both_parts() -> None:
    """Own by own, shared by shared; neither leaks into the other."""
    out, into = Quantity(500.0, "W", own=0.5, shared=1.0), Quantity(550.0, "W", own=0.0, shared=0.0)
    eta = ratio(out, into, "%", factor=100.0)

    assert math.isclose(eta.value * 1e-3, eta.own)
    assert math.isclose(eta.value * 2e-3, eta.shared)
    assert 0.0 == ratio(replace(out, shared=0.0), into, "%").shared
