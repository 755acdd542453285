"""What is said of one choice: what decided, what else speaks for it, what against it, and its price."""

import math
from datetime import date
from decimal import Decimal

from guidegen.evaluation import CERTAINTY, Candidate, Chosen, Finding, Ranking, Standing
from guidegen.presentation.choosing import (
    TELLING_POINTS,
    WORTH_SAYING,
    covered_topics,
    highest_passed_over,
    known_shares,
    overridden,
    points_apart,
    score_text,
    why_nothing,
)
from guidegen.presentation.formatting import NO_BREAK, day, finding_text, listed, money, number, rounded, with_unit
from guidegen.presentation.names import STOCKS, lower_first
from guidegen.presentation.remarks import Remark, Topic, pick, remarks_on
from guidegen.presentation.rundown.description import Line, MarginNote
from guidegen.presentation.rundown.ear import same_to_the_ear
from guidegen.presentation.rundown.margins import of_finding, of_price, of_remark, of_score, unique
from guidegen.presentation.rundown.spoken import spoken
from guidegen.presentation.rundown.voices import Desk

ALOUD: dict[Topic, str] = {
    "noise": "You will hear it.", "cables": "Count your plugs first.", "size": "It takes room.",
    "efficiency": "Its weak side is efficiency.", "ripple": "Its weak side is ripple.",
    "voltage": "Its weak side is the voltage.", "hold_up": "It gives up early when the mains blinks.",
    "badge": "The box boasts.", "protections": "One thing we can't vouch for.", "warranty": "The cover is short.",
    "build": "Its weak side is inside.", "price": "Mind the price.", "label": "The box promises too much.",
    "standby": "It draws power while it sleeps.", "safety": "A protection is missing.",
}
"""How the drawback of a topic is announced."""


def choice_lines(chosen: Chosen, ranking: Ranking, desk: Desk, *, before: str = "") -> tuple[Line, ...]:
    """The lines of a choice; ``before`` is the choice that the unit was already."""
    title = chosen.rule.title
    if chosen.standing is None:
        return (Line(kind="choice", text=spoken(f"{title}: none. {why_nothing(chosen, ranking)}", desk.voice())),)
    one = chosen.standing.candidate
    lead, notes = _lead(chosen, chosen.standing)
    against, more = _against(chosen, ranking)
    again = f" again, already our {lower_first(before)}" if before else ""
    words = " ".join(part for part in (f"{title}: the {one.name}{again}.", lead, overridden(chosen), against) if part)
    first = Line(
        kind="choice", text=spoken(words, desk.voice(one, chosen.runner_up)), margin=unique((*notes, *more)),
        cue=f"{ranking.bracket.id}-{chosen.rule.id}", cue_words=f"{title}, {one.name}",
    )
    return (first,) if before else (first, *_about(one, chosen, desk))


def _lead(chosen: Chosen, standing: Standing) -> tuple[str, tuple[MarginNote, ...]]:
    """The deciding number in a sentence, and where it comes from."""
    one = standing.candidate
    if chosen.rule.rule == "highest_score":
        return f"It scores {score_text(one.score)} of 100.", (of_score(one),)
    if chosen.rule.rule == "best_value":
        best = one.prices.best
        asked = f", for {money(best.row.price, one.prices.region, decimals=2)}" if best is not None and best.row.price is not None else ""
        return f"Price aside it scores {number(one.score.technical, 0)} of 100{asked}.", (of_score(one), *of_price(one.name, one.prices))
    found = one.finding(chosen.rule.finding or "")
    return (f"Its {lower_first(found.title)} is {finding_text(found)}.", (of_finding(found, one.name),)) if found else ("", ())


def _against(chosen: Chosen, ranking: Ranking) -> tuple[str, tuple[MarginNote, ...]]:
    """The next unit by the rule, and how far behind; units passed over; nothing against the editor's own choice."""
    first, second = chosen.standing, chosen.runner_up
    if first is None or chosen.override is not None:
        return "", ()
    if chosen.rule.rule == "highest_score":
        return _by_score(first, second, ranking)
    if second is None:
        return "Nothing else here meets the rule.", ()
    other = second.candidate
    if chosen.rule.rule == "best_value":
        if chosen.margin is None:
            return "", ()
        cost = money(chosen.margin, other.prices.region, decimals=2)
        return f"Each further point, up to the {other.name}, would cost {cost}.", (of_score(other), *of_price(other.name, other.prices))
    own, found = (s.candidate.finding(chosen.rule.finding or "") for s in (first, second))
    return (_by_finding(own, found, other.name), (of_finding(found, other.name),)) if own and found else ("", ())


