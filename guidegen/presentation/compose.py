"""The whole publication, composed from the evaluated guide."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import partial
from itertools import chain

from guidegen.errors import ContentError
from guidegen.evaluation import Assessment, Judgement, Ranking, Standing, corrections_of, ratings_on_offer
from guidegen.presentation.addresses import (
    ARCHIVE,
    CHANGES,
    CORRECTIONS,
    DATA,
    UNITS,
    bench_address,
    bracket_address,
    original_address,
    page_address,
    unit_address,
)
from guidegen.presentation.announcing import (
    announced_bench,
    announced_bracket,
    announced_home,
    announced_list,
    announced_overview,
    announced_prose,
    announced_unit,
)
from guidegen.presentation.catalogues import words_in
from guidegen.presentation.changes import ToldChanges
from guidegen.presentation.charts import ShareCard, share_card
from guidegen.presentation.data_files import data_files, descriptions
from guidegen.presentation.feeds import feeds
from guidegen.presentation.formatting import day
from guidegen.presentation.frozen import frozen_assessment
from guidegen.presentation.inserts import InsertSources, page_inserts
from guidegen.presentation.page_keys import Keys, key_of
from guidegen.presentation.pages import (
    STEPS_PAGE,
    Context,
    bench_sheet,
    changed_sheet,
    corrections_sheet,
    data_sheet,
    editions_sheet,
    editor_note,
    home_sheet,
    images_of,
    lost_sheet,
    moved_sheets,
    new_units,
    noted,
    notes_at,
    prose_sheet,
    served,
    since_unit,
    successors,
    unit_sheet,
    units_sheet,
    withdrawn_sheets,
)
from guidegen.presentation.permanence import broken_promises
from guidegen.presentation.picture_cards import card_words, report_card, report_card_address
from guidegen.presentation.pieces import CorrectionNote, Link
from guidegen.presentation.prose import Bindings, headings
from guidegen.presentation.search_index import Entry, found_by, page_entries, search_index
from guidegen.presentation.shares import BracketShare, Gathered, gather
from guidegen.presentation.sheets import (
    AnySheet,
    BinaryFile,
    BracketSheet,
    CorrectionsSheet,
    DataFile,
    DrawingPlan,
    HomeSheet,
    PagePlan,
    ProseSheet,
    Publication,
    Site,
    UnitSheet,
)
from guidegen.presentation.tables_of_data import DataTable, prices_table, sessions_table, units_table
from guidegen.presentation.terms import terms_of
from guidegen.presentation.values import published_values
from guidegen.presentation.worksheet import worksheet_of
from guidegen.records import GLOSSARY, Library, Original


def compose(
    assessment: Assessment, *, originals: tuple[Original, ...] = (), frozen_as: str = "", changes: ToldChanges | None = None,
    gathered: Gathered | None = None,
) -> Publication:
    """The publication: every page and file, or a ``ContentError`` with every fault in prose and of given-up addresses.

    ``originals`` are the record files to hand out; a unit's page links its own. Units' pages and pictures, which take
    longest, are only planned. With ``frozen_as`` it is
    the edition of that name, which stands by itself for ever; ``changes`` are those since the last edition that was kept.
    ``gathered`` is what the units and brackets give, where it is at hand.
    """
    if frozen_as:
        assessment, gathered = frozen_assessment(assessment, frozen_as), None
    library, guide = assessment.library, assessment.library.guide
    units = gathered or gather(assessment)
    shares = units.brackets
    context = Context(
        assessment=assessment, bindings=_bindings(library, units, tuple(shares.values())), words=words_in(guide.language),
        frozen_as=frozen_as, corrections=corrections_of(assessment), changes=changes,
    )
    tables = _tables(library, units, shares.values())
    named = key_of(units.keys.prices, sorted(units.units))
    files = data_files(tables, guide, keys={"prices": named}, recall=units.recall)
    home, brackets, cards = _leading_sheets(context, shares)
    reading = (*_reading_sheets(context, home, shares.values(), tables, files), *_kept_sheets(context, home))
    plans = tuple(_unit_plans(context, units.keys, shares, originals))
    others = found_by(context.assessment.library.manuscripts)
    index = search_index(_search_entries(shares.values(), brackets, reading, others=others))
    publication = Publication(
        site=replace(_site(context), search=index.address), sheets=(home, *brackets, *reading), plans=plans,
        files=(index, *files, *descriptions(tables, files, guide), *(() if frozen_as else feeds(brackets, guide, new=new_units(context), notes=_notes(reading)))),
        binaries=(
            *(BinaryFile(address=original_address(one.file), content=one.content) for one in originals),
            *(BinaryFile(address=one.file, content=one.content) for one in library.pictures),
        ),
        drawings=tuple(DrawingPlan(address=address, key=key_of(card), draw=partial(share_card, card)) for address, card in cards),
    )
    _refuse_faults(context, publication)
    return publication


def _bindings(library: Library, units: Gathered, brackets: tuple[BracketShare, ...]) -> Bindings:
    """What prose may name and call for."""
    offers = ratings_on_offer(one.offer for one in units.units.values())
    said: dict[str, list[Judgement]] = {}
    for region, judgement in chain.from_iterable(one.said for one in brackets):
        said.setdefault(region, []).append(judgement)
    limits: dict[str, dict[tuple[str, str], str]] = {}
    for key, title, limit, document in chain.from_iterable(one.limits for one in units.units.values()):
        limits.setdefault(key, {}).setdefault((limit, document), title)
    middle = sorted(range(len(brackets)), key=lambda place: abs(place - len(brackets) // 2))
    sources = InsertSources(
        titles=dict(chain.from_iterable(one.titles for one in units.units.values())), limits=tuple((title, *held) for each in limits.values() for held, title in each.items()),
        worked=next((brackets[place].worked for place in middle if brackets[place].worked is not None), None),
        stability=tuple(one.stability for one in brackets), offers=offers,
        worksheet=worksheet_of(library, offers, {unit: one.worksheet for unit, one in units.units.items()}, said),
    )
    others = chain(*(one.values for one in units.units.values()), *(one.values for one in brackets))
    return Bindings(
        values=published_values(library, tested=len(units.units), others=others), inserts=page_inserts(library, sources),
        pictures={one.file: one for one in library.pictures}, places=_places(library),
    )


def _places(library: Library) -> dict[str, tuple[str, ...]]:
    """What prose may link to by its name: also what was withdrawn or given up, since its address stays."""
    former = [one.from_address.strip("/") for one in library.guide.moved]
    return {
        "unit": (*(unit.id for unit in library.units), *(one.removeprefix("unit/") for one in former if one.startswith("unit/"))),
        "watts": (*(one.id for one in library.guide.brackets), *(one.removeprefix("watts/") for one in former if one.startswith("watts/"))),
        "page": (*(one.id for one in library.manuscripts), "home", "units", "data", *(one for one in former if "/" not in one)),
        "words": tuple(anchor for one in library.manuscripts if one.id == GLOSSARY for anchor, _ in headings(one.body)),
    }


def _tables(library: Library, units: Gathered, brackets: Iterable[BracketShare]) -> tuple[DataTable, ...]:
    """The data: units, sessions and prices."""
    names = frozenset(units.units)
    return (
        units_table(tuple(chain.from_iterable(one.rows for one in brackets))),
        sessions_table(library, units=names, used=frozenset(chain.from_iterable(one.used for one in units.units.values()))),
        prices_table(library, units=names),
    )


def _refuse_faults(context: Context, publication: Publication) -> None:
    """Raise a ``ContentError`` with every fault in prose, and every address that was published once and is lost."""
    lost = () if context.frozen_as else tuple(broken_promises(context.assessment.library, publication.findable, publication.led_on))
    faults = (*dict.fromkeys(context.faults), *lost)
    if faults:
        raise ContentError(faults)


def _leading_sheets(
    context: Context, shares: dict[str, BracketShare]
) -> tuple[HomeSheet, tuple[BracketSheet, ...], tuple[tuple[str, ShareCard], ...]]:
    """The first page, the brackets, and their cards by address, with those of the first choices."""
    library = context.assessment.library
    home, home_card = announced_home(noted(context, home_sheet(context, tuple(one.summary for one in shares.values()))), library)
    brackets = tuple(
        announced_bracket(noted(context, served(context, shares[one.id].sheet, one)), one.id, shares[one.id].card, library)
        for one in library.guide.brackets
    )
    beside = ((sheet.picture, one.card) for sheet, one in zip(brackets, shares.values(), strict=True))
    reports = ((report_card_address(one.id), report_card(one, library)) for one in library.guide.brackets if shares[one.id].units)
    firsts = ((one.first[1], one.first[2]) for one in shares.values() if one.first)
    return home, brackets, ((home.picture, home_card), *beside, *reports, *firsts)


def _unit_plans(
    context: Context, keys: Keys, shares: dict[str, BracketShare], originals: tuple[Original, ...]
) -> Iterator[PagePlan]:
    """A report and a bench record a unit, bracket by bracket; the editor's notes are read at once, so that every fault of theirs is known."""
    links, units = _links_by_unit(originals), {unit.id: unit for unit in context.assessment.library.units}
    for bracket in context.assessment.library.guide.brackets:
        chosen = dict(shares[bracket.id].chosen)
        share, reports = shares[bracket.id], (report_card_address(bracket.id), card_words(report_card(bracket, context.assessment.library)))
        for name, others in zip(share.units, share.beside, strict=True):
            unit = units[name]
            note, own = editor_note(context, unit), links.get(name, ())
            first = share.first if share.first and share.first[0] == name else None
            shown = (first[1], card_words(first[2])) if first else reports
            before = keys.units.get(unit.record.predecessor or "")
            said = (images_of(context, unit), notes_at(context, unit_address(unit)), since_unit(context, name), successors(context, name),
                    context.assessment.sense.accepted_of(unit.file))
            yield PagePlan(
                address=unit_address(unit), key=keys.unit_page(name, bracket.id, others, before, note, own, shown, said, chosen.get(name)),
                compose=partial(_unit_page, context, bracket.id, name, shown=shown, given=(note, own, chosen.get(name, ()))), beside=bracket.id,
            )
            yield PagePlan(
                address=bench_address(unit), key=keys.bench_page(name, bracket.id, before, own, reports),
                compose=partial(_bench_page, context, bracket.id, name, shown=reports, originals=own), beside=bracket.id,
            )


