"""Everything that people wrote down, read and shaped."""

from guidegen.records.corrections import Correction
from guidegen.records.editions import FrozenEdition
from guidegen.records.guide import GuideRecord
from guidegen.records.kinds import Name, Text, record
from guidegen.records.parts import PartsRecord
from guidegen.records.pictures import Picture
from guidegen.records.policy import PolicyRecord
from guidegen.records.prices import PriceList
from guidegen.records.session import Session
from guidegen.records.unit import Unit

GLOSSARY = "words"
"""Identifier of the page that explains terms, a heading each."""


@record
class TermForms:
    """How a term of the glossary is written in running text."""

    heading: Text
    """The heading that explains it."""
    written: tuple[Text, ...]
    """Its forms, such as the plural; none where it should never become a link."""
    found_by: tuple[Text, ...] = ()
    """Other words by which a reader may look for it in the search field."""


@record
class Manuscript:
    """A page of prose, as written."""

    id: Name
    """Name of the file without its ending; part of the address."""
    file: str
    """File below the content folder."""
    title: Text
    """Heading."""
    description: Text
    """One sentence for search engines and lists."""
    body: str
    """Markdown, numbers as ``{{ name }}``."""
    body_line: int
    """Line of the file on which the body begins, from 1."""
    terms: tuple[TermForms, ...] = ()
    """Forms of the terms of a glossary, where they differ from the heading."""


@record
class Original:
    """A record file as it was written."""

    unit: str
    """Unit that it belongs to."""
    file: str
    """File below the content folder."""
    content: bytes
    """Its bytes."""


@record
class Library:
    """The whole content; units by identifier, sessions by unit and date, prices by region."""

    guide: GuideRecord
    """``guide.yaml``."""
    policy: PolicyRecord
    """``policy.yaml``."""
    parts: PartsRecord
    """``parts.yaml``."""
    units: tuple[Unit, ...]
    """Units, by identifier."""
    sessions: tuple[Session, ...]
    """Sessions, by unit, date and file."""
    prices: tuple[PriceList, ...]
    """Price lists, by region."""
    manuscripts: tuple[Manuscript, ...]
    """Pages of prose, by identifier."""
    pictures: tuple[Picture, ...] = ()
    """Pictures, by file."""
    corrections: tuple[Correction, ...] = ()
    """Corrections, in the order of ``corrections.yaml``."""
    editions: tuple[FrozenEdition, ...] = ()
    """Frozen editions, the latest first."""

    def sessions_of(self, unit: str) -> tuple[Session, ...]:
        """The sessions of one unit, oldest first."""
        return tuple(session for session in self.sessions if session.unit == unit)

    def unit(self, identifier: str) -> Unit | None:
        """The unit of this identifier, or nothing."""
        return next((unit for unit in self.units if unit.id == identifier), None)
