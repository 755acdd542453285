"""A wattage bracket: the choices first, then everything that was tested."""

import math
from dataclasses import replace
from html import escape

from guidegen.evaluation import BracketAssessment, Standing
from guidegen.origins import Origin
from guidegen.presentation.addresses import bracket_address, relative, unit_address
from guidegen.presentation.bracket_charts import bracket_charts
from guidegen.presentation.certainty import certainty_table, stability_words
from guidegen.presentation.choosing import describe_choices, place_text, row_note, score_parts, score_text
from guidegen.presentation.citing import citation
from guidegen.presentation.formatting import day, finding_figure, listed, order, with_unit
from guidegen.presentation.pages.changed import since_bracket
from guidegen.presentation.pages.context import (
    Context,
    disclosure_of,
    principles_of,
    sample_facts,
    short_description,
    short_title,
)
from guidegen.presentation.pieces import Choice, Fact, Link, NoChoice
from guidegen.presentation.price_lines import tax_words
from guidegen.presentation.sheets import BracketSheet, RankedCell, RankedRow
from guidegen.presentation.sieving import price_cell, sieve_of
from guidegen.presentation.strips import legend_strip, legend_words, unit_strip
from guidegen.presentation.weighing import weighing_of
from guidegen.records import Bracket, PolicyRecord

CELLS = (
    ("efficiency.at_50", "bracket.efficiency"),
    ("acoustic_noise.at_50", "bracket.noise"),
    ("ripple.12v.worst", "bracket.ripple"),
)
"""Numbers of the table: key of the finding and name of the heading."""
USUAL_SHARE = 0.60
"""A usual full load of 60 % of the rating suits a unit (common practice, no source)."""


def served(context: Context, sheet: BracketSheet, bracket: Bracket) -> BracketSheet:
    """The page of a bracket with the prose that says whom it serves, and what changed since the last edition."""
    return replace(sheet, serves=_serves(context, bracket, sheet.address), since=since_bracket(context, bracket.id))


def bracket_sheet(context: Context, one: BracketAssessment) -> BracketSheet:
    """The page of a bracket in the home region; ``served`` adds what rests on more than its own records."""
    ranking = one.ranking
    bracket, address = ranking.bracket, bracket_address(ranking.bracket)
    described = describe_choices(one.choices, ranking)
    units = tuple(standing.candidate.id for standing in ranking.standings)
    guide = context.assessment.library.guide
    return BracketSheet(
        kind="bracket",
        address=address,
        title=short_title(context.words.say("bracket.title", bracket=bracket.title), guide.title),
        heading=bracket.title,
        description=short_description(_description(one)),
        breadcrumbs=(Link(text=guide.title, address=""), Link(text=bracket.title, address=address)),
        serves="",
        facts=(*_facts(context), *sample_facts(context, units), _price_fact(context, one)),
        choices=tuple(choice for choice in described if isinstance(choice, Choice)),
        missing=tuple(choice for choice in described if isinstance(choice, NoChoice)),
        disclosure=disclosure_of(context, units),
        principles=principles_of(context),
        cite=citation(guide, bracket.title, address),
        legend=legend_strip(),
        legend_words=legend_words(context.words, context.assessment.library.policy),
        columns=(*(context.words.say(name) for _, name in CELLS), context.words.say("bracket.price", currency=ranking.region.currency_mark)),
        rows=_rows(ranking.standings, bracket, context.assessment.library.policy),
        level_note=_level_note(ranking.standings),
        charts=bracket_charts(one),
        neighbours=_neighbours(context, bracket),
        certainty=certainty_table(one, context.words),
        stability=stability_words(one),
        weighing=weighing_of(ranking, context.assessment.library.policy),
        sieve=sieve_of(context.assessment, one),
    )


def _description(one: BracketAssessment) -> str:
    first = next((c.standing for c in one.choices if c.standing is not None), None)
    tested = f"{len(one.ranking.standings)} power supplies from {one.ranking.bracket.title} on the bench"
    return f"{tested}; first choice {first.candidate.name}." if first else f"{tested}; none to recommend at present."


