"""Proof-reading of an edition: what a reader would stumble over stops the publication."""

import re
from collections import Counter
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass
from urllib.parse import unquote, urljoin, urlsplit

from guidegen.errors import PublicationError
from guidegen.publication.links import OUTSIDE
from guidegen.publication.page_readings import PageReading, line_of

_OUTSIDE = (*OUTSIDE, "data:")
_DOWNWARD = re.compile(r"(?:[\w-][\w.-]*/)*(?:[\w-][\w.-]*)?", re.ASCII)
"""Links into the page's own folder and below, written plainly: most of all, and resolved without asking RFC 3986."""
Target = tuple[str, str | None]
"""A file of the edition, and why a link to it is dead, or nothing."""
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
    sound: Collection[str] = ()
    """Pages whose links were found good before and lead to nothing that has gone since."""

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
        """Page, link and reason; files that pages of one depth share are looked for once."""
        known: dict[tuple[str, int], Target] = {}
        for path, found in self.pages.items():
            if path in self.sound:
                continue
            depth = path.count("/")
            shared = ("../" * depth, *_OUTSIDE) if depth else ()
            for link in found.links:
                file, mark, fragment = link.partition("#")
                if not file and mark:
                    target: Target = (path, None)
                elif not file.startswith(shared):
                    target = self._target(path, file)
                else:
                    target = known.get((file, depth)) or known.setdefault((file, depth), self._target(path, file))
                why = target[1] or self._lost(target[0], fragment)
                if why is not None:
                    yield path, link, why

    def _target(self, path: str, link: str) -> Target:
        """The file that a link without its fragment leads to, and why it leads nowhere; an empty name outside the site."""
        if _DOWNWARD.fullmatch(link):
            return self._found(path[:path.rfind("/") + 1] + link)
        whole = urljoin(self.public_address + path, link)
        if not whole.startswith(self.public_address):
            return "", None if whole.startswith(_OUTSIDE) else ": it leaves the site without https"
        return self._found(unquote(urlsplit(whole[len(self.public_address):]).path))

    def _found(self, file: str) -> Target:
        """A file of the edition, and why there is none; a folder stands for its first page."""
        file = f"{file}index.html" if file == "" or file.endswith("/") else file
        return file, None if file in self.paths else f": there is no {file}"

    def _lost(self, file: str, fragment: str) -> str | None:
        """Why a fragment is nowhere on its page, or nothing where it is there."""
        if not fragment or file not in self.pages:
            return None
        name = unquote(fragment)
        return None if name in self.pages[file].ids else f": {file} has no #{name}"
