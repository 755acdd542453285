"""Words that the glossary explains, made into links where a page first uses them in running text."""

import re
from collections.abc import Iterator
from html import escape

from guidegen.presentation.sheets import Site
from guidegen.publication.links import link_from

_TAG = re.compile(r"(<[^>]*>)")
_ID = re.compile(r'\bid="([^"]*)"')
_RUNNING = frozenset(("p", "li"))
"""Elements that hold running text."""
_APART = frozenset(("a", "button", "code", "figcaption", "h1", "h2", "h3", "label", "nav", "pre", "script", "summary", "svg", "table"))
"""Elements in which a word is no running text, or may hold no link."""


_READ = re.compile(rf"</?({'|'.join(sorted((*_RUNNING, *_APART)))})(?![a-z0-9])[^>]*>")
"""The tags that matter; they are few among those of a page with drawings and tables."""


class Glossary:
    """The terms of a site, ready to be found."""

    def __init__(self, site: Site) -> None:
        self._site = site
        self._terms = {escape(form).lower(): term for term in site.terms for form in term.written}
        forms = sorted(self._terms, key=lambda form: (-len(form), form))
        spaced = "|".join(r"\s+".join(map(re.escape, form.split())) for form in forms)
        self._pattern = re.compile(rf"(?<![\w-])(?:{spaced})(?![\w-])", re.IGNORECASE) if forms else None

    def linked(self, html: str, page: str) -> str:
        """A page on which the first use of each term leads to what it means; the words stay as they are."""
        start, end = html.find("<main"), html.find("</main>")
        if self._pattern is None or start < 0:
            return html
        reading = _Reading(self, page)
        body = "".join(reading.pieces(html[start:end]))
        return f"{html[:start]}{body}{html[end:]}"

    def words(self, text: str, page: str, used: set[str], section: str) -> str:
        """Running text with links; ``used`` has the terms that the page links already and gets those that it does now."""
        if self._pattern is None:
            return text

        def link(match: re.Match[str]) -> str:
            term = self._terms[" ".join(match[0].lower().split())]
            if term.address in used or term.address == f"{page}#{section}":
                return match[0]
            used.add(term.address)
            address = link_from(page, term.address, self._site.public_address)
            return f'<a class="term" href="{escape(address)}">{match[0]}</a>'

        return self._pattern.sub(link, text)


class _Reading:
    """A page read from tag to tag."""

    def __init__(self, glossary: Glossary, page: str) -> None:
        self._glossary, self._page = glossary, page
        self._used: set[str] = set()
        self._running = self._apart = 0
        self._section = ""

    def pieces(self, html: str) -> Iterator[str]:
        """Tags as they are, running text with links."""
        done = 0
        for tag in _READ.finditer(html):
            yield self._between(html[done:tag.start()])
            yield tag[0]
            self._enter(tag[0], tag[1])
            done = tag.end()
        yield self._between(html[done:])

    def _between(self, html: str) -> str:
        if not self._running or self._apart or not html.strip():
            return html
        parts = _TAG.split(html)
        parts[::2] = [self._glossary.words(text, self._page, self._used, self._section) for text in parts[::2]]
        return "".join(parts)

    def _enter(self, tag: str, name: str) -> None:
        step = -1 if tag.startswith("</") else 0 if tag.endswith("/>") else 1
        self._running += step * (name in _RUNNING)
        self._apart += step * (name in _APART)
        if name == "h2" and (anchor := _ID.search(tag)):
            self._section = anchor[1]
