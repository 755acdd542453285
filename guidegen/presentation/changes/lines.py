"""All changes of a bracket in as few sentences as tell them: what one sentence holds is not said again in another."""

from collections.abc import Iterator
from itertools import groupby

from guidegen.evaluation import Change, Changes
from guidegen.presentation.changes.chosen import choice_reason, choice_title
from guidegen.presentation.changes.places import Move, move_of, place_sentence, together_sentence
from guidegen.presentation.changes.reasons import amounts, cause_title, region_of
from guidegen.presentation.changes.sentences import sentence_of
from guidegen.presentation.formatting import NO_BREAK, listed, number, rounded, signed
from guidegen.presentation.names import lower_first

FEW = 3
"""Up to so many scores that moved alone get a sentence each; more are listed."""


def change_lines(changes: Changes, bracket: str | None = None) -> tuple[str, ...]:
    """What differs in a bracket, choices first; without a bracket, what differs in the policy."""
    if bracket is None:
        return tuple(sentence_of(changes, one) for one in changes.among("policy"))
    return (
        *_choices(changes, bracket),
        *(sentence_of(changes, one) for one in changes.among("new", "withdrawn", "removed", bracket=bracket)),
        *_places(changes, bracket),
        *_gates(changes, bracket),
        *_scores(changes, bracket),
        *_tiers(changes, bracket),
        *_records(changes, bracket),
        *_prices(changes, bracket),
    )


def unit_lines(changes: Changes, unit: str, bracket: str | None = None) -> tuple[str, ...]:
    """What differs about one unit, in one bracket where it is named, a sentence a change; its score is told with its place
    where both moved.
    """
    moved = bool(changes.among("place", unit=unit, bracket=bracket))
    return tuple(
        sentence_of(changes, one) for one in changes.in_bracket(bracket) if one.unit == unit and not (moved and one.kind == "score")
    )


def _choices(changes: Changes, bracket: str) -> Iterator[str]:
    """Choices in the order of the policy; those that changed alike share a sentence."""
    alike: dict[str, list[str]] = {}
    for one in changes.among("choice", bracket=bracket):
        alike.setdefault(choice_reason(changes, one), []).append(choice_title(changes, one))
    for reason, (first, *others) in alike.items():
        yield f"{listed((first, *(lower_first(title) for title in others)))}: {reason}"


def _places(changes: Changes, bracket: str) -> Iterator[str]:
    """Places that changed; neighbours in the list that moved alike without a change of score share a sentence."""
    def key(pair: tuple[Change, Move | None]) -> object:
        change, move = pair
        return move if move is not None and not move.score else change

    moves = [(one, move_of(changes, one)) for one in changes.among("place", bracket=bracket)]
    for _, group in groupby(moves, key=key):
        alike = tuple(group)
        move = alike[0][1]
        if len(alike) > 1 and move is not None:
            yield together_sentence(changes, tuple(change for change, _ in alike), move)
        else:
            yield place_sentence(changes, alike[0][0])


def _gates(changes: Changes, bracket: str) -> Iterator[str]:
    """Gates that say something else, but for a place that was lost or won through one: that sentence tells it."""
    told = {one.unit for one in changes.among("place", bracket=bracket) if None in (one.before, one.after)}
    yield from (sentence_of(changes, one) for one in changes.among("gate", bracket=bracket) if one.unit not in told)


def _scores(changes: Changes, bracket: str) -> Iterator[str]:
    """Scores that moved while the place stayed; many are told in one sentence, by their cause where all have the same."""
    last = changes.guides.last(bracket)
    moved = {one.unit for one in changes.among("place", bracket=bracket)}
    placed = {standing.candidate.id for standing in last.placed} - moved if last is not None else set()
    alone = tuple(one for one in changes.among("score", bracket=bracket) if one.unit in placed)
    if len(alone) <= FEW:
        yield from (sentence_of(changes, one) for one in alone)
        return
    causes = {cause for one in alone for cause in one.because.moved}
    why = f" by {cause_title(changes, causes.pop(), bracket)}" if len(causes) == 1 else ""
    told = listed(tuple(f"the {changes.name(one.unit or '')} {_step(one)}" for one in alone))
    yield f"Scores move{why} and places stay, in points: {told}."


def _step(change: Change) -> str:
    before, after = float(change.before or 0.0), float(change.after or 0.0)
    decimals = next((d for d in (1, 2, 3) if rounded(after - before, d)), 4)
    return f"{signed(after - before, decimals)} to{NO_BREAK}{number(after, decimals)}"


def _tiers(changes: Changes, bracket: str) -> Iterator[str]:
    """Words that changed with the score in one sentence; those that changed alone with their reason."""
    lost = {one.unit for one in changes.among("place", bracket=bracket) if one.after is None}
    moved = {one.unit for one in changes.among("score", bracket=bracket)}
    found = tuple(one for one in changes.among("tier", bracket=bracket) if one.unit not in lost)
    told = "; ".join(
        f"the {changes.name(one.unit or '')} is {one.after}, was {one.before}" for one in found if one.unit in moved
    )
    if told:
        yield f"{told[:1].upper()}{told[1:]}."
    yield from (sentence_of(changes, one) for one in found if one.unit not in moved)


def _records(changes: Changes, bracket: str) -> Iterator[str]:
    """Sessions and facts that moved nothing, and so stand in no other sentence."""
    told = {
        one.unit for one in changes.among("score", "gate", "place", bracket=bracket)
        if one.because.measure and (one.kind != "place" or None in (one.before, one.after))
    }
    for one in changes.among("retested", "corrected", bracket=bracket):
        if one.unit not in told:
            yield f"{sentence_of(changes, one).rstrip('.')}; its score has not moved by it."


def _prices(changes: Changes, bracket: str) -> Iterator[str]:
    """Prices that moved no score, in one sentence; stock in a sentence each."""
    told = {one.unit for one in changes.among("score", bracket=bracket) if one.because.price}
    rest = tuple(one for one in changes.among("repriced", bracket=bracket) if one.unit not in told)
    region = region_of(changes)
    prices = tuple(
        f"the {changes.name(one.unit or '')} {' to '.join(amounts(one, region))}"
        for one in rest if one.what == "price" and one.before is not None and one.after is not None
    )
    if prices:
        yield f"Prices that move no score: {listed(prices)}."
    for one in rest:
        if one.what == "stock" or one.before is None or one.after is None:
            yield sentence_of(changes, one)

