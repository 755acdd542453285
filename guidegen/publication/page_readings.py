"""A finished page read back: its ids, its links, its title, and what is wrong with it by itself.

A library reads pages fast and tells no lines; a page on which it finds something wrong is read a second time, slowly,
to say where.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any, Self

from selectolax.lexbor import LexborHTMLParser, LexborNode

LINKS = {"a": "href", "link": "href", "script": "src", "img": "src", "use": "href"}
"""Elements that point elsewhere, with the attribute that does."""
_POINTING = ",".join(f"{tag}[{name}]" for tag, name in LINKS.items())


@dataclass(frozen=True, slots=True)
class PageReading:
    """What proof-reading needs to know of a page."""

    title: str
    """Title of the window."""
    ids: frozenset[str]
    """Every id."""
    links: tuple[str, ...]
    """Every address that the page points at, each once, in order."""
    faults: tuple[str, ...]
    """What is wrong with the page by itself, with its line where it has one."""

    @classmethod
    def of(cls, text: str) -> Self:
        """A page read back."""
        page = LexborHTMLParser(text)
        ids = [node.attributes["id"] or "" for node in page.css("[id]")]
        links = dict.fromkeys(str(node.attributes[LINKS[str(node.tag)]] or "") for node in page.css(_POINTING))
        title = page.css_first("head > title")
        words = title.text() if title is not None else ""
        sound = len(set(ids)) == len(ids) and "" not in ids and len(page.css("h1")) == 1 and words.strip()
        faults = () if sound and _is_named(page) else tuple(_faults(text))
        return cls(words, frozenset(ids), tuple(links), faults)

    def kept(self) -> list[Any]:
        """The reading as plain JSON; a page with faults is never kept."""
        return [self.title, sorted(self.ids), list(self.links)]

    @classmethod
    def from_kept(cls, kept: list[Any]) -> Self:
        """The reading from what ``kept`` gave."""
        title, ids, links = kept
        return cls(title, frozenset(ids), tuple(links), ())


def _is_named(page: LexborHTMLParser) -> bool:
    """Whether drawings and pictures have words, and nothing is styled in place."""
    return (not page.css("[style]") and all((node.attributes.get("alt") or "").strip() for node in page.css("img"))
            and all(_drawing_named(node) for node in page.css("svg")))


def _drawing_named(node: LexborNode) -> bool:
    title = node.css_first("title")
    words = (title.text() if title is not None else "").strip() or node.attributes.get("aria-label")
    return bool(node.attributes.get("role") == "img" and words) or node.attributes.get("aria-hidden") == "true"


def line_of(text: str, link: str) -> int:
    """The first line of a page on which it points at an address."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    return reader.found.links.get(link, 0)


def _faults(text: str) -> Iterator[str]:
    """What is wrong with a page by itself."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    found = reader.found
    yield from found.faults
    if found.headings != 1:
        yield f"{found.headings} headings of the first level, expected one"
    if not found.title.strip():
        yield "no title"
    yield from (f"the id {name!r} stands {count} times" for name, count in found.ids.items() if count > 1 or not name)


@dataclass(slots=True)
class _Svg:
    """A drawing while it is read."""

    attributes: dict[str, str]
    title: str = ""


@dataclass(slots=True)
class _Found:
    """What the slow reading looks at."""

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
        if tag in LINKS and LINKS[tag] in attributes:
            self.found.links.setdefault(attributes[LINKS[tag]], line)
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
