"""Proof-reading of an edition in memory: what a reader would stumble over stops the publication."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from urllib.parse import unquote, urljoin, urlsplit

from guidegen.errors import PublicationError
from guidegen.publication.edition import Edition
from guidegen.publication.links import OUTSIDE

_LINKS = {"a": "href", "link": "href", "script": "src", "img": "src", "use": "href"}
_OUTSIDE = (*OUTSIDE, "data:")


@dataclass(slots=True)
class _Svg:
    """A drawing while it is read."""

    attributes: dict[str, str]
    title: str = ""


@dataclass(slots=True)
class _Found:
    """What proof-reading looks at on a page."""

    ids: Counter[str] = field(default_factory=Counter)
    links: dict[str, int] = field(default_factory=dict)
    headings: int = 0
    title: str = ""
    faults: list[str] = field(default_factory=list)


class _Reader(HTMLParser):
    """Collects ids, links, headings and names of one page."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found = _Found()
        self._drawings: list[_Svg] = []
        self._in_title = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take down what the tag tells."""
        attributes = {name: value or "" for name, value in attrs}
        line = self.getpos()[0]
        if "id" in attributes:
            self.found.ids[attributes["id"]] += 1
        if "style" in attributes:
            self.found.faults.append(f"line {line}: {tag} has a style attribute, which the security policy drops")
        if tag in _LINKS and _LINKS[tag] in attributes:
            self.found.links.setdefault(attributes[_LINKS[tag]], line)
        if tag == "h1":
            self.found.headings += 1
        elif tag == "title":
            self._in_title = True
        elif tag == "svg":
            self._drawings.append(_Svg(attributes))
        elif tag == "img" and not attributes.get("alt", "").strip():
            self.found.faults.append(f"line {line}: a picture without words ({attributes.get('src', '')[:60]})")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """A tag that closes itself opens nothing."""
        self.handle_starttag(tag, attrs)
        if tag in ("svg", "title"):
            self.handle_endtag(tag)

    def handle_data(self, data: str) -> None:
        """Keep the words of titles."""
        if self._in_title and self._drawings:
            self._drawings[-1].title += data
        elif self._in_title:
            self.found.title += data

    def handle_endtag(self, tag: str) -> None:
        """Judge a drawing when it ends."""
        if tag == "title":
            self._in_title = False
        elif tag == "svg" and self._drawings:
            drawing = self._drawings.pop()
            named = drawing.attributes.get("role") == "img" and (drawing.title.strip() or drawing.attributes.get("aria-label"))
            if not named and drawing.attributes.get("aria-hidden") != "true":
                self.found.faults.append(f"line {self.getpos()[0]}: a drawing without a name")


def proof_read(edition: Edition, public_address: str) -> None:
    """Raise a ``PublicationError`` with every fault of every page; return where there is none."""
    faults = problems(edition, public_address)
    if faults:
        raise PublicationError("\n".join(faults))


def problems(edition: Edition, public_address: str) -> tuple[str, ...]:
    """Every fault of every page, with page and line where it has one."""
    pages = {page.path: _read(page.content.decode()) for page in edition.pages}
    paths = {file.path for file in edition.files}
    faults = [f"{path}: {fault}" for path, found in pages.items() for fault in _page_faults(found)]
    for path, found in pages.items():
        faults += (f"{path}: line {line}: the link {link!r} leads nowhere{why}"
                   for link, line in found.links.items()
                   if (why := _dead(urljoin(public_address + path, link), public_address, paths, pages)) is not None)
    titles = Counter(found.title for found in pages.values())
    faults += [f"{path}: the title {found.title!r} is that of another page, too"
               for path, found in pages.items() if titles[found.title] > 1]
    return tuple(faults)


def _read(text: str) -> _Found:
    reader = _Reader()
    reader.feed(text)
    reader.close()
    return reader.found


def _page_faults(found: _Found) -> Iterator[str]:
    yield from found.faults
    if found.headings != 1:
        yield f"{found.headings} headings of the first level, expected one"
    if not found.title.strip():
        yield "no title"
    yield from (f"the id {name!r} stands {count} times" for name, count in found.ids.items() if count > 1 or not name)


def _dead(link: str, public_address: str, paths: set[str], pages: dict[str, _Found]) -> str | None:
    """Why a link is dead, or nothing where it leads somewhere."""
    if not link.startswith(public_address):
        return None if link.startswith(_OUTSIDE) else ": it leaves the site without https"
    parts = urlsplit(link[len(public_address):])
    path, fragment = unquote(parts.path), unquote(parts.fragment)
    path = f"{path}index.html" if path == "" or path.endswith("/") else path
    if path not in paths:
        return f": there is no {path}"
    if fragment and path in pages and fragment not in pages[path].ids:
        return f": {path} has no #{fragment}"
    return None
