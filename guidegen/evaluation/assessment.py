"""The whole guide, evaluated: every unit's results, every bracket's ranking in every region, every choice."""

from dataclasses import dataclass
from functools import lru_cache

from guidegen.evaluation.choices import Chosen, choose
from guidegen.evaluation.findings import UnitResult
from guidegen.evaluation.prices import view_prices
from guidegen.evaluation.rankings import Candidate, Ranking, candidate, rank
from guidegen.evaluation.results import evaluate
from guidegen.evaluation.robustness.results import Robustness, robustness_of
from guidegen.evaluation.sense_checks import SenseFindings, SenseRecords, check_sense
from guidegen.records import Bracket, GuideRecord, Library, PolicyRecord, Region, Session, Unit

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
    results: tuple[UnitResult, ...]
    """Results of the units that are still part of the guide, by identifier."""

    def result(self, unit: str) -> UnitResult | None:
        """The results of a unit, or nothing."""
        return next((result for result in self.results if result.unit.id == unit), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Assessment(Evaluated):
    """The whole guide, evaluated."""

    brackets: tuple[BracketAssessment, ...]
    """Every bracket in every region: by region as in the guide, then by bracket."""
    sense: SenseFindings
    """What the sense checks say; its objections stop publication, what was accepted stands on the pages."""

    @property
    def home(self) -> tuple[BracketAssessment, ...]:
        """The brackets in the home region."""
        return self.in_region(self.library.guide.home_region)

    def in_region(self, region: str) -> tuple[BracketAssessment, ...]:
        """The brackets in a region."""
        return tuple(one for one in self.brackets if one.ranking.region.id == region)


def evaluate_units(library: Library) -> Evaluated:
    """Every unit that is part of the guide, measured and judged."""
    sessions = _by_unit(library.sessions)
    return Evaluated(
        library=library,
        results=tuple(
            _evaluated(unit, own, library.guide, library.policy)
            for unit in library.units
            if unit.record.withdrawn is None and (own := sessions.get(unit.id, ()))
        ),
    )


def assess(library: Library, sense: SenseFindings | None = None) -> Assessment:
    """The guide evaluated from its records; pure, and the same whatever else ran before.

    ``sense`` is what the sense checks said of this library, where they were asked already.
    """
    results = evaluate_units(library).results
    brackets = tuple(
        _assess_bracket(library, results, bracket=bracket, region=region)
        for region in library.guide.regions
        for bracket in library.guide.brackets
    )
    said = sense or check_sense(
        SenseRecords(guide=library.guide, units=library.units, sessions=library.sessions, prices=library.prices)
    )
    return Assessment(library=library, results=results, brackets=brackets, sense=said)


@lru_cache(maxsize=KEPT)
def _evaluated(unit: Unit, sessions: tuple[Session, ...], guide: GuideRecord, policy: PolicyRecord) -> UnitResult:
    return evaluate(unit, sessions, guide, policy)


def _by_unit(sessions: tuple[Session, ...]) -> dict[str, tuple[Session, ...]]:
    """Sessions by unit, in their order."""
    found: dict[str, list[Session]] = {}
    for session in sessions:
        found.setdefault(session.unit, []).append(session)
    return {unit: tuple(own) for unit, own in found.items()}


def _assess_bracket(
    library: Library, results: tuple[UnitResult, ...], *, bracket: Bracket, region: Region
) -> BracketAssessment:
    inside = (r for r in results if bracket.from_w <= r.unit.record.rated_power_w < bracket.below_w)
    candidates = tuple(_candidate(library, result, bracket=bracket, region=region) for result in inside)
    return _ranked(candidates, library.guide, library.policy, bracket, region)


@lru_cache(maxsize=KEPT)
def _ranked(
    candidates: tuple[Candidate, ...], guide: GuideRecord, policy: PolicyRecord, bracket: Bracket, region: Region
) -> BracketAssessment:
    seed = guide.edition.seed
    ranking = rank(candidates, policy, bracket=bracket, region=region, seed=seed)
    return BracketAssessment(
        ranking=ranking,
        choices=choose(ranking, policy),
        robustness=robustness_of(ranking, policy, seed=seed) if region.id == guide.home_region else None,
    )


def _candidate(library: Library, result: UnitResult, *, bracket: Bracket, region: Region) -> Candidate:
    prices = next((p for p in library.prices if p.region == region.id), None)
    view = view_prices(result.unit, region, prices, rules=library.policy.prices, today=library.guide.edition.date)
    return candidate(result, view, library.policy, bracket=bracket)
