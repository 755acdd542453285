"""An edition described for ever: which units and brackets it had, and what came first."""

from dataclasses import dataclass, replace

from guidegen.evaluation import Assessment, BracketAssessment, Standing
from guidegen.presentation.addresses import edition_address
from guidegen.presentation.choosing import place_text
from guidegen.presentation.sheets import ArchivedFile
from guidegen.records import SITE, EditionRecord, FrozenBracket, FrozenUnit, Library


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """What made an edition."""

    program: str
    """The program with its version."""
    libraries: dict[str, str]
    """Libraries with their versions."""
    build: str
    """Hash of the site."""


def frozen_assessment(assessment: Assessment, name: str) -> Assessment:
    """The evaluated guide as an edition of this name: under its own address, and without addresses that only lead on."""
    library, guide = assessment.library, assessment.library.guide
    address = f"{guide.public_address}{edition_address(name)}"
    return replace(assessment, library=replace(library, guide=replace(guide, public_address=address, moved=())))


def edition_record(assessment: Assessment, name: str, making: Making) -> EditionRecord:
    """The description of an edition; ``assessment`` is the guide under the edition's own address."""
    library, guide = assessment.library, assessment.library.guide
    return EditionRecord(
        format=1, name=name, title=guide.title, edition=guide.edition.name, printing=guide.edition.printing,
        date=guide.edition.date, public_address=guide.public_address, home_region=guide.home_region,
        program=making.program, libraries=making.libraries, build=making.build, sessions=len(library.sessions),
        units=_units(assessment), brackets=tuple(_bracket(one) for one in assessment.home),
    )


def _units(assessment: Assessment) -> tuple[FrozenUnit, ...]:
    """Every unit, also those withdrawn: no identifier is ever used again."""
    library = assessment.library
    standings = {s.candidate.id: s for one in assessment.home for s in one.ranking.standings}
    made = []
    for unit in library.units:
        bracket, standing = library.guide.bracket_of(unit.record.rated_power_w), standings.get(unit.id)
        made.append(FrozenUnit(
            id=unit.id, maker=unit.record.maker, model=unit.record.model, bracket=bracket.id if bracket else "none",
            place=_place(standing), withdrawn=unit.record.withdrawn is not None,
        ))
    return tuple(made)


def _place(standing: Standing | None) -> str:
    return place_text(standing) if standing is not None and standing.place is not None else ""


def _bracket(one: BracketAssessment) -> FrozenBracket:
    first = one.choices[0].standing if one.choices else None
    return FrozenBracket(id=one.ranking.bracket.id, title=one.ranking.bracket.title, first_choice=first.candidate.id if first else None)


def archived_files(library: Library, content: str) -> tuple[ArchivedFile, ...]:
    """The files of frozen editions with their place on the site; ``content`` is where the content lies."""
    return tuple(
        ArchivedFile(
            address=edition_address(edition.record.name) + one.path, digest=one.digest,
            source=f"{content}/{edition.file.removesuffix('edition.json')}{SITE}{one.path}",
        )
        for edition in library.editions for one in edition.site
    )
