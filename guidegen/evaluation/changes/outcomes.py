"""What came of it: choices, gates, places, scores and words of a bracket that differ, each divided among its causes."""

from collections.abc import Callable, Iterator
from functools import partial
from typing import Literal

from guidegen.evaluation.changes.causes import NOTHING, Because, Taken, shares
from guidegen.evaluation.changes.change import Change
from guidegen.evaluation.changes.differences import Plain
from guidegen.evaluation.changes.mixtures import Mixtures
from guidegen.evaluation.rankings import Ranking, Standing
from guidegen.evaluation.scores import TIE


def choices_changed(guides: Mixtures, bracket: str) -> Iterator[Change]:
    """The choices that fall on another unit, in the order of the later policy."""
    rules = (*guides.choices(bracket, frozenset(guides.moved)), *guides.choices(bracket, NOTHING))
    for rule in dict.fromkeys(rules):
        read = partial(_chosen, guides, bracket, rule)
        before, after = read(NOTHING), read(frozenset(guides.moved))
        if before != after:
            yield Change(
                kind="choice", unit=after, bracket=bracket, what=rule, before=before, after=after,
                because=_share(guides, read),
            )


def gates_changed(guides: Mixtures, bracket: str) -> Iterator[Change]:
    """The gates that say something else of a unit; a gate that is new or gone is told where a unit does not pass it."""
    for unit, old, new in _staying(guides, bracket):
        gates = (gate.gate.id for one in (new, old) if one is not None for gate in one.candidate.gates)
        for gate in dict.fromkeys(gates if old is not None and new is not None else ()):
            read = partial(_gate, guides, bracket, unit, gate)
            before, after = read(NOTHING), read(frozenset(guides.moved))
            if (before or "pass") != (after or "pass"):
                yield Change(
                    kind="gate", unit=unit, bracket=bracket, what=gate, before=before, after=after,
                    because=_share(guides, read),
                )


def places_changed(guides: Mixtures, bracket: str) -> Iterator[Change]:
    """The units that both guides have and that stand elsewhere, gained a place or lost it; by the later place.

    Between two places the causes are counted in places; a unit that has none for the while stands behind all others.
    """
    for unit, old, new in _staying(guides, bracket):
        before, after = (one.place if one is not None else None for one in (old, new))
        if before == after:
            continue
        because = (
            _share(guides, partial(_has_place, guides, bracket, unit)) if before is None or after is None
            else _counted(guides, partial(_place, guides, bracket, unit), "places")
        )
        yield Change(kind="place", unit=unit, bracket=bracket, before=before, after=after, because=because)


def scores_changed(guides: Mixtures, bracket: str) -> Iterator[Change]:
    """The scores of units that both guides have, where they differ by more than the last bits of a sum; a unit that has a place in
    neither has no score that anybody was told.
    """
    for unit, old, new in _staying(guides, bracket):
        if old is None or new is None or (old.place is None and new.place is None):
            continue
        if abs(new.candidate.score.low - old.candidate.score.low) <= TIE:
            continue
        before, after = (one.candidate.score.low for one in (old, new))
        yield Change(
            kind="score", unit=unit, bracket=bracket, before=before, after=after,
            because=_counted(guides, partial(_score, guides, bracket, unit), "points"),
        )


def tiers_changed(guides: Mixtures, bracket: str) -> Iterator[Change]:
    """The units that another word stands beside."""
    for unit, old, new in _staying(guides, bracket):
        if old is None or new is None or old.tier.title == new.tier.title:
            continue
        yield Change(
            kind="tier", unit=unit, bracket=bracket, before=old.tier.title, after=new.tier.title,
            because=_share(guides, partial(_tier, guides, bracket, unit)),
        )


def _staying(guides: Mixtures, bracket: str) -> Iterator[tuple[str, Standing | None, Standing | None]]:
    """The units that both guides have and this bracket has or had, by the later order; a unit may have changed brackets."""
    first, last = guides.first(bracket), guides.last(bracket)
    ordered = (s.candidate.id for ranking in (last, first) if ranking is not None for s in ranking.standings)
    staying = frozenset(guides.staying)
    for unit in dict.fromkeys(ordered):
        if unit in staying:
            yield unit, _of(first, unit), _of(last, unit)


def _of(ranking: Ranking | None, unit: str) -> Standing | None:
    return ranking.standing(unit) if ranking is not None else None


def _chosen(guides: Mixtures, bracket: str, rule: str, taken: Taken) -> str | None:
    found = guides.choices(bracket, taken).get(rule)
    return found.standing.candidate.id if found is not None and found.standing is not None else None


def _gate(guides: Mixtures, bracket: str, unit: str, gate: str, taken: Taken) -> str | None:
    found = _of(guides.ranking(bracket, taken), unit)
    return next((g.outcome for g in found.candidate.gates if g.gate.id == gate), None) if found is not None else None


def _has_place(guides: Mixtures, bracket: str, unit: str, taken: Taken) -> bool:
    found = _of(guides.ranking(bracket, taken), unit)
    return found is not None and found.place is not None


def _place(guides: Mixtures, bracket: str, unit: str, taken: Taken) -> float:
    ranking = guides.ranking(bracket, taken)
    found = _of(ranking, unit)
    if found is not None and found.place is not None:
        return float(found.place)
    return 1.0 + (len(ranking.placed) if ranking is not None else 0)


def _score(guides: Mixtures, bracket: str, unit: str, taken: Taken) -> float:
    """The score in a guide between the two; where the unit has left the bracket for the while, nothing has moved it yet."""
    found = _of(guides.ranking(bracket, taken), unit) or _of(guides.first(bracket), unit)
    return found.candidate.score.low if found is not None else 0.0


def _tier(guides: Mixtures, bracket: str, unit: str, taken: Taken) -> str | None:
    found = _of(guides.ranking(bracket, taken), unit)
    return found.tier.title if found is not None else None


def _counted(guides: Mixtures, value: Callable[[Taken], float], unit: Literal["points", "places", "share"]) -> Because:
    divided = shares(value, guides.moved)
    return Because(
        measure=divided.get("measure", 0.0), price=divided.get("price", 0.0), policy=divided.get("policy", 0.0),
        field=divided.get("field", 0.0), counted_in=unit,
    )


def _share(guides: Mixtures, read: Callable[[Taken], Plain]) -> Because:
    """Shares of one: how much each cause brings the outcome from not being what it is now to being it."""
    now = read(frozenset(guides.moved))
    return _counted(guides, lambda taken: float(read(taken) == now), "share")
