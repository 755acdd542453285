"""Descriptions of pages turned into files by a theme: the only room that reads ``themes/``.

It may import the presentation room, the press, origins and errors. An edition is rendered and proof-read as a whole
before it is put in place, so a failure leaves the last good site as it was.
"""

from guidegen.publication.edition import Edition
from guidegen.publication.publishing import Watch, print_edition, publish_edition, render_edition
from guidegen.publication.rendering import Printer
from guidegen.publication.rundown_sheet import rundown_page
from guidegen.publication.theme import find_theme, unknown_theme

__all__ = [
    "Edition", "Printer", "Watch", "find_theme", "print_edition", "publish_edition", "render_edition", "rundown_page", "unknown_theme",
]
