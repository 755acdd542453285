"""A finished edition: its files, and what tells machines about them (sitemap, robots, manifest)."""

import json
import re
from dataclasses import dataclass
from hashlib import sha256
from xml.sax.saxutils import escape

from guidegen.errors import PublicationError
from guidegen.presentation.addresses import LOST
from guidegen.presentation.sheets import Site

_PATH = re.compile(r"[A-Za-z0-9_-][A-Za-z0-9._-]*(/[A-Za-z0-9_-][A-Za-z0-9._-]*)*")
"""Plain file names below one another: nothing hidden, nothing that climbs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class File:
    """A file of the edition."""

    path: str
    """Path from the root of the site, with ``/``."""
    content: bytes
    """Content."""

    @property
    def digest(self) -> str:
        """SHA-256 of the content, in hexadecimal."""
        return sha256(self.content).hexdigest()


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """Everything that is put in place; a file of an unfit or repeated path can't be part of it."""

    files: tuple[File, ...]
    """Files in the order they are written: what pages rest on comes before the pages."""

    def __post_init__(self) -> None:
        seen: set[str] = set()
        for file in self.files:
            if not is_fit_path(file.path):
                raise PublicationError(f"{file.path!r}: came an unfit path, expected plain names joined by /")
            if file.path.casefold() in seen:
                raise PublicationError(f"{file.path}: came twice (large and small letters count alike), expected once")
            seen.add(file.path.casefold())

    @property
    def pages(self) -> tuple[File, ...]:
        """The HTML pages."""
        return tuple(file for file in self.files if file.path.endswith(".html"))

    @property
    def build(self) -> str:
        """Build id: equal for equal editions."""
        listed = "\n".join(f"{file.path} {file.digest}" for file in sorted(self.files, key=lambda f: f.path))
        return sha256(listed.encode()).hexdigest()[:16]

    def manifest(self) -> bytes:
        """The list of files that this edition owns, with their SHA-256."""
        files = {file.path: file.digest for file in self.files}
        return (json.dumps({"build": self.build, "files": files}, indent=1, sort_keys=True) + "\n").encode()


def is_fit_path(path: str) -> bool:
    r"""Whether a path may name a file of an edition.

    >>> [is_fit_path(path) for path in ("unit/one/index.html", "../x", ".gitignore", "a//b", "a\\\\b")]
    [True, False, False, False, False]
    """
    return _PATH.fullmatch(path) is not None


def bound_edition(site: Site, *, pages: tuple[File, ...], others: tuple[File, ...]) -> Edition:
    """The edition made of its pages and other files, with a sitemap and a robots file."""
    return Edition(files=(*others, *pages, sitemap(site, pages), robots(site)))


def sitemap(site: Site, pages: tuple[File, ...]) -> File:
    """The list of pages for search engines (sitemaps.org, protocol 0.9), without the page for lost readers."""
    places = (escape(site.public_address + page.path.removesuffix("index.html")) for page in pages if page.path != LOST)
    urls = "".join(f"<url><loc>{place}</loc><lastmod>{escape(site.date)}</lastmod></url>\n" for place in places)
    text = ('<?xml version="1.0" encoding="UTF-8"?>\n'
            f'<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">\n{urls}</urlset>\n')
    return File(path="sitemap.xml", content=text.encode())


def robots(site: Site) -> File:
    """Leave for every robot, and the way to the sitemap."""
    text = f"User-agent: *\nAllow: /\nSitemap: {site.public_address}sitemap.xml\n"
    return File(path="robots.txt", content=text.encode())
