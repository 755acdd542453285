"""The additive score of one unit: exact sums, parts kept, nothing renormalised."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from guidegen.evaluation.findings import Finding
from guidegen.evaluation.value_functions import worth_of
from guidegen.records import Anchor, Criterion, Part, PolicyRecord

TIE = 1e-9
"""Scores closer than this, in points, are the same: the last bits of a sum decide nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartScore:
    """One finding's contribution."""

    finding: str
    """Key of the finding."""
    title: str
    """Its name; the key where it was not measured."""
    weight: float
    """Weight in the whole score; all parts of all criteria sum to 1."""
    found: Finding | None
    """The number, or nothing where it was not measured."""
    low: float
    """Worth, or 0 where it was not measured."""
    high: float
    """Worth, or 1 where it was not measured."""
    beyond: bool
    """Whether the value lies beyond an outer anchor."""
    own: float
    """Standard uncertainty of ``weight × worth`` from this unit's own scatter."""
    shared: float
    """The same from errors that all units share, signed by the direction of the value function."""

    @property
    def measure(self) -> str:
        """What was measured: its findings are read by the same instruments, whose errors move them together."""
        return measure_of(self.finding)


@dataclass(frozen=True, slots=True, kw_only=True)
class CriterionScore:
    """One criterion's contribution."""

    id: str
    """Short name."""
    title: str
    """Name."""
    kind: Literal["technical", "price"]
    """Whether it belongs to the technical score."""
    weight: float
    """Weight in the whole score."""
    parts: tuple[PartScore, ...]
    """What it is made of."""

    @property
    def known(self) -> bool:
        """Whether all of it was found."""
        return all(part.found is not None for part in self.parts)

    @property
    def low(self) -> float:
        """Worth from 0 to 1 with everything unknown at its worst."""
        return math.fsum(part.weight * part.low for part in self.parts) / self.weight

    @property
    def high(self) -> float:
        """Worth from 0 to 1 with everything unknown at its best."""
        return math.fsum(part.weight * part.high for part in self.parts) / self.weight


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """The score of one unit, 0 to 100, with its parts."""

    criteria: tuple[CriterionScore, ...]
    """Contributions, in the order of the policy."""
    parts: tuple[PartScore, ...] = field(init=False, repr=False, compare=False)
    """All parts of all criteria, in the same order; gathered once, as rankings go through them for every pair."""
    low: float = field(init=False, repr=False, compare=False)
    """Score with everything unknown at its worst; the number that ranks."""
    high: float = field(init=False, repr=False, compare=False)
    """Score with everything unknown at its best."""

    def __post_init__(self) -> None:
        parts = tuple(part for criterion in self.criteria for part in criterion.parts)
        object.__setattr__(self, "parts", parts)
        object.__setattr__(self, "low", 100.0 * math.fsum(part.weight * part.low for part in parts))
        object.__setattr__(self, "high", 100.0 * math.fsum(part.weight * part.high for part in parts))

    def __hash__(self) -> int:
        """Short, since scores are long and looked up again and again."""
        return hash((self.low, self.high))

    @property
    def complete(self) -> bool:
        """Whether everything that counts was measured."""
        return all(part.found is not None for part in self.parts)

    @property
    def technical(self) -> float:
        """Score without price, over the technical criteria alone, unknowns at their worst."""
        technical = [criterion for criterion in self.criteria if criterion.kind == "technical"]
        weight = math.fsum(criterion.weight for criterion in technical)
        return 100.0 * math.fsum(part.weight * part.low for c in technical for part in c.parts) / weight

    @property
    def weakest(self) -> CriterionScore:
        """The criterion of least worth, of those that are known where there are any: what an additive score can hide."""
        known = tuple(criterion for criterion in self.criteria if criterion.known)
        return min(known or self.criteria, key=lambda criterion: criterion.low)

    @property
    def geometric(self) -> float:
        """Weighted geometric mean of the criteria, 0 to 100: how the unit stands if weaknesses can't be made up for
        (OECD and JRC, Handbook on Constructing Composite Indicators, 2008, step 6; from memory).
        """
        if any(criterion.low <= 0 for criterion in self.criteria):
            return 0.0
        return 100.0 * math.exp(math.fsum(c.weight * math.log(c.low) for c in self.criteria))

    @property
    def beyond(self) -> int:
        """How many numbers lie beyond an outer anchor, so that more of them no longer counts: saturation, told."""
        return sum(part.beyond for part in self.parts)

    @property
    def shared(self) -> dict[str, float]:
        """Standard uncertainty of ``Σ w·v`` from errors that all units share, with its sign, by the measure that it comes in
        through: one sound level meter that reads high does so at every load (JCGM 100:2008, 5.2.2, with full correlation).
        """
        errors: dict[str, list[float]] = {}
        for part in self.parts:
            if part.shared:
                errors.setdefault(part.measure, []).append(part.shared)
        return {measure: math.fsum(each) for measure, each in errors.items()}

    @property
    def uncertainty(self) -> float:
        """Standard uncertainty of the score in points from the measurements alone, to first order."""
        return 100.0 * math.hypot(*(part.own for part in self.parts), *self.shared.values())

    def criterion(self, identifier: str) -> CriterionScore | None:
        """The criterion of this short name, or nothing."""
        return next((criterion for criterion in self.criteria if criterion.id == identifier), None)


