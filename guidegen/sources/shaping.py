"""Plain values shaped into records; every way in which they don't fit, said in words."""

import re
from collections.abc import Callable
from typing import Any, TypeVar

from pydantic import TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from guidegen.errors import Fault, nearest_name
from guidegen.origins import Origin, Step
from guidegen.sources.strict_yaml import Marks, marks_of

T = TypeVar("T")

_NUMBER_WITH_UNIT = re.compile(r"^(-?[0-9]+(?:[.,][0-9]+)?)\s*(?:%|°C|[A-Za-zµΩ()/]+)$")
_DECIMAL_COMMA = re.compile(r"^-?[0-9]+,[0-9]+$")
_NUMBER = re.compile(r"^-?[0-9]+(\.[0-9]+)?$")
_NUMBER_KINDS = ("float_type", "int_type", "float_parsing", "int_parsing", "int_from_float")


_ADAPTERS: dict[type[Any], TypeAdapter[Any]] = {}


def adapter(kind: type[T]) -> TypeAdapter[T]:
    """The checker of a record kind; made once."""
    if kind not in _ADAPTERS:
        _ADAPTERS[kind] = TypeAdapter(kind)
    return _ADAPTERS[kind]


def shape(kind: type[T], value: Any, *, file: str, text: str) -> tuple[T | None, list[Fault]]:
    """A record of this kind, or every fault that keeps the value from being one."""
    try:
        return adapter(kind).validate_python(value), []
    except ValidationError as error:
        marks = marks_of(text, file)
        lines = text.splitlines()
        details = error.errors(include_url=False)
        return None, [_fault(kind, one, file=file, marks=marks, lines=lines) for one in details]


def _fault(kind: type[Any], detail: ErrorDetails, *, file: str, marks: Marks, lines: list[str]) -> Fault:
    path = tuple(step for step in detail["loc"] if step in _known_steps(detail["loc"], marks))
    missing = detail["type"] in ("missing", "missing_argument")
    place = marks.get(path) or marks.get(path[:-1]) or next(
        (marks[path[:i]] for i in range(len(path), -1, -1) if path[:i] in marks), (0, 0)
    )
    came, expected, nearest = _words(kind, detail, path)
    line, column = place
    return Fault(
        origin=Origin(file, path), line=line, column=column, came="" if missing else came, expected=expected,
        nearest=nearest, text=lines[line - 1] if 0 < line <= len(lines) else "",
        rule="missing" if missing else "shape",
    )


def _known_steps(steps: tuple[int | str, ...], marks: Marks) -> tuple[Step, ...]:
    """The steps that are a person's own: names of alternatives that the checker adds are left out."""
    kept: tuple[Step, ...] = ()
    for i, step in enumerate(steps):
        last = i == len(steps) - 1
        if (*kept, step) in marks or (last and step != "[key]" and not str(step).startswith("function-")):
            kept = (*kept, step)
    return kept


def _words(kind: type[Any], detail: ErrorDetails, path: tuple[Step, ...]) -> tuple[str, str, str]:
    """What came, what was expected, and the nearest right name."""
    value, context = detail["input"], detail.get("ctx", {})
    name = str(path[-1]) if path else ""
    say = _SAYINGS.get(detail["type"])
    if detail["type"] == "unexpected_keyword_argument":
        known = _fields_at(kind, path[:-1])
        return name, "a field of this record", nearest_name(name, known)
    if detail["type"] == "literal_error":
        words = tuple(re.findall(r"'([^']*)'", str(context.get("expected", "")))) or (str(context.get("expected")),)
        return shown(value), f"one of {', '.join(words)}", nearest_name(str(value), words)
    if detail["type"] in _NUMBER_KINDS:
        whole = " whole" if detail["type"].startswith("int") else ""
        return shown(value), _number_wanted(value, whole), ""
    if say is not None:
        return shown(value), say(context, name), ""
    return shown(value), detail["msg"][:1].lower() + detail["msg"][1:], ""


def _number_wanted(value: Any, whole: str) -> str:
    text = str(value).strip()
    with_unit = _NUMBER_WITH_UNIT.match(text)
    if _DECIMAL_COMMA.match(text):
        return f"a number with a point as decimal mark, {text.replace(',', '.')}"
    if with_unit:
        return f"{with_unit.group(1).replace(',', '.')} alone: the unit stands in the field's name"
    if isinstance(value, str) and _NUMBER.match(text):
        return f"the{whole} number {text} without quotation marks"
    return f"a{whole} number"


def shown(value: Any) -> str:
    """A value as it stands in the file, cut where it is long."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "a group of fields"
    if isinstance(value, list | tuple):
        return f"a list of {len(value)}"
    text = "nothing" if value is None else str(value)
    return text if len(text) <= 60 else text[:59] + "…"


def _bound(word: str, key: str) -> Callable[[dict[str, Any], str], str]:
    return lambda context, _: f"a number {word} {context.get(key):g}"


def _plain(words: str) -> Callable[[dict[str, Any], str], str]:
    return lambda _context, _name: words


_SAYINGS: dict[str, Callable[[dict[str, Any], str], str]] = {
    "missing": lambda _, name: f"the field {name}",
    "greater_than": _bound("above", "gt"),
    "greater_than_equal": _bound("of at least", "ge"),
    "less_than": _bound("below", "lt"),
    "less_than_equal": _bound("of at most", "le"),
    "finite_number": _plain("a finite number"),
    "bool_type": _plain("true or false"),
    "date_type": _plain("a day, written year-month-day without quotation marks"),
    "string_type": _plain("text, in quotation marks if it looks like a number or a day"),
    "string_too_short": lambda context, _: f"at least {context.get('min_length')} characters",
    "string_too_long": lambda context, _: f"at most {context.get('max_length')} characters",
    "too_short": lambda context, _: f"at least {context.get('min_length')} entries",
    "too_long": lambda context, _: f"at most {context.get('max_length')} entries",
    "string_pattern_mismatch": _plain("small letters and digits with single -, . or _ between them"),
    "dataclass_type": _plain("a group of fields"),
    "tuple_type": _plain("a list"),
    "dict_type": _plain("a group of fields"),
}


def _fields_at(kind: type[Any], path: tuple[Step, ...]) -> tuple[str, ...]:
    """The names of the fields that a record has at a path, read from its schema."""
    schema = adapter(kind).json_schema()
    node: dict[str, Any] = schema
    for step in path:
        node = _resolved(node, schema)
        node = node.get("items", {}) if isinstance(step, int) else node.get("properties", {}).get(step, {})
    return tuple(_resolved(node, schema).get("properties", {}))


def _resolved(node: dict[str, Any], schema: dict[str, Any]) -> dict[str, Any]:
    for option in node.get("anyOf", ()):
        if option.get("type") != "null":
            node = option
            break
    name = str(node.get("$ref", "")).rsplit("/", 1)[-1]
    resolved: dict[str, Any] = schema.get("$defs", {}).get(name, node)
    return resolved
