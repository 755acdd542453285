"""The editor's desk: what wants attention, in tables; shown by the preview and never published."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

from guidegen.evaluation import (
    PROTECTION_TITLES,
    SOON_DAYS,
    SURE,
    WORTH,
    Assessment,
    BracketAssessment,
    Deciding,
    Standing,
    calibrations_ending,
    close_choices,
    deciding_units,
    reviews_due,
    untested_protections,
)
from guidegen.origins import Origin
from guidegen.presentation.addresses import bracket_address, unit_address
from guidegen.presentation.catalogues import Words, words_in
from guidegen.presentation.changes import ToldChanges
from guidegen.presentation.formatting import NO_BREAK, day, listed, number, with_unit
from guidegen.presentation.names import PROTECTIONS
from guidegen.presentation.pieces import Cell, Column, Section, Table
from guidegen.presentation.sheets import DeskSheet

ADDRESS = "desk/"
"""Where the preview shows it."""
Where = Callable[[Origin], str]
"""File and line of a field, to open in an editor."""
Row = tuple[str, str, str, Origin]
"""What it is about, where that leads, what is to be said, and where in the records."""


def desk_sheet(assessment: Assessment, changes: ToldChanges | None, *, where: Where) -> DeskSheet:
    """The desk of a guide without faults."""
    words, rules = words_in(assessment.library.guide.language), assessment.library.policy.prices
    parts: tuple[tuple[str, str, Iterable[Row], str], ...] = (
        ("next", words.say("desk.next"), _next(assessment), words.say("desk.next_note", share=with_unit(100 * WORTH, "%", 0))),
        ("near", words.say("desk.near"), _near(assessment), words.say("desk.near_note", share=with_unit(100 * SURE, "%", 0))),
        ("untested", words.say("desk.untested"), _untested(assessment), words.say("desk.untested_note")),
        ("stale", words.say("desk.stale"), _stale(assessment), words.say("desk.stale_note", days=rules.stale_after_days)),
        ("unpriced", words.say("desk.unpriced"), _unpriced(assessment), words.say("desk.unpriced_note")),
        ("calibrations", words.say("desk.calibrations"), _calibrations(assessment), words.say("desk.calibrations_note", days=SOON_DAYS)),
        ("weights", words.say("desk.weights"), _weights(assessment), words.say("desk.weights_note")),
        ("accepted", words.say("desk.accepted"), _accepted(assessment), words.say("desk.accepted_note")),
    )
    lines = () if changes is None else tuple(changes.lines)
    heading = words.say("desk.heading")
    return DeskSheet(
        kind="desk", address=ADDRESS, title=heading, heading=heading, description=words.say("desk.lead"), worded=True,
        waiting=lines, frozen=changes is not None,
        sections=tuple(_section(Section(id=name, title=title, html=note), tuple(rows), words, where) for name, title, rows, note in parts),
    )


def _section(empty: Section, rows: tuple[Row, ...], words: Words, where: Where) -> Section:
    """The section with its rows in a table; as it is where there are none."""
    if not rows:
        return empty
    columns = (Column(key="about", title=words.say("desk.about")), Column(key="what", title=words.say("desk.what")),
               Column(key="where", title=words.say("desk.where"), verbatim=True))
    cells = tuple((Cell(text=about, address=address), Cell(text=what), Cell(text=_place(origin, where))) for about, address, what, origin in rows)
    table = Table(id=f"{empty.id}-table", caption=empty.title, columns=columns, rows=cells, worded=True)
    return replace(empty, tables=(table,))


def _place(origin: Origin, where: Where) -> str:
    """File and line, with the field where a line holds more than that."""
    return where(origin) if origin.file.endswith(".csv") else f"{where(origin)} {origin.field}".rstrip()


def _next(assessment: Assessment) -> Iterator[Row]:
    seed = assessment.library.guide.edition.seed
    found = [(one, unit) for one in assessment.home for unit in deciding_units(one.ranking, one.choices, seed=seed)]
    for one, unit in sorted(found, key=lambda pair: (-pair[1].chance, pair[1].standing.candidate.id)):
        result = unit.standing.candidate.result
        yield result.unit.name, unit_address(result.unit), _deciding_words(one, unit), Origin(result.sessions[-1].file)


def _deciding_words(one: BracketAssessment, unit: Deciding) -> str:
    chance = with_unit(100 * unit.chance, "%", 0)
    if unit.rule.rule == "highest_score":
        gain = f"{number(unit.gain, 2)}{NO_BREAK}points"
    else:
        found = unit.standing.candidate.finding(unit.rule.finding or "")
        gain = with_unit(unit.gain, found.quantity.unit, found.decimals) if found else ""
    said = f"{one.ranking.bracket.title}, {unit.rule.title.lower()}: {chance} likely to change if this unit were known, by {gain} on average"
    missing = listed(tuple(part.title.replace(".", ", ").replace("_", " ") for part in unit.missing[:3]))
    more = f" and {len(unit.missing) - 3} more" if len(unit.missing) > 3 else ""
    held = listed(tuple(gate.gate.title for gate in unit.gates))
    return said + (f"; not measured: {missing}{more}" if missing else "") + (f"; kept from choices as not tested: {held}" if held else "")


def _near(assessment: Assessment) -> Iterator[Row]:
    for one in assessment.home:
        for close in close_choices(one):
            chosen, bracket = close.chosen, one.ranking.bracket
            if chosen.standing is None or chosen.runner_up is None:
                continue
            reasons = ["can't be told apart"] if close.level else []
            if close.shaken is not None:
                reasons.append(f"first in {with_unit(100 * close.shaken, '%', 0)} of shaken readings")
            if close.share is not None:
                reasons.append(f"first in {with_unit(100 * close.share, '%', 0)} of weightings near ours")
            yield (f"{bracket.title}, {chosen.rule.title.lower()}", bracket_address(bracket),
                   f"{chosen.standing.candidate.name} before {chosen.runner_up.candidate.name}: {'; '.join(reasons)}",
                   Origin(chosen.standing.candidate.result.sessions[-1].file))


def _untested(assessment: Assessment) -> Iterator[Row]:
    for result in assessment.results:
        for one in untested_protections(result):
            name = PROTECTIONS.get(one.protection) or PROTECTION_TITLES[one.protection]
            why = one.why or "the box names it, no session has it"
            yield result.unit.name, unit_address(result.unit), f"{name}: {why}", one.origin


def _everywhere(assessment: Assessment) -> Iterator[Standing]:
    """Every unit in every region."""
    return (standing for one in assessment.brackets for standing in one.ranking.standings)


def _stale(assessment: Assessment) -> Iterator[Row]:
    today = assessment.library.guide.edition.date
    for standing in _everywhere(assessment):
        view = standing.candidate.prices
        if view.offers and all(offer.stale for offer in view.offers):
            newest = max(view.offers, key=lambda offer: offer.row.date)
            age = with_unit((today - newest.row.date).days, "days", 0)
            yield (standing.candidate.name, unit_address(standing.candidate.result.unit),
                   f"{view.region.name}: last seen on {day(newest.row.date)}, {age} before the edition", newest.origin)


def _unpriced(assessment: Assessment) -> Iterator[Row]:
    for standing in _everywhere(assessment):
        view = standing.candidate.prices
        if not view.offers:
            yield (standing.candidate.name, unit_address(standing.candidate.result.unit), f"{view.region.name}: no price of it was ever seen",
                   Origin(f"prices/{view.region.id}.csv"))


def _calibrations(assessment: Assessment) -> Iterator[Row]:
    today = assessment.library.guide.edition.date
    for one in calibrations_ending(assessment.library.guide):
        word = "ended on" if one.ends < today else "ends on"
        yield one.instrument.kind, "", f"{word} {day(one.ends)}", Origin("guide.yaml", ("instruments", one.place, "calibrated"))


def _weights(assessment: Assessment) -> Iterator[Row]:
    for fault in reviews_due(assessment.library.policy):
        yield fault.origin.field, "", f"{fault.came}; expected {fault.expected}", fault.origin


def _accepted(assessment: Assessment) -> Iterator[Row]:
    for one in assessment.sense.accepted:
        said = one.objection
        yield one.accepted.rule, "", f"came {said.came}, expected {said.expected}; accepted: {one.accepted.reason}", said.origin
