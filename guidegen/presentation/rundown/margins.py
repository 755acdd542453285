"""The margin: the published value of each spoken number, and the records that it came from."""

import re

from guidegen.evaluation import Candidate, Finding, PriceView
from guidegen.origins import Origin
from guidegen.presentation.choosing import score_text
from guidegen.presentation.evidence import MOST_FIELDS
from guidegen.presentation.formatting import finding_with_doubt, money, number
from guidegen.presentation.remarks import Remark
from guidegen.presentation.rundown.description import MarginNote

_ROW = re.compile(r"(\.csv): \[(\d+)\]")


def of_finding(finding: Finding, name: str = "") -> MarginNote:
    """A measured number with its uncertainty (k = 2), and whose it is where that must be said."""
    return MarginNote(title=f"{finding.title}, {name}" if name else finding.title, exact=finding_with_doubt(finding), places=_places(finding.origins))


def of_remark(remark: Remark) -> tuple[MarginNote, ...]:
    """The numbers of a remark, then the other fields that it rests on."""
    fields = (MarginNote(title=remark.topic.replace("_", "-").capitalize(), exact="", places=_places(remark.fields)),) if remark.fields else ()
    return (*(of_finding(finding) for finding in remark.numbers), *fields)


def of_score(one: Candidate) -> MarginNote:
    """A score with its uncertainty; it is computed from all that the policy counts."""
    doubt = number(2 * one.score.uncertainty, 1)
    return MarginNote(
        title=f"Score, {one.name}", exact=f"{score_text(one.score)} ± {doubt} of 100, {number(one.score.technical, 1)} before price",
        places=_places((Origin("policy.yaml", ("criteria",)), Origin(one.result.unit.file), *_sessions(one))),
    )


def _sessions(one: Candidate) -> tuple[Origin, ...]:
    return tuple(Origin(session.file) for session in one.result.used)


def of_price(name: str, view: PriceView) -> tuple[MarginNote, ...]:
    """The price to the cent with its shop and row; nothing without one."""
    if view.best is None or view.best.row.price is None:
        return ()
    exact = f"{money(view.best.row.price, view.region, decimals=2)}, {view.best.row.shop}"
    return (MarginNote(title=f"Price, {name}", exact=exact, places=_places((view.best.origin,))),)


def _places(origins: tuple[Origin, ...]) -> tuple[str, ...]:
    """Files, each with its fields; a row of a price file by its line, of which the first holds the names of the columns."""
    fields: dict[str, list[str]] = {}
    for line in field_lines(origins):
        file, _, path = _ROW.sub(lambda row: f"{row[1]}: line {int(row[2]) + 2}", line).partition(": ")
        fields.setdefault(file, []).append(path)
    return tuple(f"{file}: {', '.join(paths)}" if any(paths) else file for file, paths in fields.items())


def unique(notes: tuple[MarginNote, ...]) -> tuple[MarginNote, ...]:
    """The notes, each once."""
    return tuple(dict.fromkeys(notes))


def field_lines(origins: tuple[Origin, ...]) -> tuple[str, ...]:
    """Files and fields of records, the first of them where there are many."""
    lines = tuple(dict.fromkeys(f"{one.file}: {one.field}" if one.path else one.file for one in origins))
    kept = MOST_FIELDS - 1
    return lines if len(lines) <= MOST_FIELDS else (*lines[:kept], f"and {len(lines) - kept} more fields of the same session")
