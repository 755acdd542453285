"""The whole run, readable in one look.

content/ -read-> library -check sense, assess-> assessment -compose-> publication -publish-> output/
content/, content/ -read, evaluate-> two evaluated guides -changes_between-> changes
assessment -rundown_of-> rundown, pictures -hand_out-> a presenter's folder
logs -read-> readings -divide-> sweeps -session_of-> session -entry_of-> entry -store-> content/units/
"""

import warnings
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from guidegen.errors import ContentError, Fault, RequestError, unknown
from guidegen.evaluation import (
    AcceptedObjection,
    Assessment,
    BracketAssessment,
    Changes,
    Evaluated,
    SenseFindings,
    SenseRecords,
    Sweep,
    Told,
    assess,
    changes_between,
    check_sense,
    divide,
    evaluate_units,
    reviews_due,
    session_of,
    unknown_findings,
)
from guidegen.presentation import Publication, Rundown, card_files, compose, rundown_markdown, unknown_language
from guidegen.press import File, Press, Written, hand_out, lay_of, note_standing, program_digest
from guidegen.publication import find_theme, publish_edition, rundown_page
from guidegen.records import Library, Original
from guidegen.sources import (
    Entry,
    Survey,
    entry_of,
    name_of,
    placed,
    read_log,
    read_mapping,
    read_originals,
    read_unit,
    survey,
)

Report = Callable[[str], None]
"""Told in a few words what is being done."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """What a publication came to."""

    library: Library
    """What was read."""
    written: Written
    """What was written."""


def quiet(step: str) -> None:
    """Reports nothing."""
    del step


def evaluate_content(content: Path, *, report: Report = quiet) -> Assessment:
    """The evaluated guide; raises ``ContentError`` with every fault of every file, numbers that can't be among them."""
    library, faults = _examined(content, report)
    if library is None or faults:
        raise ContentError(faults)
    return _assessed(content, library, report)


def publish(content: Path, output: Path, *, report: Report = quiet, fresh: bool = False) -> Published:
    """The guide published into ``output``; whatever goes wrong, the last good site stays.

    What stands already is taken over; with ``fresh`` everything is made anew and nothing that is remembered believed.
    """
    press, program, themes = Press.of(output), program_digest(), content.parent / "themes"
    with press.held():
        lay = lay_of(content, themes)
        assessment, publication = _composed(content, report)
        library = assessment.library
        report(f"making {len(publication.sheets) + len(publication.plans)} pages")
        folder = find_theme(library.guide.theme, themes)
        written = publish_edition(publication, folder, press=press, program=program, fresh=fresh)
        note_standing(press, program, lay, units=len(library.units), sessions=len(library.sessions))
    return Published(library=library, written=written)


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
    return _composed(content, report, whole=False)[0]


def warn(content: Path, assessment: Assessment) -> tuple[Fault, ...]:
    """What an editor should look at again and what stops nothing, each in its place."""
    return placed(content, reviews_due(assessment.library.policy))


def let_stand(content: Path) -> tuple[AcceptedObjection, ...]:
    """What the editor accepted in the records that can be read, whatever is wrong with the others."""
    return _sensed(survey(content)).accepted


def _sensed(found: Survey) -> SenseFindings:
    """What the sense checks say of the records that can be read."""
    draft = found.draft
    return check_sense(
        SenseRecords(guide=draft.guide, units=draft.units, sessions=draft.sessions, prices=draft.prices, complete=not found.faults)
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
    library, faults = _examined(content, report)
    if library is None or faults:
        return None, faults
    report(f"measuring {len(library.units)} units")
    evaluated = evaluate_units(library)
    wrong = placed(content, unknown_findings(library.policy, evaluated.results))
    return (None if wrong else evaluated), wrong


def _in_folder(folder: Path, faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """The same faults, each file named with its folder."""
    return tuple(
        replace(fault, origin=replace(fault.origin, file=(folder / fault.origin.file).as_posix())) for fault in faults
    )


def _examined(content: Path, report: Report) -> tuple[Library | None, tuple[Fault, ...]]:
    """The content, or nothing where it can't be read whole; every fault of shape, and every number that can't be."""
    report("reading records")
    found = survey(content)
    report("asking whether the numbers can be")
    sense = _sensed(found)
    spoken = {fault.origin for fault in found.faults}
    wrong = (
        Fault(origin=one.origin, came=one.came, expected=one.expected, nearest=one.nearest, rule=one.rule)
        for one in sense.objections
        if one.origin not in spoken
    )
    guide = found.draft.guide
    language = () if guide is None else unknown_language(guide)
    return found.library, (*found.faults, *placed(content, (*wrong, *language)))


def _assessed(content: Path, library: Library, report: Report) -> Assessment:
    """The library measured and ranked; raises ``ContentError`` where the policy looks at numbers that nobody has."""
    report(f"measuring and ranking {len(library.units)} units")
    assessment = assess(library)
    unknown = unknown_findings(library.policy, assessment.results)
    if unknown:
        raise ContentError(placed(content, unknown))
    return assessment


def _composed(content: Path, report: Report, *, whole: bool = True) -> tuple[Assessment, Publication]:
    """The guide and its pages; raises ``ContentError`` with every fault of records, numbers and prose."""
    library, faults = _examined(content, report)
    if library is None or faults:
        spoken = {fault.origin for fault in faults}
        raise ContentError((*faults, *(fault for fault in _prose_faults(content, library) if fault.origin not in spoken)))
    assessment = _assessed(content, library, report)
    report("composing pages")
    originals = read_originals(content, library) if whole else ()
    return assessment, _paged(content, assessment, originals)


def _paged(content: Path, assessment: Assessment, originals: tuple[Original, ...] = ()) -> Publication:
    """The pages; raises ``ContentError`` with every fault of the prose in its place, also where a record holds it."""
    try:
        return compose(assessment, originals=originals)
    except ContentError as error:
        raise ContentError(placed(content, error.faults)) from error


def _prose_faults(content: Path, library: Library | None) -> tuple[Fault, ...]:
    """Faults of the prose beside wrong numbers; none where nothing can be computed from what there is."""
    if library is None:
        return ()
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            _paged(content, assess(library))
    except ContentError as error:
        return error.faults
    except (ArithmeticError, ValueError):
        return ()
    return ()


def read_sweep(content: Path, unit: str, log: Path, mapping: Path, *, report: Report = quiet) -> Sweep:
    """A log read by its mapping and divided into loads; steady or not."""
    rated_power_w = read_unit(content, unit).record.rated_power_w
    rules = read_mapping(mapping, content)
    report(f"reading {log.name}")
    readings = read_log(log, rules, content)
    return Sweep(
        readings=readings, mapping=rules, mapping_file=name_of(mapping, content),
        segments=divide(readings, rules, rated_power_w=rated_power_w),
    )


def draft_session(content: Path, unit: str, sweeps: tuple[Sweep, ...], *, told: Told, suffix: str = "") -> Entry:
    """The session of one or two sweeps as it may be stored; raises ``ContentError`` with every fault, and writes nothing."""
    record = session_of(sweeps, told)
    head = f"{read_unit(content, unit).name}, sample {record.sample.id}, {record.mains.voltage_v:.0f} V; from a log."
    return entry_of(content, unit, record, suffix=suffix, head=head)
