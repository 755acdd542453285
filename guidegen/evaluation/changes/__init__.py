"""What one guide says differently from another, and why: the guide before a day's work and after, or two editions."""

from functools import partial

from guidegen.evaluation.assessment import Evaluated
from guidegen.evaluation.changes.causes import CAUSES, Because, Cause
from guidegen.evaluation.changes.change import POLICY, Change, Changes, Kind
from guidegen.evaluation.changes.differences import record_differences
from guidegen.evaluation.changes.mixtures import Mixtures
from guidegen.evaluation.changes.outcomes import (
    choices_changed,
    gates_changed,
    places_changed,
    scores_changed,
    tiers_changed,
)
from guidegen.evaluation.changes.written import (
    came_and_went,
    facts_changed,
    prices_changed,
    rules_changed,
    sessions_changed,
)
from guidegen.evaluation.lazily import Lazily

__all__ = ["CAUSES", "Because", "Cause", "Change", "Changes", "Kind", "changes_between", "record_differences"]

IN_A_BRACKET = (
    choices_changed, came_and_went, gates_changed, places_changed, scores_changed, tiers_changed, sessions_changed,
    facts_changed, prices_changed,
)
"""What is compared in each bracket, in the order in which it is told."""


def changes_between(before: Evaluated, after: Evaluated, *, region: str) -> Changes:
    """What the later guide says differently in a region that both have; nothing where the two agree.

    The reason of each difference is divided among four causes by the guides between the two (``causes.shares``,
    ``Mixtures``); a cause whose records are the same in both takes no part, so that a single cause costs no guide between.
    """
    for side in (before, after):
        if region not in (one.id for one in side.library.guide.regions):
            raise ValueError(f"{region} is no region of {side.library.guide.title}")
    guides = Mixtures(before=before, after=after, region=region)
    brackets = {bracket.id: partial(_in_bracket, guides, bracket.id) for bracket in guides.brackets}
    return Changes(guides=guides, parts=Lazily({POLICY: partial(_of_policy, guides), **brackets}))


def _of_policy(guides: Mixtures) -> tuple[Change, ...]:
    return tuple(rules_changed(guides))


def _in_bracket(guides: Mixtures, bracket: str) -> tuple[Change, ...]:
    return tuple(change for compare in IN_A_BRACKET for change in compare(guides, bracket))
