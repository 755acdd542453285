"""One question, one answer: the rating, why, the loads, the units that fit, and the cautions."""

import math
from dataclasses import dataclass

from guidegen.evaluation.assessment import Assessment
from guidegen.evaluation.findings import UnitResult
from guidegen.evaluation.rankings import Standing
from guidegen.evaluation.running_costs import UseLoad
from guidegen.evaluation.sizing.cautions import CAUTIONS, Caution
from guidegen.evaluation.sizing.demands import CircuitDemand, UpsDemand, circuit_demand, ups_demand
from guidegen.evaluation.sizing.fit_words import fit_words
from guidegen.evaluation.sizing.fitted import bench_at, unit_at
from guidegen.evaluation.sizing.fitting import Field, FitList, GiveUp, UnitFit, fit_units
from guidegen.evaluation.sizing.paying import UnitCost, UnitSaving, costs_of, saving_of, saving_words
from guidegen.evaluation.sizing.questions import Asked, Question, ask
from guidegen.evaluation.sizing.rating import Recommendation
from guidegen.evaluation.sizing.reasons import Asking, rating_steps, reasons, rule_words
from guidegen.evaluation.sizing.wall import wall_from_delivered
from guidegen.evaluation.sizing.wording import watts, with_unit
from guidegen.records import PolicyRecord, Region


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadAdvice:
    """One load of the computer."""

    use: str
    """Which: a use of the profile, or ``full``."""
    delivered_w: float
    """Delivered power, W."""
    wall_w: float
    """What a plug meter shows, W."""
    share: float | None
    """The load as a share of the recommended rating; nothing where there is no rating."""
    efficiency_pct: float
    """Efficiency that lies between the two, %."""
    measured_on: str
    """Unit on which that efficiency was measured; empty where it is the policy's assumption."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """The answer; fields as ``guidegen size --json`` prints them, and what a reader sees beside them."""

    recommended_rating_w: float | None
    """The rating to look for, W; nothing where none is large enough."""
    rule: str
    """The rule that decided, in plain words."""
    loads: tuple[LoadAdvice, ...]
    """The loads."""
    units: tuple[UnitFit, ...]
    """Units that fit, those that can be bought before those that can't, of each the smallest rating first and in it the best score."""
    cautions: tuple[Caution, ...]
    """Cautions."""
    found: Recommendation
    """The rating with what surrounds it."""
    give_up: tuple[GiveUp, ...]
    """Where no unit fits: the wishes that stand in the way."""
    circuit: CircuitDemand
    """The computer on its circuit."""
    ups: UpsDemand
    """A supply for outages."""
    costs: tuple[UnitCost, ...]
    """Running costs of the units that fit and were measured at every load of the profile."""
    saving: UnitSaving | None
    """The first of the units that fit against the cheapest, where both can be bought and they differ."""
    sentences: tuple[str, ...]
    """The answer in plain words."""
    steps: tuple[str, ...]
    """The sums, for pencil and paper."""


def advise(question: Question, assessment: Assessment) -> Advice:
    """The answer to a question from the whole guide; ``RequestError`` for what can't be answered."""
    asked = ask(question, assessment)
    rules = assessment.library.policy.sizing
    field = field_in(assessment, asked.region)
    fits = fit_units(asked.search, field, rules)
    load, offers, found = asked.search.load, field.offers(), fits.found
    loads = _loads(asked, fits, rules.assumed_efficiency_pct)
    best = fits.units[0] if fits.units else None
    circuit = circuit_demand(loads[-1].wall_w, asked.region, mains_v=asked.search.mains_v)
    ups = ups_demand(loads[-1].wall_w, hold_up_ms=best.hold_up_ms if best else None)
    spared = saving_of(fits, asked, assessment)
    asking = Asking(mark=asked.region.currency_mark, cheapest=field.cheapest())
    said = (
        *reasons(found, load, offers, rules, asking), *_larger_words(fits, field, asked), *fit_words(fits, asked),
        *saving_words(fits, spared, asked.region),
    )
    return Advice(
        recommended_rating_w=found.rating_w, rule=rule_words(found, load, rules), loads=loads, units=fits.units,
        cautions=CAUTIONS, found=found, give_up=fits.give_up, circuit=circuit, ups=ups,
        costs=costs_of(fits, asked, assessment), saving=spared, sentences=(*said, circuit.sentence, ups.sentence),
        steps=(*asked.steps, *rating_steps(found, load, offers, rules), *_wall_steps(loads, best.name if best else "")),
    )


