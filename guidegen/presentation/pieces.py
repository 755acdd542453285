"""The pieces that sheets are made of: values that a template prints as they stand.

Addresses are written from the root of the site (``unit/harrow-one/#ripple``); the theme turns them into links
relative to its page, so that the site works under any folder and from a file system.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A link inside the site or out of it."""

    text: str
    """Words of the link."""
    address: str
    """Address from the root of the site, or a whole https address."""
    rel: str = ""
    """Relation, such as ``sponsored noopener``."""
    current: bool = False
    """Whether the link leads to the page it stands on."""
    worded: bool = False
    """Whether the words are a text of the interface; else they are in the records' language."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A word that the glossary explains."""

    address: str
    """Where it is explained."""
    written: tuple[str, ...]
    """How it is written in running text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A label and what it says, as in the head of a test report."""

    label: str
    """Label."""
    text: str
    """Value with its unit."""
    address: str = ""
    """Where the fact is explained, or empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectionNote:
    """A correction, as it stands on the page that it is about, and on the page of all of them."""

    id: str
    """Anchor."""
    date: str
    """Day, year-month-day."""
    day: str
    """Day in words."""
    about: str
    """What it is about: a unit, a bracket or a page, by name."""
    page: Link | None
    """That page, or nothing where it is gone."""
    html: str
    """What was wrong and what is right, HTML."""
    text: str
    """The same without marks, for feeds and machines."""
    record: str
    """The field of the record, before and now; or empty."""
    effect: tuple[str, ...]
    """What it changed, in sentences."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of a table."""

    key: str
    """Short name, unique in the table."""
    title: str
    """Heading, with the unit where all cells share it."""
    numeric: bool = False
    """Whether cells are aligned as numbers."""
    sortable: bool = False
    """Whether a reader may sort by it."""
    verbatim: bool = False
    """Whether cells are names of files and fields, set as they are typed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A cell of a table."""

    text: str
    """What is printed."""
    order: str = ""
    """Number to sort by, with a decimal point; empty sorts last."""
    address: str = ""
    """Where the cell leads, or empty."""
    warning: bool = False
    """Whether the cell tells of something beyond its limit."""
    id: str = ""
    """Anchor of the row that the cell heads, or empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table; the first cell of a row is its heading."""

    id: str
    """Anchor."""
    caption: str
    """What the table shows."""
    columns: tuple[Column, ...]
    """Columns."""
    rows: tuple[tuple[Cell, ...], ...]
    """Rows, as wide as ``columns``."""
    note: str = ""
    """What must be known to read it."""
    worded: bool = False
    """Whether caption and headings are texts of the interface; else they are in the records' language."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """A drawing that answers one question, with its data as a table beneath."""

    id: str
    """Anchor; prefix of every id in the drawing."""
    title: str
    """The answer in a sentence, computed from the data."""
    description: str
    """What can be seen, for those who can't see it."""
    svg: str
    """Drawing: SVG that is safe to stand inside a page (no prolog, no style attributes, ids prefixed)."""
    table: Table | None
    """The data."""
    note: str = ""
    """Axes, direction of better, document of the limit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Image:
    """A picture of the content."""

    address: str
    """Its address."""
    words: str
    """What it shows."""
    width: int
    """Width, pixels."""
    height: int
    """Height, pixels."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """The load strip of one unit: three bands over 0 to 110 % of the rating."""

    svg: str
    """Drawing, safe to stand inside a page."""
    words: str
    """The strip said in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ScorePart:
    """One criterion's share of a score."""

    title: str
    """Criterion."""
    worth: str
    """Worth from 0 to 100, as printed; empty where unknown."""
    width: str
    """Share of the whole score's width that the weight takes, %."""
    filled: str
    """Share of the own width that is filled, %."""
    text: str
    """The part in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A unit chosen for a bracket."""

    id: str
    """Short name of the choice."""
    title: str
    """What the choice is called."""
    unit: Link
    """The unit."""
    why: str
    """Why it: one or two sentences with the deciding number."""
    against: str
    """Why not the next one, or empty."""
    drawback: str
    """The drawback and who should skip it."""
    price: str
    """Price with its date and region, or that there is none."""
    shop: Link | None
    """Where to buy, with ``rel``; the words say when it is a paid link."""
    overridden: str = ""
    """The editor's reason and what the rule would have chosen, or empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NoChoice:
    """A choice that no unit meets."""

    id: str
    """Short name of the choice."""
    title: str
    """What the choice is called."""
    why: str
    """Why nothing meets it, in a sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Worksheet:
    """A form that the theme's script sets up and answers in the browser; without script there is none."""

    id: str
    """Anchor."""
    data: str
    """All that it counts with: JSON, numbers at full precision."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Since:
    """What changed since the last edition that was kept."""

    title: str
    """Heading."""
    lines: tuple[str, ...]
    """A sentence a change."""
    more: Link
    """The page of all changes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A titled stretch of prose with the pieces that belong to it."""

    id: str
    """Anchor."""
    title: str
    """Heading; empty for the stretch before the first heading."""
    html: str
    """Prose, already HTML."""
    tables: tuple[Table, ...] = ()
    """Tables beneath."""
    charts: tuple[Chart, ...] = ()
    """Charts beneath."""
    worksheet: Worksheet | None = None
    """Worksheet above the prose, or nothing."""
