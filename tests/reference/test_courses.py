"""Courses and fits against SciPy's."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator
from scipy.optimize import nnls

from guidegen.evaluation.curves import fit_losses
from guidegen.evaluation.shape_preserving import Course

RISES = st.floats(1e-6, 50.0) | st.floats(-50.0, -1e-6) | st.just(0.0)
"""Smaller rises overflow in SciPy."""
STEPS = st.lists(st.tuples(st.floats(0.1, 100.0), RISES), min_size=2, max_size=12)


@given(STEPS)
def test_the_course_is_that_of_scipy(steps: list[tuple[float, float]]) -> None:
    """Source: ``scipy.interpolate.PchipInterpolator``, between the points, on them and beyond the ends."""
    places, values = (np.cumsum(column) for column in zip(*steps, strict=True))
    wanted = np.concatenate((np.linspace(places[0] - 1.0, places[-1] + 1.0, 97), places))
    found, expected = Course.through(places, values).at(wanted), PchipInterpolator(places, values, extrapolate=False)(wanted)

    assert np.array_equal(np.isnan(found), np.isnan(expected))
    assert np.allclose(found, expected, rtol=1e-9, atol=1e-9, equal_nan=True)


def test_a_rise_next_to_nothing_is_no_slope() -> None:
    """Numbers at the end of what a computer holds overflow quietly."""
    course = Course.through(np.array([0.0, 1.0, 35.0]), np.array([0.0, 1e-300, 1e-300 + 7e-306]))

    assert np.isfinite(course.at(np.linspace(0.0, 35.0, 9))).all()


@pytest.mark.parametrize("places", [[1.0], [1.0, 1.0], [2.0, 1.0, 3.0]])
def test_points_that_do_not_rise_are_refused(places: list[float]) -> None:
    """Between two values at one place there is no course."""
    with pytest.raises(ValueError, match="at least two at rising places"):
        Course.through(np.array(places), np.ones(len(places)))


@given(
    st.lists(st.floats(0.02, 1.1), min_size=4, max_size=12, unique_by=lambda load: round(load, 2)),
    st.tuples(*[st.floats(-0.05, 0.1)] * 3), st.integers(0, 2**32 - 1),
)
def test_the_fit_is_that_of_scipy(loads: list[float], truth: tuple[float, float, float], seed: int) -> None:
    """Source: ``scipy.optimize.nnls`` on the same weighted design: no other coefficients of at least 0 miss by less."""
    rng = np.random.default_rng(seed)
    at = np.sort(np.array(loads))
    design, doubts = np.column_stack([np.ones_like(at), at, at**2]), rng.uniform(1e-4, 1e-2, len(at))
    losses = design @ np.array(truth) + rng.normal(0.0, doubts)
    weighted, wanted = design / doubts[:, None], losses / doubts
    found = np.array(fit_losses(at, losses, doubts))
    missed, least = float(np.linalg.norm(weighted @ found - wanted)), nnls(weighted, wanted)[1]

    assert (found >= 0.0).all()
    assert missed == pytest.approx(least, rel=1e-7, abs=1e-7)
