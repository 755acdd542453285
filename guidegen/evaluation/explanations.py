"""What decides between two units: the difference of their scores taken apart."""

import math
from dataclasses import dataclass

from guidegen.evaluation.scores import CriterionScore, PartScore, Score


@dataclass(frozen=True, slots=True, kw_only=True)
class PartDifference:
    """One finding's share of a difference."""

    points: float
    """Points of the score by which the first leads through this finding; negative where it trails."""
    first: PartScore
    """The first unit's part."""
    second: PartScore
    """The second unit's part."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CriterionDifference:
    """One criterion's share of a difference."""

    first: CriterionScore
    """The first unit's criterion."""
    second: CriterionScore
    """The second unit's criterion."""
    points: float
    """Points of the score by which the first leads through this criterion; negative where it trails."""
    parts: tuple[PartDifference, ...]
    """Its findings, the largest share first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """Two scores, taken apart; the shares sum to the difference."""

    points: float
    """First score less the second."""
    criteria: tuple[CriterionDifference, ...]
    """Shares, the largest in size first."""

    @property
    def leads(self) -> CriterionDifference | None:
        """The criterion in which the first gains most, or nothing where it gains nowhere."""
        best = max(self.criteria, key=lambda criterion: criterion.points)
        return best if best.points > 0 else None

    @property
    def trails(self) -> CriterionDifference | None:
        """The criterion in which the first loses most, or nothing where it loses nowhere."""
        worst = min(self.criteria, key=lambda criterion: criterion.points)
        return worst if worst.points < 0 else None


def explain(first: Score, second: Score) -> Difference:
    """The difference of two scores as a sum over criteria and findings (both made by the same policy)."""
    criteria = tuple(
        _criterion_difference(a, b) for a, b in zip(first.criteria, second.criteria, strict=True)
    )
    return Difference(
        points=math.fsum(criterion.points for criterion in criteria),
        criteria=tuple(sorted(criteria, key=lambda c: -abs(c.points))),
    )


def _criterion_difference(first: CriterionScore, second: CriterionScore) -> CriterionDifference:
    parts = tuple(
        PartDifference(points=100.0 * a.weight * (a.low - b.low), first=a, second=b)
        for a, b in zip(first.parts, second.parts, strict=True)
    )
    return CriterionDifference(
        first=first,
        second=second,
        points=math.fsum(part.points for part in parts),
        parts=tuple(sorted(parts, key=lambda p: -abs(p.points))),
    )
