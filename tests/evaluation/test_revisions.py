"""A unit beside its predecessor: differences, their uncertainty, and what they say."""

import math
from dataclasses import replace
from pathlib import Path

import pytest
from uncertainties import ufloat

from guidegen.evaluation import UnitResult, evaluate, revised
from guidegen.evaluation.revisions import _difference
from guidegen.quantities import Quantity
from guidegen.sources import read_library

CONTENT = Path(__file__).parents[2] / "content"


@pytest.fixture(scope="module")
def pair() -> tuple[UnitResult, UnitResult]:
    """A unit of the demo and the one that it replaces."""
    library = read_library(CONTENT)
    now, then = library.unit("halmer-quill-650"), library.unit("halmer-quill-650-2022")
    assert now is not None
    assert then is not None
    assert now.record.predecessor == then.id
    return tuple(evaluate(u, library.sessions_of(u.id), library.guide, library.policy) for u in (now, then))  # type: ignore[return-value]


def test_what_instruments_share_falls_out_as_far_as_it_is_alike() -> None:
    """Against the package ``uncertainties`` (3.2): one error common to both, each scaled by its own share."""
    then, now = Quantity(40.0, "mV", own=0.8, shared=0.6), Quantity(30.0, "mV", own=0.5, shared=0.45)
    error, first, second = ufloat(0, 1), ufloat(40.0, 0.8), ufloat(30.0, 0.5)
    alike = (second + 0.45 * error) - (first + 0.6 * error)
    apart = (second + ufloat(0, 0.45)) - (first + ufloat(0, 0.6))

    for reference, same in ((alike, True), (apart, False)):
        found = _difference(then, now, alike=same)
        assert math.isclose(reference.nominal_value, found.value)
        assert math.isclose(reference.std_dev, found.uncertainty, rel_tol=1e-9)


def test_every_number_of_both_is_there_once_in_order(pair: tuple[UnitResult, UnitResult]) -> None:
    """Measure by measure, yes and no only where they differ."""
    now, then = pair
    shared = [f.key for f in now.findings if then.finding(f.key) is not None and not f.key.endswith(".acted")]

    assert shared == [one.now.key for one in revised(now, then) if not one.now.key.endswith(".acted")]
    assert len(shared) > 80


def test_a_difference_says_something_from_twice_its_uncertainty_on(pair: tuple[UnitResult, UnitResult]) -> None:
    """And in the direction that the number is better in."""
    found = revised(*pair)

    assert {"better", "other", "within"} <= {one.outcome for one in found}
    for one in found:
        if one.outcome != "within":
            assert abs(one.difference.value) > 2 * one.difference.uncertainty
        if one.outcome in ("better", "worse"):
            assert (one.outcome == "better") == ((one.difference.value > 0) == (one.now.better == "higher"))
        if one.outcome == "other":
            assert "neither" == one.now.better


def test_a_unit_beside_itself_differs_in_nothing(pair: tuple[UnitResult, UnitResult]) -> None:
    """No number, and nothing of yes and no."""
    now = pair[0]

    assert {"within"} == {one.outcome for one in revised(now, now)}
    assert not any(one.now.key.endswith(".acted") for one in revised(now, now))


def test_other_instruments_leave_more_doubt(pair: tuple[UnitResult, UnitResult]) -> None:
    """Where the two were not read by the same, what each instrument does stays in the difference."""
    now, then = pair
    session = then.used[0]
    other = replace(then, used=(replace(session, record=replace(session.record, instruments=("another",))), *then.used[1:]))
    doubts = {one.now.key: one.difference.uncertainty for one in revised(now, then)}

    assert all(one.difference.uncertainty >= doubts[one.now.key] for one in revised(now, other) if one.now.key in doubts)
    assert any(one.difference.uncertainty > doubts[one.now.key] for one in revised(now, other) if one.now.key in doubts)
