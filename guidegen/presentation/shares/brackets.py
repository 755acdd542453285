"""What a bracket gives: its own page, and what stands of it on pages that show every bracket."""

from dataclasses import dataclass

from guidegen.evaluation import BracketAssessment, Judgement, judgement_of
from guidegen.presentation.certainty import Cells, stability_row
from guidegen.presentation.charts import ShareCard
from guidegen.presentation.inserts import worked_score
from guidegen.presentation.page_keys import key_of
from guidegen.presentation.pages import (
    Context,
    ListedUnit,
    bracket_sheet,
    bracket_summary,
    listed_row,
    shown_of_others,
)
from guidegen.presentation.picture_cards import bracket_card, first_choice, first_choice_card
from guidegen.presentation.pieces import Table
from guidegen.presentation.search_index import Entry, unit_entry
from guidegen.presentation.sheets import BracketSheet, BracketSummary
from guidegen.presentation.tables_of_data import UnitRow, unit_row
from guidegen.presentation.values import Value, bracket_values
from guidegen.records import Library


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketShare:
    """What one bracket gives, by the home region's prices where no other is named."""

    sheet: BracketSheet
    """Its page, before what prose, corrections and other editions bring to it."""
    card: ShareCard
    """The picture that stands for it."""
    first: tuple[str, str, ShareCard] | None
    """Its first choice: unit, address of its picture, and the picture; nothing where there is none."""
    chosen: tuple[tuple[str, tuple[str, ...]], ...]
    """Its chosen units, each with the titles of the choices that fell on it."""
    summary: BracketSummary
    """Its part of the first page, before the prose that says whom it serves."""
    units: tuple[str, ...]
    """Its units by identifier, in the order of the ranking."""
    beside: tuple[str, ...]
    """What the report on each of them shows of the others, as a hash."""
    listed: tuple[ListedUnit, ...]
    """Its units for the list of all."""
    entries: tuple[Entry, ...]
    """Its units for the search field."""
    rows: tuple[UnitRow, ...]
    """Its units for the data."""
    stability: Cells
    """How sure its first place is; empty where there is nothing to say."""
    values: tuple[Value, ...]
    """What prose may name of it."""
    worked: Table | None
    """The score of its first choice that is wholly known, recomputed; nothing where there is none."""
    said: tuple[tuple[str, Judgement], ...]
    """What each region's ranking of it says to those who look for a unit."""


def bracket_share(context: Context, bracket: str) -> BracketShare:
    """What a bracket gives, by its identifier."""
    assessment, library = context.assessment, context.assessment.library
    one = assessment.at(library.guide.home_region, bracket)
    standings, known = one.ranking.standings, one.ranking.bracket
    sheet = bracket_sheet(context, one)
    return BracketShare(
        sheet=sheet, card=bracket_card(sheet, one, library), first=_first(one, library), chosen=_chosen(one),
        summary=bracket_summary(one), units=tuple(standing.candidate.id for standing in standings),
        beside=tuple(key_of(shown_of_others(context, standing, one.ranking)) for standing in standings),
        listed=tuple(listed_row(standing, known) for standing in standings),
        entries=tuple(unit_entry(standing, known) for standing in standings),
        rows=tuple(unit_row(standing, known) for standing in standings),
        stability=stability_row(one), values=tuple(bracket_values(one)), worked=worked_score(one),
        said=tuple(
            (region.id, judgement_of(assessment.by_score(region.id, bracket).standings, library.policy))
            for region in library.guide.regions
        ),
    )


def _chosen(one: BracketAssessment) -> tuple[tuple[str, tuple[str, ...]], ...]:
    titles: dict[str, tuple[str, ...]] = {}
    for choice in one.choices:
        if choice.standing is not None:
            unit = choice.standing.candidate.id
            titles[unit] = (*titles.get(unit, ()), choice.rule.title)
    return tuple(titles.items())


def _first(one: BracketAssessment, library: Library) -> tuple[str, str, ShareCard] | None:
    card, standing = first_choice_card(one, library), first_choice(one)
    return None if card is None or standing is None else (standing.candidate.id, *card)