def field_in(assessment: Assessment, region: Region) -> Field:
    """The units of the guide with their judgement, scores, fresh prices and whether they can be bought in one region.

    Advised are those that no gate holds back, as a failed one always does, and that stand above the last tier.
    """
    standings = tuple(s for one in assessment.in_region(region.id) for s in one.ranking.standings)
    said = judgement_of(standings, assessment.library.policy)
    return Field(
        results=assessment.results, advised=frozenset(said.advised), scores=said.scores, prices=said.prices,
        highest=said.highest, absent=said.absent,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """What a region's ranking says of some units to those who look for one."""

    advised: tuple[str, ...]
    """Units that no gate holds back and that stand above the last tier."""
    scores: dict[str, float]
    """Score by unit, 0 to 100, with everything unknown at its worst."""
    prices: dict[str, float]
    """Fresh price by unit, in the region's currency."""
    highest: dict[str, float]
    """Score with everything unknown at its best, of the units of which something is unknown."""
    absent: dict[str, str]
    """Why a unit can't be bought now, of those that can't: ``no_price``, ``hard_to_find`` or ``out_of_stock``."""


def judgement_of(standings: tuple[Standing, ...], policy: PolicyRecord) -> Judgement:
    """What a ranking says to those who look for a unit."""
    last = policy.tiers[-1].id
    prices = {s.candidate.id: s.candidate.prices.best for s in standings}
    return Judgement(
        advised=tuple(s.candidate.id for s in standings if not s.candidate.held_back and s.tier.id != last),
        scores={s.candidate.id: s.candidate.score.low for s in standings},
        prices={unit: best.row.price for unit, best in prices.items() if best and best.row.price is not None},
        highest={s.candidate.id: s.candidate.score.high for s in standings if not s.candidate.score.complete},
        absent={s.candidate.id: s.candidate.prices.absence for s in standings if s.candidate.prices.absence},
    )


def _loads(asked: Asked, fits: FitList, assumed_pct: float) -> tuple[LoadAdvice, ...]:
    best = fits.units[0] if fits.units else None
    measured = {one.use: one.efficiency_pct for one in best.at} if best else {}
    return tuple(
        _load(use, fits.found.rating_w, measured.get(use.use), assumed_pct=assumed_pct, unit=best.unit if best else "")
        for use in asked.search.uses
    )


def _load(
    use: UseLoad, rating_w: float | None, measured_pct: float | None, *, assumed_pct: float, unit: str
) -> LoadAdvice:
    efficiency = measured_pct if measured_pct is not None else assumed_pct
    return LoadAdvice(
        use=use.use, delivered_w=use.delivered_w, wall_w=wall_from_delivered(use.delivered_w, efficiency),
        share=use.delivered_w / rating_w if rating_w else None, efficiency_pct=efficiency,
        measured_on=unit if measured_pct is not None else "",
    )


def _wall_steps(loads: tuple[LoadAdvice, ...], named: str) -> tuple[str, ...]:
    """The sums from delivered watts to the plug; ``named`` is the unit on which their efficiencies were measured."""
    return tuple(
        f"At the plug, {one.use.replace('_', ' ')}: {watts(one.delivered_w)} ÷ {with_unit(one.efficiency_pct, '%', 1)} "
        f"({f'measured on {named}' if one.measured_on else 'assumed'}) = {watts(one.wall_w)}"
        for one in loads
    )


def _larger_words(fits: FitList, field: Field, asked: Asked) -> tuple[str, ...]:
    """What the bench says of the next larger rating: its efficiency at idle."""
    found, idle = fits.found, next((use for use in asked.search.uses if use.use == "idle"), None)
    if found.rating_w is None or found.next_larger_w is None:
        return ()
    ratings = (found.rating_w, found.next_larger_w)
    here, there = (_advised_of(field, rating) for rating in ratings)
    names = tuple(watts(rating) for rating in ratings)
    said = []
    if idle is not None:
        shares = tuple(with_unit(100.0 * idle.delivered_w / rating, "%", 1) for rating in ratings)
        said.append(
            f"At idle the computer takes {watts(idle.delivered_w)}: {shares[0]} of {names[0]}, {shares[1]} of {names[1]}."
        )
        said += _idle_efficiency(idle, (here, there), names, mains_v=asked.search.mains_v)
    return tuple(said)


def _idle_efficiency(
    idle: UseLoad, units: tuple[tuple[UnitResult, ...], ...], names: tuple[str, ...], *, mains_v: float
) -> tuple[str, ...]:
    """Mean efficiency at idle of both ratings, where every unit was measured there and the larger ones do worse."""
    means = []
    for results in units:
        found = [
            unit_at(bench_at(r, mains_v), idle, rated_w=r.unit.record.rated_power_w).efficiency_pct for r in results
        ]
        known = [efficiency for efficiency in found if efficiency is not None]
        if not known or len(known) < len(found):
            return ()
        means.append(math.fsum(known) / len(known))
    here, there = (with_unit(mean, "%", 1) for mean in means)
    if means[0] <= means[1] or here == there:
        return ()
    said = f"There the advised units of {names[0]} reach {here} on average, those of {names[1]} {there}."
    return (said,)


def _advised_of(field: Field, rating_w: float) -> tuple[UnitResult, ...]:
    return tuple(r for r in field.results if r.unit.record.rated_power_w == rating_w and r.unit.id in field.advised)
