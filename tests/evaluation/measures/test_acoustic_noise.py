"""Acoustic noise: positions, background, distance, thresholds, and the doubt that each adds."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.evaluation.measures import acoustic_noise
from guidegen.evaluation.measures.acoustic_noise import corrected, daily_level, energy_mean, energy_sum, mean_level
from guidegen.quantities import Quantity
from guidegen.records import Bracket, NoisePoint, NoiseSweep, ProfileUse, ReaderProfile
from tests.evaluation.invented import RATED_W, bench, found, value, with_points


def sweep(*points: tuple[float, float], background: float = 5.0, distance_m: float = 1.0) -> NoiseSweep:
    """Levels (load in %, dB(A)) at one position, the room far below."""
    return NoiseSweep(distance_m=distance_m, points=tuple(
        NoisePoint(delivered_power_w=load / 100.0 * RATED_W, levels_dba=(level,), background_dba=background) for load, level in points
    ))


QUIET = sweep((10, 20.5), (20, 21.0), (50, 24.0), (80, 32.0), (100, 38.0))


def test_levels_at_nominal_loads_come_from_the_sweep() -> None:
    """A gap of more than 15 dB to the room corrects nothing."""
    made = acoustic_noise.measure(bench(noise_sweep=QUIET))

    assert [21.0, 24.0, 32.0, 38.0] == [value(made, f"acoustic_noise.at_{load}") for load in (20, 50, 80, 100)]
    assert ["dB(A)"] * 4 == [found(made)[f"acoustic_noise.at_{load}"].quantity.unit for load in (20, 50, 80, 100)]


def test_levels_of_the_steady_loads_serve_where_there_is_no_sweep() -> None:
    """Read at half a metre they are brought to one metre: 6.02 dB less."""
    made = acoustic_noise.measure(with_points(noise_dba=(26.0, 28.0, 33.0, 40.0)))
    near = with_points(noise_dba=(26.0, 28.0, 33.0, 40.0))
    half = replace(near, session=replace(near.session, record=replace(near.session.record, noise_distance_m=0.5)))

    assert 28.0 == value(made, "acoustic_noise.at_50")
    assert round(28.0 + 20 * math.log10(0.5), 6) == value(acoustic_noise.measure(half), "acoustic_noise.at_50")


def test_a_reading_a_hair_under_full_load_is_full_load() -> None:
    """99.9 % of the rating stands for full load; it is not refused as beyond the measured loads."""
    made = acoustic_noise.measure(bench(noise_sweep=sweep((20, 20.0), (50, 25.0), (80, 30.0), (99.9, 38.0))))

    assert 38.0 == value(made, "acoustic_noise.at_100")


def test_nothing_is_read_beyond_the_measured_loads() -> None:
    """A sweep that stops at 80 % has no level at full load, and no mean over the load."""
    keys = set(found(acoustic_noise.measure(bench(noise_sweep=sweep((20, 20.0), (50, 25.0), (80, 30.0))))))

    assert not {"acoustic_noise.at_100", "acoustic_noise.mean"} & keys


def test_no_readings_no_findings() -> None:
    """Not tested is not silent."""
    assert ((), ()) == (acoustic_noise.measure(bench()).findings, acoustic_noise.measure(bench()).curves)


def test_the_load_up_to_which_it_stays_under_a_level() -> None:
    """25 dB(A) is crossed an eighth of the way from 50 % (24 dB) to 80 % (32 dB): 403.125 W."""
    made = acoustic_noise.measure(bench(noise_sweep=QUIET))

    assert (403.125, "W") == (value(made, "acoustic_noise.under_25"), found(made)["acoustic_noise.under_25"].quantity.unit)
    assert (0.0, "Louder from the lowest load on.") == (
        value(made, "acoustic_noise.under_20"), found(made)["acoustic_noise.under_20"].note
    )


def test_a_level_on_the_threshold_is_not_under_it() -> None:
    """20.0 dB(A) at the lowest load does not stay under 20 dB(A)."""
    made = acoustic_noise.measure(bench(noise_sweep=sweep((20, 20.0), (50, 19.0), (100, 24.0), background=2.0)))

    assert 0.0 == value(made, "acoustic_noise.under_20")


def test_a_unit_that_never_exceeds_a_level_says_so() -> None:
    """Up to the last measured load, which is all that the bench knows."""
    made = found(acoustic_noise.measure(bench(noise_sweep=sweep((20, 20.0), (50, 25.0), (110, 29.0)))))

    assert (825.0, "Never louder within the measured loads.") == (
        round(made["acoustic_noise.under_30"].quantity.value, 6), made["acoustic_noise.under_30"].note
    )


def test_a_flat_course_makes_the_load_of_a_level_doubtful() -> None:
    """A doubt of 0.4 dB on 8 dB in 225 W moves the crossing by 11.25 W; the power meter adds 0.1 % of the power."""
    reached = found(acoustic_noise.measure(bench(noise_sweep=QUIET)))["acoustic_noise.under_25"].quantity

    assert math.isclose(math.hypot(0.4 * 225 / 8, 403.125e-3), reached.shared, rel_tol=1e-6)
    assert reached.own > 0


@pytest.mark.parametrize(("level", "background", "bound"), [(25.0, 20.0, True), (27.0, 20.0, False), (14.0, 0.1, True), (14.2, 0.1, False)])
def test_an_upper_bound_is_called_one(level: float, background: float, bound: bool) -> None:
    """Nearer than 6 dB to the room, or at the lowest level that the meter shows (14 dB(A))."""
    readings = sweep((20, level), (50, 30.0), (80, 35.0), (100, 40.0), background=background)
    made = found(acoustic_noise.measure(bench(noise_sweep=readings)))

    assert (bound, False) == ("upper bound" in made["acoustic_noise.at_20"].note, "upper bound" in made["acoustic_noise.at_50"].note)
    assert (bound, False) == (made["acoustic_noise.at_20"].upper_bound, made["acoustic_noise.at_50"].upper_bound)


def test_removing_the_background_amplifies_the_doubt() -> None:
    """10 dB above the room: c = 1/(1 − 0.1) = 1.111 for the reading and 0.111 for the room (JCGM 100, 5.1.3)."""
    readings = sweep((20, 30.0), (50, 30.0), (80, 30.0), (100, 30.0), background=20.0)
    level = found(acoustic_noise.measure(bench(noise_sweep=readings)))["acoustic_noise.at_50"].quantity
    own = math.hypot(0.3, 0.0)

    assert math.isclose(30.0 - 0.457575, level.value, abs_tol=1e-5)
    assert math.isclose(math.hypot(own / 0.9, own / 9.0), level.own, rel_tol=1e-9)
    assert math.isclose(0.4, level.shared, rel_tol=1e-9)


def test_the_mean_over_the_load_is_by_energy_and_so_is_its_doubt() -> None:
    """Four equal levels: own doubts halve, the meter's stays."""
    level = mean_level((Quantity(30.0, "dB(A)", own=0.4, shared=0.5),) * 4)

    assert (30.0, 0.2, 0.5) == (round(level.value, 9), round(level.own, 9), round(level.shared, 9))


