"""Pages of prose, the list of all units, and the page for a lost reader."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from html import escape

from guidegen.evaluation import PriceView, Standing
from guidegen.presentation.addresses import LOST, UNITS, bracket_address, page_address, unit_address
from guidegen.presentation.choosing import absence, place_text, score_text
from guidegen.presentation.formatting import day, money, number, order
from guidegen.presentation.names import STOCKS
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


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedUnit:
    """A unit in the list of all."""

    name: str
    """What it is sorted by."""
    cells: tuple[Cell, ...]
    """Its cells, the price last and without its day."""
    seen: str
    """The day of its price in words; empty without a fresh one."""


def listed_row(standing: Standing, bracket: Bracket) -> ListedUnit:
    """A unit for the list of all."""
    one, rated_w = standing.candidate, standing.candidate.result.unit.record.rated_power_w
    best = one.prices.best
    return ListedUnit(name=one.name.casefold(), seen=day(best.row.date) if best and best.row.price is not None else "", cells=(
        Cell(text=one.name, address=unit_address(one.result.unit)),
        Cell(text=number(rated_w, 0), order=order(rated_w, 0)),
        Cell(text=bracket.title, order=order(bracket.from_w, 0), address=bracket_address(bracket)),
        Cell(text=place_text(standing) or "not advised", order=str(standing.place or ""), warning=standing.place is None),
        Cell(text=score_text(one.score) if standing.place else "no place", order=order(one.score.low, 1) if standing.place else ""),
        _price(one.prices),
    ))


def _price(view: PriceView) -> Cell:
    """The price with its stock, where that is worth a word, or since when there is none."""
    if view.best is None or view.best.row.price is None:
        seen = f", last seen {day(view.last_seen)}" if view.last_seen and not view.only_out_of_stock else ""
        return Cell(text=f"{absence(view)}{seen}" if view.last_seen else "none seen")
    stock = "" if view.availability == "in_stock" else f", {STOCKS[view.availability]}"
    return Cell(text=f"{money(view.best.row.price, view.region)}{stock}", order=order(view.best.row.price, 2))


def units_sheet(context: Context, listed: Iterable[ListedUnit]) -> ListSheet:
    """All units from A to Z, with their bracket and place; ``listed`` are their rows, as ``listed_row`` makes them.

    The day on which most prices were seen stands above the table, and in a row only another one.
    """
    guide, say = context.assessment.library.guide, context.words.say
    ordered = sorted(listed, key=lambda one: one.name)
    days = Counter(one.seen for one in ordered if one.seen)
    usual = days.most_common(1)[0][0] if days else ""
    rows = tuple(_dated(one, usual) for one in ordered)
    home = guide.home
    where = home.name if home.tax == "included" else f"{home.name}, before tax"
    table = Table(
        id="units",
        caption=say("units.caption"),
        worded=True,
        columns=(
            Column(key="unit", title=say("bracket.unit"), sortable=True), Column(key="rated", title=say("units.rated"), numeric=True, sortable=True),
            Column(key="bracket", title=say("units.bracket"), sortable=True), Column(key="place", title=say("bracket.place"), sortable=True),
            Column(key="score", title=say("unit.score"), numeric=True, sortable=True), Column(key="price", title=say("facts.price"), sortable=True),
        ),
        rows=rows,
    )
    return ListSheet(
        kind="list", address=UNITS, title=short_title(say("units.heading"), guide.title),
        heading=say("units.heading"), worded=True,
        description=f"All {len(rows)} power supplies on the bench, by name, with bracket, place, score and price.",
        breadcrumbs=(Link(text=guide.title, address=""), Link(text=say("units.heading"), address=UNITS, worded=True)),
        lead=" ".join((say("units.lead", count=len(rows)), *((say("units.prices", region=escape(where), day=usual),) if usual else ()))),
        table=table,
    )


def _dated(one: ListedUnit, usual: str) -> tuple[Cell, ...]:
    """A unit's row, with the day of its price where that is not the usual one."""
    *cells, price = one.cells
    return (*cells, replace(price, text=f"{price.text}, {one.seen}") if one.seen not in ("", usual) else price)


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
