"""What units and brackets give to the whole guide, made or recalled bracket by bracket, on as many processes as there are."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import Any

from guidegen.errors import ContentError
from guidegen.evaluation import Answers, Assessment, together
from guidegen.presentation.catalogues import unknown_language, words_in
from guidegen.presentation.charts import ready_to_draw
from guidegen.presentation.page_keys import Keys
from guidegen.presentation.pages import Context
from guidegen.presentation.prose import Bindings
from guidegen.presentation.shares.brackets import BracketShare, bracket_share
from guidegen.presentation.shares.units import UnitShare, unit_share
from guidegen.recalling import Recall, Wanted, anew

OUTSIDE = "outside"
"""Shelf of the units that stand in no bracket."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """What units and brackets give to pages that show all of them, and what stands for the records that it rests on."""

    keys: Keys
    """Keys of units and brackets."""
    units: dict[str, UnitShare]
    """Shares by unit, in the order of the results."""
    brackets: dict[str, BracketShare]
    """Shares by bracket, in the order of the guide."""
    recall: Recall
    """Asked for what else was made of the same records before."""

    @property
    def answers(self) -> Answers:
        """What any unit has an answer to."""
        return together(one.answers for one in self.units.values())


def gather(assessment: Assessment, recall: Recall = anew) -> Gathered:
    """The shares of all units and brackets; those of a bracket whose records stay as they were are recalled.

    Raises ``ContentError`` where the guide wants a language that the interface has no texts in.
    """
    unknown = unknown_language(assessment.library.guide)
    if unknown:
        raise ContentError(unknown)
    keys, guide = Keys.of(assessment.library), assessment.library.guide
    bare = Context(assessment=assessment, bindings=Bindings(values={}, inserts={}), words=words_in(guide.language))
    groups = dict(_groups(assessment))
    of_units = {group: Wanted(shelf_of(group), keys.measured(units), partial(_shares, assessment, units)) for group, units in groups.items()}
    of_brackets = {one.id: Wanted(shelf_of(one.id), keys.bracket(one.id), partial(bracket_share, bare, one.id)) for one in guide.brackets}
    ready_to_draw(recall)
    recall.ahead(one[group] for group in groups for one in (of_units, of_brackets) if group in one)
    shares: dict[str, UnitShare] = {}
    brackets: dict[str, BracketShare] = {}
    for group, units in groups.items():
        shares |= zip(units, _recalled(recall, of_units[group]), strict=True)
        if group in of_brackets:
            brackets[group] = _recalled(recall, of_brackets[group])
        recall.done(shelf_of(group))
    return Gathered(keys=keys, units={unit: shares[unit] for unit in assessment.results.names}, brackets=brackets, recall=recall)


def _recalled(recall: Recall, wanted: Wanted) -> Any:
    return recall(wanted.shelf, wanted.key, wanted.make)


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
    found, policy = (assessment.results.named(unit) for unit in units), assessment.library.policy.at_the_bench()
    return tuple(unit_share(result, policy) for result in found if result is not None)
