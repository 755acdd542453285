"""The whole guide, evaluated: every unit's results, every bracket's ranking in every region, every choice."""

from dataclasses import dataclass
from functools import lru_cache, partial
from typing import TypeVar

from guidegen.evaluation.choices import Chosen, choose
from guidegen.evaluation.findings import UnitResult
from guidegen.evaluation.lazily import Lazily
from guidegen.evaluation.prices import view_prices
from guidegen.evaluation.rankings import Candidate, Ranking, candidate, rank, rank_by_score
from guidegen.evaluation.results import evaluate
from guidegen.evaluation.robustness.results import Robustness, robustness_of
from guidegen.evaluation.sense_checks import SenseFindings, SenseRecords, check_sense
from guidegen.records import Bracket, GuideRecord, Library, PolicyRecord, Region, Session, Unit

T = TypeVar("T")

KEPT = 512
"""Units and brackets whose evaluation is kept while the process runs: who asks again, as the preview does at every save,
waits only for what changed.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketAssessment:
    """A bracket in one region."""

    ranking: Ranking
    """Places."""
    choices: tuple[Chosen, ...]
    """Choices, in the order of the policy."""
    robustness: Robustness | None = None
    """How sure the order is, in the home region; nothing elsewhere, or where no unit has a place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Evaluated:
    """What the bench says of every unit; nothing is ranked yet."""

    library: Library
    """What was evaluated."""
    results: Lazily[UnitResult]
    """Results of the units that are still part of the guide, by identifier; computed when they are looked at."""

    def result(self, unit: str) -> UnitResult | None:
        """The results of a unit, or nothing."""
        return self.results.named(unit)

    def inside(self, bracket: Bracket) -> Lazily[UnitResult]:
        """The results of the units of a bracket."""
        return self.results.among(units_inside(self.library, bracket))


@dataclass(frozen=True, slots=True, kw_only=True)
class Assessment(Evaluated):
    """The whole guide, evaluated."""

    fields: Lazily[Ranking]
    """Every bracket in every region by score alone, without what the measurements leave open: for who asks only what its
    units score and cost there."""
    rankings: Lazily[Ranking]
    """Every bracket in every region with the places that the measurements leave open."""
    brackets: Lazily[BracketAssessment]
    """Every bracket in every region, ranked, chosen from and doubted: by region as in the guide, then by bracket."""
    sense: SenseFindings
    """What the sense checks say; its objections stop publication, what was accepted stands on the pages."""

    @property
    def home(self) -> Lazily[BracketAssessment]:
        """The brackets in the home region."""
        return self.in_region(self.library.guide.home_region)

    def at(self, region: str, bracket: str) -> BracketAssessment:
        """A bracket in a region, by their identifiers; raises ``KeyError`` where there is none."""
        return _found(self.brackets, place_name(region, bracket))

    def ranked(self, region: str, bracket: str) -> Ranking:
        """The ranking of a bracket in a region, by their identifiers; raises ``KeyError`` where there is none."""
        return _found(self.rankings, place_name(region, bracket))

    def by_score(self, region: str, bracket: str) -> Ranking:
        """A bracket in a region by score alone; raises ``KeyError`` where there is none."""
        return _found(self.fields, place_name(region, bracket))

    def in_region(self, region: str) -> Lazily[BracketAssessment]:
        """The brackets in a region."""
        return self.brackets.among(tuple(place_name(region, one.id) for one in self.library.guide.brackets))


def evaluate_units(library: Library) -> Evaluated:
    """Every unit that is part of the guide, measured and judged."""
    sessions, policy = _by_unit(library.sessions), library.policy.at_the_bench()
    return Evaluated(library=library, results=Lazily({
        unit.id: partial(_evaluated, unit, own, library.guide, policy)
        for unit in library.units
        if unit.record.withdrawn is None and (own := sessions.get(unit.id, ()))
    }))


def units_inside(library: Library, bracket: Bracket) -> tuple[str, ...]:
    """The units of a bracket, by identifier."""
    return tuple(one.id for one in library.units if bracket.from_w <= one.record.rated_power_w < bracket.below_w)


def place_name(region: str, bracket: str) -> str:
    """What a bracket in a region is called among all of them."""
    return f"{region}/{bracket}"


def assess(library: Library, sense: SenseFindings | None = None) -> Assessment:
    """The guide evaluated from its records; pure, and the same whatever else ran before.

    ``sense`` is what the sense checks said of this library, where they were asked already.
    """
    measured = evaluate_units(library)
    fields = Lazily({
        place_name(region.id, bracket.id): partial(_field, measured, bracket=bracket, region=region)
        for region in library.guide.regions
        for bracket in library.guide.brackets
    })
    rankings = Lazily({name: partial(_rank_field, library, fields, name) for name in fields.names})
    brackets = Lazily({name: partial(_assess_bracket, library, rankings, name) for name in fields.names})
    said = sense or check_sense(
        SenseRecords(guide=library.guide, units=library.units, sessions=library.sessions, prices=library.prices)
    )
    return Assessment(library=library, results=measured.results, fields=fields, rankings=rankings, brackets=brackets, sense=said)


@lru_cache(maxsize=KEPT)
def _evaluated(unit: Unit, sessions: tuple[Session, ...], guide: GuideRecord, policy: PolicyRecord) -> UnitResult:
    return evaluate(unit, sessions, guide, policy)


def _by_unit(sessions: tuple[Session, ...]) -> dict[str, tuple[Session, ...]]:
    """Sessions by unit, in their order."""
    found: dict[str, list[Session]] = {}
    for session in sessions:
        found.setdefault(session.unit, []).append(session)
    return {unit: tuple(own) for unit, own in found.items()}


def _field(measured: Evaluated, *, bracket: Bracket, region: Region) -> Ranking:
    library = measured.library
    candidates = tuple(_candidate(library, result, bracket=bracket, region=region) for result in measured.inside(bracket))
    return rank_by_score(candidates, library.policy, bracket=bracket, region=region)


def _rank_field(library: Library, fields: Lazily[Ranking], name: str) -> Ranking:
    field = _found(fields, name)
    candidates = tuple(standing.candidate for standing in field.standings)
    return _ranked(candidates, library.policy, field.bracket, field.region, library.guide.edition.seed)


def _assess_bracket(library: Library, rankings: Lazily[Ranking], name: str) -> BracketAssessment:
    return _doubted(_found(rankings, name), library.guide, library.policy)


def _found(places: Lazily[T], name: str) -> T:
    found = places.named(name)
    if found is None:
        raise KeyError(name)
    return found


@lru_cache(maxsize=KEPT)
def _ranked(candidates: tuple[Candidate, ...], policy: PolicyRecord, bracket: Bracket, region: Region, seed: int) -> Ranking:
    return rank(candidates, policy, bracket=bracket, region=region, seed=seed)


@lru_cache(maxsize=KEPT)
def _doubted(ranking: Ranking, guide: GuideRecord, policy: PolicyRecord) -> BracketAssessment:
    at_home = ranking.region.id == guide.home_region
    return BracketAssessment(
        ranking=ranking,
        choices=choose(ranking, policy),
        robustness=robustness_of(ranking, policy, seed=guide.edition.seed) if at_home else None,
    )


def _candidate(library: Library, result: UnitResult, *, bracket: Bracket, region: Region) -> Candidate:
    prices = next((p for p in library.prices if p.region == region.id), None)
    view = view_prices(result.unit, region, prices, rules=library.policy.prices, today=library.guide.edition.date)
    return candidate(result, view, library.policy, bracket=bracket)
