"""The guides between two guides: some causes as they were, the others as they are."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from guidegen.evaluation.assessment import Evaluated
from guidegen.evaluation.changes.causes import NOTHING, Cause, Taken
from guidegen.evaluation.choices import Chosen, choose
from guidegen.evaluation.findings import UnitResult
from guidegen.evaluation.prices import PriceView, view_prices
from guidegen.evaluation.rankings import Candidate, Ranking, candidate, rank_by_score
from guidegen.evaluation.results import evaluate
from guidegen.records import Bracket, Library, PriceRow, Region, Session, Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixtures:
    """Two guides in one region, and every guide between them.

    A unit that only one of the two has brings its records and prices along: they are never mixed with anything.
    Rankings are by score alone; how sure they are plays no part in what changed. What was asked once is kept.
    """

    before: Evaluated
    """The earlier guide."""
    after: Evaluated
    """The later guide."""
    region: str
    """Region whose prices count."""
    _rankings: dict[tuple[str, Taken], Ranking | None] = field(default_factory=dict, repr=False, compare=False)
    _results: dict[tuple[str, bool, bool], UnitResult] = field(default_factory=dict, repr=False, compare=False)

    @property
    def moved(self) -> tuple[Cause, ...]:
        """The causes whose records differ; the others can have caused nothing."""
        differs: dict[Cause, bool] = {
            "measure": any(_recorded(self.before.library, u) != _recorded(self.after.library, u) for u in self.staying),
            "price": _priced(self.before.library, self.region) != _priced(self.after.library, self.region),
            "policy": _ruled(self.before.library) != _ruled(self.after.library),
            "field": _names(self.before) != _names(self.after),
        }
        return tuple(cause for cause, different in differs.items() if different)

    @property
    def staying(self) -> tuple[str, ...]:
        """The units that both guides have tested and kept."""
        return tuple(sorted(_names(self.before) & _names(self.after)))

    @property
    def brackets(self) -> tuple[Bracket, ...]:
        """The brackets of the later guide, then those that only the earlier has."""
        there = self.after.library.guide.brackets
        known = {one.id for one in there}
        return (*there, *(one for one in self.before.library.guide.brackets if one.id not in known))

    def ranking(self, bracket: str, taken: Taken) -> Ranking | None:
        """A bracket with some causes taken from the later guide; nothing where that guide has no such bracket."""
        if (bracket, taken) not in self._rankings:
            self._rankings[bracket, taken] = self._ranked(bracket, taken)
        return self._rankings[bracket, taken]

    def first(self, bracket: str) -> Ranking | None:
        """The bracket as it was."""
        return self.ranking(bracket, NOTHING)

    def last(self, bracket: str) -> Ranking | None:
        """The bracket as it is."""
        return self.ranking(bracket, frozenset(self.moved))

    def choices(self, bracket: str, taken: Taken) -> dict[str, Chosen]:
        """The choices of a bracket by their short names."""
        ranking = self.ranking(bracket, taken)
        policy = self._side("policy", taken).library.policy
        return {one.rule.id: one for one in choose(ranking, policy)} if ranking is not None else {}

    def _side(self, cause: Cause, taken: Taken) -> Evaluated:
        return self.after if cause in taken else self.before

    def _ranked(self, bracket: str, taken: Taken) -> Ranking | None:
        library = self._side("policy", taken).library
        found = next((one for one in library.guide.brackets if one.id == bracket), None)
        if found is None:
            return None
        inside = tuple(self._inside(found, taken))
        return rank_by_score(inside, library.policy, bracket=found, region=_region(library, self.region))

    def _inside(self, bracket: Bracket, taken: Taken) -> Iterator[Candidate]:
        policy = self._side("policy", taken).library.policy
        for unit in self._side("field", taken).results.names:
            result = self._result(unit, taken)
            if bracket.from_w <= result.unit.record.rated_power_w < bracket.below_w:
                yield candidate(result, self._prices(result.unit, taken), policy, bracket=bracket)

    def _result(self, unit: str, taken: Taken) -> UnitResult:
        """The unit as one guide recorded it, judged by the policy of one guide."""
        records, rules = self._home_of(unit) or self._side("measure", taken), self._side("policy", taken)
        key = (unit, records is self.after, rules is self.after)
        if key not in self._results:
            self._results[key] = _evaluated(unit, records, rules)
        return self._results[key]

    def _prices(self, unit: Unit, taken: Taken) -> PriceView:
        library = (self._home_of(unit.id) or self._side("price", taken)).library
        return view_prices(
            unit, _region(library, self.region), next((p for p in library.prices if p.region == self.region), None),
            rules=self._side("policy", taken).library.policy.prices, today=library.guide.edition.date,
        )

    def _home_of(self, unit: str) -> Evaluated | None:
        """The one guide that has a unit, or nothing where both have it."""
        if not self.before.results.has(unit):
            return self.after
        return self.before if not self.after.results.has(unit) else None


def _evaluated(unit: str, records: Evaluated, rules: Evaluated) -> UnitResult:
    """The result of a unit by other rules than its own guide's; what either guide knows already is taken from there."""
    own, other = records.result(unit), rules.result(unit)
    if own is None:
        raise ValueError(f"{unit} is not part of the guide whose records are asked for")
    if records is rules or records.library.policy == rules.library.policy:
        return own
    if other is not None and _recorded(records.library, unit) == _recorded(rules.library, unit):
        return other
    return evaluate(own.unit, own.sessions, records.library.guide, rules.library.policy)


def _names(side: Evaluated) -> frozenset[str]:
    return frozenset(side.results.names)


def _recorded(library: Library, unit: str) -> tuple[object, ...]:
    sessions: tuple[Session, ...] = library.sessions_of(unit)
    return library.unit(unit), sessions, library.guide.instruments


def _priced(library: Library, region: str) -> tuple[object, ...]:
    rows: tuple[PriceRow, ...] = next((p.rows for p in library.prices if p.region == region), ())
    return rows, library.guide.edition.date, _region(library, region).currency_mark


def _ruled(library: Library) -> tuple[object, ...]:
    return library.policy, library.guide.brackets


def _region(library: Library, region: str) -> Region:
    return next(one for one in library.guide.regions if one.id == region)
