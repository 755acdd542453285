"""Sheets rendered to files: each description of a page through the theme's sheet of its kind."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from hashlib import sha256
from itertools import pairwise, starmap
from pathlib import Path
from typing import Self

from jinja2 import Environment, TemplateError

from guidegen.errors import ThemeError
from guidegen.presentation.page_keys import key_of
from guidegen.presentation.sheets import AnySheet, DrawingPlan, PagePlan, Publication
from guidegen.press import File
from guidegen.publication.assets import Assets
from guidegen.publication.glossary import Glossary
from guidegen.publication.headings import headings_linked
from guidegen.publication.links import file_of
from guidegen.publication.page_readings import PageReading
from guidegen.publication.theme import environment_of, place_of, sheet_folders
from guidegen.publication.typography import units_kept
from guidegen.publication.wording import wording_of
from guidegen.sharing import processes_for, shared_out, slices

FEEDS = {"feed.atom": "application/atom+xml", "feed.json": "application/feed+json"}
"""Feeds that a page's head points at where the publication has them."""
_WORTH_SHARING = 16
"""From so many pages on a second process pays for its start."""
_VERY_MANY = 2000
"""From so many pages on memory counts more than the start of some processes."""


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
class Unchanged:
    """A page whose sheet says what it said before: it is not rendered again."""


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

    def planned(self, plans: tuple[PagePlan, ...]) -> Iterator[Page]:
        """The pages of plans, as they come."""
        return (page for _, page in self.renewed(plans, {}) if isinstance(page, Page))

    def renewed(self, plans: tuple[PagePlan, ...], said: Mapping[str, str]) -> Iterator[tuple[PagePlan, Page | Unchanged]]:
        """Plans with their pages, as they come; many pages are shared out among processes where that is safe.

        ``said`` is what sheets said before, by address, for pages that still stand.
        """
        processes = processes_for(len(plans) // (_WORTH_SHARING // 2))
        if processes < 2:
            yield from ((plan, self._planned(plan, said)) for plan in plans)
            return
        for place, page in shared_out(partial(_planned_page, self, plans, said), _parts(plans, processes), processes):
            if isinstance(page, ThemeError):
                raise page
            yield plans[place], page

    def _planned(self, plan: PagePlan, said: Mapping[str, str]) -> Page | Unchanged:
        sheet = plan.compose()
        says = key_of(sheet)
        return Unchanged() if said.get(plan.address) == says else self.page(sheet, says)


def _parts(plans: tuple[PagePlan, ...], processes: int) -> tuple[range, ...]:
    """Runs of plans for one process each: as many pages for each process, or, where there are very many, pages that rest on
    the same results, so that none holds the results of more than a bracket.
    """
    if len(plans) < _VERY_MANY:
        return slices(len(plans), processes)
    begins = [place for place, plan in enumerate(plans) if place == 0 or plan.beside != plans[place - 1].beside]
    return tuple(starmap(range, pairwise((*begins, len(plans)))))


def drawn(plans: tuple[DrawingPlan, ...]) -> Iterator[tuple[DrawingPlan, File]]:
    """Plans with their pictures, as they come, shared out like pages; one takes as long as several pages."""
    processes = processes_for(len(plans) // 2)
    if processes < 2:
        yield from ((plan, _drawn(plans, place)) for place, plan in enumerate(plans))
        return
    for place, picture in shared_out(partial(_drawn, plans), slices(len(plans), processes), processes):
        yield plans[place], picture


def _drawn(plans: tuple[DrawingPlan, ...], place: int) -> File:
    return File(path=plans[place].address, content=plans[place].draw())


def _planned_page(
    printer: Printer, plans: tuple[PagePlan, ...], said: Mapping[str, str], place: int
) -> Page | Unchanged | ThemeError:
    """A page made in a process of its own; a fault of the theme is handed over like a page."""
    try:
        return printer._planned(plans[place], said)  # noqa: SLF001 - the printer's own work, in another process
    except ThemeError as error:
        return error
