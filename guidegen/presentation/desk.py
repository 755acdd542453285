"""The editor's desk: what wants attention, in tables; shown by the preview and never published."""

from collections.abc import Callable, Iterator
from html import escape

from guidegen.evaluation import Assessment, Changes, calibrations_ending, close_choices, reviews_due, worth_testing
from guidegen.origins import Origin
from guidegen.presentation.addresses import bracket_address, unit_address
from guidegen.presentation.changes import change_lines
from guidegen.presentation.formatting import day, listed, number, with_unit
from guidegen.presentation.names import PROTECTIONS
from guidegen.presentation.pieces import Cell, Column, Section, Table
from guidegen.presentation.sheets import ProseSheet

ADDRESS = "desk/"
"""Where the preview shows it."""
Where = Callable[[Origin], str]
"""File and line of a field, to open in an editor."""
Row = tuple[str, str, str, str]
"""What it is about, where that leads, what is to be done, and where in the records."""


def desk_sheet(assessment: Assessment, changes: Changes | None, *, where: Where) -> ProseSheet:
    """The desk of a guide without faults."""
    parts = (
        ("accepted", "Objections that stand", _accepted(assessment)),
        ("weights", "Weights to look at again", ((f.origin.field, "", f"{f.came}; expected {f.expected}", where(f.origin))
                                                 for f in reviews_due(assessment.library.policy))),
        ("calibrations", "Calibrations that end", _calibrations(assessment, where)),
        ("prices", "Units without a fresh price", _prices(assessment)),
        ("untested", "Protections not tested", _untested(assessment, where)),
        ("near", "Choices near to another unit", _near(assessment)),
        ("next", "Units worth testing next", _next(assessment)),
    )
    sections = tuple(_section(name, title, tuple(rows)) for name, title, rows in parts)
    return ProseSheet(
        kind="prose", address=ADDRESS, title="The editor's desk", heading="The editor's desk",
        description="What wants the editor's attention; never published.",
        lead="<p>What wants attention, from the records as they are now. This page is shown by the preview alone and never published.</p>",
        sections=(_waiting(changes), *sections),
    )


def _section(name: str, title: str, rows: tuple[Row, ...]) -> Section:
    if not rows:
        return Section(id=name, title=title, html="<p>Nothing.</p>")
    columns = (Column(key="about", title="About"), Column(key="what", title="What"), Column(key="where", title="Where", verbatim=True))
    cells = tuple((Cell(text=about, address=address), Cell(text=what), Cell(text=place)) for about, address, what, place in rows)
    return Section(id=name, title=title, html="", tables=(Table(id=f"{name}-table", caption=title, columns=columns, rows=cells),))


def _waiting(changes: Changes | None) -> Section:
    if changes is None:
        return Section(id="waiting", title="Changes waiting", html="<p>No edition was frozen yet; there is nothing to compare with.</p>")
    lines = [line for bracket in (None, *(one.id for one in changes.guides.brackets)) for line in change_lines(changes, bracket)]
    items = "".join(f"<li>{escape(line, quote=False)}</li>" for line in lines)
    return Section(id="waiting", title="Changes waiting", html=f"<ul>{items}</ul>" if items else "<p>None since the last edition.</p>")


def _accepted(assessment: Assessment) -> Iterator[Row]:
    for one in assessment.sense.accepted:
        origin = one.objection.origin
        yield origin.file, "", f"{one.accepted.rule}, {one.accepted.field}: came {one.objection.came}. {one.accepted.reason}", origin.file


def _calibrations(assessment: Assessment, where: Where) -> Iterator[Row]:
    today = assessment.library.guide.edition.date
    for one in calibrations_ending(assessment.library.guide):
        word = "ended on" if one.ends < today else "ends on"
        yield one.instrument.kind, "", f"{word} {day(one.ends)}", where(Origin("guide.yaml", ("instruments", one.place, "calibrated")))


def _prices(assessment: Assessment) -> Iterator[Row]:
    for one in assessment.brackets:
        for standing in one.ranking.standings:
            view = standing.candidate.prices
            if view.best is None:
                what = f"{view.region.name}: last seen on {day(view.last_seen)}" if view.last_seen else f"{view.region.name}: none"
                yield standing.candidate.name, unit_address(standing.candidate.result.unit), what, f"prices/{view.region.id}.csv"


def _untested(assessment: Assessment, where: Where) -> Iterator[Row]:
    for result in assessment.results:
        tested = {test.protection for session in result.sessions for test in session.record.protections if test.outcome != "not_tested"}
        for session in result.sessions:
            for i, test in enumerate(session.record.protections):
                if test.outcome == "not_tested" and test.protection not in tested:
                    why = f": {test.why_not_tested}" if test.why_not_tested else ""
                    yield (result.unit.name, unit_address(result.unit), f"{PROTECTIONS.get(test.protection, test.protection)}{why}",
                           where(Origin(session.file, ("protections", i))))


def _near(assessment: Assessment) -> Iterator[Row]:
    for one in assessment.home:
        for close in close_choices(one):
            chosen, bracket = close.chosen, one.ranking.bracket
            if chosen.standing is None or chosen.runner_up is None:
                continue
            why = "can't be told apart" if close.level else ""
            if close.share is not None:
                share = f"first in {with_unit(100 * close.share, '%', 0)} of weightings near ours"
                why = f"{why}; {share}" if why else share
            yield (f"{bracket.title}, {chosen.rule.title.lower()}", bracket_address(bracket),
                   f"{chosen.standing.candidate.name} before {chosen.runner_up.candidate.name}: {why}", chosen.standing.candidate.result.unit.file)


def _next(assessment: Assessment) -> Iterator[Row]:
    for one in assessment.home:
        for unit in worth_testing(one):
            missing = listed(tuple(part.title.replace(".", ", ").replace("_", " ") for part in unit.missing[:3]))
            yield (unit.standing.candidate.name, unit_address(unit.standing.candidate.result.unit),
                   f"could pass the best of {one.ranking.bracket.title} by {number(unit.points, 1)} points; not measured: {missing}",
                   unit.standing.candidate.result.sessions[-1].file)
