"""A rundown made from the evaluated guide."""

from itertools import chain

from guidegen.evaluation import Assessment, BracketAssessment
from guidegen.presentation.formatting import day
from guidegen.presentation.prose import Bindings
from guidegen.presentation.rundown.brackets import bracket_script
from guidegen.presentation.rundown.description import Line, Rundown
from guidegen.presentation.rundown.spoken import spoken
from guidegen.presentation.rundown.timing import USUAL_WORDS_PER_MINUTE
from guidegen.presentation.rundown.voices import Desk
from guidegen.presentation.values import bracket_values, published_values, unit_values

CAUTION = (
    "One caution before you build. Never open a power supply: its capacitors stay charged after the plug is out, "
    "and that can kill."
)
"""Common practice, no source."""


def rundown_of(
    assessment: Assessment, brackets: tuple[BracketAssessment, ...], *, words_per_minute: int = USUAL_WORDS_PER_MINUTE
) -> Rundown:
    """The rundown of some brackets of one region."""
    library, region = assessment.library, brackets[0].ranking.region
    guide, desk = library.guide, Desk(library=library, region=region)
    bindings = Bindings(values=published_values(assessment.library, tested=len(assessment.results), others=chain(
        *map(unit_values, assessment.results), *map(bracket_values, assessment.home),
    )), inserts={})
    return Rundown(
        title=guide.title, edition=f"Edition {guide.edition.name}, printing {guide.edition.printing}",
        date=day(guide.edition.date), region=region.name, invented=guide.invented, words_per_minute=words_per_minute,
        opening=(_opening(desk),), brackets=tuple(bracket_script(one, desk, bindings) for one in brackets),
        closing=(_closing(desk),),
    )


def _opening(desk: Desk) -> Line:
    guide = desk.library.guide
    invented = " Every unit, maker and price in it is invented, to show how such a guide is made." if guide.invented else ""
    words = f"This is {guide.title}, edition {guide.edition.name}. {guide.tagline}{invented} Prices are those of {desk.region.name}, none later than {day(guide.edition.date)}."
    return Line(kind="opening", text=spoken(words, desk.voice()))


def _closing(desk: Desk) -> Line:
    publisher = desk.library.guide.publisher
    words = f"{CAUTION} {publisher.conflicts} {publisher.funding}"
    return Line(kind="closing", text=spoken(words, desk.voice()))
