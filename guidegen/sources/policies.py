"""A policy that contradicts itself: orders that don't rise or fall, anchors that are missing, names given twice."""

from collections.abc import Iterator

from guidegen.errors import Fault
from guidegen.origins import Origin
from guidegen.records import Anchor, GuideRecord, Part, PolicyRecord
from guidegen.sources.draft import not_rising, twice, unknown

_TOP = Origin("policy.yaml")


def check_policy(policy: PolicyRecord, guide: GuideRecord | None, units: tuple[str, ...]) -> Iterator[Fault]:
    """Every fault that a policy has beside those of its shape."""
    yield from twice(_TOP.at("criteria"), tuple(criterion.id for criterion in policy.criteria))
    yield from twice(_TOP.at("gates"), tuple(gate.id for gate in policy.gates))
    yield from twice(_TOP.at("choices"), tuple(choice.id for choice in policy.choices))
    yield from twice(_TOP.at("tiers"), tuple(tier.id for tier in policy.tiers))
    for place, criterion in enumerate(policy.criteria):
        at = _TOP.at("criteria", place, "parts")
        yield from twice(at, tuple(part.finding for part in criterion.parts), field="finding")
        for position, part in enumerate(criterion.parts):
            yield from _part(part, at.at(position), guide)
    yield from _tiers(policy)
    yield from _rules(policy)
    yield from _overrides(policy, guide, units)
    yield from _bounds(policy)


def _part(part: Part, at: Origin, guide: GuideRecord | None) -> Iterator[Fault]:
    if (part.anchors is None) != bool(part.local_anchors):
        came = "both" if part.local_anchors else "neither"
        yield Fault(origin=at, came=came, expected="either anchors or local_anchors", rule="anchors")
    if part.anchors is not None:
        yield from _anchors(part.anchors, at.at("anchors"))
    for place, local in enumerate(part.local_anchors):
        yield from _anchors(local.anchors, at.at("local_anchors", place, "anchors"))
    if guide is not None and part.local_anchors:
        yield from _local_places(part, at.at("local_anchors"), guide)


def _anchors(anchors: tuple[Anchor, ...], at: Origin) -> Iterator[Fault]:
    yield from not_rising(at, tuple(anchor.at for anchor in anchors), field="at")
    worths = [anchor.worth for anchor in anchors]
    if worths not in (sorted(worths), sorted(worths, reverse=True)):
        expected = "a worth that only rises or only falls"
        yield Fault(origin=at, came="a worth that rises and falls", expected=expected, rule="anchors")


def _local_places(part: Part, at: Origin, guide: GuideRecord) -> Iterator[Fault]:
    """Regions and brackets that don't exist, stand twice, or are left out."""
    regions, brackets = tuple(r.id for r in guide.regions), tuple(b.id for b in guide.brackets)
    seen: set[tuple[str, str]] = set()
    for place, local in enumerate(part.local_anchors):
        if local.region not in regions:
            yield unknown(at.at(place, "region"), local.region, "region", regions)
        if local.bracket not in brackets:
            yield unknown(at.at(place, "bracket"), local.bracket, "bracket", brackets)
        if (local.region, local.bracket) in seen:
            came = f"region {local.region} with bracket {local.bracket} a second time"
            yield Fault(origin=at.at(place), came=came, expected="each pair once", rule="duplicate")
        seen.add((local.region, local.bracket))
    absent = [f"{region} {bracket}" for region in regions for bracket in brackets if (region, bracket) not in seen]
    if absent:
        some = ", ".join(absent[:6]) + (f" and {len(absent) - 6} more" if len(absent) > 6 else "")
        expected = f"anchors for every region and bracket, also for {some}"
        yield Fault(origin=at, came=f"anchors for {len(seen)} of them", expected=expected, rule="anchors")


def _tiers(policy: PolicyRecord) -> Iterator[Fault]:
    scores = [tier.from_score for tier in policy.tiers]
    for place in range(1, len(scores)):
        if scores[place] >= scores[place - 1]:
            expected = f"less than {scores[place - 1]:g}, where the tier above begins"
            yield Fault(origin=_TOP.at("tiers", place, "from_score"), came=f"{scores[place]:g}", expected=expected, rule="order")
    if scores[-1] != 0:
        at = _TOP.at("tiers", len(scores) - 1, "from_score")
        yield Fault(origin=at, came=f"{scores[-1]:g}", expected="0, so that every score has a tier", rule="order")


def _rules(policy: PolicyRecord) -> Iterator[Fault]:
    """Gates, choices and limits that say too little."""
    for place, choice in enumerate(policy.choices):
        if choice.rule.endswith("_finding") and choice.finding is None:
            expected = f"the field finding, which the rule {choice.rule} needs"
            yield Fault(origin=_TOP.at("choices", place, "finding"), came="nothing", expected=expected, rule="missing")
    for place, gate in enumerate(policy.gates):
        if not gate.findings and not gate.protections:
            expected = "findings or protections that the gate looks at"
            yield Fault(origin=_TOP.at("gates", place), came="neither", expected=expected, rule="missing")
    for place, limit in enumerate(policy.limits):
        if limit.at_least is None and limit.at_most is None:
            yield Fault(origin=_TOP.at("limits", place), came="neither", expected="at_least or at_most, or both", rule="missing")


def _overrides(policy: PolicyRecord, guide: GuideRecord | None, units: tuple[str, ...]) -> Iterator[Fault]:
    choices = tuple(choice.id for choice in policy.choices)
    brackets = tuple(bracket.id for bracket in guide.brackets) if guide else None
    for place, override in enumerate(policy.overrides):
        at = _TOP.at("overrides", place)
        if override.unit not in units:
            yield unknown(at.at("unit"), override.unit, "unit", units)
        if override.choice not in choices:
            yield unknown(at.at("choice"), override.choice, "choice", choices)
        if brackets is not None and override.bracket not in brackets:
            yield unknown(at.at("bracket"), override.bracket, "bracket", brackets)


def _bounds(policy: PolicyRecord) -> Iterator[Fault]:
    """Pairs of bounds of which the lower must lie below the upper."""
    sizing, noise = policy.sizing, policy.noise
    pairs = [
        (_TOP.at("sizing", "target_high_pct"), sizing.target_low_pct, sizing.target_high_pct, "target_low_pct"),
        (_TOP.at("noise", "limit_dba"), noise.floor_dba, noise.limit_dba, "floor_dba"),
    ]
    pairs += [
        (_TOP.at("protection_bands", place, "to_pct"), band.from_pct, band.to_pct, "from_pct")
        for place, band in enumerate(policy.protection_bands)
    ]
    pairs += [
        (_TOP.at("limits", place, "at_most"), limit.at_least, limit.at_most, "at_least")
        for place, limit in enumerate(policy.limits)
        if limit.at_least is not None and limit.at_most is not None and limit.at_least != limit.at_most
    ]
    for at, low, high, name in pairs:
        if high <= low:
            yield Fault(origin=at, came=f"{high:g}", expected=f"more than {name}, {low:g}", rule="order")
