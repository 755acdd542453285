"""Prose: Markdown with numbers bound to the data, turned into HTML that can hold nothing else.

A name in double braces stands for a published value; an unknown name is a fault, so nothing in the prose goes stale.
Names are looked up in a flat table and never evaluated.
"""

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from guidegen.errors import Fault, nearest_name
from guidegen.origins import Origin
from guidegen.presentation.markdown import Place, set_markdown
from guidegen.presentation.pieces import Chart, Section, Table, Worksheet
from guidegen.records import Picture

BOUND = re.compile(r"\{\{\s*([^{}\n]{1,200}?)\s*\}\}")
INSERT = re.compile(r"^\{\{\s*insert\.([a-z0-9_.-]+)\s*\}\}$")
HEADING = re.compile(r"(?m)^## +(.+)$")
ANCHORED = re.compile(r"(.+?) *\{#([a-z0-9]+(?:-[a-z0-9]+)*)\}")
_MARKDOWN = re.compile(r"([\\`*_\[\]<>&!#|~])")
_LINE_ENDS = re.compile("[\n\r\x85\u2028\u2029]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Bindings:
    """What prose may refer to."""

    values: Mapping[str, str]
    """Published values by name, as printed."""
    inserts: Mapping[str, Table | Chart | Worksheet]
    """Tables, charts and worksheets by name, for a line ``{{ insert.name }}`` of its own."""
    pictures: Mapping[str, Picture] = field(default_factory=dict)
    """Pictures of the content, by file."""
    places: Mapping[str, Collection[str]] = field(default_factory=dict)
    """Names that addresses may have after ``unit:``, ``watts:``, ``page:`` and ``words:``; of a kind that isn't here, any."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A piece of prose before it is set."""

    text: str
    """Markdown."""
    origin: Origin
    """Where it stands."""
    first_line: int = 0
    """Line of the file on which it begins; 0 where only the field is known."""


def bind(written: Written, bindings: Bindings, faults: list[Fault]) -> str:
    """The text with every name replaced by its value, which is no Markdown; unknown names are added to ``faults``."""

    def value(match: re.Match[str]) -> str:
        name = match.group(1)
        if name in bindings.values:
            return _MARKDOWN.sub(r"\\\1", _LINE_ENDS.sub(" ", bindings.values[name]))
        line = written.first_line + written.text.count("\n", 0, match.start()) if written.first_line else 0
        column = match.start() - written.text.rfind("\n", 0, match.start())
        expected, nearest = _expected(name, bindings.values)
        faults.append(
            Fault(
                origin=written.origin, line=line, column=column if line else 0, came=name,
                expected=expected, nearest=nearest,
                rule="prose",
            )
        )
        return ""

    return BOUND.sub(value, written.text)


def _expected(name: str, values: Mapping[str, str]) -> tuple[str, str]:
    """What should stand in place of an unknown name, and the nearest to it: of a unit that there is never another unit's number."""
    known, end = tuple(values), ".name"
    owners = (one.removesuffix("name") for one in known if one.startswith("units.") and one.endswith(end))
    owner = next((one for one in owners if name.startswith(one)), "")
    if not owner:
        return "the name of a published value", nearest_name(name, known)
    own = tuple(one.removeprefix(owner) for one in known if one.startswith(owner))
    nearest = nearest_name(name.removeprefix(owner), own)
    expected = f"the name of a published value; {owner.split('.', 1)[1][:-1]} has no such number"
    expected += f" (compared numbers are those at {values['policy.mains']} of mains, the guide's own)" if "policy.mains" in values else ""
    return expected, f"{owner}{nearest}" if nearest else ""


def inline(written: Written, bindings: Bindings, *, page: str, faults: list[Fault]) -> str:
    """One paragraph as HTML, without the paragraph's own tags."""
    return set_markdown(bind(written, bindings, faults), _place(written, bindings, page), faults, inline=True)


def _place(written: Written, bindings: Bindings, page: str) -> Place:
    return Place(origin=written.origin, first_line=written.first_line, page=page, pictures=bindings.pictures, places=bindings.places)


def sections(written: Written, bindings: Bindings, *, page: str, faults: list[Fault]) -> tuple[Section, ...]:
    """A page of prose as sections, one for each second-level heading, with its tables and charts."""
    parts = HEADING.split(written.text)
    starts = _line_starts(parts, written.first_line)
    stretches = [("", parts[0], starts[0]), *zip(parts[1::2], parts[2::2], starts[1:], strict=True)]
    _refuse_equal_anchors(written.origin, stretches[1:], faults)
    return tuple(
        _section(title, Written(text=body, origin=written.origin, first_line=line), bindings, page, faults)
        for title, body, line in stretches
        if title or body.strip()
    )


def _refuse_equal_anchors(origin: Origin, stretches: list[tuple[str, str, int]], faults: list[Fault]) -> None:
    """A fault for each heading whose anchor another one above it has already."""
    lines: dict[str, int] = {}
    for heading, _, line in stretches:
        anchor, title = heading_of(heading)
        first = lines.setdefault(anchor, line)
        if first != line:
            faults.append(Fault(
                origin=origin, line=line, came=f"the heading {title!r} with the anchor {anchor} of line {first}",
                expected="an anchor of its own, such as one written behind it in braces: {#another-name}", rule="prose",
            ))


def _line_starts(parts: list[str], first_line: int) -> list[int]:
    """The line on which each stretch begins, from the lengths of those before it."""
    lines, line = [first_line], first_line + parts[0].count("\n")
    for body in parts[2::2]:
        lines.append(line)
        line += body.count("\n")
    return lines


def _section(heading: str, written: Written, bindings: Bindings, page: str, faults: list[Fault]) -> Section:
    anchor, title = heading_of(heading)
    kept: list[str] = []
    tables: list[Table] = []
    charts: list[Chart] = []
    worksheet = None
    for offset, line in enumerate(written.text.split("\n")):
        insert = INSERT.match(line.strip())
        if insert is None:
            kept.append(line)
            continue
        kept.append("")
        piece = bindings.inserts.get(insert.group(1))
        if piece is not None and not heading:
            faults.append(Fault(
                origin=written.origin, line=written.first_line + offset, came=f"insert.{insert.group(1)} above the first heading",
                expected="it below a heading (## and its words): tables and charts have no place in the opening words", rule="prose",
            ))
        elif isinstance(piece, Table):
            tables.append(piece)
        elif isinstance(piece, Chart):
            charts.append(piece)
        elif isinstance(piece, Worksheet):
            worksheet = piece
        else:
            faults.append(
                Fault(
                    origin=written.origin, line=written.first_line + offset, came=insert.group(1),
                    expected="the name of a table, chart or worksheet",
                    nearest=nearest_name(insert.group(1), tuple(bindings.inserts)), rule="prose",
                )
            )
    body = Written(text="\n".join(kept), origin=written.origin, first_line=written.first_line)
    html = set_markdown(bind(body, bindings, faults), _place(body, bindings, page), faults)
    return Section(
        id=anchor, title=title, html=html, tables=tuple(tables), charts=tuple(charts), worksheet=worksheet
    )


def heading_of(heading: str) -> tuple[str, str]:
    """Anchor and words of a heading; an anchor written behind the words stays when they change.

    >>> heading_of("Why not the largest?"), heading_of("Decibel, dB(A) {#decibel}")
    (('why-not-the-largest', 'Why not the largest?'), ('decibel', 'Decibel, dB(A)'))
    """
    found = ANCHORED.fullmatch(heading.strip())
    return (found[2], found[1]) if found else (slug(heading), heading.strip())


def headings(text: str) -> tuple[tuple[str, str], ...]:
    """Anchor and words of each second-level heading of a page."""
    return tuple(heading_of(heading) for heading in HEADING.findall(text))


def slug(title: str) -> str:
    """An anchor made from a heading.

    >>> slug("Why not the largest number?")
    'why-not-the-largest-number'
    """
    return re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")
