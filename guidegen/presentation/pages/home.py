"""The first page: what was tested, the choices per wattage, how to choose."""

from dataclasses import replace

from guidegen.evaluation import BracketAssessment
from guidegen.origins import Origin
from guidegen.presentation.addresses import HOME, bracket_address
from guidegen.presentation.choosing import describe_choices
from guidegen.presentation.formatting import counted, day, listed, with_unit
from guidegen.presentation.pages.context import Context, sample_facts, short_description, short_title
from guidegen.presentation.pieces import Choice, Fact, Link, NoChoice
from guidegen.presentation.sheets import BracketSummary, HomeSheet, Step

STEPS_PAGE = "how-to-choose"
"""Manuscript whose second-level headings are the six steps, and whose opening words open the first page."""


def home_sheet(context: Context, brackets: tuple[BracketSummary, ...]) -> HomeSheet:
    """The first page, in the home region, with what each bracket gives to it."""
    guide = context.assessment.library.guide
    manuscript = context.manuscript(STEPS_PAGE)
    stretches = context.sections(manuscript, page=HOME) if manuscript else ()
    return HomeSheet(
        kind="home",
        address=HOME,
        title=short_title(guide.title, guide.publisher.name),
        heading=guide.title,
        description=short_description(guide.tagline),
        lead="".join(section.html for section in stretches if not section.title),
        facts=_facts(context),
        steps=tuple(Step(id=section.id, title=section.title, html=section.html) for section in stretches if section.title),
        brackets=tuple(replace(one, serves=_serves(context, place)) for place, one in enumerate(brackets)),
        disclosure=(guide.publisher.funding, guide.publisher.conflicts, guide.publisher.paid_links),
    )


def _facts(context: Context) -> tuple[Fact, ...]:
    library, say = context.assessment.library, context.words.say
    guide = library.guide
    units = context.assessment.results.names
    testers = tuple(dict.fromkeys(session.record.tested_by for session in library.sessions))
    days = [session.record.date for session in library.sessions]
    return (
        Fact(label=say("facts.edition"), text=f"{guide.edition.name}, printing {guide.edition.printing}, {day(guide.edition.date)}"),
        *sample_facts(context, units),
        Fact(label=say("facts.bench"), text=f"{len(library.sessions)} sessions, {day(min(days))} to {day(max(days))}"),
        Fact(label=say("facts.testers"), text=listed(testers)),
        Fact(label=say("facts.mains"), text=f"compared at {with_unit(library.policy.reference_mains_v, 'V', 0)}"),
    )


def _serves(context: Context, place: int) -> str:
    text = context.assessment.library.guide.brackets[place].serves
    return context.paragraph(text, Origin("guide.yaml", ("brackets", place, "serves")), page=HOME)


def bracket_summary(one: BracketAssessment) -> BracketSummary:
    """What a bracket gives to the first page, before the prose that says whom it serves."""
    bracket = one.ranking.bracket
    described = describe_choices(one.choices, one.ranking)
    failing = sum(standing.candidate.fails for standing in one.ranking.standings)
    tested = counted(len(one.ranking.standings), "unit") + " tested"
    return BracketSummary(
        link=Link(text=bracket.title, address=bracket_address(bracket)),
        serves="",
        tested=f"{tested}, {failing} not advised" if failing else tested,
        choices=tuple(choice for choice in described if isinstance(choice, Choice)),
        missing=tuple(choice for choice in described if isinstance(choice, NoChoice)),
    )
