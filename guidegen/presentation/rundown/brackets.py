"""What is said of a bracket: for whom it is, what to leave alone, the choices, who was left out, and the end."""

import re
from html import unescape

from guidegen.errors import ContentError, Fault
from guidegen.evaluation import BracketAssessment, Candidate, Standing
from guidegen.origins import Origin
from guidegen.presentation.addresses import bracket_address
from guidegen.presentation.certainty import stability_words
from guidegen.presentation.choosing import standing_note
from guidegen.presentation.formatting import counted, listed, money
from guidegen.presentation.names import GATE_OUTCOMES, STOCKS, lower_first
from guidegen.presentation.prose import Bindings, Written, inline
from guidegen.presentation.remarks import remarks_on
from guidegen.presentation.rundown.choices import choice_lines
from guidegen.presentation.rundown.description import BracketScript, Line, MarginNote
from guidegen.presentation.rundown.margins import of_price, of_remark, unique
from guidegen.presentation.rundown.spoken import spoken
from guidegen.presentation.rundown.voices import Desk

WARNINGS = {
    "safety": "Leave the {name} alone.", "ripple": "Keep the {name} away from your boards.",
    "voltage": "Keep the {name} away from your boards.", "label": "Don't believe the label of the {name}.",
}
"""How a unit that fails a gate is announced, by what its gravest remark is about."""


def bracket_script(one: BracketAssessment, desk: Desk, bindings: Bindings) -> BracketScript:
    """The script of a bracket."""
    bracket = one.ranking.bracket
    return BracketScript(
        id=bracket.id, title=bracket.title,
        lines=(_opening(one, desk, bindings), *_warnings(one, desk), *_choices(one, desk), *_left_out(one, desk), _closing(one, desk)),
    )


def _opening(one: BracketAssessment, desk: Desk, bindings: Bindings) -> Line:
    bracket, units = one.ranking.bracket, one.ranking.standings
    placed = len(one.ranking.placed)
    count = f"We had {counted(len(units), 'unit')} of this size on the bench" if units else "We have tested nothing of this size yet"
    out = f", and {placed} of them {'has' if placed == 1 else 'have'} a place" if placed < len(units) else ""
    words = f"{bracket.title}. {_serves(one, desk, bindings)} {count}{out}."
    place = desk.library.guide.brackets.index(bracket)
    note = MarginNote(title="Bracket", exact=bracket.title, places=(f"guide.yaml: brackets[{place}]",))
    return Line(kind="opening", text=spoken(words, desk.voice()), margin=(note,))


def _serves(one: BracketAssessment, desk: Desk, bindings: Bindings) -> str:
    """For whom the bracket is, as plain text; raises ``ContentError`` where the prose has a fault."""
    bracket = one.ranking.bracket
    origin = Origin("guide.yaml", ("brackets", desk.library.guide.brackets.index(bracket), "serves"))
    faults: list[Fault] = []
    html = inline(Written(text=bracket.serves, origin=origin), bindings, page=bracket_address(bracket), faults=faults)
    if faults:
        raise ContentError(tuple(faults))
    return unescape(re.sub(r"<[^>]+>", "", html)).strip()


def _warnings(one: BracketAssessment, desk: Desk) -> tuple[Line, ...]:
    """Units that fail a gate, each with the reason; safety comes before any choice."""
    cheapest = min((price for s in one.ranking.standings if (price := _price(s.candidate)) is not None), default=None)
    return tuple(
        _warning(standing, desk, cheapest=_price(standing.candidate) == cheapest is not None)
        for standing in one.ranking.standings if standing.candidate.fails
    )


def _price(one: Candidate) -> float | None:
    return one.prices.best.row.price if one.prices.best else None


