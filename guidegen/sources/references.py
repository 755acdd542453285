"""Checks between records: names that lead nowhere, edges that don't meet, orders that don't rise."""

from collections.abc import Iterator

from guidegen.errors import nearest_name
from guidegen.origins import Origin, Step
from guidegen.records import Criterion, GuideRecord, Library, Part, PolicyRecord, Session, Unit

Finding = tuple[Origin, str, str, str, str]
"""Origin, what came, what was expected, nearest right name, rule."""


def cross_check(library: Library) -> Iterator[Finding]:
    """Everything that no record can see by itself."""
    yield from _guide(library.guide)
    yield from _policy(library.policy, library.guide, library)
    yield from _parts(library)
    for unit in library.units:
        yield from _unit(unit, library)
    for session in library.sessions:
        yield from _session(session, library.guide)
    yield from _prices(library)


def _unknown(origin: Origin, name: str, kind: str, known: tuple[str, ...]) -> Finding:
    return origin, name, f"the name of a {kind}", nearest_name(name, known), "reference"


def _twice(file: str, path: tuple[Step, ...], names: tuple[str, ...]) -> Iterator[Finding]:
    for i, name in enumerate(names):
        if name in names[:i]:
            yield Origin(file, (*path, i)), f"{name} a second time", "each name once", "", "duplicate"


def _guide(guide: GuideRecord) -> Iterator[Finding]:
    file = "guide.yaml"
    for field, names in (
        ("brackets", tuple(b.id for b in guide.brackets)),
        ("regions", tuple(r.id for r in guide.regions)),
        ("profiles", tuple(p.id for p in guide.profiles)),
        ("instruments", tuple(i.id for i in guide.instruments)),
    ):
        yield from _twice(file, (field,), names)
    if guide.home_region not in {region.id for region in guide.regions}:
        yield _unknown(Origin(file, ("home_region",)), guide.home_region, "region", tuple(r.id for r in guide.regions))
    if not guide.public_address.startswith("https://") or not guide.public_address.endswith("/"):
        yield (Origin(file, ("public_address",)), guide.public_address, ("an address that begins with https:// and ends "
               "with /"), "", "address")
    for i, bracket in enumerate(guide.brackets):
        place = Origin(file, ("brackets", i, "from_w"))
        if bracket.below_w <= bracket.from_w:
            yield (Origin(file, ("brackets", i, "below_w")), f"{bracket.below_w:g}",
                   f"more than from_w, {bracket.from_w:g}", "", "bracket")
        if i and bracket.from_w != guide.brackets[i - 1].below_w:
            word = "overlap" if bracket.from_w < guide.brackets[i - 1].below_w else "gap"
            yield (place, f"{bracket.from_w:g}, which leaves a{'n' if word == 'overlap' else ''} {word}",
                   f"{guide.brackets[i - 1].below_w:g}, where the bracket before ends", "", "bracket")


def _policy(policy: PolicyRecord, guide: GuideRecord, library: Library) -> Iterator[Finding]:
    file = "policy.yaml"
    yield from _twice(file, ("criteria",), tuple(c.id for c in policy.criteria))
    yield from _twice(file, ("gates",), tuple(g.id for g in policy.gates))
    yield from _twice(file, ("choices",), tuple(c.id for c in policy.choices))
    yield from _twice(file, ("tiers",), tuple(t.id for t in policy.tiers))
    for i, criterion in enumerate(policy.criteria):
        yield from _criterion(criterion, i, guide)
    scores = [tier.from_score for tier in policy.tiers]
    for i in range(1, len(scores)):
        if scores[i] >= scores[i - 1]:
            yield (Origin(file, ("tiers", i, "from_score")), f"{scores[i]:g}", (f"less than {scores[i - 1]:g}, the tier "
                   "above"), "", "order")
    if scores[-1] != 0:
        yield Origin(file, ("tiers", len(scores) - 1, "from_score")), f"{scores[-1]:g}", "0 for the last tier", "", "order"
    for i, choice in enumerate(policy.choices):
        if choice.rule.endswith("_finding") and choice.finding is None:
            yield Origin(file, ("choices", i)), "", f"the field finding, which {choice.rule} needs", "", "missing"
    known = {"unit": tuple(u.id for u in library.units), "bracket": tuple(b.id for b in guide.brackets),
             "choice": tuple(c.id for c in policy.choices)}
    for i, override in enumerate(policy.overrides):
        for field, name in (("unit", override.unit), ("bracket", override.bracket), ("choice", override.choice)):
            if name not in known[field]:
                yield _unknown(Origin(file, ("overrides", i, field)), name, field, known[field])


def _criterion(criterion: Criterion, place: int, guide: GuideRecord) -> Iterator[Finding]:
    for j, part in enumerate(criterion.parts):
        path: tuple[Step, ...] = ("criteria", place, "parts", j)
        if (part.anchors is None) == (not part.local_anchors):
            yield (Origin("policy.yaml", path), "both" if part.anchors else "neither",
                   "either anchors or local_anchors", "", "anchors")
        yield from _anchors(part, path)
        yield from _local_places(part, path, guide)