def _unit_page(
    context: Context, bracket: str, unit: str, *, shown: tuple[str, str], given: tuple[str, tuple[Link, ...], tuple[str, ...]]
) -> UnitSheet:
    """A unit's page with the picture that stands for it, and the note, links to originals and choices that it is given."""
    note, originals, chosen = given
    ranking, standing = _standing(context, bracket, unit)
    sheet = noted(context, replace(unit_sheet(context, standing, ranking, note=note, chosen=chosen), originals=originals))
    return announced_unit(sheet, standing, picture=shown, library=context.assessment.library)


def _bench_page(
    context: Context, bracket: str, unit: str, *, shown: tuple[str, str], originals: tuple[Link, ...]
) -> ProseSheet:
    """The bench record of a unit with the picture that stands for it, and the links to originals that it is given."""
    ranking, standing = _standing(context, bracket, unit)
    sheet = bench_sheet(context, standing.candidate.result, ranking.bracket, originals)
    return announced_bench(sheet, picture=shown, library=context.assessment.library)


def _standing(context: Context, bracket: str, unit: str) -> tuple[Ranking, Standing]:
    """How a unit stands in its bracket at home; computed now where it has not been."""
    ranking = context.assessment.ranked(context.assessment.library.guide.home_region, bracket)
    standing = ranking.standing(unit)
    if standing is None:
        raise KeyError(unit)
    return ranking, standing


