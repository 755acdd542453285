"""A unit: the test report."""

from guidegen.evaluation import BadgeVerdict, Candidate, Finding, Ranking, Standing, UnitResult, Verdict, view_prices
from guidegen.origins import Origin
from guidegen.presentation.accepted import accepted_table
from guidegen.presentation.addresses import anchor, bracket_address, unit_address
from guidegen.presentation.choosing import neighbour_words, place_text, score_parts, score_text, standing_note
from guidegen.presentation.formatting import (
    counted,
    day,
    finding_with_doubt,
    listed,
    money,
    number,
    with_unit,
)
from guidegen.presentation.names import (
    BADGES,
    BEARINGS,
    GATE_OUTCOMES,
    INRUSH_LIMITERS,
    MAKER_CLASSES,
    OUTCOMES,
    PRIMARIES,
    SECONDARIES,
    STANDINGS,
    STOCKS,
    lower_first,
)
from guidegen.presentation.pages.context import Context, short_description, short_title
from guidegen.presentation.pieces import Fact, Link
from guidegen.presentation.remarks import Remark, pick, remarks_on
from guidegen.presentation.sheets import Evidence, PriceLine, UnitSheet, VerdictRow
from guidegen.presentation.strips import LEGEND_WORDS, unit_strip
from guidegen.presentation.tables import (
    badge_table,
    cables_table,
    changes_since,
    judged_numbers,
    label_table,
    measure_tables,
    predecessor_table,
    protections_table,
    samples_table,
)
from guidegen.presentation.unit_charts import unit_charts
from guidegen.records import Bracket, PriceRow, Region

CAUTIONS = (
    "Never open a power supply: its large capacitor holds a charge that can kill, long after the plug is out.",
    ("Use only the cables that came with this very model; a cable of another, even of the same maker, may fit and carry "
    "the wrong voltages."),
    "Push every plug home until it latches, the 16-pin one above all, and do not bend its cable right at the plug.",
    ("Plug it into an earthed outlet of a circuit that can carry the load; where in doubt, ask a qualified electrician. "
    "Local rules come first."),
)


DECISION_RULE = (
    "Decision rule: pass or fail when the number lies inside or outside its limit by more than its expanded uncertainty "
    "(k = 2), else within the doubt (guard band, ILAC-G8:09/2019, 4.2)."
)


def unit_sheet(context: Context, standing: Standing, ranking: Ranking) -> UnitSheet:
    """The report on a unit, with its place in the home region."""
    bracket = ranking.bracket
    one, result = standing.candidate, standing.candidate.result
    address, guide = unit_address(result.unit), context.assessment.library.guide
    remarks = remarks_on(one)
    before = context.assessment.result(result.unit.record.predecessor or "")
    verdict = _verdict(standing, remarks, bracket)
    note = result.unit.record.editor_note
    return UnitSheet(
        kind="unit",
        address=address,
        title=short_title(f"{result.unit.name} tested", guide.title),
        heading=result.unit.name,
        description=short_description(verdict),
        breadcrumbs=(
            Link(text=guide.title, address=""),
            Link(text=bracket.title, address=bracket_address(bracket)),
            Link(text=result.unit.name, address=address),
        ),
        verdict=verdict,
        warning=one.fails,
        reasons=_reasons(standing, ranking),
        facts=_facts(standing, bracket),
        pros=tuple(remark.sentence for remark in pick(remarks, good=True, most=5)),
        cons=tuple(remark.sentence for remark in pick(remarks, good=False, most=5)),
        suits=_readers(remarks, good=True) if not one.fails else (),
        skips=_readers(remarks, good=False),
        note=context.paragraph(note, Origin(result.unit.file, ("editor_note",)), page=address) if note else "",
        score=score_text(one.score) if standing.place is not None else "no place",
        score_words=_score_words(standing),
        parts=score_parts(one.score),
        strip=unit_strip(result, context.assessment.library.policy, mark_w=bracket.usual_full_load_w, large=True),
        legend_words=LEGEND_WORDS,
        label=label_table(result),
        badge=_badge_sentence(result),
        badge_table=badge_table(result),
        charts=unit_charts(standing, _field(context, bracket), guide.edition),
        decision_rule=DECISION_RULE,
        verdicts=tuple(_verdict_row(v) for v in judged_numbers(result)),
        protections=protections_table(result),
        measures=measure_tables(result),
        construction=_construction(result),
        cables=cables_table(result),
        samples=samples_table(result),
        accepted=accepted_table(result, context.assessment.sense.accepted_of(result.unit.file)),
        prices=tuple(_price_line(context, result, region) for region in guide.regions),
        predecessor=predecessor_table(result, before) if before else None,
        predecessor_words=_predecessor_words(result, before),
        evidence=tuple(_evidence(context, result, finding) for finding in result.findings),
        cautions=CAUTIONS,
    )


