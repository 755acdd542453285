"""Editions that were frozen: kept as they were published, under an address that never changes."""

from guidegen.records.kinds import Count, Day, Format, Name, Text, Whole, YesNo, record


@record
class FrozenUnit:
    """A unit as an edition published it; its identifier belongs to it for ever."""

    id: Name
    """Identifier, the last part of its page's address."""
    maker: Text
    """Maker."""
    model: Text
    """Model."""
    bracket: Name
    """Bracket that its rated power fell into."""
    place: str = ""
    """Place or range of places, such as ``1–2``; empty where it had none."""
    withdrawn: YesNo = False
    """Whether it had left the guide already."""

    @property
    def name(self) -> str:
        """Maker and model, as said in a sentence."""
        return f"{self.maker} {self.model}"


@record
class FrozenBracket:
    """A bracket as an edition published it."""

    id: Name
    """Identifier, the last part of its page's address."""
    title: Text
    """Heading."""
    first_choice: Name | None = None
    """The unit of the first choice in the home region, or nothing."""


@record
class EditionRecord:
    """``editions/<name>/edition.json``."""

    format: Format
    """Version of the record format: 1."""
    name: Name
    """Name of the folder, part of the permanent address."""
    title: Text
    """Title of the guide."""
    edition: Text
    """Name of the edition."""
    printing: Count
    """Printing of the edition."""
    date: Day
    """Day of the edition."""
    public_address: Text
    """Where the frozen pages stand, with a closing ``/``."""
    home_region: Name
    """Region whose prices decided the choices."""
    program: Text
    """The program that made it, with its version."""
    libraries: dict[str, str]
    """Versions of the libraries that had a hand in it."""
    build: Text
    """SHA-256 over the lines of ``SHA256SUMS`` that name files of the site."""
    sessions: Whole
    """Bench sessions that it rests on."""
    units: tuple[FrozenUnit, ...]
    """Units, by identifier."""
    brackets: tuple[FrozenBracket, ...]
    """Brackets, rising."""

    def unit(self, identifier: str) -> FrozenUnit | None:
        """The unit of this identifier, or nothing."""
        return next((unit for unit in self.units if unit.id == identifier), None)


@record
class ListedFile:
    """A file of a frozen edition, as ``SHA256SUMS`` lists it."""

    path: Text
    """Path below the edition's folder."""
    digest: Text
    """SHA-256, in hexadecimal."""


@record
class FrozenEdition:
    """An edition with its files."""

    file: Text
    """``edition.json`` below the content folder."""
    record: EditionRecord
    """What it says."""
    files: tuple[ListedFile, ...]
    """Every file but the list itself, a line each, in the order of the list."""

    @property
    def site(self) -> tuple[ListedFile, ...]:
        """The pages and what belongs to them, by their path from the root of the frozen site."""
        return tuple(
            ListedFile(path=one.path.removeprefix(SITE), digest=one.digest) for one in self.files if one.path.startswith(SITE)
        )

    @property
    def pages(self) -> tuple[str, ...]:
        """The addresses of its pages, from the root of its site."""
        return tuple(one.path.removesuffix(PAGE) for one in self.site if one.path == PAGE or one.path.endswith(f"/{PAGE}"))

    @property
    def sums(self) -> str:
        """The list of its files, below the content folder."""
        return f"{self.file.rpartition('/')[0]}/{SUMS}"


SITE = "site/"
"""Folder of the frozen pages and data in an edition's folder."""
RECORDS = "content/"
"""Folder of the records as they were."""
SUMS = "SHA256SUMS"
"""The list of an edition's files with their SHA-256, in the form that ``sha256sum -c`` reads."""
PAGE = "index.html"
"""File of a page in its folder."""
