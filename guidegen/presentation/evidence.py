"""Where a number comes from, and what it was held against."""

from guidegen.evaluation import Finding, UnitResult, Verdict
from guidegen.origins import Origin
from guidegen.presentation.addresses import anchor
from guidegen.presentation.formatting import day, finding_with_doubt, listed, with_unit
from guidegen.presentation.names import OUTCOMES, STANDINGS
from guidegen.presentation.pieces import Link
from guidegen.presentation.sheets import Evidence, VerdictRow
from guidegen.records import GuideRecord


def evidence_of(guide: GuideRecord, result: UnitResult, finding: Finding) -> Evidence:
    """Where a finding comes from: method, instruments, session, fields."""
    kinds = {i.id: i.kind for i in guide.instruments}
    files = {origin.file for origin in finding.origins}
    sessions = [session for session in result.sessions if session.file in files]
    if sessions:
        used = listed(tuple(dict.fromkeys(kinds[i] for s in sessions for i in s.record.instruments if i in kinds)))
        days = listed(tuple(f"{day(s.record.date)} at {with_unit(s.record.mains.voltage_v, 'V', 0)}" for s in sessions))
        method = f"Measured on {days} with {used}."
    else:
        method = "From the unit's own record: label, callipers or the box."
    return Evidence(
        id=f"from-{anchor(finding.key)}",
        title=finding.title,
        text=finding_with_doubt(finding),
        method=method + (f" {finding.note}" if finding.note else ""),
        fields=field_lines(finding.origins),
    )


def field_lines(origins: tuple[Origin, ...]) -> tuple[str, ...]:
    """Files and fields of records, the first of them where there are many."""
    lines = tuple(dict.fromkeys(f"{one.file}: {one.field}" if one.path else one.file for one in origins))
    return lines if len(lines) <= 4 else (*lines[:3], f"and {len(lines) - 3} more fields of the same session")


def verdict_row(verdict: Verdict) -> VerdictRow:
    """A judged number as a row."""
    return VerdictRow(
        title=verdict.title,
        found=finding_with_doubt(verdict.finding) if verdict.finding else verdict.detail or "not tested",
        limit=verdict.limit_text,
        document=f"{verdict.document} ({STANDINGS.get(verdict.standing, verdict.standing)})",
        outcome=OUTCOMES[verdict.outcome],
        warning=verdict.outcome == "fail",
        evidence=Link(text="evidence", address=f"#from-{anchor(verdict.finding.key)}") if verdict.finding else None,
    )
