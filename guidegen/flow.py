"""The whole run, readable in one look.

content/ -read-> library -check sense, assess-> assessment -compose-> publication -publish-> output/
content/, content/ -read, evaluate-> two evaluated guides -changes_between-> changes
content/ -compose, print-> draft -finish-> content/editions/
assessment -rundown_of-> rundown, pictures -hand_out-> a presenter's folder
"""

import warnings
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Protocol

from guidegen.errors import ContentError, Fault, RequestError, unknown
from guidegen.evaluation import (
    AcceptedObjection,
    Answers,
    Assessment,
    BracketAssessment,
    Changes,
    Evaluated,
    Objection,
    SenseFindings,
    SenseRecords,
    absurd_examples,
    answers_of,
    assess,
    changes_between,
    check_sense,
    evaluate_units,
    reviews_due,
    unknown_findings,
)
from guidegen.origins import Origin
from guidegen.presentation import (
    Gathered,
    Making,
    Publication,
    Rundown,
    ToldChanges,
    archived_files,
    card_files,
    compose,
    desk_sheet,
    edition_record,
    frozen_assessment,
    gather,
    recalled_frames,
    rundown_markdown,
    told_of,
    unknown_language,
)
from guidegen.press import (
    File,
    Press,
    Shelves,
    Written,
    forget,
    hand_out,
    lay_of,
    note_standing,
    program_digest,
    program_version,
    versions,
)
from guidegen.publication import Printer, Watch, find_theme, print_edition, publish_edition, rundown_page, unknown_theme
from guidegen.recalling import Recall, anew
from guidegen.records import EditionRecord, Library, Original
from guidegen.sources import (
    SHELVES,
    PriceEntry,
    Survey,
    freezing,
    locate,
    placed,
    price_entry,
    read_originals,
    records_of,
    refuse_name,
    survey,
    tampered,
)