def _field(context: Context, bracket: Bracket) -> tuple[UnitResult, ...]:
    return tuple(r for r in context.assessment.results if bracket.from_w <= r.unit.record.rated_power_w < bracket.below_w)


def _verdict(standing: Standing, remarks: tuple[Remark, ...], bracket: Bracket) -> str:
    one = standing.candidate
    against = pick(remarks, good=False, most=2)
    if one.fails:
        return f"Not advised: {listed(tuple(remark.clause for remark in against))}."
    strong = pick(remarks, good=True, most=2)
    place = place_text(standing)
    position = f"{standing.tier.title}, {_place_words(place)} among {bracket.title}"
    likes = f": {listed(tuple(remark.clause for remark in strong))}" if strong else ""
    but = f", but {against[0].clause}" if against and against[0].weight >= 0.35 else ""
    return f"{position}{likes}{but}."


def _place_words(place: str) -> str:
    return f"places {place.replace('–', ' to ')}" if "–" in place else f"place {place}"


def _reasons(standing: Standing, ranking: Ranking) -> tuple[str, ...]:
    """Why it stands where it stands: gates that hold it back, then what sets it apart from its neighbours."""
    held = [gate for gate in standing.candidate.gates if gate.holds_back]
    gates = tuple(f"{gate.gate.title}: {GATE_OUTCOMES[gate.outcome]}. {gate.gate.reason}" for gate in held)
    placed = ranking.placed
    if standing not in placed:
        return gates
    here = placed.index(standing)
    above = placed[here - 1] if here else None
    below = placed[here + 1] if here + 1 < len(placed) else None
    return (
        *gates,
        *((neighbour_words(above, standing, above=True),) if above else ()),
        *((neighbour_words(standing, below, above=False),) if below else ()),
    )


def _facts(standing: Standing, bracket: Bracket) -> tuple[Fact, ...]:
    one = standing.candidate
    record = one.result.unit.record
    place = place_text(standing)
    return (
        Fact(label="Place", text=f"{place or 'none'} of {bracket.title}", address=bracket_address(bracket)),
        Fact(label="Rated", text=with_unit(record.rated_power_w, "W", 0)),
        Fact(label="Form", text=f"{record.form_factor}, {with_unit(record.size.depth_mm, 'mm', 0)} deep"),
        Fact(label="Built by", text=record.platform_maker),
        Fact(label="Revision", text=record.revision),
        Fact(label="Warranty", text=f"{number(record.warranty_years, 0)} years"),
        Fact(label="Tested", text=day(one.result.sessions[-1].record.date), address="#samples"),
        Fact(label="Price", text=_home_price(one), address="#prices"),
    )


def _home_price(one: Candidate) -> str:
    best = one.prices.best
    if best is None or best.row.price is None:
        return STOCKS["no_price"] if one.prices.last_seen is None else "none fresh"
    return f"{money(best.row.price, one.prices.region)}, {day(best.row.date)}"


def _readers(remarks: tuple[Remark, ...], *, good: bool) -> tuple[str, ...]:
    picked = tuple(remark.reader for remark in pick(remarks, good=good, most=8) if remark.reader)
    return tuple(reader[:1].upper() + reader[1:] for reader in picked)


