"""What wants the editor's attention next: calibrations that end, choices near to another unit, protections never tested."""

import math
from dataclasses import dataclass
from datetime import date, timedelta

from guidegen.evaluation.assessment import BracketAssessment
from guidegen.evaluation.choices import Chosen
from guidegen.evaluation.findings import UnitResult
from guidegen.evaluation.rankings import CERTAINTY
from guidegen.evaluation.sense_checks.occasions import months_after
from guidegen.origins import Origin
from guidegen.records import GuideRecord, Instrument

SOON_DAYS = 60
"""A calibration that ends within so many days of the edition is told (common practice, no source)."""
SURE = 0.9
"""A first place that fewer weightings near the policy's than this share leave alone is near to another unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ending:
    """A calibration that has ended or soon will."""

    place: int
    """Place of the instrument in ``guide.yaml``."""
    instrument: Instrument
    """The instrument."""
    ends: date
    """Last day on which it holds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Close:
    """A choice that another unit may take."""

    one: BracketAssessment
    """The bracket."""
    chosen: Chosen
    """The choice."""
    level: bool
    """Whether the measurements can't tell the two apart."""
    share: float | None
    """Share of weightings near the policy's in which the unit is first; nothing where the choice isn't made by score."""
    shaken: float | None
    """Share of the shaken readings in which it is first; nothing where the choice isn't made by score."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Untested:
    """A protection that was never called upon."""

    protection: str
    """Short name, with its rail where a record gives one."""
    why: str
    """Why it was left out; empty where only the box names it."""
    origin: Origin
    """Where that stands."""


def calibrations_ending(guide: GuideRecord) -> tuple[Ending, ...]:
    """Instruments whose calibration ends within ``SOON_DAYS`` of the edition's day, the earliest first."""
    found = (Ending(place=i, instrument=one, ends=months_after(one.calibrated, one.calibration_months))
             for i, one in enumerate(guide.instruments))
    last = guide.edition.date + timedelta(days=SOON_DAYS)
    return tuple(sorted((one for one in found if one.ends <= last), key=lambda one: (one.ends, one.place)))


def close_choices(one: BracketAssessment) -> tuple[Close, ...]:
    """The choices of a bracket that are near to their runners-up."""
    found = []
    for chosen in one.choices:
        if chosen.standing is not None and chosen.runner_up is not None:
            share, shaken = _shares(one, chosen)
            found.append(Close(one=one, chosen=chosen, level=_level(chosen), share=share, shaken=shaken))
    return tuple(close for close in found if close.level or (close.share is not None and close.share < SURE))


def _level(chosen: Chosen) -> bool:
    """Whether the two units can't be told apart in what the choice is made by; what both share falls out (JCGM 100:2008, 5.2)."""
    winner, next_one = chosen.standing, chosen.runner_up
    if winner is None or next_one is None:
        return False
    if chosen.rule.rule == "highest_score":
        return next_one.candidate.id in winner.level_with
    first, second = (s.candidate.finding(chosen.rule.finding or "") for s in (winner, next_one))
    if first is None or second is None:
        return False
    one, other = first.quantity, second.quantity
    doubt = math.hypot(one.own, other.own, one.shared - other.shared)
    return abs(one.value - other.value) <= CERTAINTY * doubt


def _shares(one: BracketAssessment, chosen: Chosen) -> tuple[float | None, float | None]:
    """How often the unit is first with weightings near the policy's, and with shaken readings."""
    if one.robustness is None or chosen.standing is None or chosen.rule.rule != "highest_score" or chosen.standing.place != 1:
        return None, None
    unit = chosen.standing.candidate.id
    return one.robustness.near.first(unit), one.robustness.measurement.first(unit)


def untested_protections(result: UnitResult) -> tuple[Untested, ...]:
    """The protections that no session of a unit called upon: those that a session left out, then those only the box names."""
    tests = [(session, i, test) for session in result.sessions for i, test in enumerate(session.record.protections)]
    tested = {test.protection.partition("_")[0] for _, _, test in tests if test.outcome != "not_tested"}
    exactly = {test.protection for _, _, test in tests if test.outcome != "not_tested"}
    found: dict[str, Untested] = {}
    for session, i, test in tests:
        if test.protection not in exactly:
            found.setdefault(test.protection, Untested(
                protection=test.protection, why=test.why_not_tested or "", origin=Origin(session.file, ("protections", i))))
    named = {name.partition("_")[0] for name in found}
    for i, claim in enumerate(result.unit.record.claims.protections):
        if claim not in tested | named:
            found[claim] = Untested(protection=claim, why="", origin=Origin(result.unit.file, ("claims", "protections", i)))
    return tuple(found.values())