def _by_finding(own: Finding, found: Finding, name: str) -> str:
    if finding_text(own) == finding_text(found):
        return f"The {name} has exactly the same and scores less."
    if same_to_the_ear(*(rounded(one.quantity.value, one.decimals) for one in (own, found))):
        return f"In that the {name} is practically the same."
    if abs(own.quantity.value - found.quantity.value) <= CERTAINTY * math.hypot(own.quantity.own, found.quantity.own):
        return f"In that the {name}, with {finding_text(found)}, is level with it: our readings can't tell the two apart."
    return f"Next comes the {name} with {finding_text(found)}."


def _by_score(first: Standing, second: Standing | None, ranking: Ranking) -> tuple[str, tuple[MarginNote, ...]]:
    one = first.candidate
    said: list[str] = []
    notes: list[MarginNote] = []
    above = highest_passed_over(first, ranking)
    if above is not None:
        said.append(f"The {above[0].name} scores higher, {score_text(above[0].score)} of 100, and we pass it over: {above[1]}.")
        notes.append(of_score(above[0]))
    if second is not None:
        other = second.candidate
        said += [_distance(first, second), _apart(one, other)]
        notes.append(of_score(other))
    return " ".join(part for part in said if part), tuple(notes)


def _distance(first: Standing, second: Standing) -> str:
    one, other = first.candidate, second.candidate
    if other.id in first.level_with:
        return f"The {other.name} is level with it: our measurements can't tell the two apart."
    if score_text(one.score) == score_text(other.score) or same_to_the_ear(
        *(Decimal(number(candidate.score.low, 1)) for candidate in (one, other))
    ):
        return f"The {other.name} scores practically the same."
    return f"The {other.name} is {points_apart(one.score, other.score)} behind."


def _apart(one: Candidate, other: Candidate) -> str:
    """What sets the two apart, without numbers."""
    shares = known_shares(one, other)
    gains = tuple(lower_first(share.first.title) for share in shares if share.points >= TELLING_POINTS)[:2]
    losses = tuple(lower_first(share.first.title) for share in shares if share.points <= -TELLING_POINTS)[:2]
    if gains and losses:
        return f"Our choice wins on {listed(gains)}, the other on {listed(losses)}."
    return f"What decides is {listed(gains)}." if gains else ""


def _about(one: Candidate, chosen: Chosen, desk: Desk) -> tuple[Line, ...]:
    """Why, why not and for how much."""
    remarks = remarks_on(one)
    strong = pick(remarks, good=True, most=2, besides=covered_topics(chosen.rule))
    voice = desk.voice(one)
    reason = Line(
        kind="reason", text=spoken(" ".join(remark.sentence for remark in strong), voice),
        margin=unique(tuple(note for remark in strong for note in of_remark(remark))),
    )
    words, notes = drawback_words(one, remarks)
    drawback = Line(kind="drawback", text=spoken(words, voice), margin=notes)
    price = Line(kind="price", text=spoken(price_words(one, year=desk.library.guide.edition.date.year), voice), margin=of_price(one.name, one.prices))
    return (*((reason,) if strong else ()), drawback, price)


def drawback_words(one: Candidate, remarks: tuple[Remark, ...]) -> tuple[str, tuple[MarginNote, ...]]:
    """The weightiest thing against a unit and who should skip it, as sentences; or that there is none to speak of."""
    against = tuple(remark for remark in pick(remarks, good=False, most=2) if remark.weight >= WORTH_SAYING)
    if not against:
        costs = max(one.score.parts, key=lambda part: part.weight * (1 - part.low))
        lost = with_unit(100 * costs.weight * (1 - costs.low), "points", 1)
        note = (of_score(one), *((of_finding(costs.found),) if costs.found else ()))
        return f"We looked for a drawback and found none worth a warning; {lower_first(costs.title)} costs it most, {lost}.", note
    first = against[0]
    reader = next((remark.reader for remark in against if remark.reader), "")
    skip = f" It is not for {reader}." if reader else ""
    return f"{ALOUD[first.topic]} {first.sentence}{skip}", of_remark(first)


def price_words(one: Candidate, *, year: int) -> str:
    """The price with its day and country, or that there is none; ``year`` needn't be said."""
    view, place = one.prices, one.prices.region.name
    if view.best is None or view.best.row.price is None:
        last = f"; the last one is from {day(view.last_seen)}" if view.last_seen else ""
        wanting = "price at which it can be bought" if view.only_out_of_stock else "fresh price"
        return f"We have no {wanting} in {place}{last}."
    tax = "with tax" if view.region.tax == "included" else "before tax"
    stock = "" if view.availability == "in_stock" else f" Stock there: {STOCKS[view.availability]}."
    return f"On {_day_in(view.best.row.date, year)} it cost {money(view.best.row.price, view.region, decimals=2)} in {place}, {tax}.{stock}"


def _day_in(when: date, year: int) -> str:
    """The day, without the year that everybody has in mind."""
    told = day(when)
    return told.removesuffix(f"{NO_BREAK}{when.year}") if when.year == year else told
