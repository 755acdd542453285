"""YAML read strictly: what a person could misread, or a reader misunderstand, is a fault and not a surprise.

The quick way builds values with the C parser and no positions; only when a fault is to be shown is the file read again
with a mark for every value.
"""

import re
from collections.abc import Hashable
from dataclasses import dataclass
from datetime import date
from typing import Any

import yaml

from guidegen.errors import Fault
from guidegen.origins import Origin, Step

MAXIMUM_BYTES = 2_000_000
MAXIMUM_DEPTH = 20

_INTEGER = re.compile(r"^-?(0|[1-9][0-9]*)$")
_DECIMAL = re.compile(r"^-?(0|[1-9][0-9]*)\.[0-9]+$")
_DAY = re.compile(r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$")
_TRAPS: tuple[tuple[re.Pattern[str], str], ...] = (
    (re.compile(r"^(yes|no|on|off|y|n)$", re.IGNORECASE), "true or false, or the word in quotation marks"),
    (re.compile(r"^(True|TRUE|False|FALSE)$"), "true or false in small letters"),
    (re.compile(r"^(~|Null|NULL)$"), "null, or the field left out"),
    (re.compile(r"^-?0[0-9]+$"), "a number without leading zeros, or the digits in quotation marks"),
    (re.compile(r"^[0-9]+(:[0-5]?[0-9])+(\.[0-9]*)?$"), "the text in quotation marks, or a plain number of one unit"),
    (re.compile(r"^-?[0-9.]+[eE][-+]?[0-9]+$"), "the number written out, without a power of ten"),
    (re.compile(r"^[-+]?\.(inf|nan)$", re.IGNORECASE), "a finite number"),
    (re.compile(r"^(\+[0-9.]+|-?\.[0-9]+|-?[0-9]+\.)$"), "a number with digits before and after the point and no plus sign"),
    (re.compile(r"^-?[0-9][0-9_]*_[0-9_.]*$"), "a number without underscores"),
    (re.compile(r"^0[xob][0-9a-fA-F]+$"), "a decimal number, or the text in quotation marks"),
)

_WORDS: dict[str, bool | None] = {"true": True, "false": False, "null": None, "": None}

Marks = dict[tuple[Step, ...], tuple[int, int]]
"""Line and column, from 1, of every value by its path."""


class NotStrictError(Exception):
    """What stands in a file can't be taken as it is; carries the plain fact and its place."""

    def __init__(self, came: str, expected: str, mark: Any) -> None:
        self.came, self.expected = came, expected
        self.line = mark.line + 1 if mark else 0
        self.column = mark.column + 1 if mark else 0
        super().__init__(f"came {came}, expected {expected}")


_Base: Any = yaml.CSafeLoader if yaml.__with_libyaml__ else yaml.SafeLoader


class _StrictLoader(_Base):  # type: ignore[misc]
    """Builds plain values; refuses whatever has two readings."""

    depth = 0

    def compose_node(self, parent: Any, index: Any) -> Any:
        """A node, unless it is an alias, bears an anchor or a tag, or lies too deep."""
        event = self.peek_event()
        if isinstance(event, yaml.AliasEvent):
            raise NotStrictError(f"*{event.anchor}", "the value itself, written out", event.start_mark)
        if event.anchor is not None:
            raise NotStrictError(f"&{event.anchor}", "a value without an anchor", event.start_mark)
        if event.tag is not None:
            raise NotStrictError(str(event.tag), "a value without a tag", event.start_mark)
        self.depth += 1
        if self.depth > MAXIMUM_DEPTH:
            raise NotStrictError("nesting", f"at most {MAXIMUM_DEPTH} levels", event.start_mark)
        node = super().compose_node(parent, index)
        self.depth -= 1
        return node


def value_of(node: yaml.ScalarNode) -> str | int | float | bool | date | None:
    """The value of a scalar, by rules of our own that have one reading each."""
    text = str(node.value)
    if node.style is not None or text in _WORDS:
        return _WORDS.get(text, text) if node.style is None else text
    if _INTEGER.match(text):
        return int(text) if len(text) < 18 else float(text)
    if _DECIMAL.match(text):
        return float(text)
    if _DAY.match(text):
        return _day(node)
    for trap, expected in _TRAPS:
        if trap.match(text):
            raise NotStrictError(text, expected, node.start_mark)
    return text


def _day(node: yaml.ScalarNode) -> date:
    try:
        return date.fromisoformat(node.value)
    except ValueError as error:
        raise NotStrictError(node.value, "a day of the calendar, year-month-day", node.start_mark) from error


def _build(node: yaml.Node, marks: Marks | None, path: tuple[Step, ...]) -> Any:
    """Plain values from nodes; positions are kept where ``marks`` is given."""
    if marks is not None:
        marks[path] = (node.start_mark.line + 1, node.start_mark.column + 1)
    if isinstance(node, yaml.ScalarNode):
        return value_of(node)
    if isinstance(node, yaml.SequenceNode):
        return [_build(item, marks, (*path, i)) for i, item in enumerate(node.value)]
    if not isinstance(node, yaml.MappingNode):
        raise NotStrictError("an unknown kind of value", "a text, number, list or mapping", node.start_mark)
    return _build_mapping(node, marks, path)


def _build_mapping(node: yaml.MappingNode, marks: Marks | None, path: tuple[Step, ...]) -> dict[Hashable, Any]:
    built: dict[Hashable, Any] = {}
    for key_node, item in node.value:
        if not isinstance(key_node, yaml.ScalarNode):
            raise NotStrictError("a list or mapping as a name", "a plain name before the colon", key_node.start_mark)
        key = str(key_node.value)
        if key == "<<":
            raise NotStrictError("<<", "the fields themselves, written out", key_node.start_mark)
        if key in built:
            raise NotStrictError(f"{key} a second time", "each field once", key_node.start_mark)
        built[key] = _build(item, marks, (*path, key))
        if marks is not None:
            marks[(*path, key)] = (key_node.start_mark.line + 1, key_node.start_mark.column + 1)
    return built


@dataclass(frozen=True, slots=True)
class Parsed:
    """What a file holds."""

    value: Any
    """Plain values: dicts, lists, texts, numbers, days."""
    fault: Fault | None
    """Why it can't be read, or nothing."""


def decode(raw: bytes, file: str) -> tuple[str, Fault | None]:
    """The text of a file, or why it isn't text."""
    origin = Origin(file)
    if len(raw) > MAXIMUM_BYTES:
        return "", Fault(origin=origin, came=f"{len(raw)} bytes", expected=f"at most {MAXIMUM_BYTES} bytes", rule="size")
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "", Fault(origin=origin, came="UTF-16", expected="UTF-8 text", rule="encoding")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        return "", Fault(origin=origin, line=line, came=f"byte {raw[error.start]:#04x}", expected="UTF-8 text", rule="encoding")
    if "\0" in text:
        line = text.count("\n", 0, text.index("\0")) + 1
        return "", Fault(origin=origin, line=line, came="a NUL character", expected="text", rule="encoding")
    return text, None


def parse(text: str, file: str) -> Parsed:
    """The values of a YAML text, the quick way; a fault says where it can't be taken as it stands."""
    return _parse(text, file, None)


def marks_of(text: str, file: str) -> Marks:
    """Where every value stands; as far as the file can be read."""
    marks: Marks = {}
    _parse(text, file, marks)
    return marks


def _parse(text: str, file: str, marks: Marks | None) -> Parsed:
    try:
        loader = _StrictLoader(text)
        try:
            node = loader.get_single_node()
            return Parsed(None if node is None else _build(node, marks, ()), None)
        finally:
            loader.dispose()
    except NotStrictError as error:
        refused = error
    except yaml.MarkedYAMLError as error:
        refused = NotStrictError("", _said(error), error.problem_mark)
    except yaml.YAMLError as error:
        refused = NotStrictError(str(error).splitlines()[0], "YAML", None)
    except RecursionError:
        refused = NotStrictError("nesting", f"at most {MAXIMUM_DEPTH} levels", None)
    return Parsed(None, _fault(text, file, refused))


def _said(error: yaml.MarkedYAMLError) -> str:
    """What the parser missed, as an expectation."""
    problem = error.problem or "YAML"
    if "cannot start any token" in problem and "\\t" in problem:
        return "spaces where a tab stands"
    if "expected a single document" in str(error.context or "") or "another document" in problem:
        return "one document, without a second ---"
    return f"well-formed YAML ({problem})"


def _fault(text: str, file: str, refused: NotStrictError) -> Fault:
    lines = text.splitlines()
    shown = lines[refused.line - 1] if 0 < refused.line <= len(lines) else ""
    return Fault(
        origin=Origin(file), line=refused.line, column=refused.column, came=refused.came, expected=refused.expected,
        text=shown, rule="yaml",
    )
