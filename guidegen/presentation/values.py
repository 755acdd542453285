"""Every published value by name, for numbers inside prose."""

from collections.abc import Iterable, Iterator

from guidegen.evaluation import BracketAssessment, UnitResult, circuit_limit_w, delivered_from_wall, recommend
from guidegen.presentation.choosing import price_text, score_text
from guidegen.presentation.formatting import NO_BREAK, day, finding_text, money, number, with_unit
from guidegen.records import Library
from guidegen.standards import limits

Value = tuple[str, str]
"""A name and the value as printed."""


def published_values(library: Library, *, tested: int, others: Iterable[Value]) -> dict[str, str]:
    """All values that prose may name, as printed: ``guide.…``, ``policy.…``, and ``others``, such as ``units.<id>.…``."""
    return dict((*_guide(library, tested=tested), *_policy(library), *_sizing(library), *_limits(), *others))


def unit_values(result: UnitResult) -> Iterator[Value]:
    """What prose may name of a unit: ``units.<id>.…``."""
    yield f"units.{result.unit.id}.name", result.unit.name
    yield f"units.{result.unit.id}.rated_power", with_unit(result.unit.record.rated_power_w, "W", 0)
    for finding in result.findings:
        yield f"units.{result.unit.id}.{finding.key}", finding_text(finding)


def _guide(library: Library, *, tested: int) -> Iterator[Value]:
    guide = library.guide
    samples = {(session.unit, session.record.sample.id): session.record.sample for session in library.sessions}
    bought = sum(sample.obtained == "bought" for sample in samples.values())
    yield "guide.title", guide.title
    yield "guide.publisher", guide.publisher.name
    yield "guide.edition", guide.edition.name
    yield "guide.date", day(guide.edition.date)
    yield "guide.units", str(tested)
    yield "guide.makers", str(len({unit.record.maker for unit in library.units}))
    yield "guide.sessions", str(len(library.sessions))
    yield "guide.samples", str(len(samples))
    yield "guide.samples_bought", str(bought)
    yield "guide.samples_other", str(len(samples) - bought)
    yield "guide.brackets", str(len(guide.brackets))
    yield "guide.funding", guide.publisher.funding
    yield "guide.conflicts", guide.publisher.conflicts
    yield "guide.contact", guide.publisher.contact


def _policy(library: Library) -> Iterator[Value]:
    policy = library.policy
    total = sum(criterion.points for criterion in policy.criteria)
    for criterion in policy.criteria:
        yield f"policy.weight.{criterion.id}", with_unit(100 * criterion.points / total, "%", 0)
        yield f"policy.points.{criterion.id}", number(criterion.points, 0)
    for tier in policy.tiers:
        yield f"policy.tier.{tier.id}", number(tier.from_score, 0)
    yield "policy.mains", with_unit(policy.reference_mains_v, "V", 0)
    yield "policy.stale_days", str(policy.prices.stale_after_days)
    yield "sizing.low", with_unit(policy.sizing.target_low_pct, "%", 0)
    yield "sizing.high", with_unit(policy.sizing.target_high_pct, "%", 0)
    yield "sizing.never_above", with_unit(policy.sizing.never_above_pct, "%", 0)
    yield "sizing.ageing", with_unit(policy.sizing.ageing_pct, "%", 0)
    yield "sizing.assumed_efficiency", with_unit(policy.sizing.assumed_efficiency_pct, "%", 0)
    yield "noise.silent", with_unit(policy.noise.silent_below_dba, "dB(A)", 0)
    yield "noise.limit", with_unit(policy.noise.limit_dba, "dB(A)", 0)
    yield "noise.floor", with_unit(policy.noise.floor_dba, "dB(A)", 0)


METER_EXAMPLE_W, LOAD_EXAMPLE_W, IDLE_EXAMPLE_W = 620.0, 600.0, 60.0
"""Readings that the sizing page works through."""


def _sizing(library: Library) -> Iterator[Value]:
    rules = library.policy.sizing
    ratings = tuple(sorted({unit.record.rated_power_w for unit in library.units}))
    found = recommend(LOAD_EXAMPLE_W, ratings, rules)
    delivered = delivered_from_wall(METER_EXAMPLE_W, rules.assumed_efficiency_pct)
    yield "sizing.meter", with_unit(METER_EXAMPLE_W, "W", 0)
    yield "sizing.meter_delivered", with_unit(delivered, "W", 0)
    yield "sizing.load", with_unit(LOAD_EXAMPLE_W, "W", 0)
    if found.rating_w is not None and found.share is not None:
        yield "sizing.load_rating", with_unit(found.rating_w, "W", 0)
        yield "sizing.load_share", with_unit(100 * found.share, "%", 0)
    if ratings:
        yield "sizing.largest", with_unit(ratings[-1], "W", 0)
        yield "sizing.idle", with_unit(IDLE_EXAMPLE_W, "W", 0)
        yield "sizing.idle_share", with_unit(100 * IDLE_EXAMPLE_W / ratings[-1], "%", 0)
    for region in library.guide.regions:
        limit = circuit_limit_w(region.mains_voltage_v, region.circuit_a)
        yield f"regions.{region.id}.circuit_limit", with_unit(limit, "W", 0)
        yield f"regions.{region.id}.circuit", with_unit(region.circuit_a, "A", 0)
        yield f"regions.{region.id}.mains", with_unit(region.mains_voltage_v, "V", 0)
        yield f"regions.{region.id}.tariff", f"{money(region.tariff_per_kwh, region)}/kWh"
        yield f"regions.{region.id}.tariff_source", region.tariff_source
    yield "sizing.rest_of_platform", with_unit(library.parts.rest_of_platform_w, "W", 0)
    yield "sizing.rest_of_platform_source", library.parts.rest_of_platform_source


def _limits() -> Iterator[Value]:
    """Bounds of the standards by finding, for units that claim the newest one."""
    for limit in limits():
        if not limit.applies_to or "atx_3.1" in limit.applies_to:
            bound = limit.at_most if limit.at_most is not None else limit.at_least
            yield f"limits.{limit.finding}", f"{bound:g}{NO_BREAK}{limit.unit}"


def bracket_values(one: BracketAssessment) -> Iterator[Value]:
    """What prose may name of a bracket: ``brackets.<id>.…``."""
    name = f"brackets.{one.ranking.bracket.id}"
    yield f"{name}.title", one.ranking.bracket.title
    yield f"{name}.tested", str(len(one.ranking.standings))
    yield f"{name}.usual_full_load", with_unit(one.ranking.bracket.usual_full_load_w, "W", 0)
    for chosen in one.choices:
        if chosen.standing is not None:
            candidate = chosen.standing.candidate
            yield f"{name}.{chosen.rule.id}.name", candidate.name
            yield f"{name}.{chosen.rule.id}.score", score_text(candidate.score)
            yield f"{name}.{chosen.rule.id}.price", price_text(candidate.prices)
