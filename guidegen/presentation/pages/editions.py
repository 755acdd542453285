"""Pages that keep an address: a unit withdrawn, an address given up, and the list of frozen editions."""

from collections.abc import Iterator

from guidegen.evaluation import Assessment
from guidegen.presentation.addresses import (
    ARCHIVE,
    bench_address,
    bench_beside,
    bracket_address,
    edition_address,
    unit_address,
)
from guidegen.presentation.formatting import day, number
from guidegen.presentation.pages.context import Context, short_description, short_title
from guidegen.presentation.pieces import Cell, Column, Fact, Link, Table
from guidegen.presentation.sheets import EditionsSheet, EditionSummary, MovedSheet, WithdrawnSheet
from guidegen.records import Bracket, EditionRecord, FrozenBracket, FrozenEdition, FrozenUnit, Moved, Unit, Withdrawn


def withdrawn_sheets(context: Context) -> tuple[WithdrawnSheet, ...]:
    """A page for each unit that left the guide."""
    return tuple(_withdrawn(context, unit, unit.record.withdrawn) for unit in context.assessment.library.units if unit.record.withdrawn)


def _withdrawn(context: Context, unit: Unit, withdrawn: Withdrawn) -> WithdrawnSheet:
    guide, say = context.assessment.library.guide, context.words.say
    address, bracket = unit_address(unit), guide.bracket_of(unit.record.rated_power_w)
    stood = _last_place(context.assessment.library.editions, unit.id)
    beside = (Link(text=bracket.title, address=bracket_address(bracket)),) if bracket else ()
    when = say("withdrawn.when", unit=unit.name, day=day(withdrawn.on))
    return WithdrawnSheet(
        kind="withdrawn", address=address, title=short_title(say("withdrawn.title", unit=unit.name), guide.title),
        heading=unit.name, description=short_description(f"{when} {withdrawn.reason}"),
        breadcrumbs=(Link(text=guide.title, address=""), *beside, Link(text=unit.name, address=address)),
        when=when, reason=withdrawn.reason, last=_last_words(context, stood, bracket),
        links=(*_to_edition(context, stood, address), *beside),
    )


def _last_place(editions: tuple[FrozenEdition, ...], unit: str) -> tuple[EditionRecord, FrozenUnit] | None:
    """The latest edition in which a unit was still part of the guide, and how it stood there."""
    found = ((edition.record, edition.record.unit(unit)) for edition in editions)
    return next(((record, frozen) for record, frozen in found if frozen is not None and not frozen.withdrawn), None)


def _last_words(context: Context, stood: tuple[EditionRecord, FrozenUnit] | None, bracket: Bracket | None) -> str:
    if stood is None:
        return context.words.say("withdrawn.never")
    record, unit = stood
    title = next((one.title for one in record.brackets if one.id == unit.bracket), bracket.title if bracket else unit.bracket)
    if not unit.place:
        return context.words.say("withdrawn.no_place", edition=record.edition, printing=str(record.printing), bracket=title)
    return context.words.say("withdrawn.place", edition=record.edition, printing=str(record.printing), bracket=title, place=unit.place)


def _to_edition(context: Context, stood: tuple[EditionRecord, FrozenUnit] | None, address: str) -> tuple[Link, ...]:
    """The way to the page as the edition has it; none inside a frozen edition, which holds no other."""
    if stood is None or context.frozen_as:
        return ()
    text = context.words.say("withdrawn.page", edition=stood[0].edition, printing=str(stood[0].printing))
    return (Link(text=text, address=edition_address(stood[0].name) + address, worded=True),)


def moved_sheets(context: Context) -> tuple[MovedSheet, ...]:
    """A page for each address that was given up: by the guide, and by the bench records that go with a unit's page."""
    told = context.assessment.library.guide.moved
    benches = (one for one in _benches(context.assessment) if one.from_address not in {other.from_address for other in told})
    return tuple(_moved(context, one) for one in (*told, *benches))


def _benches(assessment: Assessment) -> Iterator[Moved]:
    """Where the bench records of units lead that are withdrawn or have another address."""
    units = tuple(unit for unit in assessment.library.units if assessment.results.has(unit.id))
    now = {unit_address(unit): bench_address(unit) for unit in units}
    for unit in assessment.library.units:
        if unit.record.withdrawn is not None:
            yield Moved(from_address=bench_address(unit), to_address=unit_address(unit))
    for one in assessment.library.guide.moved:
        if beside := bench_beside(one.from_address):
            yield Moved(from_address=beside, to_address=now.get(one.to_address, one.to_address))


def _moved(context: Context, moved: Moved) -> MovedSheet:
    guide, say = context.assessment.library.guide, context.words.say
    # The title is never cut: long addresses often differ at their ends only, and no two pages may share a title.
    return MovedSheet(
        kind="moved", address=moved.from_address, title=say("moved.title", address=moved.from_address),
        heading=say("moved.heading"), worded=True, description=short_description(say("moved.description", address=moved.to_address)),
        lead=say("moved.lead"), target=Link(text=f"{guide.public_address}{moved.to_address}", address=moved.to_address),
    )


def editions_sheet(context: Context) -> EditionsSheet:
    """The frozen editions, the latest first, each with what was first choice."""
    library, say = context.assessment.library, context.words.say
    heading = say("editions.heading")
    return EditionsSheet(
        kind="editions", address=ARCHIVE, title=short_title(heading, library.guide.title), heading=heading, worded=True,
        description=short_description(say("editions.description")),
        breadcrumbs=(Link(text=library.guide.title, address=""), Link(text=heading, address=ARCHIVE, worded=True)),
        lead=say("editions.lead"), editions=tuple(_summary(context, one.record) for one in library.editions),
    )


def _summary(context: Context, record: EditionRecord) -> EditionSummary:
    say, anchor = context.words.say, f"edition-{record.name.replace('.', '-')}"
    return EditionSummary(
        id=anchor,
        title=say("editions.edition", edition=record.edition, printing=number(record.printing, 0)),
        link=Link(text=say("editions.read"), address=edition_address(record.name), worded=True),
        facts=(
            Fact(label=say("editions.day"), text=day(record.date)),
            Fact(label=say("editions.units"), text=number(sum(not unit.withdrawn for unit in record.units), 0)),
            Fact(label=say("editions.sessions"), text=number(record.sessions, 0)),
            Fact(label=say("editions.hash"), text=say("editions.hash_begins", hash=record.build[:16])),
        ),
        firsts=Table(
            id=f"{anchor}-firsts", caption=say("editions.firsts"), worded=True,
            columns=(Column(key="bracket", title=say("units.bracket")), Column(key="first", title=say("editions.first"))),
            rows=tuple((_bracket_cell(record, one), _first_cell(record, one, say("choice.none"))) for one in record.brackets),
        ),
    )


def _bracket_cell(record: EditionRecord, bracket: FrozenBracket) -> Cell:
    return Cell(text=bracket.title, address=f"{edition_address(record.name)}watts/{bracket.id}/")


def _first_cell(record: EditionRecord, bracket: FrozenBracket, none: str) -> Cell:
    first = record.unit(bracket.first_choice or "")
    return Cell(text=none) if first is None else Cell(text=first.name, address=f"{edition_address(record.name)}unit/{first.id}/")