LEVELS = st.lists(st.floats(10, 80), min_size=1, max_size=6).map(tuple)


@given(LEVELS)
def test_the_energy_mean_lies_between_arithmetic_mean_and_loudest(levels: tuple[float, ...]) -> None:
    """And the sum is the mean of n plus 10·lg n."""
    mean = energy_mean(levels)

    assert math.fsum(levels) / len(levels) - 1e-9 <= mean <= max(levels) + 1e-9
    assert math.isclose(mean + 10 * math.log10(len(levels)), energy_sum(levels), abs_tol=1e-9)


@given(st.floats(6.01, 14.99), st.floats(10, 60))
def test_level_and_background_add_up_to_the_reading_again(gap: float, background: float) -> None:
    """The correction undoes the energy sum inside its rules; at 15 dB the rule itself jumps to nothing."""
    level = corrected((background + gap,), background_dba=background, distance_m=1.0)

    assert math.isclose(background + gap, energy_sum((level.level_dba, background)), abs_tol=1e-9)


def test_a_day_of_a_reader_is_the_mean_by_energy_over_its_hours() -> None:
    """One hour at 30 dB(A) and nine at 20: 10·lg((1·10³ + 9·10²)/10) = 22.79 dB(A)."""
    made = daily_level(((Quantity(30.0, "dB(A)"), 1.0), (Quantity(20.0, "dB(A)"), 9.0)))

    assert 22.79 == round(made.value, 2)


def test_a_profile_is_heard_at_its_bracket_s_usual_full_load() -> None:
    """Half a full load of 600 W for two hours and all of it for one: levels at 300 W and 600 W, weighted by hours."""
    made = bench(noise_sweep=QUIET)
    profile = ReaderProfile(id="evening", title="Evening", uses=(
        ProfileUse(use="work", share_of_full_pct=50.0, hours_per_day=2.0),
        ProfileUse(use="gaming", share_of_full_pct=100.0, hours_per_day=1.0),
    ))
    bracket = Bracket(id="b", title="b", from_w=700.0, below_w=800.0, usual_full_load_w=600.0, serves="s")
    heard = replace(made, guide=replace(made.guide, profiles=(profile,), brackets=(bracket,)))
    at_300, at_600 = 21.0 + 3.0 * 2 / 3, 32.0
    expected = 10 * math.log10((2 * 10 ** (at_300 / 10) + 10 ** (at_600 / 10)) / 3)

    assert math.isclose(expected, value(acoustic_noise.measure(heard), "acoustic_noise.profile_evening") or 0.0, abs_tol=1e-6)
