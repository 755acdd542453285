"""The picture cards of a rundown: one a choice and bracket, in both sizes."""

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.evaluation import BracketAssessment, Candidate, Chosen
from guidegen.presentation.charts import PresenterCard, presenter_card
from guidegen.presentation.choosing import drawback, price_text, score_text
from guidegen.presentation.formatting import money, no_more_than, number, with_unit
from guidegen.presentation.remarks import remarks_on
from guidegen.presentation.rundown.description import SIZES, card_file
from guidegen.presentation.strips import described_strip
from guidegen.records import Library


@dataclass(frozen=True, slots=True)
class CardFile:
    """A picture as a file."""

    path: str
    """Path below the folder of the rundown."""
    content: bytes
    """PNG."""


def card_files(brackets: tuple[BracketAssessment, ...], library: Library) -> Iterator[CardFile]:
    """All pictures of some brackets, lying and standing."""
    for one in brackets:
        for chosen in one.choices:
            if chosen.standing is not None:
                card = choice_card(chosen, chosen.standing.candidate, one, library)
                cue = f"{one.ranking.bracket.id}-{chosen.rule.id}"
                for size in SIZES:
                    yield CardFile(card_file(cue, size), presenter_card(card, size))


def choice_card(chosen: Chosen, unit: Candidate, one: BracketAssessment, library: Library) -> PresenterCard:
    """What the picture of a choice says."""
    guide, bracket = library.guide, one.ranking.bracket
    figure, words = _deciding(chosen, unit)
    against = drawback(unit, remarks_on(unit))
    return PresenterCard(
        heading=f"{chosen.rule.title}, {bracket.title}", unit=unit.name, number=figure, number_words=words,
        lines=(against, price_text(unit.prices)),
        publisher=f"{guide.title}, edition {guide.edition.name}, printing {guide.edition.printing}",
        notice="Units, makers and prices on this picture are invented." if guide.invented else "",
        strip=described_strip(unit.result, library.policy, mark_w=bracket.usual_full_load_w),
    )


def _deciding(chosen: Chosen, unit: Candidate) -> tuple[str, str]:
    """The number that decided, and what it is."""
    if chosen.rule.rule == "best_value" and unit.prices.best and unit.prices.best.row.price is not None:
        words = f"for {number(unit.score.technical, 0)} of 100 before price"
        return money(unit.prices.best.row.price, unit.prices.region), words
    found = unit.finding(chosen.rule.finding or "")
    if chosen.rule.rule in ("lowest_finding", "highest_finding") and found is not None:
        figure = with_unit(found.quantity.value, found.quantity.unit, found.decimals)
        return no_more_than(figure, bound=found.upper_bound), found.title
    return score_text(unit.score), "of 100, score with price"
