"""Closed forms and worked numbers of the trade, each with its source."""

import numpy as np
import pytest

from guidegen.evaluation.curves import fit_losses
from guidegen.evaluation.measures.acoustic_noise import background_correction, corrected, energy_mean, energy_sum
from guidegen.evaluation.measures.heat import btu_per_hour
from guidegen.evaluation.measures.hold_up import hold_up_ms
from guidegen.evaluation.measures.power_excursion import base_load
from guidegen.evaluation.sizing import circuit_limit_w, delivered_from_wall, wall_from_delivered
from guidegen.standards import excursion_pairs


@pytest.mark.parametrize(("rating", "large", "expected"), [
    (1000, True, (918, 897, 882, 924)),
    (750, True, (688.2, 673.0, 661.2, 692.8)),
    (450, False, (434.9, 427.9, 422.7, 434.0)),
])
def test_base_loads_of_power_excursions(rating: float, large: bool, expected: tuple[float, ...]) -> None:
    """1000 W: ATX12VO design guide table 3-4 (seen); 750 W: a maker's sheet (second-hand); 450 W: derived by the RMS rule."""
    decimals = 0 if rating == 1000 else 1
    found = tuple(
        round(base_load(rating, peak=pair.peak_pct / 100, duty=pair.duty_pct / 100), decimals) for pair in excursion_pairs(large=large)
    )

    assert expected == found


@pytest.mark.parametrize(("levels", "expected"), [
    ((60, 60), 63.01), ((84, 79), 85.19), ((62, 73), 73.33), ((85, 87, 89), 92.07), ((86, 80), 86.97),
])
def test_sums_of_sound_levels(levels: tuple[float, ...], expected: float) -> None:
    """Published sheets: 85.2, 73.3, 92, 87.0 (rounded there)."""
    assert expected == round(energy_sum(tuple(map(float, levels))), 2)


def test_the_energy_mean_is_not_the_arithmetic_one() -> None:
    """30, 32, 31, 35, 33 dB: 32.55 by energy, 32.2 by arithmetic (ISO 3744:2010 equation 12, from a second text)."""
    assert 32.55 == round(energy_mean((30.0, 32.0, 31.0, 35.0, 33.0)), 2)


@pytest.mark.parametrize(("gap", "k1"), [
    (3, 1.2563), (6, 1.2563), (7, 0.9665), (8, 0.7494), (9, 0.5844), (10, 0.4576), (15, 0.1396), (15.1, 0.0),
])
def test_background_correction(gap: float, k1: float) -> None:
    """ISO 3744:2010 equation 16 with its rules: held below 6 dB, nothing above 15 dB (from a second text)."""
    assert k1 == round(background_correction(gap), 4)


def test_background_subtracted_from_a_total() -> None:
    """Total 70, background 63: 69.03 (instrument manual: 69); moved from 0.5 m to 1 m: 6.02 dB less (textbook)."""
    at_one = corrected((70.0,), background_dba=63.0, distance_m=1.0)
    at_half = corrected((70.0,), background_dba=63.0, distance_m=0.5)

    assert (69.03, 6.02) == (round(at_one.level_dba, 2), round(at_one.level_dba - at_half.level_dba, 2))


def test_a_background_that_is_too_near_gives_an_upper_bound() -> None:
    """5 dB above the room is not enough for a level of its own."""
    assert (True, False) == tuple(corrected((level,), background_dba=20.0, distance_m=1.0).upper_bound for level in (25.0, 27.0))


def test_hold_up_by_the_energy_of_the_bulk_capacitors() -> None:
    """560 µF, 390 to 300 V, 750 W, η .92: 21.3 ms (derived from ½C(V1² − V2²) = P·t/η, a second text)."""
    assert 21.3 == round(hold_up_ms(560.0, load_w=750.0, efficiency=0.92), 1)


def test_heat_in_btu_per_hour() -> None:
    """500 W is 1706 BTU/h (several texts)."""
    assert 1706 == round(btu_per_hour(500.0))


def test_three_noise_free_points_give_back_the_quadratic_loss() -> None:
    """A = 8 W, b = .03, c = 1e-4 /W at 750 W: 20, 50 and 100 % return the coefficients (closed form)."""
    loads = np.array([0.2, 0.5, 1.0])
    a, b, c = 8 / 750, 0.03, 1e-4 * 750
    found = fit_losses(loads, a + b * loads + c * loads**2, np.full(3, 1e-4))

    assert np.allclose(found, (a, b, c), rtol=1e-9)


def test_circuits_and_the_plug() -> None:
    """15 A and 20 A at 120 V carry 1440 W and 1920 W for hours (NEC, second-hand); 750 W at 90 % takes 833.3 W."""
    assert (1440.0, 1920.0) == (circuit_limit_w(120.0, 15.0), circuit_limit_w(120.0, 20.0))
    assert (833.3, 750.0) == (round(wall_from_delivered(750.0, 90.0), 1), round(delivered_from_wall(833.3333333, 90.0), 6))
