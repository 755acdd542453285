"""A sentence for every change."""

import re
from collections.abc import Callable, Mapping
from datetime import date

from guidegen.evaluation import Change, Changes, Kind, record_differences
from guidegen.presentation.changes.chosen import choice_sentence
from guidegen.presentation.changes.places import gate_words, place_sentence
from guidegen.presentation.changes.reasons import amounts, cause_list, region_of, score_words
from guidegen.presentation.choosing import score_text, standing_note
from guidegen.presentation.formatting import counted, day, number
from guidegen.presentation.names import STOCKS
from guidegen.records import PolicyRecord, Session

SHOWN_FIELDS = 2
"""How many fields of a session record are told in a sentence; the rest is counted."""


def sentence_of(changes: Changes, change: Change) -> str:
    """The change in a sentence."""
    return _SENTENCES[change.kind](changes, change)


def _name(changes: Changes, change: Change) -> str:
    return f"The {changes.name(change.unit or '')}"


def _new(changes: Changes, change: Change) -> str:
    last = changes.guides.last(change.bracket or "")
    standing = last.standing(change.unit or "") if last is not None else None
    if last is None or standing is None:
        return f"{_name(changes, change)} is new."
    note = standing_note(standing, None)[0]
    if standing.place is None:
        return f"{_name(changes, change)} is new and has no place: {note}."
    told = f"{score_text(standing.candidate.score)} of 100, {standing.tier.title}{f'; {note}' if note else ''}"
    return f"{_name(changes, change)} is new: place {standing.place} of {len(last.placed)}, {told}."


def _gone(changes: Changes, change: Change) -> str:
    had = f"it had place {change.before}" if change.before is not None else "it had no place"
    unit = changes.guides.after.library.unit(change.unit or "")
    if unit is not None and unit.record.withdrawn is not None:
        reason = unit.record.withdrawn.reason.rstrip(".")
        return f"{_name(changes, change)} was withdrawn on {day(unit.record.withdrawn.on)}; {had}. {reason}."
    return f"{_name(changes, change)} is no longer in the guide; {had}."


def _gate(changes: Changes, change: Change) -> str:
    why = cause_list(changes, change.unit or "", change.because)
    return f"{_name(changes, change)}, {gate_words(changes, change)}, through {why}."


def _score(changes: Changes, change: Change) -> str:
    return f"The score of the {changes.name(change.unit or '')} goes {score_words(changes, change)}."


def _tier(changes: Changes, change: Change) -> str:
    why = cause_list(changes, change.unit or "", change.because)
    return f"{_name(changes, change)} is {change.after} now, was {change.before}, through {why}."


def _retested(changes: Changes, change: Change) -> str:
    when = day(date.fromisoformat(f"{change.after or change.before}"))
    name = _name(changes, change)
    if change.before is None:
        return f"{name} was tested again on {when}{_other_revision(changes, change)}."
    if change.after is None:
        return f"{name}: the session of {when} is taken out."
    old, new = (_session(side.library.sessions, change.what) for side in (changes.guides.before, changes.guides.after))
    found = tuple(record_differences(old, new))
    shown = "; ".join(f"{one.field} {value_words(one.after)}, was {value_words(one.before)}" for one in found[:SHOWN_FIELDS])
    more = f"; and {counted(len(found) - SHOWN_FIELDS, 'field')} more" if len(found) > SHOWN_FIELDS else ""
    return f"{name}: the session of {when} reads otherwise: {shown or 'remarks'}{more}."


def _other_revision(changes: Changes, change: Change) -> str:
    """That a new session is of another hardware revision than the newest one before it, or empty."""
    sessions = tuple(one for one in changes.guides.after.library.sessions if one.unit == change.unit)
    new = _session(sessions, change.what)
    earlier = [one.record for one in sessions if new is not None and one.record.date < new.record.date]
    if new is None or not earlier:
        return ""
    now, before = (one.sample.hardware_revision for one in (new.record, max(earlier, key=lambda one: one.date)))
    return f", in hardware revision {now}; before it was revision {before}" if now != before else ""


def _session(sessions: tuple[Session, ...], file: str) -> Session | None:
    return next((one for one in sessions if one.file == file), None)


def _corrected(changes: Changes, change: Change) -> str:
    before, after = (_fact_words(changes, change.what, value) for value in (change.before, change.after))
    was = "which was not said before" if change.before is None else f"was {before}"
    now = "is no longer said" if change.after is None else f"is {after}"
    return f"{_name(changes, change)}, record of the box: {change.what} {now}, {was}."


def _fact_words(changes: Changes, what: str, value: object) -> str:
    """A fact of the box as a sentence says it; another unit by its name."""
    return f"the {changes.name(f'{value}')}" if what == "predecessor" else value_words(value)


def _repriced(changes: Changes, change: Change) -> str:
    name, region = _name(changes, change), region_of(changes)
    if change.what == "stock":
        return f"{name} is {STOCKS[f'{change.after}']} in {region.name}, was {STOCKS[f'{change.before}']}."
    old, new = amounts(change, region)
    if not new:
        return f"{name} has no price that counts in {region.name} any more; it was {old}."
    return f"{name} costs {new} in {region.name}{f', was {old}' if old else '; there was none that counts'}."


def _policy(changes: Changes, change: Change) -> str:
    """A rule that changed; points and anchors in words, everything else by its field."""
    if change.what == "home_region":
        return f"The home region is {change.after}, was {change.before}: printed scores, places and choices follow its prices."
    policies = (changes.guides.after.library.policy, changes.guides.before.library.policy)
    criterion = re.fullmatch(r"criteria\[([^]]+)\](?:\.(points)|\.parts\[([^]]+)\]\.(points|anchors))?", change.what)
    if criterion is None:
        whole = change.what.endswith("]") and None in (change.before, change.after)
        told = f" is {'new' if change.before is None else 'gone'}" if whole else f": {value_words(change.after)}, was {value_words(change.before)}"
        return f"Policy, {change.what}{told}."
    title = _criterion_title(policies, criterion[1])
    if criterion[4] is not None:
        told = f"is worth {value_words(change.after)}" if criterion[4] == "anchors" else f"counts {value_words(change.after)} points"
        return f"{title}: {criterion[3]} {told}, was {value_words(change.before)}."
    if criterion[2] is not None:
        return f"{title} counts {value_words(change.after)} points, was {value_words(change.before)}."
    points = next((c.points for c in policies[0].criteria if c.id == criterion[1]), 0.0)
    return f"{title} {f'is a new criterion and counts {value_words(points)} points' if change.before is None else 'no longer counts'}."


def _criterion_title(policies: tuple[PolicyRecord, ...], identifier: str) -> str:
    return next((c.title for policy in policies for c in policy.criteria if c.id == identifier), identifier)


def value_words(value: object) -> str:
    """What stands in a field of a record, as a sentence says it."""
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return number(value, max(0, len(f"{value:g}".partition(".")[2])))
    return f"{value}"


_SENTENCES: Mapping[Kind, Callable[[Changes, Change], str]] = {
    "policy": _policy, "choice": choice_sentence, "new": _new, "withdrawn": _gone, "removed": _gone, "gate": _gate,
    "place": place_sentence, "score": _score, "tier": _tier, "retested": _retested, "corrected": _corrected,
    "repriced": _repriced,
}
