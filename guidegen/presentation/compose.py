"""The whole publication, composed from the evaluated guide."""

from guidegen.errors import ContentError
from guidegen.evaluation import Assessment
from guidegen.presentation.addresses import UNITS, bracket_address, page_address
from guidegen.presentation.data_files import data_files
from guidegen.presentation.formatting import day
from guidegen.presentation.inserts import page_inserts
from guidegen.presentation.pages import (
    STEPS_PAGE,
    Context,
    bracket_sheet,
    home_sheet,
    lost_sheet,
    prose_sheet,
    unit_sheet,
    units_sheet,
)
from guidegen.presentation.pieces import Link
from guidegen.presentation.prose import Bindings
from guidegen.presentation.sheets import AnySheet, Publication, Site
from guidegen.presentation.values import published_values
from guidegen.records import Library

INVENTED = "A demonstration: every unit, maker, shop, person and number here is invented."
SAFETY = (
    "Mains and charged capacitors kill. Never open a power supply, never mix modular cables, and leave wiring to "
    "qualified people; local rules come first."
)


def compose(assessment: Assessment) -> Publication:
    """The publication: every page and file, or a ``ContentError`` with every fault in the prose."""
    bindings = Bindings(values=published_values(assessment), inserts=page_inserts(assessment))
    context = Context(assessment=assessment, bindings=bindings)
    sheets = _sheets(context)
    if context.faults:
        raise ContentError(tuple(dict.fromkeys(context.faults)))
    return Publication(site=_site(assessment.library), sheets=sheets, files=data_files(assessment))


def _sheets(context: Context) -> tuple[AnySheet, ...]:
    home = context.assessment.home
    manuscripts = [m for m in context.assessment.library.manuscripts if m.id != STEPS_PAGE]
    return (
        home_sheet(context),
        *(bracket_sheet(context, one) for one in home),
        *(unit_sheet(context, s, one.ranking) for one in home for s in one.ranking.standings),
        *(prose_sheet(context, manuscript) for manuscript in manuscripts),
        units_sheet(context),
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
                Link(text="Data: CSV", address="data/units.csv"), Link(text="Data: JSON", address="data/units.json")),
        edition=f"Edition {guide.edition.name}, printing {guide.edition.printing}, {day(guide.edition.date)}",
        date=guide.edition.date.isoformat(),
        notice=INVENTED if guide.invented else "",
        integrity=(guide.publisher.funding, guide.publisher.conflicts, guide.publisher.paid_links),
        safety=SAFETY,
        contact=guide.publisher.contact,
    )
