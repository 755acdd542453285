"""A finished edition in memory, and what tells machines about its pages (sitemap, robots)."""

from dataclasses import dataclass
from xml.sax.saxutils import escape

from guidegen.presentation.addresses import LOST
from guidegen.presentation.sheets import Publication, Site
from guidegen.press import File
from guidegen.publication.links import file_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """Everything that is put in place."""

    files: tuple[File, ...]
    """Files in the order in which they are made."""

    @property
    def pages(self) -> tuple[File, ...]:
        """The HTML pages."""
        return tuple(file for file in self.files if file.path.endswith(".html"))


def bindings_of(publication: Publication) -> tuple[File, ...]:
    """What holds the pages together for machines: a sitemap and a robots file; a frozen edition has neither."""
    if publication.site.archive:
        return ()
    return sitemap(publication.site, tuple(map(file_of, publication.findable))), robots(publication.site)


def sitemap(site: Site, pages: tuple[str, ...]) -> File:
    """The list of pages for search engines (sitemaps.org, protocol 0.9), without the page for lost readers."""
    places = (escape(site.public_address + page.removesuffix("index.html")) for page in pages if page != LOST)
    urls = "".join(f"<url><loc>{place}</loc><lastmod>{escape(site.date)}</lastmod></url>\n" for place in places)
    text = ('<?xml version="1.0" encoding="UTF-8"?>\n'
            f'<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">\n{urls}</urlset>\n')
    return File(path="sitemap.xml", content=text.encode())


def robots(site: Site) -> File:
    """Leave for every robot, and the way to the sitemap."""
    text = f"User-agent: *\nAllow: /\nSitemap: {site.public_address}sitemap.xml\n"
    return File(path="robots.txt", content=text.encode())
