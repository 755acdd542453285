"""What wants attention, on small cases."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from guidegen.evaluation import Assessment, assess, calibrations_ending, close_choices, worth_testing
from guidegen.sources import read_library

SMALL = Path(__file__).parents[1] / "small_edition" / "content"


@pytest.fixture(scope="module")
def guide() -> Assessment:
    """The small edition evaluated."""
    return assess(read_library(SMALL))


def test_calibrations_are_told_from_sixty_days_on(guide: Assessment) -> None:
    """The sound-level meter of 10 October 2025 holds twelve months: told on 11 August 2026, not a day before."""
    record = guide.library.guide

    def told(day: date) -> set[str]:
        return {one.instrument.id for one in calibrations_ending(replace(record, edition=replace(record.edition, date=day)))}

    assert ("sound-level-meter" in told(date(2026, 8, 10)), "sound-level-meter" in told(date(2026, 8, 11))) == (False, True)
    assert date(2026, 10, 10) == next(one.ends for one in calibrations_ending(
        replace(record, edition=replace(record.edition, date=date(2026, 12, 1)))) if one.instrument.id == "sound-level-meter")


def test_a_choice_is_near_where_units_are_level_or_weights_decide(guide: Assessment) -> None:
    """Each that is told has one of the two reasons, and none without a runner-up is told."""
    for one in guide.home:
        for close in close_choices(one):
            assert close.level or (close.share is not None and close.share < 0.9)
            assert close.chosen.runner_up is not None


def test_what_was_not_measured_may_win_the_first_place() -> None:
    """A unit without its noise may be worth up to its whole weight more: told with that many points and what is missing."""
    library = read_library(SMALL)
    sessions = tuple(
        replace(s, record=replace(s.record, noise_sweep=None, load_points=tuple(replace(p, noise_dba=None) for p in s.record.load_points)))
        if s.unit == "wexcombe-ember-550" else s for s in library.sessions)
    guide = assess(replace(library, sessions=sessions))
    bracket = next(one for one in guide.home if one.ranking.bracket.id == "550")
    best = max(s.candidate.score.low for s in bracket.ranking.placed)
    (unit,) = worth_testing(bracket)

    assert "wexcombe-ember-550" == unit.standing.candidate.id
    assert unit.points == pytest.approx(unit.standing.candidate.score.high - best)
    assert ["acoustic_noise.at_50", "acoustic_noise.at_100"] == [part.finding for part in unit.missing]


def test_a_guide_that_measured_everything_has_nothing_to_test(guide: Assessment) -> None:
    """No unit of the small edition lacks a number that counts and could win by it."""
    assert () == tuple(unit for one in guide.home for unit in worth_testing(one) if not unit.missing)
