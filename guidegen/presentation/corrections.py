"""A correction in words: the field that was wrong, and what that did to places, choices and scores."""

import re
from datetime import date
from html import unescape

from guidegen.evaluation import Corrected
from guidegen.presentation.changes import change_lines, value_words
from guidegen.presentation.formatting import counted, day
from guidegen.presentation.pieces import CorrectionNote, Link
from guidegen.records import Library, steps_of

MOST_LINES = 8
"""So many sentences are told of what one correction changed; the rest is counted."""
BY_TODAY = "By today's records, prices and policy, with the wrong value and without it"
"""What the effect of a correction is computed from."""
_MARK = re.compile(r"<[^>]*>")


def note_of(one: Corrected, library: Library, *, html: str, about: str, page: Link | None) -> CorrectionNote:
    """The correction as a note; ``html`` holds its words, ``page`` is the page that it is about, ``library`` has the records."""
    return CorrectionNote(
        id=f"correction-{one.id}", date=one.correction.date.isoformat(), day=day(one.correction.date), about=about, page=page,
        html=html, text=unescape(_MARK.sub("", html)), record=record_words(one, library), effect=effect_lines(one),
    )


def record_words(one: Corrected, library: Library) -> str:
    """Which field of which record read what, and reads what now, a row of prices told by its day and shop; empty where no field was
    wrong.
    """
    said = one.correction
    if said.field is None:
        return ""
    path, rows = steps_of(said.field), next((some.rows for some in library.prices if some.file == said.record_file), ())
    field = said.field
    if rows and isinstance(path[0], int):
        row = rows[path[0]]
        named = library.unit(row.unit)
        whose = "" if said.unit == row.unit else f" of the {named.name}" if named is not None else f" of {row.unit}"
        field = f"row{whose} of {day(row.date)}, {row.shop}, {path[-1]}"
    return f"Record {said.record_file}, {field}: was {_value(said.was)}, is {_value(said.now)}."


def _value(value: object) -> str:
    return day(value) if isinstance(value, date) else value_words(value)


def effect_lines(one: Corrected) -> tuple[str, ...]:
    """What the correction changed in the guide, computed from the records as they are and with the wrong value in them.

    The first sentence says by what it is computed: records, prices and policy may have changed since the correction, so nobody should
    take these scores for those that were printed then.
    """
    if one.effect == "words":
        return ("No field of a record was wrong: no score, no place and no choice changed.",)
    if one.effect == "nothing":
        return ("By today's records, prices and policy no score, no place and no choice changed.",)
    if one.changes is None:
        return ("What the wrong value did can't be computed.",)
    told_of = tuple((bracket.title, change_lines(one.changes, bracket.id)) for bracket in one.changes.guides.brackets)
    several = sum(bool(lines) for _, lines in told_of) > 1 or one.correction.unit is None
    lines = tuple(f"{title}: {line}" if several else line for title, lines in told_of for line in lines)
    rest = len(lines) - MOST_LINES
    told = lines if rest <= 0 else (*lines[:MOST_LINES], f"And {counted(rest, 'difference')} more.")
    told = (f"{BY_TODAY}:", *told)
    return (*told, "No place and no choice changed.") if one.effect == "score" else told
