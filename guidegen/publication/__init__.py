"""Descriptions of pages turned into files: the only room that reads ``themes/`` and writes ``output/``.

It may import the presentation room, origins and errors. Nothing is written before the whole edition is rendered and
proof-read in memory, so a failure leaves the last good site as it was.
"""

from guidegen.publication.edition import Edition, File
from guidegen.publication.output_folder import Written
from guidegen.publication.publishing import publish_edition, render_edition

__all__ = ["Edition", "File", "Written", "publish_edition", "render_edition"]