def _serves(context: Context, bracket: Bracket, page: str) -> str:
    brackets = context.assessment.library.guide.brackets
    place = brackets.index(bracket)
    text = context.paragraph(bracket.serves, Origin("guide.yaml", ("brackets", place, "serves")), page=page)
    if place == 0:
        return text
    below = brackets[place - 1]
    typical = math.floor((below.from_w + below.below_w) / 2 / 10) * 10
    wall = typical * USUAL_SHARE / (context.assessment.library.policy.sizing.assumed_efficiency_pct / 100)
    return (
        f"{text} If a plug meter shows less than {with_unit(math.floor(wall / 10) * 10, 'W', 0)} while you play, "
        f'<a href="{relative(page, bracket_address(below))}">{escape(below.title)}</a> will serve you as well for less.'
    )


def _facts(context: Context) -> tuple[Fact, ...]:
    guide, policy = context.assessment.library.guide, context.assessment.library.policy
    return (
        Fact(label=context.words.say("facts.edition"), text=f"{guide.edition.name}, printing {guide.edition.printing}, {day(guide.edition.date)}"),
        Fact(label=context.words.say("facts.mains"), text=with_unit(policy.reference_mains_v, "V", 0), address=context.explained("how-we-test")),
    )


def _price_fact(context: Context, one: BracketAssessment) -> Fact:
    days = [s.candidate.prices.best.row.date for s in one.ranking.standings if s.candidate.prices.best]
    text = f"{one.ranking.region.name}, {day(max(days))}. {tax_words(one.ranking.region)}" if days else f"none fresh in {one.ranking.region.name}"
    return Fact(label=context.words.say("facts.prices"), text=text)


def _rows(standings: tuple[Standing, ...], bracket: Bracket, policy: PolicyRecord) -> tuple[RankedRow, ...]:
    return tuple(
        _row(standing, standings[i - 1] if i else None, bracket, policy) for i, standing in enumerate(standings)
    )


def _row(standing: Standing, above: Standing | None, bracket: Bracket, policy: PolicyRecord) -> RankedRow:
    one = standing.candidate
    note, warning = row_note(standing, above)
    return RankedRow(
        place=place_text(standing),
        order=str(standing.place) if standing.place is not None else "",
        unit=Link(text=one.name, address=unit_address(one.result.unit)),
        note=note,
        warning=warning,
        tier=standing.tier.title,
        strip=unit_strip(one.result, policy, mark_w=bracket.usual_full_load_w),
        cells=_cells(standing),
        score=score_text(one.score) if standing.place is not None else "no place",
        score_order=order(one.score.low, 1) if standing.place is not None else "",
        parts=score_parts(one.score) if standing.place is not None else (),
    )


def _cells(standing: Standing) -> tuple[RankedCell, ...]:
    one = standing.candidate
    cells = []
    for key, _ in CELLS:
        found = one.finding(key)
        verdict = one.result.verdict(key)
        cells.append(
            RankedCell(
                text=finding_figure(found),
                order=order(found.quantity.value, found.decimals),
                warning=verdict is not None and verdict.outcome == "fail",
            )
            if found
            else RankedCell(text="not tested", order="")
        )
    cells.append(price_cell(one.prices))
    return tuple(cells)


def _level_note(standings: tuple[Standing, ...]) -> str:
    if all(s.best == s.worst for s in standings):
        return ""
    words = (
        "A range of places is what the measurements leave open; all ranges here hold at once, with "
        f"{with_unit(95, '%', 0)} confidence."
    )
    level = [s for s in standings if s.place is not None and s.level_with]
    if not level:
        return words
    first = level[0]
    names = {s.candidate.id: s.candidate.name for s in standings}
    return (
        f"{words} The {first.candidate.name} is level with the {listed(tuple(names[i] for i in first.level_with))}. "
        "Level is not handed on: two units may each be level with a third and still be told apart."
    )


def _neighbours(context: Context, bracket: Bracket) -> tuple[Link, ...]:
    brackets = context.assessment.library.guide.brackets
    place = brackets.index(bracket)
    return tuple(
        Link(text=context.words.say(name, bracket=brackets[i].title), address=bracket_address(brackets[i]), worded=True)
        for i, name in ((place - 1, "bracket.less"), (place + 1, "bracket.more"))
        if 0 <= i < len(brackets)
    )


