"""What the editor accepted: objections that may stand with a reason, and entries that match none."""

from collections.abc import Iterator

from guidegen.errors import nearest_name
from guidegen.evaluation.sense_checks.shapes import AcceptedObjection, Objection, SenseRecords
from guidegen.origins import Origin
from guidegen.records import Accepted

NOTHING = "accepted-nothing"
"""The rule that speaks of ``accepted`` entries without an objection."""
Entries = dict[str, tuple[Accepted, ...]]
"""Accepted entries by the file that holds them."""


def entries(records: SenseRecords) -> Entries:
    """Every file's ``accepted`` list."""
    return {
        **{unit.file: unit.record.accepted for unit in records.units},
        **{session.file: session.record.accepted for session in records.sessions},
    }


def acceptance(objection: Objection, lists: Entries) -> AcceptedObjection | None:
    """The objection with the entry that lets it stand, or nothing where there is none."""
    for entry in lists.get(objection.holder, ()):
        if entry.rule == objection.rule and entry.field in objection.names:
            return AcceptedObjection(objection=objection, accepted=entry)
    return None


def idle_entries(records: SenseRecords, accepted: tuple[AcceptedObjection, ...], *, rules: tuple[str, ...]) -> Iterator[Objection]:
    """Entries that let nothing stand; not looked for where what they may speak of could not be read."""
    used = {(one.objection.holder, one.accepted.rule, one.accepted.field) for one in accepted}
    judged = {occasion.session.file for occasion in records.places()}
    judged |= {unit.file for unit in records.units} if records.complete else set()
    for file, listed in entries(records).items():
        for place, entry in enumerate(listed if file in judged else ()):
            if (file, entry.rule, entry.field) not in used:
                known = entry.rule in rules
                yield Objection(
                    rule=NOTHING, origin=Origin(file, ("accepted", place, "field" if known else "rule")), holder=file,
                    came=f"{entry.rule} on {entry.field}", expected="a finding of the sense checks; this one there is not",
                    nearest="" if known else nearest_name(entry.rule, rules), names=(),
                )
