"""Corrections: on the page that each is about, and all of them on one page."""

from dataclasses import replace
from typing import TypeVar

from guidegen.evaluation import Corrected
from guidegen.origins import Origin
from guidegen.presentation.addresses import CORRECTIONS, HOME, bracket_address, page_address, unit_address
from guidegen.presentation.corrections import note_of
from guidegen.presentation.formatting import counted
from guidegen.presentation.pages.context import Context, short_description, short_title
from guidegen.presentation.pages.home import STEPS_PAGE
from guidegen.presentation.pieces import CorrectionNote, Link
from guidegen.presentation.sheets import CorrectionsSheet, Sheet
from guidegen.records import CORRECTIONS as FILE

AnyOf = TypeVar("AnyOf", bound=Sheet)


def corrections_sheet(context: Context) -> CorrectionsSheet | None:
    """The page of all corrections, or nothing where there are none."""
    if not context.corrections:
        return None
    guide, heading = context.assessment.library.guide, context.words.say("corrections.heading")
    count = counted(len(context.corrections), "correction")
    return CorrectionsSheet(
        kind="corrections", address=CORRECTIONS, title=short_title(heading, guide.title), heading=heading, worded=True,
        description=short_description(f"{count}: what was wrong, what is right, and whether a place or a choice changed."),
        breadcrumbs=(Link(text=guide.title, address=HOME), Link(text=heading, address=CORRECTIONS, worded=True)),
        lead=context.words.say("corrections.lead"),
        notes=tuple(_note(context, one, page=CORRECTIONS) for one in context.corrections),
    )


def noted(context: Context, sheet: AnyOf) -> AnyOf:
    """The sheet with what was wrong on it."""
    return replace(sheet, corrections=notes_at(context, sheet.address))


def notes_at(context: Context, address: str) -> tuple[CorrectionNote, ...]:
    """What was wrong on the page at an address: what names it, and on a bracket's page what changed a choice of its."""
    return tuple(_note(context, one, page=address) for one in context.corrections if address in _pages(context, one))


def _pages(context: Context, one: Corrected) -> tuple[str, ...]:
    """Addresses of the pages that the correction belongs on."""
    changed = {change.bracket for change in one.outcomes if change.kind == "choice"}
    beside = (bracket_address(bracket) for bracket in context.assessment.library.guide.brackets if bracket.id in changed)
    link = _about(context, one)[1]
    return (*((link.address,) if link is not None else ()), *beside)


def _about(context: Context, one: Corrected) -> tuple[str, Link | None]:
    """What the correction is about by name, and the page of it, unless that is gone."""
    kind, name = one.correction.about
    library = context.assessment.library
    if kind == "unit":
        unit = library.unit(name)
        return (unit.name, Link(text=unit.name, address=unit_address(unit))) if unit is not None else (name, None)
    if kind == "bracket":
        bracket = next(one for one in library.guide.brackets if one.id == name)
        return bracket.title, Link(text=bracket.title, address=bracket_address(bracket))
    page = next(one for one in library.manuscripts if one.id == name)
    return page.title, Link(text=page.title, address=HOME if name == STEPS_PAGE else page_address(page))


def _note(context: Context, one: Corrected, *, page: str) -> CorrectionNote:
    place = context.assessment.library.corrections.index(one.correction)
    about, link = _about(context, one)
    html = context.paragraph(one.correction.words, Origin(FILE, (place, "words")), page=page)
    return note_of(one, context.assessment.library, html=html, about=about, page=link)
