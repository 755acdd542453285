"""Picture cards: what stands for a page where its link is shared; for the first page, for each bracket, for each bracket's
first choice, and one for all other reports of a bracket.
"""

from guidegen.evaluation import BracketAssessment, Standing
from guidegen.presentation.charts import ShareCard
from guidegen.presentation.names import lower_first
from guidegen.presentation.pieces import Choice
from guidegen.presentation.remarks import remarks_on
from guidegen.presentation.sheets import BracketSheet, HomeSheet
from guidegen.presentation.strips import described_strip
from guidegen.presentation.unit_words import verdict_words
from guidegen.records import Bracket, Library

FOLDER = "cards/"
"""Where the cards stand."""
ROOM = 120
"""Letters that fit on a card above a strip."""


def home_card_address() -> str:
    """Address of the card of the first page."""
    return f"{FOLDER}guide.png"


def bracket_card_address(bracket: str) -> str:
    """Address of the card of a bracket, by its identifier."""
    return f"{FOLDER}watts-{bracket}.png"


def unit_card_address(unit: str) -> str:
    """Address of the card of a unit, by its identifier."""
    return f"{FOLDER}unit-{unit}.png"


def report_card_address(bracket: str) -> str:
    """Address of the card of a bracket's reports, by the bracket's identifier."""
    return f"{FOLDER}reports-{bracket}.png"


def home_card(sheet: HomeSheet) -> ShareCard:
    """The edition and its first choices, wattage by wattage."""
    firsts = tuple(f"{one.link.text}, {one.choices[0].unit.text}" for one in sheet.brackets if one.choices)
    edition = next((fact.text for fact in sheet.facts if fact.label == "Edition"), "")
    choices = f"First choices: {'; '.join(firsts)}." if firsts else ""
    return ShareCard(title=sheet.heading, sentence=choices or sheet.description, publisher=f"Edition {edition}")


def bracket_card(sheet: BracketSheet, one: BracketAssessment, library: Library) -> ShareCard:
    """The first choice with its reason and its load strip, or that there is none."""
    first = next(iter(sheet.choices), None)
    standing = first_choice(one)
    bracket = one.ranking.bracket
    strip = None
    if standing is not None:
        strip = described_strip(standing.candidate.result, library.policy, mark_w=bracket.usual_full_load_w)
    return ShareCard(
        title=f"Power supplies, {sheet.heading}", sentence=_shortened(choice_words(first)) or sheet.description,
        publisher=library.guide.title, strip=strip,
    )


def report_card(bracket: Bracket, library: Library) -> ShareCard:
    """What stands for a report that has no card of its own: it names no unit, so that none is taken for another, and no
    number, so that it stays when one unit more is tested.
    """
    return ShareCard(
        title=f"Test report: a power supply of {bracket.title}", publisher=library.guide.title,
        sentence="What our bench measured, what of it counts, and how sure we are of it.",
    )


def first_choice(one: BracketAssessment) -> Standing | None:
    """The first choice that a bracket has, or nothing."""
    return next((chosen.standing for chosen in one.choices if chosen.standing is not None), None)


def first_choice_card(one: BracketAssessment, library: Library) -> tuple[str, ShareCard] | None:
    """The first choice with what it was chosen as, its verdict and its load strip, and the card's address."""
    standing, bracket = first_choice(one), one.ranking.bracket
    if standing is None:
        return None
    chosen = next(choice.rule.title for choice in one.choices if choice.standing is standing)
    verdict = verdict_words(standing, remarks_on(standing.candidate), bracket)
    card = ShareCard(
        title=standing.candidate.name, sentence=_shortened(verdict),
        publisher=f"{library.guide.title}: {lower_first(chosen)}, {bracket.title}",
        strip=described_strip(standing.candidate.result, library.policy, mark_w=bracket.usual_full_load_w),
    )
    return unit_card_address(standing.candidate.id), card


def choice_words(choice: Choice | None) -> str:
    """A choice in a sentence."""
    return f"{choice.title}: {choice.unit.text}. {choice.why}" if choice else ""


def _shortened(words: str) -> str:
    """As many whole clauses as a card has room for, at least one."""
    clauses = words.removesuffix(".").split("; ")
    kept = max((n for n in range(1, len(clauses) + 1) if len("; ".join(clauses[:n])) < ROOM), default=1)
    return f"{'; '.join(clauses[:kept])}." if words else ""


def card_words(card: ShareCard) -> str:
    """The card in words, for those who can't see it."""
    strip = " Below it the load strip: heat lost, noise and ripple from idle to 110 % load." if card.strip else ""
    return f"{card.title}. {card.sentence}{strip}"
