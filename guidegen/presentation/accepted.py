"""What the sense checks object to and the editor lets stand, with the reason: a reader may judge it otherwise."""

from guidegen.evaluation import AcceptedObjection, UnitResult
from guidegen.presentation.catalogues import Words
from guidegen.presentation.formatting import day
from guidegen.presentation.pieces import Table
from guidegen.presentation.tables import plain_table, worded_table

NOTE = "Checks that ask whether numbers can be; each row was looked into and stands for the reason given."


def accepted_table(result: UnitResult, accepted: tuple[AcceptedObjection, ...], words: Words) -> Table | None:
    """A row for each objection that stands, or nothing where there is none."""
    if not accepted:
        return None
    rows = tuple((_where(result, one), one.objection.came, one.objection.expected, one.accepted.reason) for one in accepted)
    headings = (words.say("accepted.where"), words.say("accepted.came"), words.say("accepted.expected"), words.say("accepted.reason"))
    return worded_table(plain_table("accepted", words.say("accepted.caption"), headings, rows, note=NOTE))


def _where(result: UnitResult, one: AcceptedObjection) -> str:
    """The session's day or the unit's record, with the field."""
    session = next((s for s in result.sessions if s.file == one.objection.holder), None)
    place = f"Session of {day(session.record.date)}" if session else "Label, box or prices"
    return f"{place}, {one.accepted.field}"
