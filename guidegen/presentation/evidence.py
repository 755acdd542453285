"""Where a number comes from, and what it was held against."""

from guidegen.evaluation import Finding, UnitResult, Verdict
from guidegen.presentation.addresses import anchor, bench_address
from guidegen.presentation.formatting import day, finding_with_doubt, listed, with_unit
from guidegen.presentation.names import OUTCOMES, STANDINGS
from guidegen.presentation.pieces import Link
from guidegen.presentation.sheets import VerdictRow
from guidegen.records import GuideRecord, Session

MOST_FIELDS = 4
"""More fields than this are counted, not listed."""


def method_of(guide: GuideRecord, session: Session) -> str:
    """How a session measured: day, mains and instruments, in a sentence."""
    kinds = {i.id: i.kind for i in guide.instruments}
    used = listed(tuple(dict.fromkeys(kinds[i] for i in session.record.instruments if i in kinds)))
    mains = with_unit(session.record.mains.voltage_v, "V", 0)
    return f"Measured on {day(session.record.date)} at {mains} with {used}."


def fields_of(finding: Finding) -> str:
    """The fields of the records that a number was computed from, each file named once before its fields."""
    lines = tuple(dict.fromkeys((origin.file, origin.field) for origin in finding.origins))
    named = lines if len(lines) <= MOST_FIELDS else lines[:MOST_FIELDS - 1]
    by_file = {file: "; ".join(field for other, field in named if other == file) for file, _ in named}
    words = "; ".join(f"{file.rpartition('/')[2]}: {fields}" for file, fields in by_file.items())
    sessions = "the same session" if len({file for file, _ in lines}) == 1 else "these sessions"
    return words if named is lines else f"{words}; and {len(lines) - len(named)} more fields of {sessions}"


def evidence_address(finding: Finding, result: UnitResult) -> str:
    """Where the line of a number stands in the bench record."""
    return bench_address(result.unit, evidence_anchor(finding))


def evidence_anchor(finding: Finding) -> str:
    """Anchor of a number's line in the bench record."""
    return f"from-{anchor(finding.key)}"


def verdict_row(verdict: Verdict, result: UnitResult) -> VerdictRow:
    """A judged number as a row."""
    found = verdict.finding
    return VerdictRow(
        title=verdict.title,
        found=finding_with_doubt(found) if found else verdict.detail or "not tested",
        limit=verdict.limit_text,
        document=f"{verdict.document} ({STANDINGS[verdict.standing]})",
        outcome=OUTCOMES[verdict.outcome] + (", in a trial milder than asked for" if found and found.milder else ""),
        warning=verdict.outcome == "fail",
        evidence=Link(text="evidence", address=evidence_address(found, result)) if found else None,
    )
