"""What wants the editor's attention next: calibrations that end, choices near to another unit, units worth testing."""

import math
from dataclasses import dataclass
from datetime import date, timedelta

from guidegen.evaluation.assessment import BracketAssessment
from guidegen.evaluation.choices import Chosen
from guidegen.evaluation.rankings import CERTAINTY, Standing
from guidegen.evaluation.scores import PartScore
from guidegen.evaluation.sense_checks.occasions import months_after
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


@dataclass(frozen=True, slots=True, kw_only=True)
class WorthTesting:
    """A unit that could pass the first choice if what is not known of it turned out at its best."""

    one: BracketAssessment
    """The bracket."""
    standing: Standing
    """The unit."""
    points: float
    """By how many points it would pass the unit of the highest score."""
    missing: tuple[PartScore, ...]
    """What was not measured, the weightiest first."""


def calibrations_ending(guide: GuideRecord) -> tuple[Ending, ...]:
    """Instruments whose calibration ends within ``SOON_DAYS`` of the edition's day, the earliest first."""
    found = (Ending(place=i, instrument=one, ends=months_after(one.calibrated, one.calibration_months))
             for i, one in enumerate(guide.instruments))
    last = guide.edition.date + timedelta(days=SOON_DAYS)
    return tuple(sorted((one for one in found if one.ends <= last), key=lambda one: (one.ends, one.place)))


def close_choices(one: BracketAssessment) -> tuple[Close, ...]:
    """The choices of a bracket that are near to their runners-up."""
    found = (Close(one=one, chosen=chosen, level=_level(chosen), share=_share(one, chosen))
             for chosen in one.choices if chosen.standing is not None and chosen.runner_up is not None)
    return tuple(close for close in found if close.level or (close.share is not None and close.share < SURE))


def _level(chosen: Chosen) -> bool:
    """Whether the two units can't be told apart in what the choice is made by."""
    winner, next_one = chosen.standing, chosen.runner_up
    if winner is None or next_one is None:
        return False
    if chosen.rule.rule == "highest_score":
        return next_one.candidate.id in winner.level_with
    first, second = (s.candidate.finding(chosen.rule.finding or "") for s in (winner, next_one))
    if first is None or second is None:
        return False
    doubt = math.hypot(first.quantity.uncertainty, second.quantity.uncertainty)
    return abs(first.quantity.value - second.quantity.value) <= CERTAINTY * doubt


def _share(one: BracketAssessment, chosen: Chosen) -> float | None:
    if one.robustness is None or chosen.standing is None or chosen.rule.rule != "highest_score":
        return None
    if chosen.standing.place != 1:
        return None
    return one.robustness.near.first(chosen.standing.candidate.id)


def worth_testing(one: BracketAssessment) -> tuple[WorthTesting, ...]:
    """Units with something unmeasured that decides the first place, those with the most to win first.

    The measure is plain: the score with everything unknown at its best, less the highest score with everything unknown at its worst.
    """
    best = max((s.candidate.score.low for s in one.ranking.placed), default=0.0)
    found = (
        WorthTesting(
            one=one, standing=standing, points=standing.candidate.score.high - best,
            missing=tuple(sorted((part for part in standing.candidate.score.parts if part.found is None), key=lambda part: -part.weight)),
        )
        for standing in one.ranking.placed if not standing.candidate.score.complete
    )
    return tuple(sorted((unit for unit in found if unit.points > 0), key=lambda unit: -unit.points))
