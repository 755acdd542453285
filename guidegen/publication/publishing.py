"""The room's two doors: an edition in memory, and an edition in its folder."""

from pathlib import Path

from guidegen.presentation.sheets import Publication
from guidegen.publication.assets import Assets
from guidegen.publication.edition import Edition, File, bound_edition
from guidegen.publication.output_folder import Written, put_in_place
from guidegen.publication.proofs import proof_read
from guidegen.publication.rendering import render_sheets
from guidegen.publication.theme import find_theme


def render_edition(publication: Publication, *, theme: str, themes: Path) -> Edition:
    """The finished edition in memory, proof-read; ``themes`` is searched for the theme before what is packaged."""
    folder = find_theme(theme, themes)
    assets = Assets.read(folder)
    pages = render_sheets(publication, folder, assets)
    data = tuple(File(path=one.address, content=one.text.encode()) for one in publication.files)
    binaries = tuple(File(path=one.address, content=one.content) for one in publication.binaries)
    edition = bound_edition(publication.site, pages=pages, others=(*assets.files, *data, *binaries))
    proof_read(edition, publication.site.public_address)
    return edition


def publish_edition(publication: Publication, *, theme: str, themes: Path, output: Path) -> Written:
    """The edition put into ``output``: only what changed is written, and only files of an earlier edition removed."""
    return put_in_place(render_edition(publication, theme=theme, themes=themes), output)
