"""Pages of prose, the list of all units, and the page for a lost reader."""

from collections.abc import Iterable

from guidegen.evaluation import Standing
from guidegen.presentation.addresses import LOST, UNITS, bracket_address, page_address, unit_address
from guidegen.presentation.choosing import place_text, price_text, score_text
from guidegen.presentation.formatting import number, order
from guidegen.presentation.pages.context import Context, short_description, short_title
from guidegen.presentation.pieces import Cell, Column, Link, Table
from guidegen.presentation.sheets import ListSheet, LostSheet, ProseSheet
from guidegen.records import Bracket, Manuscript


def prose_sheet(context: Context, manuscript: Manuscript) -> ProseSheet:
    """A page of prose with the tables and charts that it calls for."""
    address, guide = page_address(manuscript), context.assessment.library.guide
    stretches = context.sections(manuscript, page=address)
    return ProseSheet(
        kind="prose",
        address=address,
        title=short_title(manuscript.title, guide.title),
        heading=manuscript.title,
        description=short_description(manuscript.description),
        breadcrumbs=(Link(text=guide.title, address=""), Link(text=manuscript.title, address=address)),
        lead="".join(section.html for section in stretches if not section.title),
        sections=tuple(section for section in stretches if section.title),
    )


def listed_row(standing: Standing, bracket: Bracket) -> tuple[str, tuple[Cell, ...]]:
    """What a unit is sorted by in the list of all, and its cells there."""
    one, rated_w = standing.candidate, standing.candidate.result.unit.record.rated_power_w
    return one.name.casefold(), (
        Cell(text=one.name, address=unit_address(one.result.unit)),
        Cell(text=number(rated_w, 0), order=order(rated_w, 0)),
        Cell(text=bracket.title, address=bracket_address(bracket)),
        Cell(text=place_text(standing) or "not advised", order=str(standing.place or ""), warning=standing.place is None),
        Cell(text=score_text(one.score) if standing.place else "no place", order=order(one.score.low, 1) if standing.place else ""),
        Cell(text=price_text(one.prices)),
    )


def units_sheet(context: Context, listed: Iterable[tuple[str, tuple[Cell, ...]]]) -> ListSheet:
    """All units from A to Z, with their bracket and place; ``listed`` are their rows, as ``listed_row`` makes them."""
    guide, say = context.assessment.library.guide, context.words.say
    rows = tuple(cells for _, cells in sorted(listed, key=lambda pair: pair[0]))
    table = Table(
        id="units",
        caption=say("units.caption"),
        worded=True,
        columns=(
            Column(key="unit", title=say("bracket.unit"), sortable=True), Column(key="rated", title=say("units.rated"), numeric=True, sortable=True),
            Column(key="bracket", title=say("units.bracket")), Column(key="place", title=say("bracket.place"), sortable=True),
            Column(key="score", title=say("unit.score"), numeric=True, sortable=True), Column(key="price", title=say("facts.price")),
        ),
        rows=rows,
    )
    return ListSheet(
        kind="list", address=UNITS, title=short_title(say("units.heading"), guide.title),
        heading=say("units.heading"), worded=True,
        description=f"All {len(rows)} power supplies on the bench, by name, with bracket, place, score and price.",
        breadcrumbs=(Link(text=guide.title, address=""), Link(text=say("units.heading"), address=UNITS, worded=True)),
        lead=say("units.lead", count=len(rows)),
        table=table,
    )


def lost_sheet(context: Context) -> LostSheet:
    """The page for an address that does not exist."""
    guide, say = context.assessment.library.guide, context.words.say
    return LostSheet(
        kind="lost", address=LOST, title=short_title(say("lost.title"), guide.title),
        heading=say("lost.heading"), worded=True,
        description=say("lost.description"),
        lead=say("lost.lead"),
        links=(
            Link(text=say("lost.home"), address="", worded=True), Link(text=say("lost.units"), address=UNITS, worded=True),
            *(Link(text=bracket.title, address=bracket_address(bracket)) for bracket in guide.brackets),
        ),
    )