class Report(Protocol):
    """Told in a few words what is being done, and how far it has come where that can be counted."""

    def __call__(self, step: str, done: int = 0, total: int = 0, /) -> None:
        """A step has begun, or has come so far."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """What a publication came to."""

    library: Library
    """What was read."""
    written: Written
    """What was written."""


def quiet(step: str, done: int = 0, total: int = 0, /) -> None:
    """Reports nothing."""
    del step, done, total


def evaluate_content(content: Path, *, report: Report = quiet) -> Assessment:
    """The evaluated guide; raises ``ContentError`` with every fault of every file, numbers that can't be among them."""
    library, sense, faults = _examined(content, report)
    if library is None or faults:
        raise ContentError(faults)
    _refuse_empty(library)
    return _assessed(content, library, sense, report)


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A guide evaluated and composed."""

    assessment: Assessment
    """The guide."""
    publication: Publication
    """Its pages."""
    changes: ToldChanges | None
    """What changed since the last edition that was kept; nothing where there is none."""


def publish(content: Path, output: Path, *, report: Report = quiet, fresh: bool = False) -> Published:
    """The guide published into ``output``; whatever goes wrong, the last good site stays.

    What stands already is taken over; with ``fresh`` everything is made anew and nothing that is remembered believed.
    """
    made, _, written = _put_in_place(content, output, report, fresh=fresh)
    return Published(library=made.assessment.library, written=written)


def show(content: Path, folder: Path, *, shown: Callable[[], None], report: Report = quiet) -> str:
    """The guide put into a folder of the preview's, and the editor's desk as a page that is no part of it.

    ``shown`` is called as soon as the pages are in place, before what is remembered is written down and the desk is made. Picture
    cards are drawn once and left as they are, however the content changes.
    """
    made, theme, _ = _put_in_place(content, folder, report, hurried=shown)

    def where(origin: Origin) -> str:
        return f"{origin.file}:{locate(content, origin)[0]}"

    desk = desk_sheet(made.assessment, made.changes, where=where)
    return Printer.of(made.publication, theme).page(desk).file.content.decode()


def _put_in_place(
    content: Path, output: Path, report: Report, *, fresh: bool = False, hurried: Callable[[], None] | None = None
) -> tuple[Made, Path, Written]:
    """The guide made and put into its folder, with the theme that dressed it; for somebody who waits for the pages, ``hurried`` is
    called when they are there.
    """
    press, program, themes = Press.of(output), program_digest(), content.parent / "themes"
    with press.held():
        if fresh:
            forget(press.room)
        lay = lay_of(content, themes)
        shelves = Shelves(press.room, program)
        with recalled_frames(shelves):
            made = _composed(content, report, recall=shelves)
            library = made.assessment.library
            publication = replace(made.publication, archived=archived_files(library, content.as_posix()))
            pages = f"making {len(publication.sheets) + len(publication.plans)} pages"
            report(pages)
            folder = find_theme(library.guide.theme, themes)
            told = partial(report, pages)
            watch = Watch(told=told) if hurried is None else Watch(told=told, stands=hurried, hurried=True)
            written = publish_edition(publication, folder, press=press, program=program, watch=watch)
        shelves.keep()
        note_standing(press, program, lay, units=len(library.units), sessions=len(library.sessions))
    return made, folder, written


def freeze(content: Path, name: str, *, report: Report = quiet) -> EditionRecord:
    """The guide kept for ever as the edition of this name, by its description; on any fault nothing is written."""
    refuse_name(content, name)
    assessment = _composed(content, report).assessment
    library, edition = assessment.library, assessment.library.guide.edition
    for one in library.editions:
        if (one.record.edition, one.record.printing) == (edition.name, edition.printing):
            raise RequestError(f"{content / 'guide.yaml'}: edition {edition.name}, printing {edition.printing} is frozen already as "
                               f"{one.record.name}; a later state of the guide is another printing or edition")
    publication = compose(assessment, originals=read_originals(content, library), frozen_as=name)
    report(f"freezing {len(publication.sheets) + len(publication.plans)} pages")
    theme = find_theme(library.guide.theme, content.parent / "themes")
    with freezing(content, name) as draft:
        print_edition(publication, theme, take=lambda file: draft.take_site(file.path, file.content), look=draft.text_of)
        draft.take_records(content)
        making = Making(program=program_version(), libraries=versions(), build=draft.build)
        record = edition_record(frozen_assessment(assessment, name), name, making)
        draft.finish(record)
    return record


def hand_out_rundown(
    rundown: Rundown, assessment: Assessment, brackets: tuple[BracketAssessment, ...], *, content: Path, folder: Path,
) -> tuple[Path, ...]:
    """The rundown of some brackets written into a folder as Markdown, as a sheet and with its pictures; where they stand."""
    guide = assessment.library.guide
    theme = find_theme(guide.theme, content.parent / "themes")
    sheet = rundown_page(rundown, theme, language=guide.records_language)
    return hand_out(folder, (
        File(path="rundown.md", content=rundown_markdown(rundown).encode()),
        File(path="rundown.html", content=sheet.encode()),
        *(File(path=card.path, content=card.content) for card in card_files(brackets, assessment.library)),
    ))


def proof(content: Path, *, report: Report = quiet) -> Assessment:
    """The content read, evaluated and composed without writing anything; raises ``ContentError`` with every fault."""
    return _composed(content, report, whole=False).assessment


def composed(content: Path) -> Publication:
    """The guide with every page planned and nothing rendered; raises ``ContentError`` with every fault."""
    return _composed(content, quiet).publication


def warn(content: Path, assessment: Assessment) -> tuple[Fault, ...]:
    """What an editor should look at again and what stops nothing, each in its place."""
    return placed(content, reviews_due(assessment.library.policy))


def let_stand(content: Path) -> tuple[AcceptedObjection, ...]:
    """What the editor accepted in the records that can be read, whatever is wrong with the others."""
    return _sensed(survey(content)).accepted


def _sensed(found: Survey, recall: Recall = anew) -> SenseFindings:
    """What the sense checks say of the records that can be read."""
    draft = found.draft
    return check_sense(
        SenseRecords(guide=draft.guide, units=draft.units, sessions=draft.sessions, prices=draft.prices, complete=not found.faults),
        recall,
    )


def fault_of(objection: Objection) -> Fault:
    """What a sense check objects to, as a fault without its line."""
    return Fault(
        origin=objection.origin, came=objection.came, expected=objection.expected, nearest=objection.nearest, rule=objection.rule,
    )


def compare(content: Path, against: Path, *, region: str | None = None, report: Report = quiet) -> Changes:
    """What a content folder changes against another, such as the one that an edition kept; by the home region's prices.

    Raises ``ContentError`` with every fault of both, each file named with its folder.
    """
    (before, wrong_before), (after, wrong_after) = (_units_of(folder, report) for folder in (against, content))
    if before is None or after is None:
        raise ContentError((*_in_folder(against, wrong_before), *_in_folder(content, wrong_after)))
    wanted = region or after.library.guide.home_region
    for folder, side in ((content, after), (against, before)):
        regions = tuple(one.id for one in side.library.guide.regions)
        if wanted not in regions:
            raise RequestError(f"{folder}: {unknown('region', wanted, regions)}")
    report("dividing the differences among their causes")
    return changes_between(before, after, region=wanted)


def _units_of(content: Path, report: Report) -> tuple[Evaluated | None, tuple[Fault, ...]]:
    """A content folder with its units measured and nothing ranked; or every fault in it."""
    library, _, faults = _examined(content, report)
    if library is None or faults:
        return None, faults
    report(f"measuring {len(library.units)} units")
    evaluated = evaluate_units(library)
    wrong = placed(content, unknown_findings(library.policy, answers_of(evaluated.results)))
    return (None if wrong else evaluated), wrong


def _in_folder(folder: Path, faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """The same faults, each file named with its folder."""
    return tuple(
        replace(fault, origin=replace(fault.origin, file=(folder / fault.origin.file).as_posix())) for fault in faults
    )


def _examined(
    content: Path, report: Report, *, deep: bool = False, recall: Recall = anew
) -> tuple[Library | None, SenseFindings, tuple[Fault, ...]]:
    """The content, or nothing where it can't be read whole; what the sense checks say; every fault of either.

    ``deep``: the guide is to be published, so the theme must be there, and files of frozen editions are held against their hashes.
    """
    report("reading records")
    found = survey(content, recall)
    report("asking whether the numbers can be")
    sense = _sensed(found, recall)
    spoken = {fault.origin for fault in found.faults}
    wrong = (fault_of(one) for one in sense.objections if one.origin not in spoken)
    guide = found.draft.guide
    language = () if guide is None else unknown_language(guide)
    theme = unknown_theme(guide.theme, content.parent / "themes") if deep and guide is not None else ()
    absurd = () if found.draft.parts is None else absurd_examples(found.draft.parts)
    frozen = tampered(content, found.draft.editions) if deep else ()
    return found.library, sense, (*found.faults, *placed(content, (*wrong, *language, *theme, *absurd)), *frozen)


def _assessed(content: Path, library: Library, sense: SenseFindings, report: Report) -> Assessment:
    """The library measured and ranked; raises ``ContentError`` where the policy looks at numbers that nobody has."""
    report(f"measuring and ranking {len(library.units)} units")
    assessment = assess(library, sense)
    _refuse_unknown(content, library, answers_of(assessment.results))
    return assessment


def _refuse_empty(library: Library) -> None:
    """Raise ``ContentError`` where there is no unit to rank, to choose or to size a computer with."""
    if all(unit.record.withdrawn is not None for unit in library.units):
        came = "withdrawn units alone" if library.units else "no unit"
        expected = "at least one unit: a folder such as units/harrow-one/ with its unit.yaml and a session"
        raise ContentError((Fault(origin=Origin("units"), came=came, expected=expected, rule="file"),))


def _refuse_unknown(content: Path, library: Library, answers: Answers) -> None:
    """Raise ``ContentError`` where the policy looks at numbers that nobody has."""
    unknown = unknown_findings(library.policy, answers)
    if unknown:
        raise ContentError(placed(content, unknown))


def _composed(content: Path, report: Report, *, whole: bool = True, recall: Recall = anew) -> Made:
    """The guide and its pages; raises ``ContentError`` with every fault of records, numbers and prose."""
    library, sense, faults = _examined(content, report, deep=True, recall=recall)
    if library is None or faults:
        spoken = {fault.origin for fault in faults}
        raise ContentError((*faults, *(fault for fault in _prose_faults(content, library, recall) if fault.origin not in spoken)))
    _refuse_empty(library)
    report(f"measuring and ranking {len(library.units)} units")
    assessment = assess(library, sense)
    gathered = gather(assessment, recall)
    _refuse_unknown(content, library, gathered.answers)
    report("composing pages")
    originals = read_originals(content, library) if whole else ()
    changes = _since_last_edition(content, assessment, gathered, report)
    for shelf in SHELVES:
        recall.done(shelf)
    return Made(assessment=assessment, publication=_paged(content, assessment, originals, changes, gathered), changes=changes)


def _since_last_edition(content: Path, assessment: Assessment, gathered: Gathered, report: Report) -> ToldChanges | None:
    """What changed since the youngest edition that was kept; nothing where there is none, or none with our home region."""
    editions, home = assessment.library.editions, assessment.library.guide.home_region
    if not editions:
        return None
    last = editions[0].record.name
    report(f"comparing with edition {last}")
    folder = records_of(content, last)
    found = survey(folder, gathered.recall)
    if found.library is None:
        raise ContentError(_in_folder(folder.relative_to(content), found.faults))
    if home not in {region.id for region in found.library.guide.regions}:
        return None
    return told_of(changes_between(evaluate_units(found.library), assessment, region=home), gathered.keys, gathered.recall)


def _paged(
    content: Path, assessment: Assessment, originals: tuple[Original, ...] = (), changes: ToldChanges | None = None,
    gathered: Gathered | None = None,
) -> Publication:
    """The pages; raises ``ContentError`` with every fault of the prose in its place, also where a record holds it."""
    try:
        return compose(assessment, originals=originals, changes=changes, gathered=gathered)
    except ContentError as error:
        raise ContentError(placed(content, error.faults)) from error


def _prose_faults(content: Path, library: Library | None, recall: Recall) -> tuple[Fault, ...]:
    """Faults of the prose beside wrong numbers; none where nothing can be computed from what there is."""
    if library is None:
        return ()
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            assessment = assess(library)
            _paged(content, assessment, gathered=gather(assessment, recall))
    except ContentError as error:
        return error.faults
    except (ArithmeticError, ValueError, RequestError):
        return ()
    return ()


def new_prices(content: Path, table: Path, region: str) -> tuple[PriceEntry, tuple[Fault, ...]]:
    """What a price table brings to a region, and which of its rows are out of line; raises ``ContentError`` with every fault."""
    entry = price_entry(content, table, region)
    draft = entry.draft
    said = check_sense(SenseRecords(guide=draft.guide, units=draft.units, prices=draft.prices, sessions=(), complete=False))
    first = sum(len(one.rows) for one in draft.prices if one.file == entry.file) - len(entry.rows)
    odd = tuple(
        Fault(origin=Origin(entry.source, ("price",)), line=entry.lines[place], came=one.came, expected=one.expected, rule=one.rule)
        for one in said.objections for place in range(len(entry.rows))
        if one.origin == Origin(entry.file, (first + place, "price"))
    )
    return entry, odd
