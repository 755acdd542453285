"""Places within a bracket and region: ranges where units can't be told apart, nobody placed who fails."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from guidegen.evaluation.findings import Finding, UnitResult
from guidegen.evaluation.gates import GateVerdict, pass_gates
from guidegen.evaluation.prices import PriceView, price_finding
from guidegen.evaluation.robustness.rank_sets import estimate_of, rank_sets
from guidegen.evaluation.scores import TIE, Score, difference_uncertainties, score_unit
from guidegen.records import Bracket, PolicyRecord, Region, Tier

CERTAINTY = 1.96
"""Two units are told apart when their difference exceeds this many standard uncertainties (two-sided 95 %)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A unit before the field is looked at: nothing here depends on another unit."""

    result: UnitResult
    """What the bench says."""
    prices: PriceView
    """What it costs."""
    score: Score
    """Its score."""
    gates: tuple[GateVerdict, ...]
    """What the gates say."""

    @property
    def id(self) -> str:
        """Identifier of the unit."""
        return self.result.unit.id

    @property
    def name(self) -> str:
        """Name of the unit."""
        return self.result.unit.name

    @property
    def fails(self) -> bool:
        """Whether a gate takes the place away."""
        return any(verdict.outcome == "fail" for verdict in self.gates)

    @property
    def held_back(self) -> bool:
        """Whether a gate keeps it from choices."""
        return any(verdict.holds_back for verdict in self.gates)

    def finding(self, key: str) -> Finding | None:
        """A finding of the bench, or the price per watt."""
        return price_finding(self.result.unit, self.prices) if key == "price.per_watt" else self.result.finding(key)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A unit in its field."""

    candidate: Candidate
    """The unit."""
    place: int | None
    """Place by score; nothing where a gate failed."""
    best: int | None
    """Best place that it may hold; all ranges of a field hold at once with 95 % confidence."""
    worst: int | None
    """Worst place that it may hold."""
    level_with: tuple[str, ...]
    """Units that it can't be told apart from, each pair by itself."""
    tier: Tier
    """Plain word for the score."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranking:
    """A bracket in a region, ranked."""

    bracket: Bracket
    """The bracket."""
    region: Region
    """The region."""
    standings: tuple[Standing, ...]
    """Placed units by place, then those without one by name."""

    def __post_init__(self) -> None:
        for standing in self.standings:
            if standing.candidate.fails and standing.place is not None:
                raise ValueError(f"{standing.candidate.id} fails a gate and can't hold place {standing.place}")

    @property
    def placed(self) -> tuple[Standing, ...]:
        """The units that have a place."""
        return tuple(standing for standing in self.standings if standing.place is not None)

    def standing(self, unit: str) -> Standing | None:
        """The standing of a unit, or nothing."""
        return next((s for s in self.standings if s.candidate.id == unit), None)


def candidate(result: UnitResult, prices: PriceView, policy: PolicyRecord, *, bracket: Bracket) -> Candidate:
    """A unit with its score and gates in one region."""
    findings: Mapping[str, Finding] = {finding.key: finding for finding in result.findings}
    per_watt = price_finding(result.unit, prices)
    if per_watt is not None:
        findings = {**findings, per_watt.key: per_watt}
    return Candidate(
        result=result,
        prices=prices,
        score=score_unit(findings, policy, region=prices.region.id, bracket=bracket.id),
        gates=pass_gates(result, policy.gates),
    )


def rank_by_score(
    candidates: tuple[Candidate, ...], policy: PolicyRecord, *, bracket: Bracket, region: Region
) -> Ranking:
    """The ranking by score alone, as if every score were certain: each range is its place, and no two are level."""
    able = sorted((c for c in candidates if not c.fails), key=lambda c: (-c.score.low, c.id))
    unable = sorted((c for c in candidates if c.fails), key=lambda c: c.name)
    scores = [one.score.low for one in able]
    placed = tuple(_stand(one, scores, policy) for one in able)
    unplaced = tuple(
        Standing(candidate=c, place=None, best=None, worst=None, level_with=(), tier=policy.tiers[-1]) for c in unable
    )
    return Ranking(bracket=bracket, region=region, standings=placed + unplaced)


def rank(
    candidates: tuple[Candidate, ...], policy: PolicyRecord, *, bracket: Bracket, region: Region, seed: int = 0
) -> Ranking:
    """The ranking of a bracket: by score, with the range of places that the measurements leave open.

    The ranges rest on draws that belong to ``seed``.
    """
    ordered = rank_by_score(candidates, policy, bracket=bracket, region=region)
    placed = ordered.placed
    ranges = rank_sets(tuple(estimate_of(one.candidate.id, one.candidate.score) for one in placed), seed=seed).places
    above = _surely_above(tuple(one.candidate.score for one in placed))
    level = ~(above | above.T)
    np.fill_diagonal(level, False)
    doubted = tuple(
        replace(one, best=best, worst=worst, level_with=tuple(placed[other].candidate.id for other in np.flatnonzero(row)))
        for one, (best, worst), row in zip(placed, ranges, level, strict=True)
    )
    return replace(ordered, standings=(*doubted, *ordered.standings[len(placed):]))


def _stand(one: Candidate, field: list[float], policy: PolicyRecord) -> Standing:
    score = one.score.low
    place = 1 + sum(other > score + TIE for other in field)
    return Standing(
        candidate=one, place=place, best=place, worst=place, level_with=(), tier=tier_of(score, policy.tiers)
    )


def _surely_above(scores: tuple[Score, ...]) -> NDArray[np.bool_]:
    """Whether the score of the row exceeds that of the column by more than the measurements can explain.

    What was not measured counts at its worst for the first and at its best for the second.
    """
    ahead = np.array([score.low for score in scores])[:, None] - np.array([score.high for score in scores])[None, :]
    found: NDArray[np.bool_] = (ahead > TIE) & (ahead > CERTAINTY * difference_uncertainties(scores))
    return found


def tier_of(score: float, tiers: tuple[Tier, ...]) -> Tier:
    """The first tier that the score reaches, from the unrounded score."""
    return next((tier for tier in tiers if score >= tier.from_score), tiers[-1])
