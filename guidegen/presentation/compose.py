"""The whole publication, composed from the evaluated guide."""

from dataclasses import replace

from guidegen.errors import ContentError
from guidegen.evaluation import Assessment
from guidegen.presentation.addresses import DATA, UNITS, bracket_address, original_address, page_address
from guidegen.presentation.announcing import (
    announced_bench,
    announced_bracket,
    announced_home,
    announced_list,
    announced_prose,
    announced_unit,
)
from guidegen.presentation.charts import ShareCard
from guidegen.presentation.data_files import data_files, descriptions
from guidegen.presentation.feeds import feeds
from guidegen.presentation.formatting import day
from guidegen.presentation.inserts import page_inserts
from guidegen.presentation.pages import (
    STEPS_PAGE,
    Context,
    bench_sheet,
    bracket_sheet,
    data_sheet,
    home_sheet,
    lost_sheet,
    prose_sheet,
    unit_sheet,
    units_sheet,
)
from guidegen.presentation.picture_cards import drawn
from guidegen.presentation.pieces import Link
from guidegen.presentation.prose import Bindings
from guidegen.presentation.search_index import search_index
from guidegen.presentation.sheets import AnySheet, BinaryFile, BracketSheet, DataFile, HomeSheet, Publication, Site
from guidegen.presentation.tables_of_data import DataTable, tables_of
from guidegen.presentation.values import published_values
from guidegen.records import Library, Original

INVENTED = "A demonstration: every unit, maker, shop, person and number here is invented."
SAFETY = (
    "Mains and charged capacitors kill. Never open a power supply, never mix modular cables, and leave wiring to "
    "qualified people; local rules come first."
)


def compose(assessment: Assessment, *, originals: tuple[Original, ...] = (), draw_cards: bool = True) -> Publication:
    """The publication: every page and file, or a ``ContentError`` with every fault in the prose.

    ``originals`` are the record files to hand out; a unit's page links its own. Without ``draw_cards`` the picture cards, which take longest, are left undrawn; such a publication is for proof only.
    """
    bindings = Bindings(values=published_values(assessment), inserts=page_inserts(assessment))
    context = Context(assessment=assessment, bindings=bindings)
    guide, tables = assessment.library.guide, tables_of(assessment)
    files = data_files(tables, guide)
    home, brackets, cards = _leading_sheets(context)
    sheets = (home, *brackets, *_unit_sheets(context, brackets, originals), *_reading_sheets(context, home, tables, files))
    if context.faults:
        raise ContentError(tuple(dict.fromkeys(context.faults)))
    index = search_index(sheets)
    return Publication(
        site=replace(_site(assessment.library), search=index.address), sheets=sheets,
        files=(index, *files, *descriptions(tables, files, guide), *feeds(brackets, guide)),
        binaries=(
            *(BinaryFile(address=original_address(one.file), content=one.content) for one in originals),
            *(drawn(address, card) for address, card in cards if draw_cards),
        ),
    )


def _leading_sheets(context: Context) -> tuple[HomeSheet, tuple[BracketSheet, ...], tuple[tuple[str, ShareCard], ...]]:
    """The first page, the brackets, and their cards by address."""
    library = context.assessment.library
    home, home_card = announced_home(home_sheet(context), library)
    pairs = [announced_bracket(bracket_sheet(context, one), one, library) for one in context.assessment.home]
    cards = ((home.picture, home_card), *((sheet.picture, card) for sheet, card in pairs))
    return home, tuple(sheet for sheet, _ in pairs), cards


def _unit_sheets(
    context: Context, brackets: tuple[BracketSheet, ...], originals: tuple[Original, ...]
) -> tuple[AnySheet, ...]:
    """A report and its bench record a unit, bracket by bracket."""
    library, sheets = context.assessment.library, list[AnySheet]()
    for one, beside in zip(context.assessment.home, brackets, strict=True):
        for standing in one.ranking.standings:
            links = _links_to(originals, standing.candidate.id)
            report = replace(unit_sheet(context, standing, one.ranking), originals=links)
            record = bench_sheet(context, report, standing.candidate.result)
            sheets += (announced_unit(report, standing, beside=beside, library=library),
                       announced_bench(record, beside=beside, library=library))
    return tuple(sheets)


def _links_to(originals: tuple[Original, ...], unit: str) -> tuple[Link, ...]:
    """Links to a unit's own record files, named as in the content."""
    mine = (one.file for one in originals if one.unit == unit)
    return tuple(Link(text=file.rpartition("/")[2], address=original_address(file)) for file in mine)


def _reading_sheets(
    context: Context, home: HomeSheet, tables: tuple[DataTable, ...], files: tuple[DataFile, ...]
) -> tuple[AnySheet, ...]:
    """Prose, the data page, the list of units, and the page for a lost reader."""
    library = context.assessment.library
    written = (prose_sheet(context, m) for m in library.manuscripts if m.id != STEPS_PAGE)
    prose = (*written, data_sheet(context, tables, files))
    return (
        *(announced_prose(sheet, beside=home, library=library) for sheet in prose),
        announced_list(units_sheet(context), beside=home, library=library),
        lost_sheet(context),
    )


def _site(library: Library) -> Site:
    guide = library.guide
    pages = {m.id: m for m in library.manuscripts}
    wanted = [("how-many-watts", "How many watts"), ("how-we-test", "How we test"), ("words", "Words")]
    reading = {name: Link(text=text, address=page_address(pages[name])) for name, text in wanted if name in pages}
    middle = guide.brackets[len(guide.brackets) // 2]
    navigation = (
        *(reading[name] for name in ("how-many-watts",) if name in reading),
        Link(text="By wattage", address=bracket_address(middle)),
        Link(text="All units", address=UNITS),
        *(reading[name] for name in ("how-we-test", "words") if name in reading),
    )
    others = tuple(Link(text=m.title, address=page_address(m)) for m in library.manuscripts if m.id != STEPS_PAGE)
    return Site(
        title=guide.title,
        tagline=guide.tagline,
        language=guide.language,
        public_address=guide.public_address,
        navigation=navigation,
        footer=(*(Link(text=b.title, address=bracket_address(b)) for b in guide.brackets), *others,
                Link(text="All units", address=UNITS), Link(text="The data", address=DATA)),
        edition=f"Edition {guide.edition.name}, printing {guide.edition.printing}, {day(guide.edition.date)}",
        date=guide.edition.date.isoformat(),
        notice=INVENTED if guide.invented else "",
        integrity=(guide.publisher.funding, guide.publisher.conflicts, guide.publisher.paid_links),
        safety=SAFETY,
        contact=guide.publisher.contact,
    )
