"""Sheets rendered to files: each description of a page through the theme's sheet of its kind."""

from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Self

from jinja2 import Environment, TemplateError

from guidegen.errors import ThemeError
from guidegen.presentation.page_keys import key_of
from guidegen.presentation.sheets import AnySheet, Publication
from guidegen.press import File
from guidegen.publication.assets import Assets
from guidegen.publication.glossary import Glossary
from guidegen.publication.headings import headings_linked
from guidegen.publication.links import file_of
from guidegen.publication.page_readings import PageReading
from guidegen.publication.theme import environment_of, place_of, sheet_folders
from guidegen.publication.typography import units_kept
from guidegen.publication.wording import wording_of

FEEDS = {"feed.atom": "application/atom+xml", "feed.json": "application/feed+json"}
"""Feeds that a page's head points at where the publication has them."""


@dataclass(frozen=True, slots=True)
class Page:
    """A finished page."""

    file: File
    """The page."""
    reading: PageReading
    """What proof-reading found on it."""
    says: str
    """Stands for everything that its sheet says."""


@dataclass(frozen=True, slots=True)
class Printer:
    """A theme made ready for a publication."""

    environment: Environment
    """The sheets."""
    folder: Path
    """Where the theme stands."""
    assets: Assets
    """Style sheets and scripts."""
    glossary: Glossary
    """What is linked at first use."""
    key: str
    """Stands for the theme and for what all pages share."""

    @classmethod
    def of(cls, publication: Publication, folder: Path) -> Self:
        """The printer of a publication, by the theme in a folder."""
        environment, assets = environment_of(folder), Assets.read(folder)
        environment.globals["assets"] = assets.addresses()
        environment.globals["feeds"] = {f.address: FEEDS[f.address] for f in publication.files if f.address in FEEDS}
        environment.globals["site"] = publication.site
        environment.globals |= wording_of(publication.site)
        shared = sha256(repr((assets.addresses(), environment.globals["feeds"], publication.site)).encode())
        for path in (path for sheets in sheet_folders(folder) for path in sorted(sheets.glob("*.html"))):
            shared.update(path.read_bytes())
        return cls(environment, folder, assets, Glossary(publication.site), shared.hexdigest())

    def page(self, sheet: AnySheet, says: str = "") -> Page:
        """A page as a file; a fault in a sheet is a ``ThemeError`` with the sheet's name and line. ``says`` stands for the sheet,
        where that is known.
        """
        path = file_of(sheet.address)
        try:
            text = self.environment.get_template(f"{sheet.kind}.html").render(sheet=sheet)
        except (TemplateError, TypeError, ValueError, ArithmeticError, LookupError, AttributeError) as error:
            raise ThemeError(f"{place_of(error, self.folder)}: {error} (while rendering {path})") from error
        text = headings_linked(self.glossary.linked(units_kept(text), sheet.address))
        return Page(File(path=path, content=text.encode()), PageReading.of(text), says or key_of(sheet))
