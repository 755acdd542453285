"""What no file can know by itself: names that lead nowhere, names given twice, days and powers that don't fit the guide."""

import re
from collections.abc import Iterator

from guidegen.errors import Fault
from guidegen.origins import Origin
from guidegen.records import GuideRecord, PriceList, Session, Unit
from guidegen.sources.corrections import check_corrections
from guidegen.sources.draft import Draft, not_rising, twice, unknown
from guidegen.sources.policies import check_policy

_OFFER = re.compile(r"https://[\w.-]+(:[0-9]+)?([/?#][^\s<>\"\\\\]*)?")
"""An address of an offer: no other scheme, no name before the host, nothing that could end where it is printed."""


def cross_check(draft: Draft) -> Iterator[Fault]:
    """Every fault between the records, as far as they could be read."""
    if draft.guide is not None:
        yield from _guide(draft.guide)
    if draft.policy is not None:
        yield from check_policy(draft.policy, draft.guide if _is_orderly(draft.guide) else None, draft.unit_names)
    yield from _parts(draft)
    yield from _units(draft)
    instruments = tuple(i.id for i in draft.guide.instruments) if draft.guide else None
    for session in draft.sessions:
        yield from _session(session, draft.guide, instruments)
    for prices in draft.prices:
        yield from check_prices(prices, draft)
    yield from check_corrections(draft)


def _is_orderly(guide: GuideRecord | None) -> bool:
    """Whether brackets and regions have names of their own; where one has another's, nothing that names them can be judged."""
    names = [[one.id for one in some] for some in ((guide.brackets, guide.regions) if guide is not None else ())]
    return all(len(some) == len(set(some)) for some in names)


def _guide(guide: GuideRecord) -> Iterator[Fault]:
    top = Origin("guide.yaml")
    yield from twice(top.at("brackets"), tuple(bracket.id for bracket in guide.brackets))
    yield from twice(top.at("regions"), tuple(region.id for region in guide.regions))
    yield from twice(top.at("profiles"), tuple(profile.id for profile in guide.profiles))
    yield from twice(top.at("instruments"), tuple(instrument.id for instrument in guide.instruments))
    regions = tuple(region.id for region in guide.regions)
    if guide.home_region not in regions:
        yield unknown(top.at("home_region"), guide.home_region, "region", regions)
    if not guide.public_address.startswith("https://") or not guide.public_address.endswith("/"):
        expected = "an address that begins with https:// and ends with /"
        yield Fault(origin=top.at("public_address"), came=guide.public_address, expected=expected, rule="address")
    yield from _brackets(guide)
    for place, profile in enumerate(guide.profiles):
        at = top.at("profiles", place, "uses")
        yield from twice(at, tuple(use.use for use in profile.uses), field="use")
        hours = sum(use.hours_per_day for use in profile.uses)
        if hours > 24:
            yield Fault(origin=at, came=f"{hours:g} hours a day in all", expected="at most 24", rule="order")


def _brackets(guide: GuideRecord) -> Iterator[Fault]:
    """Brackets that are upside down, overlap, or leave a gap."""
    top = Origin("guide.yaml", ("brackets",))
    for place, bracket in enumerate(guide.brackets):
        if bracket.below_w <= bracket.from_w:
            expected = f"more than from_w, {bracket.from_w:g}"
            yield Fault(origin=top.at(place, "below_w"), came=f"{bracket.below_w:g}", expected=expected, rule="bracket")
        edge = guide.brackets[place - 1].below_w if place else bracket.from_w
        if bracket.from_w != edge:
            leaves = "an overlap" if bracket.from_w < edge else "a gap"
            came, expected = f"{bracket.from_w:g}, which leaves {leaves}", f"{edge:g}, where the bracket before ends"
            yield Fault(origin=top.at(place, "from_w"), came=came, expected=expected, rule="bracket")


def _parts(draft: Draft) -> Iterator[Fault]:
    if draft.parts is None:
        return
    top = Origin("parts.yaml")
    known = tuple(part.id for part in draft.parts.classes)
    yield from twice(top.at("classes"), known)
    yield from twice(top.at("examples"), tuple(build.id for build in draft.parts.examples))
    for place, build in enumerate(draft.parts.examples):
        for name, count in build.parts.items():
            at = top.at("examples", place, "parts", name)
            if name not in known:
                yield unknown(at, name, "part class", known)
            if count < 1:
                yield Fault(origin=at, came=str(count), expected="a whole number of at least 1", rule="shape")


