"""A unit: the test report."""

from collections.abc import Iterator

from guidegen.evaluation import Candidate, Ranking, Standing, UnitResult
from guidegen.origins import Origin
from guidegen.presentation.accepted import accepted_table
from guidegen.presentation.addresses import bench_address, bracket_address, unit_address
from guidegen.presentation.catalogues import Words
from guidegen.presentation.choosing import absence, place_text, score_parts, score_text
from guidegen.presentation.citing import citation
from guidegen.presentation.evidence import evidence_address, verdict_row
from guidegen.presentation.formatting import (
    day,
    finding_with_doubt,
    listed,
    money,
    number,
    with_unit,
)
from guidegen.presentation.names import STOCKS, lower_first
from guidegen.presentation.pages.changed import since_unit
from guidegen.presentation.pages.context import Context, disclosure_of, principles_of, short_description, short_title
from guidegen.presentation.pieces import Fact, Image, Link
from guidegen.presentation.predecessors import inside_table, predecessor_table, predecessor_words
from guidegen.presentation.price_lines import price_line
from guidegen.presentation.remarks import Remark, pick, remarks_on
from guidegen.presentation.sheets import UnitSheet
from guidegen.presentation.strips import legend_words, unit_strip
from guidegen.presentation.tables import (
    badge_table,
    cables_table,
    judged_numbers,
    label_table,
    protections_table,
    samples_table,
)
from guidegen.presentation.unit_charts import Background, behind, unit_charts
from guidegen.presentation.unit_words import (
    badge_sentence,
    construction_facts,
    place_reasons,
    score_words,
    verdict_words,
)
from guidegen.records import Bracket, Unit, UnitRecord


def unit_sheet(context: Context, standing: Standing, ranking: Ranking, *, note: str = "", chosen: tuple[str, ...] = ()) -> UnitSheet:
    """The report on a unit, with its place in the home region; ``note`` is the editor's note as HTML, ``chosen`` the titles of the
    choices that fell on it.
    """
    bracket = ranking.bracket
    one, result = standing.candidate, standing.candidate.result
    address, guide = unit_address(result.unit), context.assessment.library.guide
    remarks, words, say = remarks_on(one), context.words, context.words.say
    before = context.assessment.result(result.unit.record.predecessor or "")
    verdict = verdict_words(standing, remarks, bracket)
    return UnitSheet(
        kind="unit",
        address=address,
        title=short_title(say("unit.title", unit=result.unit.name), guide.title),
        heading=result.unit.name,
        description=short_description(verdict),
        breadcrumbs=(
            Link(text=guide.title, address=""),
            Link(text=bracket.title, address=bracket_address(bracket)),
            Link(text=result.unit.name, address=address),
        ),
        verdict=verdict,
        warning=one.fails,
        reasons=place_reasons(standing, ranking),
        facts=(*_chosen_as(chosen, bracket, words), *successors(context, result.unit.id), *_facts(standing, bracket, words)),
        pros=tuple(remark.sentence for remark in pick(remarks, good=True, most=5)),
        cons=tuple(remark.sentence for remark in pick(remarks, good=False, most=5)),
        suits=_readers(remarks, good=True) if not one.fails else (),
        skips=_readers(remarks, good=False),
        note=note,
        disclosure=disclosure_of(context, (result.unit.id,)),
        principles=principles_of(context),
        cite=citation(guide, result.unit.name, address),
        score=score_text(one.score) if standing.place is not None else "no place",
        score_words=score_words(standing),
        parts=score_parts(one.score),
        strip=unit_strip(result, context.assessment.library.policy, mark_w=bracket.usual_full_load_w, large=True),
        legend_words=legend_words(words, context.assessment.library.policy),
        label=label_table(result, words),
        badge=badge_sentence(result),
        badge_table=badge_table(result, words),
        charts=unit_charts(standing, _background(context, ranking)),
        decision_rule=say("limits.rule"),
        verdicts=tuple(verdict_row(v, result) for v in judged_numbers(result)),
        protections=protections_table(result, words),
        measured=say("unit.measured_words", count=len(result.findings)),
        rests_on=_rests_on(one),
        bench=Link(text=say("unit.numbers", count=len(result.findings)), address=bench_address(result.unit)),
        construction=construction_facts(result, words),
        cables=cables_table(result, words),
        samples=samples_table(result, words),
        pictures=images_of(context, result.unit),
        accepted=accepted_table(result, context.assessment.sense.accepted_of(result.unit.file), words),
        prices=tuple(price_line(context.assessment.library, result, region) for region in guide.regions),
        predecessor=predecessor_table(result, before, words) if before else None,
        predecessor_inside=inside_table(result, before, words) if before else None,
        predecessor_words=predecessor_words(result, before),
        since=since_unit(context, result.unit.id),
        cautions=(say("cautions.open"), say("cautions.cables"), say("cautions.plugs"), say("cautions.outlet")),
    )


