"""Pages of prose: a head between two lines of ``---``, then Markdown."""

import re
from collections import Counter
from collections.abc import Iterator

from guidegen.errors import Fault, nearest_name
from guidegen.origins import Origin
from guidegen.records import GLOSSARY, Manuscript, TermForms
from guidegen.records.kinds import Text, record
from guidegen.sources.documents import line_text, lines_of
from guidegen.sources.shaping import shape
from guidegen.sources.strict_yaml import read_yaml

_HEAD = re.compile(r"---[ \t]*\r?\n(.*?)^---[ \t]*\r?(?:\n|\Z)", re.DOTALL | re.MULTILINE)
_HEADING = re.compile(r"(?m)^## +(.+)$")
_ANCHOR = re.compile(r" *\{#[a-z0-9-]+\}$")


@record
class Head:
    """What stands above the prose."""

    title: Text
    """Heading of the page."""
    description: Text
    """One sentence for lists and search engines."""
    terms: tuple[TermForms, ...] = ()
    """On the page ``words``: how a term is written in running text, where not like its heading."""


def head_of(text: str) -> str:
    """The head of a page as YAML, with an empty line where ``---`` stood so that lines count alike."""
    found = _HEAD.match(text)
    return f"\n{found[1]}" if found else ""


def read_manuscript(text: str, file: str, identifier: str) -> tuple[Manuscript | None, tuple[Fault, ...]]:
    """A page of prose, or every fault in its head."""
    found = _HEAD.match(text)
    if found is None:
        first = line_text(lines_of(text), 1)
        came = "an opening line --- without a closing one" if first.rstrip() == "---" else "a page without a head"
        expected = "title: and description: between two lines of ---, then the prose"
        return None, (Fault(origin=Origin(file), line=1, came=came, expected=expected, text=first, rule="prose"),)
    reading = read_yaml(file, head_of(text))
    if reading.faults:
        return None, reading.faults
    head, faults = shape(Head, reading.value or {}, file=file)
    if head is None:
        return None, faults
    page = Manuscript(
        id=identifier, file=file, title=head.title, description=head.description,
        body=text[found.end() :], body_line=found[0].count("\n") + 1, terms=head.terms,
    )
    return page, tuple(_term_faults(page))


def _term_faults(page: Manuscript) -> Iterator[Fault]:
    """Terms on another page than the glossary's, terms that it does not explain, and forms that stand for two."""
    top = Origin(page.file, ("terms",))
    if page.terms and page.id != GLOSSARY:
        yield Fault(origin=top, came="terms", expected=f"terms on the page {GLOSSARY} alone", rule="reference")
        return
    known = tuple(_ANCHOR.sub("", heading.strip()) for heading in _HEADING.findall(page.body))
    for place, term in enumerate(page.terms):
        if term.heading not in known:
            yield Fault(
                origin=top.at(place, "heading"), came=term.heading, expected="a heading of this page",
                nearest=nearest_name(term.heading, known), rule="reference",
            )
    forms = Counter(form.lower() for term in page.terms for form in term.written)
    for place, term in enumerate(page.terms):
        for number, form in enumerate(term.written):
            if forms[form.lower()] > 1:
                yield Fault(origin=top.at(place, "written", number), came=form, expected="each form once", rule="duplicate")
