"""Which units are worth testing next: those whose true values, if they were known, might change a choice.

This is the question of the value of perfect information (Raiffa and Schlaifer, Applied Statistical Decision Theory, 1961;
from memory), asked of one unit at a time: the unit is shaken by its own scatter, and what was not measured of it lies
anywhere from its worst to its best, all alike likely (common practice, no source); all other units stay as found. What the
same instruments do to all units falls out of a comparison and is left out here.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from guidegen.evaluation.choices import Chosen, may_be_chosen
from guidegen.evaluation.gates import GateVerdict
from guidegen.evaluation.rankings import Ranking, Standing
from guidegen.evaluation.robustness.draws import Draws, normals, uniforms
from guidegen.evaluation.scores import PartScore, Score
from guidegen.records import ChoiceRule

WORTH = 0.05
"""A unit that changes a choice in fewer draws than this share is not told (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Deciding:
    """A unit that may decide a choice."""

    rule: ChoiceRule
    """The choice."""
    standing: Standing
    """The unit."""
    chance: float
    """Share of draws in which the choice would be another, if the unit's true values were known."""
    gain: float
    """What the better choice would be better by, on average over all draws: points, or the finding's unit."""
    missing: tuple[PartScore, ...]
    """What was not measured and counts in the score, the weightiest first; empty for a choice by a finding."""
    gates: tuple[GateVerdict, ...]
    """Gates that keep the unit from choices only because something was not tested."""


def deciding_units(ranking: Ranking, choices: tuple[Chosen, ...], *, seed: int) -> tuple[Deciding, ...]:
    """The units worth testing for the choices by score or by a finding, the likeliest to change one first.

    A choice by the best value rests on the whole front of price against score, and is not looked at; nor is one that the
    editor makes.
    """
    found = (one for chosen in choices if chosen.override is None and chosen.rule.rule != "best_value"
             for one in _of_choice(ranking, chosen, seed))
    return tuple(sorted((one for one in found if one.chance >= WORTH), key=lambda one: (-one.chance, one.standing.candidate.id)))


def _of_choice(ranking: Ranking, chosen: Chosen, seed: int) -> Iterator[Deciding]:
    sign = -1.0 if chosen.rule.rule == "lowest_finding" else 1.0
    for standing in ranking.placed:
        holding = tuple(gate for gate in standing.candidate.gates if gate.holds_back)
        if any(gate.outcome != "not_tested" for gate in holding) or not may_be_chosen(standing, chosen.rule, though_unknown=True):
            continue
        possible = _possible(standing, chosen.rule, seed)
        if possible is None:
            continue
        first = chosen.standing is not None and standing.candidate.id == chosen.standing.candidate.id
        rival = _rival(chosen.runner_up, chosen.rule) if first else _to_pass(chosen)
        if rival is None:
            continue
        ahead = sign * (possible - rival)
        wins = -ahead if first else ahead
        missing = _missing(standing.candidate.score) if chosen.rule.rule == "highest_score" else ()
        yield Deciding(rule=chosen.rule, standing=standing, chance=float(np.mean(wins > 0.0)), missing=missing,
                       gain=float(np.mean(np.maximum(wins, 0.0))), gates=holding)


def _possible(standing: Standing, rule: ChoiceRule, seed: int) -> Draws | None:
    """What the unit may turn out to be in the measure of a choice; nothing where that was never measured."""
    one = standing.candidate
    errors = normals(seed, "worth testing", one.id)
    if rule.rule != "highest_score":
        found = one.finding(rule.finding or "")
        return None if found is None else found.quantity.value + found.quantity.own * errors
    scores = one.score.low + 100.0 * math.hypot(*(part.own for part in one.score.parts)) * errors
    for part in _missing(one.score):
        scores = scores + 100.0 * part.weight * uniforms(seed, "worth testing", one.id, part.finding)
    return scores


def _to_pass(chosen: Chosen) -> float | None:
    """What a unit has to pass to be chosen: the one that is, or the least score where none is."""
    rival = _rival(chosen.standing, chosen.rule)
    if chosen.rule.rule != "highest_score":
        return rival
    return chosen.rule.least_score if rival is None else max(rival, chosen.rule.least_score)


def _rival(standing: Standing | None, rule: ChoiceRule) -> float | None:
    """What has to be passed, as the guide has it now; nothing where there is nobody to pass."""
    if standing is None:
        return None
    if rule.rule == "highest_score":
        return standing.candidate.score.low
    found = standing.candidate.finding(rule.finding or "")
    return None if found is None else found.quantity.value


def _missing(score: Score) -> tuple[PartScore, ...]:
    return tuple(sorted((part for part in score.parts if part.found is None), key=lambda part: (-part.weight, part.finding)))
