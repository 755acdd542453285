"""Uncertainty and conformity against published examples and independent libraries."""

import math

import GTC
import pytest
import uncertainties
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import gamma

from guidegen.evaluation.uncertainty import effective_freedom, ratio
from guidegen.evaluation.verdicts import decide
from guidegen.quantities import Quantity


def test_conformity_of_jcgm_106_clause_7_4() -> None:
    """JCGM 106:2012, 7.4 (inputs seen in a second text): y 13.6, u 1.8, 12.5 to 16.3 gives 0.6626, 66 %."""
    assert 0.6626 == round(decide(13.6, 1.8, at_least=12.5, at_most=16.3).probability, 4)


def test_one_sided_conformity() -> None:
    """T −5.40, y −5.47, u .05 gives Φ(1.4) = .9192 (published text from memory, arithmetic exact)."""
    assert 0.9192 == round(decide(-5.47, 0.05, at_most=-5.40).probability, 4)


@pytest.mark.parametrize(("value", "expected"), [
    (107.9, "pass"), (108.1, "conditional_pass"), (119.9, "conditional_pass"), (120.1, "conditional_fail"),
    (131.9, "conditional_fail"), (132.1, "fail"),
])
def test_the_four_verdicts_of_ilac_g8(value: float, expected: str) -> None:
    """ILAC-G8:09/2019, 4.2, guard band w = U: limit 120 mV, U 12 mV (k = 2)."""
    assert expected == decide(value, 6.0, at_most=120.0).outcome


def test_the_efficiency_budget_of_500_over_550_watts() -> None:
    """.10 % and .15 % relative: η .90909, u .00164, U .33 points (derived)."""
    eta = ratio(Quantity(500.0, "W", own=0.5), Quantity(550.0, "W", own=0.825), "%", factor=100.0)

    assert (90.909, 0.164) == (round(eta.value, 3), round(eta.uncertainty, 3))


@given(st.floats(5, 1600), st.floats(1.02, 2.0), st.floats(1e-4, 0.01), st.floats(1e-4, 0.01))
def test_a_ratio_agrees_with_two_other_libraries(out: float, loss: float, first: float, second: float) -> None:
    """`uncertainties` and GTC compute the same standard uncertainty of an efficiency."""
    into = out * loss
    ours = ratio(Quantity(out, "W", own=out * first), Quantity(into, "W", own=into * second), "%", factor=100.0)
    theirs = 100 * uncertainties.ufloat(out, out * first) / uncertainties.ufloat(into, into * second)
    gtc = 100 * GTC.ureal(out, out * first) / GTC.ureal(into, into * second)

    assert math.isclose(ours.uncertainty, theirs.std_dev, rel_tol=1e-9)
    assert math.isclose(ours.uncertainty, GTC.uncertainty(gtc), rel_tol=1e-9)


def test_effective_degrees_of_freedom_of_gum_h1() -> None:
    """GUM H.1: components 25 (18), 9.68 (25.6 for d), 2.89 (50), 16.6 (2) nm give u_c 31.66 nm and ν_eff 16.75."""
    components = ((25.0, 18.0), (5.8, 24.0), (3.9, 5.0), (6.7, 8.0), (2.8868, 50.0), (16.599, 2.0))
    combined = math.hypot(*(u for u, _ in components))

    assert (31.66, 16.7) == (round(combined, 2), math.floor(effective_freedom(components) * 10) / 10)


def test_the_bearings_of_jcgm_106_clause_9_5_4() -> None:
    """JCGM 106:2012, 9.5.4 (numbers seen in a published test suite): prior gamma(shape 4, scale 1/4), limit 2, u 0.25.
    Out of tolerance 0.04238; accepted although out of tolerance 0.0080: the chance that a bearing of true value y reads
    at most 2 is, by the symmetry of the normal, what the decision gives for a reading of y.
    """
    prior = gamma(a=4, scale=0.25)

    def accepted_though_out(y: float) -> float:
        return float(prior.pdf(y)) * decide(y, 0.25, at_most=2.0).probability

    risk, _ = quad(accepted_though_out, 2.0, 8.0)

    assert 0.04238 == round(float(prior.sf(2.0)), 5)
    assert 0.0080 == round(risk, 4)
