"""Sheets made ready for machines: the picture that stands for a page elsewhere, and its JSON-LD."""

from dataclasses import replace
from typing import TypeVar

from guidegen.evaluation import Standing
from guidegen.presentation.charts import ShareCard
from guidegen.presentation.linked_data import (
    bracket_linked_data,
    home_linked_data,
    list_linked_data,
    prose_linked_data,
    unit_linked_data,
)
from guidegen.presentation.picture_cards import (
    bracket_card_address,
    card_words,
    home_card,
    home_card_address,
)
from guidegen.presentation.sheets import (
    BracketSheet,
    CorrectionsSheet,
    EditionsSheet,
    HomeSheet,
    ListSheet,
    ProseSheet,
    UnitSheet,
)
from guidegen.records import Library

OVERVIEW = TypeVar("OVERVIEW", CorrectionsSheet, EditionsSheet)


def announced_home(sheet: HomeSheet, library: Library) -> tuple[HomeSheet, ShareCard]:
    """The first page with its picture and JSON-LD, and the card to draw."""
    card = home_card(sheet)
    shown = replace(sheet, picture=home_card_address(), picture_words=card_words(card))
    return replace(shown, linked_data=home_linked_data(shown, library)), card


def announced_bracket(sheet: BracketSheet, bracket: str, card: ShareCard, library: Library) -> BracketSheet:
    """The page of a bracket with its picture and JSON-LD."""
    shown = replace(sheet, picture=bracket_card_address(bracket), picture_words=card_words(card))
    return replace(shown, linked_data=bracket_linked_data(shown, library))


def announced_unit(sheet: UnitSheet, standing: Standing, *, picture: tuple[str, str], library: Library) -> UnitSheet:
    """A unit's page with its JSON-LD and the picture, with its words, that stands for it."""
    shown = replace(sheet, picture=picture[0], picture_words=picture[1])
    return replace(shown, linked_data=unit_linked_data(shown, standing, library))


def announced_bench(sheet: ProseSheet, *, picture: tuple[str, str], library: Library) -> ProseSheet:
    """A unit's bench record with its JSON-LD and the picture, with its words, that stands for it."""
    shown = replace(sheet, picture=picture[0], picture_words=picture[1])
    return replace(shown, linked_data=prose_linked_data(shown, library))


def announced_prose(sheet: ProseSheet, *, beside: HomeSheet, library: Library) -> ProseSheet:
    """A page of prose with the first page's picture, and its JSON-LD unless it has its own."""
    shown = replace(sheet, picture=beside.picture, picture_words=beside.picture_words)
    return shown if shown.linked_data else replace(shown, linked_data=prose_linked_data(shown, library))


def announced_overview(sheet: OVERVIEW, *, beside: HomeSheet, library: Library) -> OVERVIEW:
    """The page of all corrections or editions with the first page's picture and its JSON-LD."""
    shown = replace(sheet, picture=beside.picture, picture_words=beside.picture_words)
    return replace(shown, linked_data=prose_linked_data(shown, library))


def announced_list(sheet: ListSheet, *, beside: HomeSheet, library: Library) -> ListSheet:
    """The list of units with the first page's picture and its JSON-LD."""
    shown = replace(sheet, picture=beside.picture, picture_words=beside.picture_words)
    return replace(shown, linked_data=list_linked_data(shown, library))