def measure_of(finding: str) -> str:
    """What a finding was measured as: the first word of its key.

    >>> measure_of("ripple.12v.worst")
    'ripple'
    """
    return finding.partition(".")[0]


def score_unit(findings: Mapping[str, Finding], policy: PolicyRecord, *, region: str, bracket: str) -> Score:
    """The score of a unit from its findings: ``V = Σ w·v`` with swing weights (Edwards and Barron 1994).

    Weights are normalised once, at full precision. A finding that is missing counts from worth 0 to worth 1.
    """
    points = math.fsum(criterion.points for criterion in policy.criteria)
    return Score(
        criteria=tuple(
            _score_criterion(criterion, findings, weight=criterion.points / points, place=(region, bracket))
            for criterion in policy.criteria
        )
    )


def _score_criterion(
    criterion: Criterion, findings: Mapping[str, Finding], *, weight: float, place: tuple[str, str]
) -> CriterionScore:
    points = math.fsum(part.points for part in criterion.parts)
    return CriterionScore(
        id=criterion.id,
        title=criterion.title,
        kind=criterion.kind,
        weight=weight,
        parts=tuple(
            _score_part(part, findings.get(part.finding), weight=weight * part.points / points, place=place)
            for part in criterion.parts
        ),
    )


def _score_part(part: Part, found: Finding | None, *, weight: float, place: tuple[str, str]) -> PartScore:
    anchors = anchors_at(part, *place)
    if found is None or not anchors:
        return PartScore(
            finding=part.finding, title=part.finding, weight=weight, found=None,
            low=0.0, high=1.0, beyond=False, own=0.0, shared=0.0,
        )
    worth = worth_of(found.quantity.value, anchors)
    return PartScore(
        finding=part.finding, title=found.title, weight=weight, found=found,
        low=worth.worth, high=worth.worth, beyond=worth.beyond,
        own=weight * abs(worth.slope) * found.quantity.own, shared=weight * worth.slope * found.quantity.shared,
    )


def anchors_at(part: Part, region: str, bracket: str) -> tuple[Anchor, ...]:
    """The anchors that hold for a part in a region and bracket; empty where the policy states none."""
    if part.anchors is not None:
        return part.anchors
    return next((a.anchors for a in part.local_anchors if (a.region, a.bracket) == (region, bracket)), ())


def difference_uncertainties(scores: Sequence[Score]) -> NDArray[np.float64]:
    """Standard uncertainties of the differences of scores, in points: a row and a column a score."""
    own = np.array([math.hypot(*(part.own for part in score.parts)) for score in scores])
    return 100.0 * doubts_of_differences(own, shared_errors([score.shared for score in scores]))


def shared_errors(each: Sequence[Mapping[str, float]]) -> NDArray[np.float64]:
    """Errors in common as a table: a row a number, a column a measure, 0 where it doesn't reach the number."""
    measures = sorted({measure for one in each for measure in one})
    return np.array([[one.get(measure, 0.0) for measure in measures] for one in each]).reshape((len(each), len(measures)))


def doubts_of_differences(own: NDArray[np.float64], shared: NDArray[np.float64]) -> NDArray[np.float64]:
    """Standard uncertainties of the differences of numbers: a row and a column a number, 0 where they meet.

    ``own`` has one number each, ``shared`` a row each and a column for every error that all have in common. What two of them
    share (the same meter reads high for both) falls out of their difference as far as it moves both alike; own parts add
    in quadrature (JCGM 100:2008, 5.2, with full correlation of the shared parts).
    """
    squares: NDArray[np.float64] = np.square(own)[:, None] + np.square(own)[None, :]
    for column in shared.T:
        squares += np.square(column[:, None] - column[None, :])
    np.fill_diagonal(squares, 0.0)
    return np.sqrt(squares, out=squares)
