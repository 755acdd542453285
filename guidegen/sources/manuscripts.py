"""Pages of prose: a head between two lines of ``---``, then Markdown."""

import re

from guidegen.errors import Fault
from guidegen.origins import Origin
from guidegen.records import Manuscript
from guidegen.records.kinds import Text, record
from guidegen.sources.documents import line_text, lines_of
from guidegen.sources.shaping import shape
from guidegen.sources.strict_yaml import read_yaml

_HEAD = re.compile(r"---[ \t]*\r?\n(.*?)^---[ \t]*\r?(?:\n|\Z)", re.DOTALL | re.MULTILINE)


@record
class Head:
    """What stands above the prose."""

    title: Text
    """Heading of the page."""
    description: Text
    """One sentence for lists and search engines."""


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
    body_line = found[0].count("\n") + 1
    return Manuscript(
        id=identifier, file=file, title=head.title, description=head.description,
        body=text[found.end() :], body_line=body_line,
    ), ()