def _links_by_unit(originals: tuple[Original, ...]) -> dict[str, tuple[Link, ...]]:
    """Links to units' own record files, named as in the content."""
    links: dict[str, tuple[Link, ...]] = {}
    for one in originals:
        link = Link(text=one.file.rpartition("/")[2], address=original_address(one.file))
        links[one.unit] = (*links.get(one.unit, ()), link)
    return links


def _search_entries(
    shares: Iterable[BracketShare], brackets: tuple[BracketSheet, ...], reading: tuple[AnySheet, ...], *, others: Mapping[str, str]
) -> tuple[Entry, ...]:
    return (*(entry for sheet in brackets for entry in page_entries(sheet)), *chain.from_iterable(one.entries for one in shares),
            *(entry for sheet in reading for entry in page_entries(sheet, others)))


def _reading_sheets(
    context: Context, home: HomeSheet, shares: Iterable[BracketShare], tables: tuple[DataTable, ...], files: tuple[DataFile, ...]
) -> tuple[AnySheet, ...]:
    """Prose, the data page, the list of units, and the page for a lost reader."""
    library = context.assessment.library
    written = (noted(context, prose_sheet(context, m)) for m in library.manuscripts if m.id != STEPS_PAGE)
    changed = (changed_sheet(context, context.changes),) if context.changes else ()
    prose = (*written, data_sheet(context, tables, files), *changed)
    corrected = corrections_sheet(context)
    return (
        *(announced_prose(sheet, beside=home, library=library) for sheet in prose),
        announced_list(units_sheet(context, chain.from_iterable(one.listed for one in shares)), beside=home, library=library),
        *((announced_overview(corrected, beside=home, library=library),) if corrected else ()),
        *(() if context.frozen_as else (lost_sheet(context),)),
    )


