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
from guidegen.evaluation.scores import TIE, Score, doubts_of_differences, shared_errors

CONFIDENCE = 0.95
"""Confidence that all sets hold at once."""
AT_ONCE = 1000
"""Draws that are looked at together: so many of all units stay close to the processor."""
LEAST = float(np.finfo(np.float32).tiny)
"""The least size of a difference beside the greatest: seven digits are more than so many draws can tell of a quantile."""
Pairs = NDArray[np.bool_]
"""Ordered pairs: whether the unit of the row against that of the column is among them."""


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
    """Standard uncertainty, with its sign, from errors that all units share, by measure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RankSets:
    """The sets of a field."""

    critical_values: tuple[float, ...]
    """Standard uncertainties that a difference had to exceed, in each step."""
    places: tuple[tuple[int, int], ...]
    """Best and worst place of each unit, in the order given."""


def estimate_of(unit: str, score: Score) -> Estimate:
    """The estimate of a unit's score, to first order."""
    shared = {measure: 100.0 * error for measure, error in score.shared.items()}
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
    doubts = _doubts(estimates)
    np.fill_diagonal(leads, -np.inf)
    scale = float(doubts.max(initial=0.0)) or 1.0
    errors, sizes = (_errors(estimates, seed, draws) / scale).astype(np.float32), np.maximum(doubts / scale, LEAST).astype(np.float32)
    apart = leads > TIE
    apart &= doubts == 0.0
    undecided = ~apart & (doubts > 0.0)
    largest, steps = _largest(errors, sizes, undecided), []
    while undecided.any():
        critical = float(np.quantile(largest, confidence))
        steps.append(critical)
        told = undecided & (leads > np.maximum(critical * doubts, TIE))
        if not told.any():
            break
        apart |= told
        undecided &= ~told
        fallen = _largest(errors, sizes, told) >= largest  # only there may the largest difference have left with a pair
        largest[fallen] = _largest(errors[:, fallen], sizes, undecided)
    best, worst = 1 + np.count_nonzero(apart, axis=0), len(estimates) - np.count_nonzero(apart, axis=1)
    return RankSets(
        critical_values=tuple(steps), places=tuple((int(b), int(w)) for b, w in zip(best, worst, strict=True))
    )


def _doubts(estimates: tuple[Estimate, ...]) -> NDArray[np.float64]:
    """Standard uncertainties of all differences."""
    return doubts_of_differences(np.array([one.own for one in estimates]), shared_errors([one.shared for one in estimates]))


def _errors(estimates: tuple[Estimate, ...], seed: int, draws: int) -> Draws:
    """Errors of the scores, units × draws, that belong to each unit and to each measure."""
    errors = np.zeros((len(estimates), draws))
    for i, one in enumerate(estimates):
        errors[i] = one.own * normals(seed, "rank set", one.unit, draws=draws)
    for measure in sorted({measure for one in estimates for measure in one.shared}):
        common = normals(seed, "rank set of every unit", measure, draws=draws)
        for i, one in enumerate(estimates):
            errors[i] += one.shared.get(measure, 0.0) * common
    return errors


def _largest(errors: NDArray[np.float32], sizes: NDArray[np.float32], pairs: Pairs) -> NDArray[np.float32]:
    """The largest difference over some ordered pairs, in each draw, each by its size."""
    both = np.triu(pairs & pairs.T)  # such a pair's two differences are one number and its negative
    single = pairs & ~(pairs & pairs.T)
    rows = [(i, others, either) for i in range(len(pairs)) for kind, either in ((both, True), (single, False))
            if len(others := np.flatnonzero(kind[i]))]
    largest = np.full(errors.shape[1], -np.inf, dtype=np.float32)
    for first in range(0, errors.shape[1], AT_ONCE):
        some = np.ascontiguousarray(errors[:, first:first + AT_ONCE])
        found = largest[first:first + AT_ONCE]
        for i, others, either in rows:
            ahead = (some[i] - some[others]) / sizes[i, others, None]
            np.maximum(found, (np.abs(ahead, out=ahead) if either else ahead).max(axis=0), out=found)
    return largest
