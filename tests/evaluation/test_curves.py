"""Between measured loads: straight lines, the shape-preserving loss, the quadratic loss and when it is refused."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.evaluation import Curve, CurvePoint, efficiency_at, value_at
from guidegen.evaluation.curves import best_load, fit_losses, loss_at, loss_model, peak_loads
from guidegen.quantities import Quantity
from tests.evaluation.invented import POINTS, RATED_W, lost_w


def curve(key: str, *points: tuple[float, float], own: float = 0.0, shared: float = 0.0) -> Curve:
    """A curve through (W, value)."""
    return Curve(key=key, title=key, points=tuple(
        CurvePoint(load_w=w, load_pct=w / 7.5, quantity=Quantity(v, "x", own=own, shared=shared)) for w, v in points
    ))


LOSS = curve("loss", *((p.delivered_power_w, lost_w(p.delivered_power_w)) for p in POINTS), own=0.08, shared=0.5)


def test_a_value_between_two_loads_lies_on_the_straight_line() -> None:
    """A quarter of the way, with own doubts in quadrature and shared ones kept."""
    between = value_at(curve("noise", (100, 20.0), (200, 24.0), own=0.4, shared=0.3), 125.0)

    assert between is not None
    assert (21.0, 0.3) == (between.value, between.shared)
    assert math.isclose(math.hypot(0.75 * 0.4, 0.25 * 0.4), between.own)


@pytest.mark.parametrize("load_w", [99.9, 200.1])
def test_nothing_is_said_beyond_the_measured_loads(load_w: float) -> None:
    """Neither below the first nor above the last; not for a loss either."""
    ends = ((100, 20.0), (200, 24.0))

    assert (None, None, None) == (
        value_at(curve("noise", *ends), load_w), value_at(curve("loss", *ends), load_w), efficiency_at(curve("loss", *ends), load_w)
    )


def test_measured_loads_give_back_what_was_measured() -> None:
    """Ends included, on every kind of curve."""
    points = ((100, 20.0), (200, 24.0), (300, 23.0))

    assert [20.0, 24.0, 23.0] == [q.value for w, _ in points if (q := value_at(curve("noise", *points), w))]
    assert [20.0, 24.0, 23.0] == [round(q.value, 9) for w, _ in points if (q := value_at(curve("loss", *points), w))]


def test_one_point_or_none_is_no_course() -> None:
    """An empty curve has no value, a single loss none between."""
    assert (None, None, None) == (
        value_at(curve("noise"), 100.0), loss_at(curve("loss", (100, 20.0)))(100.0), best_load(curve("loss", (100, 20.0)))
    )


def test_a_loss_follows_its_shape_and_not_the_straight_line() -> None:
    """Between 375 and 450 W the true loss lies under the chord; the course is nearer to the truth than the chord."""
    truth, chord = lost_w(412.5), (lost_w(375.0) + lost_w(450.0)) / 2
    course = value_at(LOSS, 412.5)

    assert course is not None
    assert abs(course.value - truth) < 0.2 * abs(chord - truth)


@given(st.lists(st.floats(5, 60), min_size=3, max_size=9, unique=True), st.floats(0, 1))
def test_a_rising_loss_stays_between_its_neighbours(values: list[float], share: float) -> None:
    """The cubic of Fritsch and Carlson adds no wiggle: between two loads the loss lies between theirs."""
    rising = sorted(values)
    course = loss_at(curve("loss", *((100.0 * i, v) for i, v in enumerate(rising))))
    for i, (low, high) in enumerate(pairwise(rising)):
        between = course(100.0 * (i + share))
        assert between is not None
        assert low - 1e-9 <= between <= high + 1e-9


def test_the_quadratic_loss_gives_back_its_coefficients() -> None:
    """8 W, .03 and 1e-4/W, per unit of 750 W; best load √(a/c), best efficiency 1/(1 + b + 2√(ac)) (closed forms)."""
    model = loss_model(LOSS, RATED_W)

    assert model is not None
    assert np.allclose((model.a, model.b, model.c), (8 / 750, 0.03, 0.075), rtol=1e-9)
    assert math.isclose(282.8427, 750 * (model.peak_load() or 0), abs_tol=1e-3)
    assert math.isclose(92.0329, model.best_efficiency(), abs_tol=1e-4)


def test_a_change_of_mode_at_light_load_refuses_the_quadratic() -> None:
    """Below 15 % the loss drops to half, as with a light-load mode: leave-one-out says that no quadratic holds."""
    switched = replace(LOSS, points=tuple(
        replace(p, quantity=replace(p.quantity, value=p.quantity.value * (0.5 if p.load_pct < 15 else 1.0))) for p in LOSS.points
    ))

    assert (True, None) == (loss_model(LOSS, RATED_W) is not None, loss_model(switched, RATED_W))


@given(st.lists(st.floats(-8, 8), min_size=len(LOSS.points), max_size=len(LOSS.points)))
def test_leaving_one_out_is_what_fits_to_the_others_say(scatter: list[float]) -> None:
    """The long way, a fit for each point left out; so much scatter brings coefficients to their bounds, too."""
    losses = [p.quantity.value + off for p, off in zip(LOSS.points, scatter, strict=True)]
    loads = np.array([p.load_w for p in LOSS.points]) / RATED_W
    model = loss_model(curve("loss", *zip((RATED_W * loads).tolist(), losses, strict=True), own=100.0), RATED_W)
    missed = []
    for i in range(1, len(loads) - 1):
        others = np.arange(len(loads)) != i
        a, b, c = fit_losses(loads[others], np.array(losses)[others] / RATED_W, np.full(len(loads) - 1, 100.0 / RATED_W))
        found, told = (loads[i] / (loads[i] + lost) for lost in (losses[i] / RATED_W, a + b * loads[i] + c * loads[i] ** 2))
        missed.append(100.0 * (told - found))

    assert model is not None
    assert math.isclose(float(np.sqrt(np.mean(np.square(missed)))), model.leave_one_out_pct, rel_tol=1e-9, abs_tol=1e-9)


def test_few_points_say_nothing_of_a_model() -> None:
    """Five loads do not carry three coefficients and a check."""
    assert loss_model(replace(LOSS, points=LOSS.points[3:8]), RATED_W) is None


def test_the_best_load_of_the_measured_course_is_near_the_closed_form() -> None:
    """Without any model the course finds 283 W within four per cent of the rating."""
    assert math.isclose(282.84, best_load(LOSS) or 0.0, abs_tol=0.04 * RATED_W)


def test_the_doubt_of_the_best_load_grows_with_the_scatter_and_is_the_same_each_time() -> None:
    """Ten times the scatter, about ten times the doubt; the seed decides the draws."""
    noisy = replace(LOSS, points=tuple(replace(p, quantity=replace(p.quantity, own=0.8)) for p in LOSS.points))
    small, large = (peak_loads(one, RATED_W, seed=1) for one in (LOSS, noisy))

    assert small is not None
    assert large is not None
    assert 5 < large.std() / small.std() < 20
    assert np.array_equal(small, peak_loads(LOSS, RATED_W, seed=1))  # type: ignore[arg-type]
