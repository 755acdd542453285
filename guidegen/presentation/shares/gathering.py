"""The units' shares of the whole guide, recalled bracket by bracket."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import chain

from guidegen.evaluation import Answers, Assessment, together
from guidegen.presentation.page_keys import Keys
from guidegen.presentation.shares.units import UnitShare, unit_share
from guidegen.recalling import Recall, anew

OUTSIDE = "outside"
"""Shelf of the units that stand in no bracket."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """What units give to pages that show all of them, and what stands for the records that it rests on."""

    keys: Keys
    """Keys of units and brackets."""
    units: dict[str, UnitShare]
    """Shares by unit, in the order of the results."""
    recall: Recall
    """Asked for what else was made of the same records before."""

    @property
    def answers(self) -> Answers:
        """What any unit has an answer to."""
        return together(one.answers for one in self.units.values())


def gather(assessment: Assessment, recall: Recall = anew) -> Gathered:
    """The shares of all units; those of a bracket whose records stay as they were are recalled."""
    keys = Keys.of(assessment.library)
    shares = dict(chain.from_iterable(
        zip(units, recall(shelf_of(bracket), keys.measured(units), partial(_shares, assessment, units)), strict=True)
        for bracket, units in _groups(assessment)
    ))
    return Gathered(keys=keys, units={unit: shares[unit] for unit in assessment.results.names}, recall=recall)


def shelf_of(bracket: str) -> str:
    """Where what a bracket gives is kept."""
    return f"watts-{bracket}"


def _groups(assessment: Assessment) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The units of each bracket, and those that stand in none."""
    left = dict.fromkeys(assessment.results.names)
    for bracket in assessment.library.guide.brackets:
        inside = assessment.inside(bracket).names
        for unit in inside:
            left.pop(unit, None)
        yield bracket.id, inside
    yield OUTSIDE, tuple(left)


def _shares(assessment: Assessment, units: tuple[str, ...]) -> tuple[UnitShare, ...]:
    found = (assessment.results.named(unit) for unit in units)
    return tuple(unit_share(result, assessment.library.policy) for result in found if result is not None)