def _rests_on(one: Candidate) -> tuple[Fact, ...]:
    """The measured numbers of the score's parts; whether a protection acted is told by its verdict."""
    found = {part.found.key: part.found for part in one.score.parts if part.found and one.result.finding(part.found.key)}
    return tuple(
        Fact(label=finding.title, text=finding_with_doubt(finding), address=evidence_address(finding, one.result))
        for key, finding in found.items() if not key.endswith(".acted")
    )


def shown_of_others(context: Context, standing: Standing, ranking: Ranking) -> tuple[object, ...]:
    """What the report on a unit shows that rests on the other units of its bracket; everything else is its own.

    Of equal records and of equal values here come equal reports: who lets a report show more of its neighbours adds it.
    """
    stands = (standing.place, standing.best, standing.worst, standing.level_with, standing.tier.id)
    return stands, place_reasons(standing, ranking), behind(standing, _background(context, ranking))


def editor_note(context: Context, unit: Unit) -> str:
    """The editor's note on a unit as HTML, or empty."""
    note = unit.record.editor_note
    return context.paragraph(note, Origin(unit.file, ("editor_note",)), page=unit_address(unit)) if note else ""


def images_of(context: Context, unit: Unit) -> tuple[Image, ...]:
    """The pictures of a unit."""
    known = context.bindings.pictures
    named = ((known[one.file], one.words) for one in unit.record.pictures)
    return tuple(Image(address=one.file, words=words, width=one.width, height=one.height) for one, words in named)


def place_words(standing: Standing, bracket: Bracket) -> str:
    """Where a unit stands in its bracket."""
    place = place_text(standing)
    return f"{place} of {bracket.title}" if place else f"not advised, {bracket.title}"


def form_words(record: UnitRecord) -> str:
    """Form factor and depth."""
    return f"{record.form_factor}, {with_unit(record.size.depth_mm, 'mm', 0)} deep"


def _background(context: Context, ranking: Ranking) -> Background:
    """What the charts show of the bracket, reckoned for its first unit and kept for the others."""
    bracket, known = ranking.bracket, context.backgrounds
    if bracket.id not in known:
        known[bracket.id] = Background.of(ranking, tuple(context.assessment.inside(bracket)), context.assessment.library)
    return known[bracket.id]


def _chosen_as(chosen: tuple[str, ...], bracket: Bracket, words: Words) -> Iterator[Fact]:
    if chosen:
        titles = listed((chosen[0], *map(lower_first, chosen[1:])))
        yield Fact(label=words.say("facts.chosen"), text=f"{titles} of {bracket.title}", address=bracket_address(bracket))


def successors(context: Context, unit: str) -> tuple[Fact, ...]:
    """The units of the guide whose records name this one as their predecessor, each with the way to its page."""
    found = (one for one in context.assessment.library.units if one.record.predecessor == unit and one.record.withdrawn is None)
    return tuple(Fact(label=context.words.say("facts.successor"), text=one.name, address=unit_address(one)) for one in found)


def _facts(standing: Standing, bracket: Bracket, words: Words) -> tuple[Fact, ...]:
    one = standing.candidate
    record = one.result.unit.record
    return (
        Fact(label=words.say("bracket.place"), text=place_words(standing, bracket), address=bracket_address(bracket)),
        Fact(label=words.say("facts.rated"), text=with_unit(record.rated_power_w, "W", 0)),
        Fact(label=words.say("facts.form"), text=form_words(record)),
        Fact(label=words.say("facts.built_by"), text=record.platform_maker),
        Fact(label=words.say("facts.revision"), text=_revision(one.result)),
        Fact(label=words.say("facts.warranty"), text=f"{number(record.warranty_years, 0)} years"),
        Fact(label=words.say("facts.tested"), text=_tested(one.result), address="#samples"),
        Fact(label=words.say("facts.price"), text=_home_price(one), address="#prices"),
    )


def _tested(result: UnitResult) -> str:
    """The day of the newest session, and the mains where it is not the one that the guide compares at."""
    when, missed = day(result.sessions[-1].record.date), result.mains_missed_v
    return f"{when}, at {with_unit(result.mains_v, 'V', 0)}; the guide compares at {with_unit(missed, 'V', 0)}" if missed else when


def _revision(result: UnitResult) -> str:
    """The hardware revision that the numbers are of, and that of the box's record where it is another."""
    told = result.unit.record.revision
    return told if told == result.revision else f"{result.revision} on the bench; the facts of the box are of {told}"


def _home_price(one: Candidate) -> str:
    best = one.prices.best
    if best is None or best.row.price is None:
        return STOCKS["no_price"] if one.prices.last_seen is None else absence(one.prices)
    return f"{money(best.row.price, one.prices.region)}, {day(best.row.date)}"


def _readers(remarks: tuple[Remark, ...], *, good: bool) -> tuple[str, ...]:
    picked = tuple(remark.reader for remark in pick(remarks, good=good, most=8) if remark.reader)
    return tuple(reader[:1].upper() + reader[1:] for reader in picked)


