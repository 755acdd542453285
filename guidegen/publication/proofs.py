"""Proof-reading of an edition: what a reader would stumble over stops the publication."""

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass
from urllib.parse import unquote, urljoin, urlsplit

from guidegen.errors import PublicationError
from guidegen.publication.links import OUTSIDE
from guidegen.publication.page_readings import PageReading, line_of

_OUTSIDE = (*OUTSIDE, "data:")
Look = Callable[[str], str]
"""The text of a page by its path, for the few that are looked at again."""


@dataclass(frozen=True, slots=True)
class Proofs:
    """An edition as proof-reading sees it."""

    pages: Mapping[str, PageReading]
    """What was read on each page, by path."""
    paths: Collection[str]
    """Every file of the edition."""
    public_address: str
    """Where the site stands, with a closing ``/``."""

    def problems(self, look: Look) -> tuple[str, ...]:
        """Every fault of every page, with page and line where it has one."""
        faults = [f"{path}: {fault}" for path, found in self.pages.items() for fault in found.faults]
        faults += (f"{path}: line {line_of(look(path), link)}: the link {link!r} leads nowhere{why}"
                   for path, link, why in self._dead_links())
        titles = Counter(found.title for found in self.pages.values())
        faults += [f"{path}: the title {found.title!r} is that of another page, too"
                   for path, found in self.pages.items() if titles[found.title] > 1]
        return tuple(faults)

    def pass_or_refuse(self, look: Look) -> None:
        """Raise a ``PublicationError`` with every fault of every page; return where there is none."""
        faults = self.problems(look)
        if faults:
            raise PublicationError("\n".join(faults))

    def _dead_links(self) -> Iterator[tuple[str, str, str]]:
        """Page, link and reason; links that pages of one depth share are followed once."""
        known: dict[tuple[str, int], str | None] = {}
        for path, found in self.pages.items():
            depth = path.count("/")
            up = "../" * depth
            for link in found.links:
                shared = (link, depth) if link.startswith((up, *_OUTSIDE)) and not link.startswith("#") and depth else None
                if shared is None or shared not in known:
                    why = self._dead(urljoin(self.public_address + path, link))
                    if shared is not None:
                        known[shared] = why
                else:
                    why = known[shared]
                if why is not None:
                    yield path, link, why

    def _dead(self, link: str) -> str | None:
        """Why a link is dead, or nothing where it leads somewhere."""
        if not link.startswith(self.public_address):
            return None if link.startswith(_OUTSIDE) else ": it leaves the site without https"
        parts = urlsplit(link[len(self.public_address):])
        path, fragment = unquote(parts.path), unquote(parts.fragment)
        path = f"{path}index.html" if path == "" or path.endswith("/") else path
        if path not in self.paths:
            return f": there is no {path}"
        if fragment and path in self.pages and fragment not in self.pages[path].ids:
            return f": {path} has no #{fragment}"
        return None
