"""Pages of prose, the list of all units, and the page for a lost reader."""

from guidegen.presentation.addresses import LOST, UNITS, bracket_address, page_address, unit_address
from guidegen.presentation.choosing import place_text, price_text, score_text
from guidegen.presentation.formatting import number, order
from guidegen.presentation.pages.context import Context, short_description, short_title
from guidegen.presentation.pieces import Cell, Column, Link, Table
from guidegen.presentation.sheets import ListSheet, LostSheet, ProseSheet
from guidegen.records import Manuscript


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


def units_sheet(context: Context) -> ListSheet:
    """All units from A to Z, with their bracket and place."""
    guide = context.assessment.library.guide
    rows = sorted(
        (
            (standing, one.ranking.bracket)
            for one in context.assessment.home
            for standing in one.ranking.standings
        ),
        key=lambda pair: pair[0].candidate.name.casefold(),
    )
    table = Table(
        id="units",
        caption="All units tested, by name",
        columns=(
            Column(key="unit", title="Unit", sortable=True), Column(key="rated", title="Rated, W", numeric=True, sortable=True),
            Column(key="bracket", title="Bracket"), Column(key="place", title="Place", sortable=True),
            Column(key="score", title="Score", numeric=True, sortable=True), Column(key="price", title="Price"),
        ),
        rows=tuple(
            (
                Cell(text=standing.candidate.name, address=unit_address(standing.candidate.result.unit)),
                Cell(
                    text=number(standing.candidate.result.unit.record.rated_power_w, 0),
                    order=order(standing.candidate.result.unit.record.rated_power_w, 0),
                ),
                Cell(text=bracket.title, address=bracket_address(bracket)),
                Cell(
                    text=place_text(standing) or "not advised", order=str(standing.place or ""),
                    warning=standing.place is None,
                ),
                Cell(
                    text=score_text(standing.candidate.score) if standing.place else "no place",
                    order=order(standing.candidate.score.low, 1) if standing.place else "",
                ),
                Cell(text=price_text(standing.candidate.prices)),
            )
            for standing, bracket in rows
        ),
    )
    return ListSheet(
        kind="list", address=UNITS, title=short_title("All units", guide.title), heading="All units",
        description=f"All {len(rows)} power supplies on the bench, by name, with bracket, place, score and price.",
        breadcrumbs=(Link(text=guide.title, address=""), Link(text="All units", address=UNITS)),
        lead=f"Everything that was on the bench for this edition, {len(rows)} units, also what is not advised.",
        table=table,
    )


def lost_sheet(context: Context) -> LostSheet:
    """The page for an address that does not exist."""
    guide = context.assessment.library.guide
    return LostSheet(
        kind="lost", address=LOST, title=short_title("Nothing here", guide.title), heading="Nothing at this address",
        description="The address leads nowhere; these pages are where most readers want to go.",
        lead="The page may have moved, or the address has a slip in it. Most readers look for one of these:",
        links=(
            Link(text="Recommendations by wattage", address=""), Link(text="All units tested", address=UNITS),
            *(Link(text=bracket.title, address=bracket_address(bracket)) for bracket in guide.brackets),
        ),
    )
