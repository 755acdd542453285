"""Sheets rendered to files: each description of a page through the theme's sheet of its kind."""

from pathlib import Path
from traceback import walk_tb

from jinja2 import Environment, TemplateError, TemplateSyntaxError

from guidegen.errors import ThemeError
from guidegen.presentation.sheets import AnySheet, Publication
from guidegen.publication.assets import Assets
from guidegen.publication.edition import File
from guidegen.publication.glossary import Glossary
from guidegen.publication.headings import headings_linked
from guidegen.publication.links import file_of
from guidegen.publication.theme import environment_of
from guidegen.publication.typography import units_kept

FEEDS = {"feed.atom": "application/atom+xml", "feed.json": "application/feed+json"}
"""Feeds that a page's head points at where the publication has them."""


def render_sheets(publication: Publication, folder: Path, assets: Assets) -> tuple[File, ...]:
    """All pages as files; a fault in a sheet is a ``ThemeError`` with the sheet's name and line."""
    environment = environment_of(folder)
    environment.globals["assets"] = assets.addresses()
    environment.globals["feeds"] = {f.address: FEEDS[f.address] for f in publication.files if f.address in FEEDS}
    environment.globals["site"] = publication.site
    glossary = Glossary(publication.site)
    return tuple(_set(_rendered(sheet, environment, folder), sheet, glossary) for sheet in publication.sheets)


def _set(text: str, sheet: AnySheet, glossary: Glossary) -> File:
    """The page as a file, with what is done to the text of every page."""
    html = headings_linked(glossary.linked(units_kept(text), sheet.address))
    return File(path=file_of(sheet.address), content=html.encode())


def _rendered(sheet: AnySheet, environment: Environment, folder: Path) -> str:
    path = file_of(sheet.address)
    try:
        return environment.get_template(f"{sheet.kind}.html").render(sheet=sheet)
    except (TemplateError, TypeError, ValueError, ArithmeticError, LookupError, AttributeError) as error:
        raise ThemeError(f"{_place(error, folder)}: {error} (while rendering {path})") from error


def _place(error: Exception, folder: Path) -> str:
    """Sheet and line of an error; Jinja2 puts the sheets' own lines into the traceback."""
    if isinstance(error, TemplateSyntaxError):
        return f"{folder.name}/sheets/{error.name}:{error.lineno}"
    sheets = str(folder / "sheets")
    lines = [(frame.f_code.co_filename, line) for frame, line in walk_tb(error.__traceback__)
             if frame.f_code.co_filename.startswith(sheets)]
    if not lines:
        return f"{folder.name}/sheets"
    name, line = lines[-1]
    return f"{folder.name}/sheets/{Path(name).name}:{line}"
