"""What a correction did: today's guide compared with the one that the wrong value would make of the same records."""

from collections import Counter
from dataclasses import dataclass, replace
from typing import Literal

from guidegen.evaluation.assessment import Evaluated, evaluate_units
from guidegen.evaluation.changes import Change, Changes, Kind, changes_between
from guidegen.records import Correction, Library, record_at, steps_of, with_record, with_value

OUTCOMES: tuple[Kind, ...] = ("choice", "new", "withdrawn", "removed", "gate", "place", "score", "tier")
"""What a reader was told otherwise; facts, sessions and prices are what was put right."""
Effect = Literal["words", "unknown", "nothing", "score", "place"]
"""``words`` where no field was wrong; ``unknown`` where nothing can be computed with the wrong value; ``score`` where scores
moved and neither a place nor a choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Corrected:
    """A correction with what it did."""

    correction: Correction
    """What was put right."""
    id: str
    """Its name for ever: the day, what it is about, and a number where a day has several of one page."""
    effect: Effect
    """How far it went."""
    changes: Changes | None = None
    """The guide with the wrong value against today's; nothing where there is nothing to compute."""

    @property
    def outcomes(self) -> tuple[Change, ...]:
        """What a reader was told otherwise: choices, places, gates, words and scores."""
        return self.changes.among(*OUTCOMES) if self.changes is not None else ()


def corrections_of(now: Evaluated) -> tuple[Corrected, ...]:
    """Every correction of the guide with what it did, the latest first."""
    found = []
    for identifier, one in zip(_identifiers(now.library.corrections), now.library.corrections, strict=True):
        changes, effect = _compared(now, one)
        found.append(Corrected(correction=one, id=identifier, effect=effect, changes=changes))
    latest = sorted(range(len(found)), key=lambda place: (found[place].correction.date, place), reverse=True)
    return tuple(found[place] for place in latest)


def _identifiers(corrections: tuple[Correction, ...]) -> tuple[str, ...]:
    """A name for each that stays when others are added behind it."""
    seen: Counter[str] = Counter()
    names = []
    for one in corrections:
        base = f"{one.date.isoformat()}-{'-'.join(one.about)}"
        seen[base] += 1
        names.append(base if seen[base] == 1 else f"{base}-{seen[base]}")
    return tuple(names)


def _compared(now: Evaluated, one: Correction) -> tuple[Changes | None, Effect]:
    if one.field is None:
        return None, "words"
    try:
        there = _not_withdrawn(now, one)
        changes = changes_between(_as_it_was(there, one), there, region=now.library.guide.home_region)
        return changes, _effect(changes)
    except (ArithmeticError, ValueError):
        return None, "unknown"


def _effect(changes: Changes) -> Effect:
    if changes.among(*(kind for kind in OUTCOMES if kind not in ("score", "tier"))):
        return "place"
    return "score" if changes.among("score", "tier") else "nothing"


def _not_withdrawn(now: Evaluated, one: Correction) -> Evaluated:
    """The guide with the corrected unit in it, also where it has been withdrawn since: what the correction did stays true."""
    name = one.record_file.split("/")[1] if one.record_file.startswith("units/") else ""
    unit = next((unit for unit in now.library.units if unit.id == name), None)
    if unit is None or unit.record.withdrawn is None:
        return now
    return _with_unit(now, with_record(now.library, unit.file, replace(unit.record, withdrawn=None)), name)


def _as_it_was(now: Evaluated, one: Correction) -> Evaluated:
    """The guide with the wrong value in its place; what the field can't have touched is not computed again."""
    file = one.record_file
    old = with_value(record_at(now.library, file), steps_of(one.field or ""), one.was)
    library = with_record(now.library, file, old)
    if file.startswith("units/"):
        return _with_unit(now, library, file.split("/")[1])
    if file in ("guide.yaml", "policy.yaml"):
        return evaluate_units(library)
    return Evaluated(library=library, results=now.results)


def _with_unit(now: Evaluated, library: Library, unit: str) -> Evaluated:
    """The same results but for one unit; the others' rest on nothing of its records."""
    alone = replace(library, units=tuple(one for one in library.units if one.id == unit))
    others = now.results.among(tuple(name for name in now.results.names if name != unit))
    return Evaluated(library=library, results=others.joined(evaluate_units(alone).results))
