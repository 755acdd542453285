"""Pages of prose: a head between two lines of ``---``, then Markdown."""

from dataclasses import replace

from guidegen.errors import Fault
from guidegen.origins import Origin
from guidegen.records import Manuscript
from guidegen.records.kinds import Text, record
from guidegen.sources.shaping import shape
from guidegen.sources.strict_yaml import parse

HEAD = "---"


@record
class Head:
    """What stands above the prose."""

    title: Text
    """Heading of the page."""
    description: Text
    """One sentence for lists and search engines."""


def read_manuscript(text: str, file: str, identifier: str) -> tuple[Manuscript | None, list[Fault]]:
    """A page of prose, or every fault in its head."""
    lines = text.split("\n")
    if lines[0].rstrip() != HEAD or HEAD not in (line.rstrip() for line in lines[1:]):
        wanted = f"a head: {HEAD}, title: and description:, {HEAD}"
        return None, [Fault(origin=Origin(file), line=1, came=lines[0][:60], expected=wanted, text=lines[0], rule="prose")]
    end = next(i for i, line in enumerate(lines[1:], start=1) if line.rstrip() == HEAD)
    head_text = "\n".join(["", *lines[1:end]])
    parsed = parse(head_text, file)
    if parsed.fault is not None:
        return None, [parsed.fault]
    head, faults = shape(Head, parsed.value if parsed.value is not None else {}, file=file, text=head_text)
    if head is None:
        return None, [replace(fault, line=fault.line or 1) for fault in faults]
    return Manuscript(
        id=identifier, file=file, title=head.title, description=head.description,
        body="\n".join(lines[end + 1 :]), body_line=end + 2,
    ), []
