"""What wants attention, on small cases."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from guidegen.evaluation import Assessment, assess, calibrations_ending, close_choices, untested_protections
from guidegen.records import ProtectionTest
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


def test_a_protection_is_untested_where_no_session_has_it(guide: Assessment) -> None:
    """One left out with its reason, one that only the box names; what any session tested is not told."""
    result = next(one for one in guide.results if one.unit.id == "ostrevant-cairn-550")
    record = result.unit.record
    session = result.sessions[0]
    kept = tuple(test for test in session.record.protections if not test.protection.startswith(("otp", "surge")))
    out = ProtectionTest(protection="otp", outcome="not_tested", why_not_tested="no chamber")
    sessions = (replace(session, record=replace(session.record, protections=(*kept, out))),)
    unit = replace(result.unit, record=replace(record, claims=replace(record.claims, protections=("ocp", "otp", "surge"))))

    assert () == tuple(one for one in untested_protections(result) if one.protection.startswith("ocp"))
    assert [("otp", "no chamber", session.file), ("surge", "", unit.file)] == [
        (one.protection, one.why, one.origin.file) for one in untested_protections(replace(result, unit=unit, sessions=sessions))]