def _notes(reading: tuple[AnySheet, ...]) -> tuple[CorrectionNote, ...]:
    """All corrections, as the page of them has them."""
    return tuple(note for sheet in reading if isinstance(sheet, CorrectionsSheet) for note in sheet.notes)


def _kept_sheets(context: Context, home: HomeSheet) -> tuple[AnySheet, ...]:
    """What keeps an address: units withdrawn, addresses given up, frozen editions; a frozen edition knows no other."""
    withdrawn = tuple(noted(context, sheet) for sheet in withdrawn_sheets(context))
    if context.frozen_as:
        return withdrawn
    library = context.assessment.library
    editions = (announced_overview(editions_sheet(context), beside=home, library=library),) if library.editions else ()
    return (*withdrawn, *moved_sheets(context), *editions)


def _site(context: Context) -> Site:
    library, words = context.assessment.library, context.words
    guide = library.guide
    pages = {m.id: m for m in library.manuscripts}
    wanted = [("how-many-watts", "page.how_many_watts"), ("how-we-test", "page.how_we_test"), ("words", "page.words")]
    reading = {name: Link(text=words.say(text), address=page_address(pages[name]), worded=True) for name, text in wanted if name in pages}
    units = Link(text=words.say("units.heading"), address=UNITS, worded=True)
    middle = guide.brackets[len(guide.brackets) // 2]
    navigation = (
        *(reading[name] for name in ("how-many-watts",) if name in reading),
        Link(text=words.say("page.by_wattage"), address=bracket_address(middle), worded=True),
        units,
        *(reading[name] for name in ("how-we-test", "words") if name in reading),
    )
    editions = (Link(text=words.say("editions.heading"), address=ARCHIVE, worded=True),) if library.editions and not context.frozen_as else ()
    changed = (Link(text=words.say("changes.heading"), address=CHANGES, worded=True),) if context.changes else ()
    others = tuple(Link(text=m.title, address=page_address(m)) for m in library.manuscripts if m.id != STEPS_PAGE)
    return Site(
        title=guide.title,
        tagline=guide.tagline,
        language=guide.language,
        words=words,
        records_language=guide.records_language,
        archive=words.say("archive.banner", edition=guide.edition.name, day=day(guide.edition.date)) if context.frozen_as else "",
        public_address=guide.public_address,
        navigation=navigation,
        footer=(*(Link(text=b.title, address=bracket_address(b)) for b in guide.brackets), *others,
                units, Link(text=words.say("data.heading"), address=DATA, worded=True),
                *((Link(text=words.say("corrections.heading"), address=CORRECTIONS, worded=True),) if library.corrections else ()),
                *editions, *changed),
        edition=f"Edition {guide.edition.name}, printing {guide.edition.printing}, {day(guide.edition.date)}",
        date=guide.edition.date.isoformat(),
        notice=words.say("page.invented") if guide.invented else "",
        integrity=(guide.publisher.funding, guide.publisher.conflicts, guide.publisher.paid_links),
        safety=words.say("page.safety"),
        contact=guide.publisher.contact,
        terms=terms_of(library.manuscripts),
    )
