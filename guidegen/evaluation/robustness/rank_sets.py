"""Places that hold for all units of a field at once with 95 % confidence.

Source: Mogstad, Romano, Shaikh and Wilhelm, Inference for ranks with applications to mobility across neighbourhoods
and academic achievement across countries, Review of Economic Studies, 2023: a step-down test of the
largest studentised difference over all ordered pairs.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from guidegen.evaluation.robustness.draws import DRAWS, Draws, normals
from guidegen.evaluation.scores import TIE, Score

CONFIDENCE = 0.95
"""Confidence that all sets hold at once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """A score with its doubt, in points."""

    unit: str
    """Identifier of the unit."""
    low: float
    """Score with everything unknown at its worst."""
    high: float
    """Score with everything unknown at its best."""
    own: float
    """Standard uncertainty from the unit's own scatter."""
    shared: dict[str, float]
    """Standard uncertainty, with its sign, from errors that all units share, by finding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RankSets:
    """The sets of a field."""

    critical_values: tuple[float, ...]
    """Standard uncertainties that a difference had to exceed, in each step."""
    places: tuple[tuple[int, int], ...]
    """Best and worst place of each unit, in the order given."""


def estimate_of(unit: str, score: Score) -> Estimate:
    """The estimate of a unit's score, to first order."""
    shared: dict[str, float] = {}
    for part in score.parts:
        shared[part.finding] = shared.get(part.finding, 0.0) + 100.0 * part.shared
    own = 100.0 * math.hypot(*(part.own for part in score.parts))
    return Estimate(unit=unit, low=score.low, high=score.high, own=own, shared=shared)


def rank_sets(
    estimates: tuple[Estimate, ...], *, seed: int, confidence: float = CONFIDENCE, draws: int = DRAWS
) -> RankSets:
    """Best and worst place of every unit.

    A pair is told apart in a step where its difference exceeds the critical value of all pairs that are still open;
    what is told apart leaves, the critical value falls, until nothing more leaves. A difference takes what was not
    measured at its worst for the upper unit and at its best for the lower.
    """
    leads = np.array([[a.low - b.high for b in estimates] for a in estimates]).reshape((len(estimates),) * 2)
    doubts = np.array([[_doubt(a, b) for b in estimates] for a in estimates]).reshape(leads.shape)
    np.fill_diagonal(leads, -np.inf)
    errors = _errors(estimates, seed, draws)
    apart = leads > TIE
    apart &= doubts == 0.0
    undecided = ~apart & (doubts > 0.0)
    steps = []
    while undecided.any():
        critical = _critical(errors, doubts, undecided, confidence)
        steps.append(critical)
        told = undecided & (leads > np.maximum(critical * doubts, TIE))
        if not told.any():
            break
        apart |= told
        undecided &= ~told
    best, worst = 1 + np.count_nonzero(apart, axis=0), len(estimates) - np.count_nonzero(apart, axis=1)
    return RankSets(
        critical_values=tuple(steps), places=tuple((int(b), int(w)) for b, w in zip(best, worst, strict=True))
    )


def _doubt(first: Estimate, second: Estimate) -> float:
    """Standard uncertainty of a difference; what two units share falls out as far as it moves both alike."""
    if first is second:
        return 0.0
    findings = sorted({*first.shared, *second.shared})
    common = (first.shared.get(finding, 0.0) - second.shared.get(finding, 0.0) for finding in findings)
    return math.hypot(first.own, second.own, *common)


def _errors(estimates: tuple[Estimate, ...], seed: int, draws: int) -> Draws:
    """Errors of the scores, units × draws, that belong to each unit and each shared finding."""
    errors = np.zeros((len(estimates), draws))
    for i, one in enumerate(estimates):
        errors[i] = one.own * normals(seed, "rank set", one.unit, draws=draws)
    for finding in sorted({finding for one in estimates for finding, size in one.shared.items() if size}):
        common = normals(seed, "rank set of every unit", finding, draws=draws)
        for i, one in enumerate(estimates):
            errors[i] += one.shared.get(finding, 0.0) * common
    return errors


def _critical(errors: Draws, doubts: Draws, undecided: NDArray[np.bool_], confidence: float) -> float:
    """The quantile of the largest studentised difference over the pairs that are still open."""
    largest, room = np.full(errors.shape[1], -np.inf), np.empty(errors.shape[1])
    both = undecided & undecided.T & (doubts == doubts.T)  # such a pair's two differences are one number and its negative
    for i, j in np.argwhere(np.triu(both)):
        np.divide(np.subtract(errors[i], errors[j], out=room), doubts[i, j], out=room)
        np.maximum(largest, np.abs(room, out=room), out=largest)
    for i, j in np.argwhere(undecided & ~both):
        np.divide(np.subtract(errors[i], errors[j], out=room), doubts[i, j], out=room)
        np.maximum(largest, room, out=largest)
    return float(np.quantile(largest, confidence))