def _anchors(part: Part, path: tuple[Step, ...]) -> Iterator[Finding]:
    lists = [(("anchors",), part.anchors or ())]
    lists += [(("local_anchors", k, "anchors"), local.anchors) for k, local in enumerate(part.local_anchors)]  # type: ignore[misc]
    for steps, anchors in lists:
        for k in range(1, len(anchors)):
            if anchors[k].at <= anchors[k - 1].at:
                yield (Origin("policy.yaml", (*path, *steps, k, "at")), f"{anchors[k].at:g}",
                       f"more than {anchors[k - 1].at:g}, the anchor before", "", "anchors")
        turns = [anchors[k].worth - anchors[k - 1].worth for k in range(1, len(anchors))]
        if any(turn > 0 for turn in turns) and any(turn < 0 for turn in turns):
            yield (Origin("policy.yaml", (*path, *steps)), "worth that rises and falls",
                   "worth that only rises or only falls", "", "anchors")


def _local_places(part: Part, path: tuple[Step, ...], guide: GuideRecord) -> Iterator[Finding]:
    if not part.local_anchors:
        return
    regions, brackets = tuple(r.id for r in guide.regions), tuple(b.id for b in guide.brackets)
    for k, local in enumerate(part.local_anchors):
        if local.region not in regions:
            yield _unknown(Origin("policy.yaml", (*path, "local_anchors", k, "region")), local.region, "region", regions)
        if local.bracket not in brackets:
            yield _unknown(Origin("policy.yaml", (*path, "local_anchors", k, "bracket")), local.bracket, "bracket", brackets)
    there = {(local.region, local.bracket) for local in part.local_anchors}
    absent = [(r, b) for r in regions for b in brackets if (r, b) not in there]
    if absent:
        region, bracket = absent[0]
        more = f" (and {len(absent) - 1} more)" if len(absent) > 1 else ""
        yield (Origin("policy.yaml", (*path, "local_anchors")), "",
               f"anchors for region {region} and bracket {bracket}{more}", "", "anchors")


def _parts(library: Library) -> Iterator[Finding]:
    known = tuple(part.id for part in library.parts.classes)
    yield from _twice("parts.yaml", ("classes",), known)
    for i, build in enumerate(library.parts.examples):
        for name in build.parts:
            if name not in known:
                yield _unknown(Origin("parts.yaml", ("examples", i, "parts", name)), name, "part class", known)


def _unit(unit: Unit, library: Library) -> Iterator[Finding]:
    others = tuple(u.id for u in library.units if u.id != unit.id)
    record = unit.record
    if record.predecessor is not None and record.predecessor not in others:
        yield _unknown(Origin(unit.file, ("predecessor",)), record.predecessor, "unit", others)
    if library.guide.bracket_of(record.rated_power_w) is None:
        lowest, highest = library.guide.brackets[0].from_w, library.guide.brackets[-1].below_w
        yield (Origin(unit.file, ("rated_power_w",)), f"{record.rated_power_w:g}",
               f"a power within the brackets, {lowest:g} to {highest:g} W", "", "bracket")
    if record.claims.badge != "none" and record.claims.badge_mains is None:
        yield Origin(unit.file, ("claims",)), "", "the field badge_mains, since a badge is claimed", "", "missing"
    yield from _twice(unit.file, ("rails",), tuple(rail.rail for rail in record.rails))
    if record.withdrawn is None and not library.sessions_of(unit.id):
        yield Origin(unit.file), "no session", "at least one bench session beside unit.yaml", "", "missing"


def _session(session: Session, guide: GuideRecord) -> Iterator[Finding]:
    known = tuple(instrument.id for instrument in guide.instruments)
    for i, name in enumerate(session.record.instruments):
        if name not in known:
            yield _unknown(Origin(session.file, ("instruments", i)), name, "instrument", known)
    stem = session.file.rsplit("/", 1)[-1].removesuffix(".yaml")
    if stem[:10] != session.record.date.isoformat():
        yield (Origin(session.file, ("date",)), session.record.date.isoformat(),
               f"{stem[:10]}, the day in the file's name", "", "date")
    if session.record.date > guide.edition.date:
        yield (Origin(session.file, ("date",)), session.record.date.isoformat(),
               f"a day up to the edition's, {guide.edition.date.isoformat()}", "", "date")
    loads = [point.load_pct for point in session.record.load_points]
    for i in range(1, len(loads)):
        if loads[i] <= loads[i - 1]:
            yield (Origin(session.file, ("load_points", i, "load_pct")), f"{loads[i]:g}",
                   f"more than {loads[i - 1]:g}, the load before", "", "order")
    yield from _twice(session.file, ("protections",), tuple(test.protection for test in session.record.protections))


def _prices(library: Library) -> Iterator[Finding]:
    units = tuple(unit.id for unit in library.units)
    currencies = {region.id: region.currency for region in library.guide.regions}
    for prices in library.prices:
        if prices.region not in currencies:
            yield _unknown(Origin(prices.file), prices.region, "region", tuple(currencies))
            continue
        for i, row in enumerate(prices.rows):
            if row.unit not in units:
                yield _unknown(Origin(prices.file, (i, "unit")), row.unit, "unit", units)
            if row.currency != currencies[prices.region]:
                yield (Origin(prices.file, (i, "currency")), row.currency,
                       f"{currencies[prices.region]}, the region's currency", "", "currency")
            if row.date > library.guide.edition.date:
                yield (Origin(prices.file, (i, "date")), row.date.isoformat(),
                       f"a day up to the edition's, {library.guide.edition.date.isoformat()}", "", "date")
            if row.link and not row.link.startswith("https://"):
                yield Origin(prices.file, (i, "link")), row.link[:60], "an address that begins with https://", "", "address"