def _score_words(standing: Standing) -> str:
    score = standing.candidate.score
    note, warns = standing_note(standing, None)
    if standing.candidate.fails:
        return f"No place: {note}."
    technical = f"{number(score.technical, 1)} before price"
    doubt = f"± {number(2 * score.uncertainty, 1)} from the measurements (k = 2)"
    unknown = "" if score.complete else "; the range is what the untested parts leave open"
    held = f"; {note}" if warns else ""
    return f"Of 100, {doubt}; {technical}{unknown}{held}."


def _badge_sentence(result: UnitResult) -> str:
    badge = result.badge
    if badge.claimed == "none":
        if badge.supported == "none":
            return "The box claims no efficiency badge, and the bench found no level that it reaches."
        return f"The box claims no efficiency badge; measured here, not certified, it reaches {BADGES[badge.supported]}."
    claimed = BADGES[badge.claimed]
    if badge.outcome == "not_tested":
        return _untested_badge(badge, claimed)
    short = [row for row in badge.rows if row.outcome in ("fail", "conditional_fail") and row.found]
    if not short:
        margin = min(row.found.quantity.value - row.floor for row in badge.rows if row.found and row.what == "efficiency")
        return f"The {claimed} badge holds at every load tested, by {with_unit(margin, 'points', 1)} or more."
    where = listed(tuple(f"{number(row.load_pct, 0)} %" for row in short))
    word = "does not hold" if badge.outcome == "fail" else "is within the doubt of the reading"
    supports = BADGES[badge.supported] if badge.supported != "none" else "no level"
    return f"The {claimed} badge {word} at {where} load; the bench supports {supports}."


def _untested_badge(badge: BadgeVerdict, claimed: str) -> str:
    """A claim that the bench can't settle: no session at its mains, or a load that was never reached."""
    measured = [row for row in badge.rows if row.found is not None]
    if not measured:
        return f"The {claimed} badge was not tested at its own mains voltage."
    absent = listed(tuple(f"{number(row.load_pct, 0)} %" for row in badge.rows if row.found is None))
    return f"The {claimed} badge holds at the loads tested; {absent} load is missing, so it is not confirmed."


def _verdict_row(verdict: Verdict) -> VerdictRow:
    return VerdictRow(
        title=verdict.title,
        found=finding_with_doubt(verdict.finding) if verdict.finding else verdict.detail or "not tested",
        limit=verdict.limit_text,
        document=f"{verdict.document} ({STANDINGS.get(verdict.standing, verdict.standing)})",
        outcome=OUTCOMES[verdict.outcome],
        warning=verdict.outcome == "fail",
        evidence=Link(text="evidence", address=f"#from-{anchor(verdict.finding.key)}") if verdict.finding else None,
    )


def _construction(result: UnitResult) -> tuple[Fact, ...]:
    build, fan = result.unit.record.construction, result.unit.record.fan
    bulk, output = build.bulk_capacitors, build.output_capacitors
    facts = (
        Fact(label="Primary side", text=PRIMARIES[build.primary]),
        Fact(label="Secondary side", text=SECONDARIES[build.secondary]),
        Fact(
            label="Bulk capacitors",
            text=f"{bulk.count} × {with_unit(bulk.capacitance_uf, 'µF', 0)}, {with_unit(bulk.voltage_v, 'V', 0)}, "
            f"{with_unit(bulk.temperature_c, '°C', 0)}, {MAKER_CLASSES[bulk.maker_class]}",
        ),
        Fact(
            label="Output capacitors",
            text=f"{'polymer and electrolytic' if output.polymer else 'electrolytic'}, "
            f"{with_unit(output.temperature_c, '°C', 0)}, {MAKER_CLASSES[output.maker_class]}",
        ),
        Fact(label="Inrush limiter", text=INRUSH_LIMITERS[build.inrush_limiter]),
        Fact(
            label="Fan",
            text=f"{with_unit(fan.size_mm, 'mm', 0)}, {BEARINGS[fan.bearing]} bearing, "
            f"{'stands still at low load' if fan.semi_passive else 'always turning'}",
        ),
    )
    return (*facts, Fact(label="Remarks", text=build.remarks)) if build.remarks else facts


