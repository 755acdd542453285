"""How far weights must move before an order changes."""

import math
from dataclasses import dataclass

from guidegen.evaluation.scores import TIE


def crossover(first: tuple[float, ...], second: tuple[float, ...], weights: tuple[float, ...], moved: int) -> float | None:
    """The weight of one criterion at which two units change order, while the others keep their proportions.

    Nothing where no weight from 0 to 1 does that. Values and weights stand in the order of the criteria.
    Source: one-way sensitivity of Goodwin and Wright, Decision Analysis for Management Judgment, ch. 3.

    >>> crossover((1.0, 0.0), (0.0, 1.0), (0.7, 0.3), 0)
    0.5
    """
    rest = math.fsum(w for k, w in enumerate(weights) if k != moved)
    if rest <= 0.0:
        return None
    own = first[moved] - second[moved]
    others = math.fsum(w * (first[k] - second[k]) for k, w in enumerate(weights) if k != moved) / rest
    if own * others >= 0.0:
        return None
    return others / (others - own)


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightChange:
    """The smallest change of weights that unseats a unit."""

    to: str
    """The unit that takes its place."""
    distance: float
    """Sum of the sizes of all changes; half of it is the weight that moves."""
    weights: tuple[float, ...]
    """Weights under which the two are even, in the order of the criteria."""


def smallest_change(
    first: tuple[float, ...], other: tuple[float, ...], weights: tuple[float, ...]
) -> tuple[float, tuple[float, ...]] | None:
    """The least sum of changes, and the weights, at which ``other`` draws level; nothing where it never can.

    The linear programme "least ``Σ|w′ − w|`` with ``w′ ≥ 0``, ``Σw′ = 1`` and the other at least as high" is solved by
    moving weight to the criterion where the other gains most, from those where it gains least, in that order.
    """
    gains = [b - a for a, b in zip(first, other, strict=True)]
    missing = -math.fsum(w * gain for w, gain in zip(weights, gains, strict=True))
    if missing <= TIE / 100.0:
        return 0.0, weights
    target = max(range(len(gains)), key=gains.__getitem__)
    moved = list(weights)
    for source in sorted(range(len(gains)), key=gains.__getitem__):
        rate = gains[target] - gains[source]
        if rate <= 0.0:
            break
        step = min(moved[source], missing / rate)
        moved[source] -= step
        moved[target] += step
        missing -= step * rate
        if missing <= 1e-15:
            return math.fsum(abs(a - b) for a, b in zip(moved, weights, strict=True)), tuple(moved)
    return None


def unseat(values: tuple[tuple[str, tuple[float, ...]], ...], weights: tuple[float, ...]) -> WeightChange | None:
    """The smallest change of weights that unseats the first of these units, and who takes its place.

    Nothing where no weights do that: every other unit is nowhere better.
    """
    (_, first), *others = values
    changes = []
    for unit, other in others:
        change = smallest_change(first, other, weights)
        if change is not None:
            changes.append(WeightChange(to=unit, distance=change[0], weights=change[1]))
    return min(changes, key=lambda change: (change.distance, change.to), default=None)