def _warning(standing: Standing, desk: Desk, *, cheapest: bool) -> Line:
    one = standing.candidate
    grave = next((r for r in remarks_on(one) if not r.good and r.weight >= 1 and r.topic in WARNINGS), None)
    lead = WARNINGS[grave.topic if grave else "safety"].format(name=one.name)
    why = grave.sentence if grave else f"We do not advise it: {standing_note(standing, None)[0].removesuffix(': not advised')}."
    price = _price(one)
    tempting = f" That it is the cheapest here, at {money(price, one.prices.region, decimals=2)}, doesn't help it." if cheapest and price is not None else ""
    return Line(
        kind="warning", text=spoken(f"{lead} {why}{tempting}", desk.voice(one)),
        margin=unique((*(of_remark(grave) if grave else ()), *_limits(one), *(of_price(one.name, one.prices) if tempting else ()))),
    )


def _limits(one: Candidate) -> tuple[MarginNote, ...]:
    """What the gates held it against."""
    return tuple(
        MarginNote(title=f"Limit, {lower_first(verdict.title)}", exact=verdict.limit_text, places=(verdict.document,))
        for gate in one.gates if gate.outcome == "fail" for verdict in gate.because
    )


def _choices(one: BracketAssessment, desk: Desk) -> tuple[Line, ...]:
    """The choices in the order of the policy; a unit chosen twice is described once."""
    titles: dict[str, str] = {}
    lines: list[Line] = []
    for chosen in one.choices:
        unit = chosen.standing.candidate.id if chosen.standing else ""
        lines += choice_lines(chosen, one.ranking, desk, before=titles.get(unit, ""))
        titles.setdefault(unit, chosen.rule.title)
        titles.pop("", None)
    return tuple(lines)


def _left_out(one: BracketAssessment, desk: Desk) -> tuple[Line, ...]:
    """Who has a place and no choice, and why: gates that are not settled, then what can't be bought, then the rest."""
    chosen = {choice.standing.candidate.id for choice in one.choices if choice.standing}
    rest = [s.candidate for s in one.ranking.placed if s.candidate.id not in chosen]
    held = [_held_back(c, desk) for c in rest if c.held_back]
    absent = [_not_for_sale(c, desk) for c in rest if not c.held_back and not c.prices.available]
    others = tuple(f"the {c.name}" for c in rest if not c.held_back and c.prices.available)
    words = f"Tested too, and beaten to every choice: {listed(others)}." if others else ""
    return (*held, *absent, *((Line(kind="left_out", text=spoken(words, desk.voice())),) if others else ()))


def _held_back(one: Candidate, desk: Desk) -> Line:
    gate = next(verdict for verdict in one.gates if verdict.holds_back)
    notes = tuple(note for remark in remarks_on(one) if not remark.good and remark.topic == "protections" for note in of_remark(remark))
    words = f"The {one.name} is in none of our choices: {lower_first(gate.gate.title)}, {GATE_OUTCOMES[gate.outcome]}. {gate.gate.reason}"
    return Line(kind="left_out", text=spoken(words, desk.voice(one)), margin=notes)


def _not_for_sale(one: Candidate, desk: Desk) -> Line:
    why = next((r.sentence for r in remarks_on(one) if r.topic == "price" and not r.good), f"Stock: {STOCKS[one.prices.availability]}.")
    return Line(kind="left_out", text=spoken(f"We left out the {one.name}. {why}", desk.voice(one)), margin=of_price(one.name, one.prices))


def _closing(one: BracketAssessment, desk: Desk) -> Line:
    """The choices once more, unit by unit, and how sure the first is."""
    by_unit: dict[str, list[str]] = {}
    for chosen in one.choices:
        if chosen.standing is not None:
            by_unit.setdefault(chosen.standing.candidate.name, []).append(lower_first(chosen.rule.title))
    parts = tuple(f"the {name} as {listed(tuple(titles))}" for name, titles in by_unit.items())
    summary = f"To sum up {one.ranking.bracket.title}: {'; '.join(parts)}." if parts else f"No choice, then, for {one.ranking.bracket.title}."
    sure = stability_words(one)
    note = MarginNote(title="Smallest change of weights", exact=sure, places=("policy.yaml: criteria",))
    return Line(kind="closing", text=spoken(f"{summary} {sure}".strip(), desk.voice()), margin=(note,) if sure else ())
