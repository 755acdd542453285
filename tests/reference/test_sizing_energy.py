"""Energy in a year against published formulas and worked examples."""

import pytest

from guidegen.evaluation.running_costs import loss_difference_kwh
from guidegen.evaluation.typical_energy import (
    ENERGY_STAR_5,
    ENERGY_STAR_5_NOTEBOOK,
    ENERGY_STAR_6_7,
    ENERGY_STAR_8,
    EU_617_2013,
    ModePowers,
    ModeWeights,
    typical_energy_kwh,
)


@pytest.mark.parametrize(("weights", "powers", "expected"), [
    (ENERGY_STAR_5_NOTEBOOK, ModePowers(off_w=1.0, sleep_w=1.7, short_idle_w=10.0), 33.0252),
    (ENERGY_STAR_5, ModePowers(off_w=2.0, sleep_w=4.0, short_idle_w=50.0), 186.588),
    (EU_617_2013, ModePowers(off_w=2.0, sleep_w=4.0, short_idle_w=50.0), 186.588),
    (EU_617_2013, ModePowers(off_w=0.5, sleep_w=2.0, short_idle_w=40.0), 143.445),
    (ENERGY_STAR_6_7, ModePowers(off_w=0.5, sleep_w=2.0, long_idle_w=35.0, short_idle_w=40.0), 171.477),
    (ENERGY_STAR_8, ModePowers(off_w=0.5, sleep_w=2.0, long_idle_w=35.0, short_idle_w=40.0), 144.321),
])
def test_typical_energy_consumption(weights: ModeWeights, powers: ModePowers, expected: float) -> None:
    """ENERGY STAR Computers 5.x annex, sample calculation (33.03 kWh, seen); the others derived from the formula
    8760/1000·ΣP·T with the weights of ENERGY STAR 5 to 8 and Regulation (EU) 617/2013 (second-hand).
    """
    assert expected == pytest.approx(typical_energy_kwh(powers, weights), abs=1e-9)


def test_a_year_of_lower_loss() -> None:
    """300 W, 4 h a day, 87 % against 92 %: 27.36 kWh (derived from P·h/1000·(1/η1 − 1/η2))."""
    assert 27.36 == round(loss_difference_kwh(300.0, 4.0, 87.0, against_pct=92.0), 2)
