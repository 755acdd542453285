"""A rundown as a sheet of paper: one HTML file with its style in it, by the theme's sheet for it."""

from pathlib import Path

from jinja2 import TemplateError, TemplateNotFound

from guidegen.errors import ThemeError
from guidegen.presentation.rundown import Rundown, head_words, length_words
from guidegen.publication.theme import environment_of, place_of
from guidegen.publication.typography import units_kept

SHEET = "rundown.html"
"""Name of the sheet in a theme."""


def rundown_page(rundown: Rundown, theme: Path, *, language: str) -> str:
    """The sheet; a theme without one, or with a fault in it, is a ``ThemeError``."""
    try:
        sheet = environment_of(theme).get_template(SHEET)
        text = sheet.render(rundown=rundown, head=head_words(rundown), length_of=length_words, language=language)
    except TemplateNotFound as error:
        raise ThemeError(f"{theme.name}/sheets: came no {error.name}, expected the sheet that a rundown is printed on") from error
    except (TemplateError, TypeError, ValueError, LookupError, AttributeError) as error:
        raise ThemeError(f"{place_of(error, theme)}: {error}") from error
    return units_kept(text.lstrip())
