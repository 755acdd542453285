"""What a YAML parser complains of, in words for the person who wrote the file."""

import re

import yaml

from guidegen.errors import Fault
from guidegen.origins import Origin
from guidegen.sources.documents import line_text, lines_of, within

_QUOTES = "quotes around the text"
_ADVICE = (
    ("exceeded maximum nesting depth", "the fields of a record; so many groups or lists inside each other are none"),
    ("mapping values are not allowed", 'one "name: value" on a line; text that holds ": " needs quotes'),
    ("could not find expected ':'", "a colon and a space behind the field's name"),
    ("did not find expected ',' or ']'", "a comma or the closing ]"),
    ("did not find expected ',' or '}'", "a comma or the closing }"),
    ("did not find expected node content", "a value, and every bracket closed"),
    ("did not find expected '-' indicator", "a dash before each item, all under each other"),
    ("did not find expected key", "fields that stand under each other, and quotes closed only at the end of a text"),
    ("block sequence entries are not allowed", "a list on its own lines below the field's name"),
    ("found unexpected end of stream", "the same quote again where the text ends"),
    ("found unknown escape character", "single quotes round the text, or \\\\ for a backslash"),
    ("did not find expected hexdecimal number", "single quotes round the text, or \\\\ for a backslash"),
    ("did not find expected alphabetic or numeric character", "quotes round text that begins with * or &"),
    ("found undefined tag handle", "quotes round text that begins with !"),
    ("did not find expected tag", "quotes round text that begins with !"),
    ("did not find expected '!'", "quotes round text that begins with !"),
    ("found a tab character", "spaces; a tab can't indent"),
    ("did not find expected <document start>", "one record in the file, its fields under each other"),
)
"""Beginnings of libyaml's problems, and what to write."""
_STARTS = {
    "\t": "spaces; a tab can't indent",
    "@": "quotes round text that begins with @",
    "`": "quotes round text that begins with a backtick",
    "%": "quotes round text that begins with %",
}
"""Characters that can't begin a value."""
_GLUED = re.compile(r"\s*(?:- +)?(?P<name>\w+):(?P<value>[^\s:].*)")
"""A field whose value begins right behind the colon: to YAML, one text without a value."""


def syntax_fault(file: str, text: str, error: yaml.YAMLError) -> Fault:
    """The fault that a parser's error stands for."""
    problem = str(getattr(error, "problem", "") or "")
    unclosed = "quoted scalar" in str(getattr(error, "context", "")) and "end of stream" in problem
    # Where the text breaks off says little; where the quote was opened says all.
    mark = getattr(error, "context_mark" if unclosed else "problem_mark", None)
    lines = lines_of(text)
    glued = _glued_fault(file, lines, error)
    if glued is not None:
        return glued
    line, column = (mark.line + 1, mark.column + 1) if mark is not None else (1, 1)
    left_open = _where_left_open(lines, error)
    line, column = left_open or within(lines, line, column)
    found = line_text(lines, line)
    character = "" if left_open else found[column - 1 : column]
    came = "a quote that is never closed" if unclosed else _came(character)
    return Fault(
        origin=Origin(file), line=line, column=column, came=came, expected=_expected(problem, character, found),
        text=found, rule="yaml",
    )


def _glued_fault(file: str, lines: list[str], error: yaml.YAMLError) -> Fault | None:
    """The fault of a field without a space behind its colon, where the parser stumbles only on the line after it."""
    begun, stumbled = getattr(error, "context_mark", None), getattr(error, "problem_mark", None)
    if "simple key" in str(getattr(error, "context", "")) and begun is not None:
        line = begun.line + 1
    elif "mapping values" in str(getattr(error, "problem", "")) and stumbled is not None:
        line = stumbled.line
    else:
        return None
    found = _GLUED.fullmatch(line_text(lines, line))
    if found is None:
        return None
    name, value = found["name"], found["value"]
    return Fault(
        origin=Origin(file), line=line, column=found.start("value") + 1, came=f"{name}:{value}",
        expected=f"a space behind the colon, {name}: {value}", text=found[0], rule="yaml",
    )


def _where_left_open(lines: list[str], error: yaml.YAMLError) -> tuple[int, int] | None:
    """The end of a line that should have had a comma or the closing bracket, where the parser stumbles only on a later line."""
    opened, stumbled = getattr(error, "context_mark", None), getattr(error, "problem_mark", None)
    if "parsing a flow" not in str(getattr(error, "context", "")) or opened is None or stumbled is None:
        return None
    for line in range(min(stumbled.line, len(lines)), opened.line, -1):
        written = lines[line - 1].partition(" #")[0].rstrip()
        if written and not written.lstrip().startswith("#"):
            return None if written.endswith(",") else (line, len(written) + 1)
    return None


def _came(character: str) -> str:
    names = {"": "the end of the line", "\t": "a tab", " ": "a space"}
    return names.get(character, character)


def _expected(problem: str, character: str, line: str) -> str:
    if problem.startswith("found character that cannot start") and character in _STARTS:
        return _STARTS[character]
    if line.lstrip(" ").startswith("\t"):
        return _STARTS["\t"]
    advice = next((words for start, words in _ADVICE if start in problem), "")
    return advice or f"lines of the form name: value, or {_QUOTES}"
