"""Typical energy consumption by the schemes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.evaluation.typical_energy import SCHEMES, ModePowers, ModeWeights, typical_energy_kwh


@pytest.mark.parametrize("weights", SCHEMES, ids=lambda w: w.scheme)
def test_the_shares_of_a_year_make_a_year(weights: ModeWeights) -> None:
    """No hour is counted twice or left out."""
    assert pytest.approx(1.0) == weights.off + weights.sleep + weights.long_idle + weights.short_idle
    assert weights.document


@given(st.floats(0, 500), st.sampled_from(SCHEMES))
def test_a_constant_power_gives_the_same_in_every_scheme(power_w: float, weights: ModeWeights) -> None:
    """The same watts all year: 8.76 kWh a watt."""
    powers = ModePowers(off_w=power_w, sleep_w=power_w, short_idle_w=power_w, long_idle_w=power_w)

    assert 8.76 * power_w == pytest.approx(typical_energy_kwh(powers, weights))
