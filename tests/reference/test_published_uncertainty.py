"""Published worked examples of measurement uncertainty, through the functions that the measures use."""

import math

import GTC
import numpy as np
import pytest
import uncertainties

from guidegen.evaluation.uncertainty import combined, normal_draws, symmetric_interval

GAUGE = ((1.0, 25.0), (1.0, 9.68), (-50_000_623 * -0.1, 1e-6 / math.sqrt(3)), (-50_000_623 * 11.5e-6, 0.05 / math.sqrt(3)))
"""GUM H.1: (sensitivity, standard uncertainty) of l_s, d, δα (1/°C) and δθ (°C); the result in nm."""
VOLTS = (5.007, 4.994, 5.005, 4.990, 4.999)
MILLIAMPERES = (19.663, 19.639, 19.640, 19.685, 19.678)
RADIANS = (1.0456, 1.0438, 1.0468, 1.0428, 1.0433)


def test_the_end_gauge_of_gum_h1() -> None:
    """JCGM 100:2008, H.1: u_c = 32 nm (31.66); components 25, 9.68, 2.89 and 16.60 nm."""
    components = [round(abs(c) * u, 2) for c, u in GAUGE]

    assert [25.0, 9.68, 2.89, 16.6] == components
    assert 31.7 == round(combined([c for c, _ in GAUGE], [u for _, u in GAUGE]), 1)


def test_the_difference_of_the_end_gauges_in_gum_h1() -> None:
    """H.1.3.2: 5.8, 3.9 and 6.7 nm give u(d) = 9.7 nm."""
    assert 9.7 == round(combined((1, 1, 1), (5.8, 3.9, 6.7)), 1)


def impedance() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """GUM H.2: means, standard uncertainties and correlations of V, I and φ."""
    readings = np.array([VOLTS, np.array(MILLIAMPERES) / 1000.0, RADIANS])
    return readings.mean(axis=1), readings.std(axis=1, ddof=1) / math.sqrt(5), np.corrcoef(readings)


@pytest.mark.parametrize(("name", "value", "u"), [("R", 127.732, 0.071), ("X", 219.847, 0.295), ("Z", 254.260, 0.236)])
def test_the_impedance_of_gum_h2_needs_the_correlations(name: str, value: float, u: float) -> None:
    """JCGM 100:2008, H.2, tables H.3 and H.4, by 5.2.2. The published .295 of X is cut: its own inputs give .2956."""
    (v, i, phi), doubts, correlations = impedance()
    z = v / i
    trig = {"R": (math.cos(phi), -math.sin(phi)), "X": (math.sin(phi), math.cos(phi)), "Z": (1.0, 0.0)}[name]
    sensitivities = (trig[0] / i, -trig[0] * v / i**2, trig[1] * z)

    assert value == round(float(trig[0] * z), 3)
    assert math.isclose(u, combined(sensitivities, doubts, correlations), abs_tol=0.0007)
    assert not math.isclose(u, combined(sensitivities, doubts), rel_tol=0.1)


def test_the_correlations_of_gum_h2() -> None:
    """Table H.3: r(V, I) = −.36, r(V, φ) = .86, r(I, φ) = −.65."""
    correlations = impedance()[2]

    assert [-0.36, 0.86, -0.65] == [round(float(correlations[a][b]), 2) for a, b in ((0, 1), (0, 2), (1, 2))]


def test_four_normal_inputs_of_jcgm_101() -> None:
    """JCGM 101:2008, 9.2.2: the sum of four N(0, 1) has u = 2.0 and a 95 % interval of ±3.92."""
    sums = normal_draws(np.zeros(4), np.ones(4), seed=101, trials=400_000).sum(axis=1)
    low, high = symmetric_interval(sums)

    assert math.isclose(2.0, float(sums.std(ddof=1)), abs_tol=0.01)
    assert np.allclose((-3.92, 3.92), (low, high), atol=0.03)


def test_four_rectangular_inputs_of_jcgm_101() -> None:
    """JCGM 101:2008, 9.2.3: ±3.88, narrower than the ±3.92 of a normal sum; exactly 2√3(2 − (3/5)^¼)."""
    sums = np.random.default_rng(101).uniform(-math.sqrt(3), math.sqrt(3), size=(400_000, 4)).sum(axis=1)
    exact = 2 * math.sqrt(3) * (2 - 0.6**0.25)

    assert 3.879 == round(exact, 3)
    assert np.allclose((-exact, exact), symmetric_interval(sums), atol=0.02)


def test_correlated_parts_agree_with_two_other_libraries() -> None:
    """`uncertainties` and GTC combine two correlated readings to the same doubt."""
    covariance = np.array([[0.09, 0.06], [0.06, 0.16]])
    first, second = uncertainties.correlated_values([3.0, 5.0], covariance)
    x, y = GTC.multiple_ureal([3.0, 5.0], [0.3, 0.4], 1e9)
    GTC.set_correlation(0.5, x, y)
    ours = combined((5.0, 3.0), (0.3, 0.4), ((1.0, 0.5), (0.5, 1.0)))

    assert math.isclose(ours, (first * second).std_dev, rel_tol=1e-9)
    assert math.isclose(ours, GTC.uncertainty(x * y), rel_tol=1e-9)
