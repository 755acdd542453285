"""The form of a CSV log, told by its first lines: separator, decimal mark, and where each column of the mapping stands."""

import csv
import io
import re
from dataclasses import dataclass

from guidegen.errors import ContentError, Fault, nearest_name
from guidegen.origins import Origin
from guidegen.records import LogField, LogMapping
from guidegen.sources.documents import UTF8_MARK, decoded, lines_of

SEPARATORS = {"comma": ",", "semicolon": ";", "tab": "\t"}
"""Separators by the word that a mapping has for them."""
MARKS = {"point": ".", "comma": ","}
"""Decimal marks by the word that a mapping has for them."""
MOST_COLUMNS = 500
"""Columns that a log may have."""
_COMMA_NUMBER = re.compile(r"[-+]?[0-9]+,[0-9]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Used:
    """A column of the mapping, found in the heading."""

    name: str
    """Heading."""
    field: LogField
    """What it stands for."""
    place: int
    """Place among the columns, from 0."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """How a log is to be read."""

    file: str
    """Name of the log as it is printed."""
    mapping: LogMapping
    """The mapping."""
    heading: tuple[str, ...]
    """All headings."""
    time: int
    """Place of the time, from 0."""
    used: tuple[Used, ...]
    """Columns of the mapping, in its order."""
    separator: str = ","
    """What stands between cells; of no meaning in a workbook."""
    decimal: str = "."
    """Decimal mark; of no meaning in a workbook."""

    @property
    def first_line(self) -> int:
        """Line of the first reading, from 1."""
        return self.mapping.rows_above + self.mapping.header_rows + 1


def refuse(file: str, came: str, expected: str, *, line: int = 0, text: str = "") -> ContentError:
    """The error of one fault about a log as a whole or about one of its lines."""
    fault = Fault(
        origin=Origin(file), line=line, column=1 if line else 0, came=came, expected=expected, text=text, rule="log"
    )
    return ContentError((fault,))


def form_of(start: bytes, mapping: LogMapping, file: str) -> Form:
    """The form of a CSV log from its first bytes, which end with a whole line where the file is longer."""
    text = _start_text(start, mapping, file)
    lines = lines_of(text)
    above = mapping.rows_above
    if len(lines) <= above or not lines[above].strip():
        raise refuse(file, "an empty log" if not text.strip() else "no heading", f"a heading on line {above + 1}", line=above + 1)
    line = lines[above]
    separator = _separator(line, mapping)
    rows = _cells(text, separator)
    heading = tuple(cell.strip() for cell in rows[above]) if len(rows) > above else ()
    other = next((word for word, mark in SEPARATORS.items() if mark != separator and mark in line), "")
    if len(heading) == 1 and other:
        word = next(word for word, mark in SEPARATORS.items() if mark == separator)
        raise refuse(file, f"cells between {other}s", f"cells between {word}s, or separator: {other} in the mapping", line=above + 1, text=line)
    time, used = placed_columns(heading, mapping, file, text=line)
    sample = [row[one.place].strip() for row in rows[above + mapping.header_rows :] for one in used if one.place < len(row)]
    return Form(
        file=file, mapping=mapping, heading=heading, time=time, used=used, separator=separator,
        decimal=_decimal(sample, mapping, separator),
    )


def placed_columns(
    heading: tuple[str, ...], mapping: LogMapping, file: str, *, text: str = ""
) -> tuple[int, tuple[Used, ...]]:
    """The place of the time and of every column of the mapping; raises a ``ContentError`` for each that is not there."""
    wanted = (mapping.time.column, *mapping.columns)
    line = mapping.rows_above + 1
    faults = []
    for name in wanted:
        if heading.count(name) == 1:
            continue
        nearest = nearest_name(name, tuple(other for other in heading if other not in wanted))
        came = f"{name} a second time" if name in heading else nearest or f"{len(heading)} columns without it"
        expected = f"the column {name} once" if name in heading else f"the column {name}, as the mapping has it"
        expected += f"; or {nearest} in the mapping" if nearest else ""
        faults.append(Fault(
            origin=Origin(file).at(name), line=line, column=max(text.find(nearest or name), 0) + 1, came=came, expected=expected,
            text=text, rule="log",
        ))
    if len(heading) > MOST_COLUMNS:
        faults.append(Fault(origin=Origin(file), line=line, came=f"{len(heading)} columns", expected=f"at most {MOST_COLUMNS}", rule="log"))
    if faults:
        raise ContentError(tuple(faults))
    used = tuple(Used(name=name, field=field, place=heading.index(name)) for name, field in mapping.columns.items())
    return heading.index(mapping.time.column), used


def _start_text(start: bytes, mapping: LogMapping, file: str) -> str:
    """The first lines as characters."""
    if start.startswith(UTF8_MARK) and mapping.encoding == "utf-8":
        expected = "text in UTF-8 without it, or encoding: utf-8-with-mark in the mapping"
        raise refuse(file, "a byte order mark", expected, line=1)
    text = decoded(start, file)
    if isinstance(text, Fault):
        raise ContentError((text,))
    return text


def _separator(line: str, mapping: LogMapping) -> str:
    if mapping.separator != "detect":
        return SEPARATORS[mapping.separator]
    return max((";", "\t", ","), key=line.count)


def _cells(text: str, separator: str) -> list[list[str]]:
    """The first rows; what a quote that is never closed swallows is left to the reading of the whole."""
    return list(csv.reader(io.StringIO(text, newline=""), delimiter=separator))[:200]


def _decimal(sample: list[str], mapping: LogMapping, separator: str) -> str:
    """The decimal mark: a comma where a comma stands in a number, which no log with points between its digits has."""
    if mapping.decimal != "detect":
        return MARKS[mapping.decimal]
    commas = any(_COMMA_NUMBER.fullmatch(cell) for cell in sample)
    return "," if commas and separator != "," else "."
