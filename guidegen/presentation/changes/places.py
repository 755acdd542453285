"""A place that changed, in words: by its own score, and by who came to stand above it or no longer does."""

from dataclasses import dataclass

from guidegen.evaluation import Change, Changes, Ranking
from guidegen.presentation.changes.reasons import cause_list, score_words
from guidegen.presentation.choosing import standing_note
from guidegen.presentation.formatting import counted, listed, number
from guidegen.presentation.names import GATE_OUTCOMES, lower_first


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """What made a unit rise or fall; two units that moved alike for the same reasons have equal moves."""

    by: int
    """Places; above zero where it fell."""
    score: str
    """What became of its own score; empty where it has not changed."""
    above_now: tuple[str, ...]
    """Who stands above it now and did not, in words."""
    passed: tuple[str, ...]
    """Whom it passes."""
    gone: tuple[str, ...]
    """Who stood above it and has no place any more, in words."""


def move_of(changes: Changes, change: Change) -> Move | None:
    """What moved a unit from one place to another; nothing where it had none or has none."""
    bracket, unit = change.bracket or "", change.unit or ""
    first, last = changes.guides.first(bracket), changes.guides.last(bracket)
    if first is None or last is None or not isinstance(change.before, int) or not isinstance(change.after, int):
        return None
    were, are = _above(first, unit), _above(last, unit)
    ranked = {standing.candidate.id for standing in last.placed}
    lost = tuple(one for one in were if one not in are)
    return Move(
        by=change.after - change.before,
        score=_score_of(changes, unit, bracket),
        above_now=tuple(_riser(changes, one, bracket) for one in are if one not in were),
        passed=tuple(f"the {changes.name(one)}" for one in lost if one in ranked),
        gone=tuple(f"the {changes.name(one)} {why_gone(changes, one, bracket)}" for one in lost if one not in ranked),
    )


def _above(ranking: Ranking, unit: str) -> tuple[str, ...]:
    own = ranking.standing(unit)
    place = own.place if own is not None else None
    return tuple(s.candidate.id for s in ranking.placed if place is not None and s.place is not None and s.place < place)


def _score_of(changes: Changes, unit: str, bracket: str) -> str:
    found = changes.among("score", unit=unit, bracket=bracket)
    return score_words(changes, found[0]) if found else ""


def _riser(changes: Changes, unit: str, bracket: str) -> str:
    name = changes.name(unit)
    if changes.among("new", unit=unit, bracket=bracket):
        return f"the new {name}"
    placed = changes.among("place", unit=unit, bracket=bracket)
    first = changes.guides.first(bracket)
    if placed and placed[0].before is None:
        came = first is None or first.standing(unit) is None
        return f"the {name}, {'which comes from another bracket' if came else 'which has a place now'},"
    score = changes.among("score", unit=unit, bracket=bracket)
    if not score:
        return f"the {name}"
    before, after = (number(float(value or 0.0), 1) for value in (score[0].before, score[0].after))
    return f"the {name} ({before} to {after})"


def why_gone(changes: Changes, unit: str, bracket: str) -> str:
    """What became of a unit that has no place in a bracket any more, as the rest of a sentence."""
    if changes.among("withdrawn", unit=unit, bracket=bracket):
        return "is withdrawn"
    if changes.among("removed", unit=unit, bracket=bracket):
        return "is no longer in the guide"
    last = changes.guides.last(bracket)
    return "has lost its place" if last is not None and last.standing(unit) is not None else "has left the bracket"


def place_sentence(changes: Changes, change: Change) -> str:
    """A unit that rose, fell, gained a place or lost it."""
    name, move = f"The {changes.name(change.unit or '')}", move_of(changes, change)
    if move is None:
        return f"{name} {_gained_or_lost(changes, change)}."
    verb = "falls" if move.by > 0 else "rises"
    return f"{name} {verb} from place {change.before} to place {change.after}: {_reasons(move)}."


def _reasons(move: Move) -> str:
    own = f"its score goes {move.score}" if move.score else ""
    return "; ".join(part for part in (own, *_others(move, "it"), "" if own else "its own score has not changed") if part)


def _others(move: Move, whom: str) -> tuple[str, ...]:
    stands = "stands" if len(move.above_now) == 1 else "stand"
    return (
        f"it passes {listed(move.passed)}" if move.passed else "",
        f"{listed(move.above_now)} {stands} above {whom} now" if move.above_now else "",
        listed(move.gone),
    )


def together_sentence(changes: Changes, alike: tuple[Change, ...], move: Move) -> str:
    """Several units that moved by as many places for the same reasons, their own scores unchanged."""
    names = listed(tuple(f"the {changes.name(one.unit or '')}" for one in alike))
    verb = "fall" if move.by > 0 else "rise"
    why = "; ".join(part for part in _others(move, "them") if part)
    return f"{names[:1].upper()}{names[1:]} {verb} by {counted(abs(move.by), 'place')}: {why}; their own scores have not changed."


def _gained_or_lost(changes: Changes, change: Change) -> str:
    """Why a unit has a place that had none, or none that had one."""
    bracket, unit = change.bracket or "", change.unit or ""
    last, first = changes.guides.last(bracket), changes.guides.first(bracket)
    standing = last.standing(unit) if last is not None else None
    why = cause_list(changes, unit, change.because)
    if standing is None:
        return f"leaves this bracket, where it had place {change.before}, through {why}"
    if change.after is None:
        return f"loses place {change.before} through {why}: {standing_note(standing, None)[0]}"
    if first is None or first.standing(unit) is None:
        return f"comes into this bracket with place {change.after} through {why}"
    gates = tuple(gate_words(changes, one) for one in changes.among("gate", bracket=bracket, unit=unit))
    return f"has place {change.after} now and had none, through {why}{f': {listed(gates)}' if gates else ''}"


def gate_words(changes: Changes, change: Change) -> str:
    """A gate with what it says now and what it said."""
    gates = (*changes.guides.after.library.policy.gates, *changes.guides.before.library.policy.gates)
    title = next((lower_first(gate.title) for gate in gates if gate.id == change.what), change.what)
    old, new = (GATE_OUTCOMES.get(f"{value}", "not asked") for value in (change.before, change.after))
    return f"{title}: {new} now, was {old}"
