"""What each kind of page says: complete descriptions that a theme turns into HTML and nothing else."""

from collections.abc import Callable
from dataclasses import dataclass, field
from hashlib import sha256

from guidegen.presentation.catalogues import Words, words_in
from guidegen.presentation.pieces import (
    Chart,
    Choice,
    CorrectionNote,
    Fact,
    Image,
    Link,
    NoChoice,
    ScorePart,
    Section,
    Since,
    Strip,
    Table,
    Term,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """What every page has."""

    kind: str
    """Name of the theme's sheet, such as ``bracket``."""
    address: str
    """Address from the root of the site: empty for the first page, else with a closing ``/``; or ``404.html``."""
    title: str
    """Title of the window, at most 60 characters."""
    heading: str
    """Heading on the page."""
    description: str
    """What the page offers, at most 160 characters."""
    breadcrumbs: tuple[Link, ...] = ()
    """Way from the first page."""
    linked_data: str = ""
    """JSON-LD, or empty."""
    picture: str = ""
    """Address of the picture that stands for the page elsewhere (1200 by 630 pixels), or empty."""
    picture_words: str = ""
    """The picture in words."""
    worded: bool = False
    """Whether heading and lead are texts of the interface; else they are in the records' language."""
    corrections: tuple[CorrectionNote, ...] = ()
    """What was wrong on this page, the latest first."""
    cite: str = ""
    """How to cite the page, or empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """What all pages share."""

    title: str
    """Title of the guide."""
    tagline: str
    """What it offers."""
    language: str
    """Language of the interface."""
    public_address: str
    """Where the site stands, with a closing ``/``."""
    navigation: tuple[Link, ...]
    """Main navigation."""
    footer: tuple[Link, ...]
    """Links at the foot."""
    edition: str
    """Edition in words."""
    date: str
    """Day of the edition, year-month-day."""
    notice: str
    """Standing notice, such as that all is invented; or empty."""
    integrity: tuple[str, ...]
    """Sentences on funding, conflicts and paid links."""
    safety: str
    """Standing caution."""
    contact: str
    """Mail address for errors."""
    search: str = ""
    """Address of the index of the search field, or empty."""
    terms: tuple[Term, ...] = ()
    """What the glossary explains."""
    words: Words = field(default_factory=lambda: words_in("en"))
    """Texts of the interface."""
    records_language: str = "en"
    """Language of the records and of the sentences computed from them."""
    archive: str = ""
    """What the banner of a frozen edition says; empty in the current guide."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketSummary:
    """A bracket on the first page."""

    link: Link
    """The bracket's page; its text is the bracket's title."""
    serves: str
    """Whom it is for, HTML."""
    tested: str
    """How many were tested and how many are advised, in words."""
    choices: tuple[Choice, ...]
    """Choices."""
    missing: tuple[NoChoice, ...]
    """Choices that nothing meets."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A step of how to choose."""

    id: str
    """Anchor."""
    title: str
    """What to do."""
    html: str
    """How, HTML."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HomeSheet(Sheet):
    """The first page."""

    lead: str
    """Opening words, HTML."""
    facts: tuple[Fact, ...]
    """Head of the sheet: edition, tested, mains, samples, prices."""
    steps: tuple[Step, ...]
    """How to choose, six short steps."""
    brackets: tuple[BracketSummary, ...]
    """Brackets, rising."""
    disclosure: tuple[str, ...]
    """Who pays and what a paid link is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RankedRow:
    """A unit in a bracket's table."""

    place: str
    """Place or range of places, such as ``1–2``; empty where it has none."""
    order: str
    """Number to sort by."""
    unit: Link
    """The unit."""
    note: str
    """Why it stands there, where that needs saying; or empty."""
    warning: bool
    """Whether the note tells of a failed gate."""
    tier: str
    """Plain word for its score."""
    strip: Strip
    """Load strip."""
    cells: tuple["RankedCell", ...]
    """Numbers, as the table's columns."""
    score: str
    """Score, or ``no place``."""
    score_order: str
    """Number to sort by."""
    parts: tuple[ScorePart, ...]
    """Parts of the score."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RankedCell:
    """A number in a bracket's table."""

    text: str
    """What is printed."""
    order: str
    """Number to sort by; empty sorts last."""
    warning: bool = False
    """Whether it lies beyond its limit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketSheet(Sheet):
    """A wattage bracket."""

    serves: str
    """Whom it is for, and who needs less; HTML."""
    facts: tuple[Fact, ...]
    """Head of the sheet."""
    choices: tuple[Choice, ...]
    """Choices, first choice first."""
    missing: tuple[NoChoice, ...]
    """Choices that nothing meets."""
    disclosure: tuple[str, ...]
    """Samples, who pays, conflicts and paid links, beside the choices."""
    principles: Link | None = None
    """The page that says how units are tested, or nothing."""
    legend: Strip
    """How to read a strip: a labelled example."""
    legend_words: str
    """How to read a strip, in words."""
    columns: tuple[str, ...]
    """Headings of the numbers in ``RankedRow.cells``."""
    rows: tuple[RankedRow, ...]
    """Everything tested, ranked; those without a place last."""
    level_note: str
    """What a range of places means here, or empty."""
    charts: tuple[Chart, ...]
    """Charts of the bracket."""
    neighbours: tuple[Link, ...]
    """The brackets below and above."""
    certainty: Table | None = None
    """How sure the order is, a row a unit; nothing with fewer than two places."""
    since: Since | None = None
    """What changed here since the last edition that was kept, or nothing."""
    stability: str = ""
    """The smallest change of weights that unseats the first, and to whom; or empty."""
    weighing: str = ""
    """JSON from which a browser ranks the rows again by the reader's own weights (``presentation.weighing``); or empty."""
    sieve: str = ""
    """What the browser sifts and compares the rows by, as JSON; or empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictRow:
    """A judged number on a unit's page."""

    title: str
    """What was judged."""
    found: str
    """What the bench found, with uncertainty."""
    limit: str
    """The limit."""
    document: str
    """Document and clause, and how sure it is."""
    outcome: str
    """Verdict in words."""
    warning: bool
    """Whether it is a fail."""
    evidence: Link | None
    """Where the number comes from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceLine:
    """Prices of a unit in one region."""

    id: str
    """Anchor."""
    region: str
    """Region."""
    now: str
    """Latest price with date, or that there is none."""
    tax: str = ""
    """What prices of the region include."""
    lowest: str
    """Lowest in twelve months, with date; or empty."""
    stock: str
    """Stock in words."""
    offers: tuple[Link, ...]
    """Offers; the words say which are paid links."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitSheet(Sheet):
    """A unit: the test report."""

    verdict: str
    """Verdict in a sentence."""
    warning: bool
    """Whether it is not advised."""
    reasons: tuple[str, ...]
    """Sentences from its facts, that say what stands out."""
    facts: tuple[Fact, ...]
    """Head of the report."""
    pros: tuple[str, ...]
    """What speaks for it."""
    cons: tuple[str, ...]
    """What speaks against it."""
    suits: tuple[str, ...]
    """For whom."""
    skips: tuple[str, ...]
    """For whom not."""
    note: str
    """The editor's note, HTML; or empty."""
    disclosure: tuple[str, ...] = ()
    """Samples, who pays, conflicts and paid links, beside the verdict."""
    principles: Link | None = None
    """The page that says how units are tested, or nothing."""
    score: str
    """Score of 100, or ``no place``."""
    score_words: str
    """Its doubt, the score before price, and why it has none where it has none."""
    parts: tuple[ScorePart, ...]
    """Parts of the score."""
    strip: Strip
    """Load strip, large."""
    legend_words: str
    """How to read the strip."""
    label: Table
    """Label against bench."""
    badge: str
    """The badge's verdict in a sentence."""
    badge_table: Table | None
    """The badge load by load."""
    charts: tuple[Chart, ...]
    """Charts."""
    decision_rule: str
    """How numbers are held against limits, in a sentence."""
    verdicts: tuple[VerdictRow, ...]
    """Judged numbers."""
    protections: Table
    """Protections."""
    measured: str
    """How much was measured, in a sentence."""
    rests_on: tuple[Fact, ...]
    """The numbers that the score rests on, each leading to its line in the bench record."""
    bench: Link
    """The bench record: every number and where it comes from."""
    construction: tuple[Fact, ...]
    """What is inside."""
    cables: Table
    """Cables."""
    samples: Table
    """Samples and sessions."""
    pictures: tuple[Image, ...] = ()
    """Pictures of the unit."""
    originals: tuple[Link, ...] = ()
    """The record files to download."""
    accepted: Table | None
    """Objections of the sense checks that the editor lets stand, or nothing."""
    prices: tuple[PriceLine, ...]
    """Prices by region."""
    predecessor: Table | None
    """The predecessor beside it."""
    since: Since | None = None
    """What changed about it since the last edition that was kept, or nothing."""
    predecessor_inside: Table | None = None
    """What the two records say otherwise of box and inside."""
    predecessor_words: str
    """What changed, in a sentence; or empty."""
    cautions: tuple[str, ...]
    """Cautions."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProseSheet(Sheet):
    """A page of prose with tables and charts set into it: how we test, how many watts, what the words mean."""

    lead: str
    """Opening words, HTML."""
    sections: tuple[Section, ...]
    """Sections."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DeskSheet(Sheet):
    """The editor's desk; the preview alone shows it, and no edition has it."""

    waiting: tuple[str, ...]
    """What changed since the youngest frozen edition, in sentences."""
    frozen: bool
    """Whether there is an edition to compare with."""
    sections: tuple[Section, ...]
    """What wants attention; a section without a table has nothing to tell."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListSheet(Sheet):
    """All units from A to Z."""

    lead: str
    """Opening words, HTML."""
    table: Table
    """The list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectionsSheet(Sheet):
    """All corrections."""

    lead: str
    """How corrections are made, plain words."""
    notes: tuple[CorrectionNote, ...]
    """Corrections, the latest first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LostSheet(Sheet):
    """The page for an address that does not exist."""

    lead: str
    """What to do now, HTML."""
    links: tuple[Link, ...]
    """Where to go."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WithdrawnSheet(Sheet):
    """A unit that left the guide: its address stays."""

    when: str
    """Since when, in a sentence."""
    reason: str
    """Why, as the record says it."""
    last: str
    """Where it stood last, in a sentence; or that no frozen edition has it."""
    links: tuple[Link, ...]
    """The edition where it stood, if there is one, and its bracket."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EditionSummary:
    """A frozen edition on the page of editions."""

    id: str
    """Anchor."""
    title: str
    """Which edition and printing."""
    link: Link
    """Its first page."""
    facts: tuple[Fact, ...]
    """Day, units, sessions, hash."""
    firsts: Table
    """First choices by bracket."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EditionsSheet(Sheet):
    """The frozen editions."""

    lead: str
    """What they are."""
    editions: tuple[EditionSummary, ...]
    """Editions, the latest first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedSheet(Sheet):
    """A former address: it leads on to another."""

    lead: str
    """That the page has moved."""
    target: Link
    """Where to."""


AnySheet = (
    HomeSheet | BracketSheet | UnitSheet | ProseSheet | ListSheet | CorrectionsSheet | LostSheet | WithdrawnSheet | EditionsSheet
    | MovedSheet | DeskSheet
)
"""Any page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PagePlan:
    """A page that is composed only when it is needed, since it may stand already."""

    address: str
    """Address from the root of the site."""
    key: str
    """Stands for everything that the page shows: of equal keys come equal pages."""
    compose: Callable[[], AnySheet] = field(repr=False)
    """Makes the page."""
    beside: str = ""
    """Pages with this in common rest on the same results, such as those of a bracket's units."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawingPlan:
    """A picture file that is drawn only when it is needed."""

    address: str
    """Address from the root of the site."""
    key: str
    """Stands for everything that the picture shows."""
    draw: Callable[[], bytes] = field(repr=False)
    """Draws it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DataFile:
    """A file for machines."""

    address: str
    """Address from the root of the site."""
    text: str
    """Content."""

    @property
    def digest(self) -> str:
        """SHA-256 of the file, in hexadecimal."""
        return sha256(self.text.encode()).hexdigest()


@dataclass(frozen=True, slots=True, kw_only=True)
class BinaryFile:
    """A file that is no text, such as a picture."""

    address: str
    """Address from the root of the site."""
    content: bytes = field(repr=False)
    """Content."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ArchivedFile:
    """A file of a frozen edition, handed over as it is."""

    address: str
    """Address from the root of the site."""
    source: str
    """Where it lies."""
    digest: str
    """SHA-256 that it must have, in hexadecimal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Publication:
    """Everything that makes an edition, before it is rendered."""

    site: Site
    """What all pages share."""
    sheets: tuple[AnySheet, ...]
    """Pages that are composed already."""
    plans: tuple[PagePlan, ...] = ()
    """Pages to compose when they are needed."""
    files: tuple[DataFile, ...]
    """Files for machines."""
    binaries: tuple[BinaryFile, ...] = ()
    """Files that are no text."""
    drawings: tuple[DrawingPlan, ...] = ()
    """Pictures to draw when they are needed."""
    archived: tuple[ArchivedFile, ...] = ()
    """Files of frozen editions."""

    @property
    def findable(self) -> tuple[str, ...]:
        """The addresses of the pages that a search engine should know, in their order: none that only leads on."""
        return tuple(one.address for one in (*self.sheets, *self.plans) if not isinstance(one, MovedSheet))

    @property
    def led_on(self) -> tuple[str, ...]:
        """The addresses of the pages that only lead on."""
        return tuple(one.address for one in self.sheets if isinstance(one, MovedSheet))
