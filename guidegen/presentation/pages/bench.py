"""A unit's bench record: every number with its doubt, and the session and the fields that it was computed from."""

from collections.abc import Iterator, Sequence

from guidegen.evaluation import Finding, UnitResult
from guidegen.presentation.addresses import anchor, bench_address, bracket_address, unit_address
from guidegen.presentation.evidence import evidence_anchor, fields_of, method_of
from guidegen.presentation.formatting import finding_with_doubt
from guidegen.presentation.pages.context import Context, short_title
from guidegen.presentation.pieces import Cell, Column, Link, Section, Table
from guidegen.presentation.predecessors import whole_predecessor_table
from guidegen.presentation.sheets import ProseSheet
from guidegen.records import Bracket, GuideRecord, Session

LABEL_WORDS = "The unit's own record: label, callipers or the box."
_FOUND = (Column(key="what", title="What"), Column(key="found", title="Found", numeric=True))
_NOTE = Column(key="note", title="How")
_FIELDS = Column(key="fields", title="Fields of the record", verbatim=True)


def bench_sheet(context: Context, result: UnitResult, bracket: Bracket, originals: tuple[Link, ...]) -> ProseSheet:
    """The record behind the report on a unit of a bracket; ``originals`` lead to the copies of its record files."""
    guide, name, say = context.assessment.library.guide, result.unit.name, context.words.say
    address, count = bench_address(result.unit), len(result.findings)
    return ProseSheet(
        kind="prose", address=address, title=short_title(say("bench.title", unit=name), guide.title),
        heading=say("bench.heading", unit=name), worded=True,
        description=f"{name}: all {count} numbers of the bench, each with its doubt and the fields it comes from.",
        breadcrumbs=(
            Link(text=guide.title, address=""), Link(text=bracket.title, address=bracket_address(bracket)),
            Link(text=name, address=unit_address(result.unit)), Link(text=say("bench.crumb"), address=address, worded=True),
        ),
        lead=f"All {count} numbers behind the report, each with its doubt (k = 2) and the fields of the record it was computed from.",
        sections=(
            Section(id="records", title="Records", html="", tables=(_records(guide, result, originals),)),
            *_measures(result),
            *_beside(context, result),
        ),
    )


def _records(guide: GuideRecord, result: UnitResult, originals: tuple[Link, ...]) -> Table:
    """The files, how each was measured, and its copy to download where there is one."""
    copies = {link.text: link.address for link in originals}
    told = ((result.unit.file, LABEL_WORDS), *((session.file, _told(guide, session)) for session in result.sessions))
    return Table(
        id="files", caption="The records as written",
        columns=(Column(key="file", title="File"), Column(key="method", title="How it came about")),
        rows=tuple((Cell(text=file, address=copies.get(file.rpartition("/")[2], "")), Cell(text=words)) for file, words in told),
    )


def _told(guide: GuideRecord, session: Session) -> str:
    """How a session measured, and what its testers remarked."""
    remarks = session.record.remarks
    return f"{method_of(guide, session)} Remarks: {remarks}" if remarks else method_of(guide, session)


def _measures(result: UnitResult) -> Iterator[Section]:
    """A section a measure that found anything."""
    titles = {measure.id: measure.title for _, measures in result.by_session for measure in measures}
    found: dict[str, list[Finding]] = {}
    for finding in result.findings:
        found.setdefault(finding.key.partition(".")[0], []).append(finding)
    for identifier, title in titles.items():
        if identifier in found:
            table = _found(f"found-{anchor(identifier)}", title, found[identifier])
            yield Section(id=f"measured-{anchor(identifier)}", title=title, html="", tables=(table,))


def _beside(context: Context, result: UnitResult) -> Iterator[Section]:
    """Every number beside the predecessor's, where there is one."""
    before = context.assessment.result(result.unit.record.predecessor or "")
    if before is not None:
        table = whole_predecessor_table(result, before, context.words)
        yield Section(id="beside-predecessor", title=f"Beside the {before.unit.name}", html="", tables=(table,))


def _found(identifier: str, title: str, findings: Sequence[Finding]) -> Table:
    """A row a number. A note that all share stands once, beneath the table."""
    notes = dict.fromkeys(finding.note for finding in findings)
    varied = len(notes) > 1
    return Table(
        id=identifier, caption=f"{title}: what was found", note="" if varied else findings[0].note,
        columns=(*_FOUND, *((_NOTE,) if varied else ()), _FIELDS),
        rows=tuple(
            (
                Cell(text=finding.title, id=evidence_anchor(finding)), Cell(text=finding_with_doubt(finding)),
                *((Cell(text=finding.note),) if varied else ()), Cell(text=fields_of(finding)),
            )
            for finding in findings
        ),
    )