def _units(draft: Draft) -> Iterator[Fault]:
    told = {session.unit for session in draft.sessions} | {file.split("/")[1] for file in draft.faulty if file.startswith("units/")}
    for unit in draft.units:
        yield from _unit(unit, draft)
        if unit.record.withdrawn is None and unit.id not in told:
            expected = "at least one bench session beside unit.yaml, such as 2026-03-02.yaml"
            yield Fault(origin=Origin(unit.file), came="no session", expected=expected, rule="file")
    yield from _circles(draft.units)


def _unit(unit: Unit, draft: Draft) -> Iterator[Fault]:
    record, top = unit.record, Origin(unit.file)
    if record.predecessor is not None and record.predecessor not in draft.unit_names:
        others = tuple(name for name in draft.unit_names if name != unit.id)
        yield unknown(top.at("predecessor"), record.predecessor, "unit", others)
    if draft.guide is not None and draft.guide.bracket_of(record.rated_power_w) is None:
        edges = ", ".join(f"{b.from_w:g} to {b.below_w:g} W" for b in draft.guide.brackets)
        expected = f"a power within a bracket of guide.yaml: {edges}"
        yield Fault(origin=top.at("rated_power_w"), came=f"{record.rated_power_w:g}", expected=expected, rule="bracket")
    if record.claims.badge != "none" and record.claims.badge_mains is None:
        expected = "the field badge_mains, because a badge is claimed"
        yield Fault(origin=top.at("claims", "badge_mains"), came="nothing", expected=expected, rule="missing")
    for place, picture in enumerate(record.pictures):
        if picture.file not in draft.picture_names:
            yield unknown(top.at("pictures", place, "file"), picture.file, "picture", draft.picture_names)
    yield from twice(top.at("rails"), tuple(rail.rail for rail in record.rails), field="rail")


def _circles(units: tuple[Unit, ...]) -> Iterator[Fault]:
    """Units that are their own predecessor, directly or by way of others."""
    before = {unit.id: unit.record.predecessor for unit in units}
    for unit in units:
        seen: set[str] = set()
        step = before[unit.id]
        while step is not None and step not in seen and step != unit.id:
            seen.add(step)
            step = before.get(step)
        if step == unit.id:
            expected = "an older unit; this one would be its own predecessor"
            yield Fault(origin=Origin(unit.file, ("predecessor",)), came=str(before[unit.id]), expected=expected, rule="reference")


def _session(session: Session, guide: GuideRecord | None, instruments: tuple[str, ...] | None) -> Iterator[Fault]:
    record, top = session.record, Origin(session.file)
    for place, name in enumerate(record.instruments):
        if instruments is not None and name not in instruments:
            yield unknown(top.at("instruments", place), name, "instrument", instruments)
    named = session.file.rpartition("/")[2][:10]
    if named != record.date.isoformat():
        expected = f"{named}, the day in the file's name"
        yield Fault(origin=top.at("date"), came=record.date.isoformat(), expected=expected, rule="date")
    if guide is not None and record.date > guide.edition.date:
        expected = f"a day not after the edition's, {guide.edition.date.isoformat()}"
        yield Fault(origin=top.at("date"), came=record.date.isoformat(), expected=expected, rule="date")
    yield from not_rising(top.at("load_points"), tuple(p.load_pct for p in record.load_points), field="load_pct")
    if record.noise_sweep is not None:
        powers = tuple(point.delivered_power_w for point in record.noise_sweep.points)
        yield from not_rising(top.at("noise_sweep", "points"), powers, field="delivered_power_w")
    yield from twice(top.at("protections"), tuple(test.protection for test in record.protections), field="protection")


def check_prices(prices: PriceList, draft: Draft) -> Iterator[Fault]:
    """Every fault between a price table and the other records."""
    top, units, guide = Origin(prices.file), frozenset(draft.unit_names), draft.guide
    regions = {region.id: region for region in guide.regions} if guide else {}
    region = regions.get(prices.region)
    if guide is not None and region is None:
        missing = unknown(top, prices.region, "region", tuple(regions))
        yield Fault(origin=top, came=missing.came, expected=missing.expected, nearest=missing.nearest, rule="file")
    for place, row in enumerate(prices.rows):
        if row.unit not in units:
            yield unknown(top.at(place, "unit"), row.unit, "unit", draft.unit_names)
        if region is not None and row.currency != region.currency:
            expected = f"{region.currency}, the region's currency"
            yield Fault(origin=top.at(place, "currency"), came=row.currency, expected=expected, rule="currency")
        if guide is not None and row.date > guide.edition.date:
            expected = f"a day not after the edition's, {guide.edition.date.isoformat()}"
            yield Fault(origin=top.at(place, "date"), came=row.date.isoformat(), expected=expected, rule="date")
        if row.link and not _OFFER.fullmatch(row.link):
            expected = "an address that begins with https:// and a host, or nothing"
            yield Fault(origin=top.at(place, "link"), came=row.link[:60], expected=expected, rule="address")