def _price_line(context: Context, result: UnitResult, region: Region) -> PriceLine:
    library = context.assessment.library
    prices = next((p for p in library.prices if p.region == region.id), None)
    view = view_prices(result.unit, region, prices, rules=library.policy.prices, today=library.guide.edition.date)
    tax = "" if region.tax == "included" else ", before tax"
    now = (
        f"{money(view.best.row.price, region)}{tax}, {day(view.best.row.date)}"
        if view.best and view.best.row.price is not None
        else f"no fresh price; last seen {day(view.last_seen)}" if view.last_seen else "never seen in a shop"
    )
    return PriceLine(
        region=region.name[:1].upper() + region.name[1:],
        now=now,
        lowest=f"Lowest in twelve months: {money(view.lowest.price or 0.0, region)}, {day(view.lowest.date)}"
        if view.lowest else "",
        stock=STOCKS[view.availability],
        offers=tuple(_offer(offer.row, region, stale=offer.stale) for offer in view.offers if offer.row.link),
    )


def _offer(row: PriceRow, region: Region, *, stale: bool) -> Link:
    paid = ", paid link" if row.paid_link else ""
    old = f", stale, {day(row.date)}" if stale else ""
    return Link(
        text=f"{row.shop}: {money(row.price or 0.0, region)}{paid}{old}",
        address=row.link,
        rel="sponsored noopener" if row.paid_link else "nofollow noopener",
    )


def _predecessor_words(result: UnitResult, before: UnitResult | None) -> str:
    if before is None:
        return ""
    changes = changes_since(result, before)
    better = tuple(lower_first(change.now.title) for change in changes if change.better)
    worse = tuple(lower_first(change.now.title) for change in changes if not change.better)
    if not better and not worse:
        return f"Beside the {before.unit.name} nothing differs by more than the doubt."
    parts = [f"better in {counted(len(better), 'number')}, most of all {listed(better[:3])}"] if better else []
    parts += [f"worse in {counted(len(worse), 'number')}, most of all {listed(worse[:3])}"] if worse else []
    return f"Beside the {before.unit.name} it is {'; and '.join(parts)}. {_build_changes(result, before)}".strip()


def _build_changes(result: UnitResult, before: UnitResult) -> str:
    """What changed inside, from the two records."""
    old = {fact.label: fact.text for fact in _construction(before)}
    new = {fact.label: fact.text for fact in _construction(result)}
    changed = tuple(f"{lower_first(label)}: {text}, before {old[label]}" for label, text in new.items()
                    if label in old and old[label] != text)
    return f"Inside: {'; '.join(changed)}." if changed else ""


def _evidence(context: Context, result: UnitResult, finding: Finding) -> Evidence:
    kinds = {i.id: i.kind for i in context.assessment.library.guide.instruments}
    files = {origin.file for origin in finding.origins}
    sessions = [session for session in result.sessions if session.file in files]
    if sessions:
        used = listed(tuple(dict.fromkeys(kinds[i] for s in sessions for i in s.record.instruments if i in kinds)))
        days = listed(tuple(f"{day(s.record.date)} at {with_unit(s.record.mains.voltage_v, 'V', 0)}" for s in sessions))
        method = f"Measured on {days} with {used}."
    else:
        method = "From the unit's own record: label, callipers or the box."
    return Evidence(
        id=f"from-{anchor(finding.key)}",
        title=finding.title,
        text=finding_with_doubt(finding),
        method=method + (f" {finding.note}" if finding.note else ""),
        fields=_field_lines(finding),
    )


def _field_lines(finding: Finding) -> tuple[str, ...]:
    lines = tuple(dict.fromkeys(f"{origin.file}: {origin.field}" for origin in finding.origins))
    return lines if len(lines) <= 4 else (*lines[:3], f"and {len(lines) - 3} more fields of the same session")


