"""Plain values shaped into records; every way in which they don't fit, said in words.

Faults leave here without lines: ``placing`` adds them, together with what stands in the file.
"""

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any, TypeVar

from pydantic import TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from guidegen.errors import Fault, nearest_name
from guidegen.origins import Origin, Step
from guidegen.sources.documents import MOST_FAULTS
from guidegen.sources.kinds import allowed_words, field_names, unit_of
from guidegen.sources.scalars import TRUTH, without_comma

T = TypeVar("T")

UNKNOWN, MISSING = "unknown-field", "missing"
"""Rules of faults that are about a field's name: it is placed at the name, or at the group around it."""
_COMMA = re.compile(r"([-+]?[0-9]+),([0-9]+(?:\.[0-9]+)?)|([-+]?[0-9]{1,3}(?:\.[0-9]{3})+),([0-9]+)")
_WITH_UNIT = re.compile(r"([-+]?[0-9]+(?:[.,][0-9]+)?)\s*([%°µΩA-Za-z(][%°µΩA-Za-z()/]*)")
_NUMBER = re.compile(r"[-+]?[0-9]+(\.[0-9]+)?")
FEW_FIELDS = 8
"""So many fields of a group are named where something else stands in its place."""
_FOREIGN_DAY = re.compile(r"([0-9]{1,4})[./-]([0-9]{1,2})[./-]([0-9]{1,4})")
_SPELLINGS = {"dba": "dB(A)", "db": "dB(A)", "uf": "µF", "μf": "µF", "c": "°C", "rpm": "1/min", "percent": "%"}


_ADAPTERS: dict[type[Any], TypeAdapter[Any]] = {}


def adapter(kind: type[T]) -> TypeAdapter[T]:
    """The checker of a kind of record; made once, when it is first needed."""
    if kind not in _ADAPTERS:
        _ADAPTERS[kind] = TypeAdapter(kind)
    return _ADAPTERS[kind]


def shape(kind: type[T], value: object, *, file: str, above: tuple[Step, ...] = ()) -> tuple[T | None, tuple[Fault, ...]]:
    """A record of this kind, or every fault that keeps the value from being one; ``above`` is the way to the value."""
    try:
        return adapter(kind).validate_python(value), ()
    except ValidationError as error:
        details = error.errors(include_url=False, include_context=True)[:MOST_FAULTS]
        faults = tuple(_fault(kind, detail, origin=Origin(file, above)) for detail in details)
        return None, _without_echoes(faults)


def _without_echoes(faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """A misspelt field is also missing under its right name, and a list of faulty items seems too short: one fault each."""
    meant = {(*fault.origin.path[:-1], fault.nearest) for fault in faults if fault.rule == UNKNOWN}
    told = [fault for fault in faults if fault.rule != MISSING or fault.origin.path not in meant]
    inside = {fault.origin.path[:i] for fault in told for i in range(len(fault.origin.path))}
    return tuple(fault for fault in told if not (fault.came.startswith("a list of") and fault.origin.path in inside))


def unechoed(shapeless: tuple[Fault, ...], refused: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """Faults of the shape that are not just the echo of a value that was refused before."""
    paths = {fault.origin.path for fault in refused}
    return tuple(
        fault for fault in shapeless
        if not any(fault.origin.path[:end] in paths for end in range(len(fault.origin.path) + 1))
    )


def meant(refused: tuple[Fault, ...], shapeless: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """The refused values, a word for true or false with what its field wants where that is neither."""
    wanted = {fault.origin.path: fault for fault in shapeless if fault.rule == "shape"}
    return tuple(
        replace(fault, expected=there.expected, nearest=there.nearest)
        if fault.came.lower() in TRUTH and (there := wanted.get(fault.origin.path)) is not None else fault
        for fault in refused
    )


def _fault(kind: type[Any], detail: ErrorDetails, *, origin: Origin) -> Fault:
    path = tuple(step for step in detail["loc"] if step != "[key]")
    place = origin.at(*path)
    if detail["type"] == "unexpected_keyword_argument":
        return _unknown(kind, path, place=place)
    if detail["type"] in ("missing", "missing_keyword_only_argument"):
        return Fault(origin=place, came="nothing", expected=f"the field {path[-1]}{_in_unit(str(path[-1]))}", rule=MISSING)
    if detail["type"] == "literal_error":
        return _not_a_word(kind, path, place=place, value=detail["input"])
    if detail["type"] == "date_type":
        return Fault(origin=place, came=shown(detail["input"]), expected=_day(detail["input"], origin.file))
    name = next((step for step in reversed(path) if isinstance(step, str)), "")
    expected = _EXPECTED.get(detail["type"], _anything)(detail, name)
    names = field_names(kind, path) if detail["type"] == "dataclass_type" else ()
    expected += f": {', '.join(names)}" if 0 < len(names) <= FEW_FIELDS else ""
    nearest = identifier_like(str(detail["input"])) if detail["type"] == "string_pattern_mismatch" else ""
    return Fault(origin=place, came=shown(detail["input"]), expected=expected, nearest=nearest)


def _unknown(kind: type[Any], path: tuple[Step, ...], *, place: Origin) -> Fault:
    known = field_names(kind, path[:-1])
    nearest = nearest_name(str(path[-1]), known)
    expected = "a field of this group" if nearest or not known else f"one of {', '.join(known)}"
    return Fault(origin=place, came=str(path[-1]), expected=expected, nearest=nearest, rule=UNKNOWN)


def _not_a_word(kind: type[Any], path: tuple[Step, ...], *, place: Origin, value: object) -> Fault:
    words = allowed_words(kind, path)
    nearest = nearest_name(str(value).lower(), words)
    ordered = (nearest, *(word for word in words if word != nearest)) if nearest else words
    expected = f"one of {', '.join(ordered)}" if len(ordered) > 1 else ordered[0]
    return Fault(origin=place, came=shown(value), expected=expected, nearest=nearest)


def identifier_like(words: str) -> str:
    """The identifier that some words come nearest to, or an empty text.

    >>> identifier_like("Kiln 650 (v2)")
    'kiln-650-v2'
    """
    return re.sub(r"[^a-z0-9.]+", "-", words.lower()).strip("-.")[:80]


def shown(value: object) -> str:
    """A value in few words, as it stands in a file."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "a group of fields"
    if isinstance(value, list | tuple):
        return f"a list of {len(value)}"
    text = "nothing" if value is None else str(value) or "an empty text"
    return text if len(text) <= 60 else f"{text[:59]}…"


def _in_unit(name: str) -> str:
    unit = unit_of(name)
    return f" ({unit})" if unit else ""


def _number(detail: ErrorDetails, name: str) -> str:
    """What a field of numbers expects, with the correction where it can be seen."""
    whole = "a whole number" if detail["type"].startswith("int") else "a number"
    unit = unit_of(name)
    wanted = f"{whole} in {unit}" if unit else whole
    text = detail["input"].strip() if isinstance(detail["input"], str) else ""
    comma = _COMMA.fullmatch(text)
    if comma is not None:
        return without_comma(comma[1] or comma[3], comma[2] or comma[4])
    if _NUMBER.fullmatch(text):
        return f"{whole} without quotes, {text}"
    with_unit = _WITH_UNIT.fullmatch(text)
    if with_unit is None:
        return wanted
    stands = _SPELLINGS.get(with_unit[2].lower(), with_unit[2])
    if unit and stands.lower() != unit.lower():
        return f"{wanted} alone; the unit stands in the field's name"
    figure = with_unit[1].replace(",", ".")
    return f"{figure}, the unit stands in the field's name" if unit else f"{figure} alone"


def _bound(word: str, key: str) -> Callable[[ErrorDetails, str], str]:
    def say(detail: ErrorDetails, name: str) -> str:
        return f"{_number({**detail, 'input': None}, name)} {word} {detail['ctx'][key]:g}"

    return say


def _day(came: object, file: str) -> str:
    """What a day should be; where day and month could be either, as the name of the file has it."""
    found = _FOREIGN_DAY.fullmatch(str(came).strip())
    if found is None:
        return "a day, year-month-day without quotes such as 2026-03-02"
    first, middle, last = (int(part) for part in found.groups())
    year, day = (first, last) if first > last else (last, first)
    if first <= last and f"{year:04}-{first:02}-{middle:02}" in file:
        middle, day = first, middle
    try:
        return f"a day, year-month-day without quotes, {date(year, middle, day).isoformat()}"
    except ValueError:
        return "a day of the calendar, year-month-day without quotes"


def _text(detail: ErrorDetails, _name: str) -> str:
    return "text" if isinstance(detail["input"], dict | list) else "text; put quotes around it"


def _count(what: str, word: str, key: str) -> Callable[[ErrorDetails, str], str]:
    def say(detail: ErrorDetails, _name: str) -> str:
        count = detail["ctx"][key]
        return f"{word} {count} {what}{'' if count == 1 else 's'}"

    return say


def _plain(words: str) -> Callable[[ErrorDetails, str], str]:
    return lambda _detail, _name: words


_GROUP = _plain("a group of fields, one below the other")
_anything = _plain("a value of another kind")
_EXPECTED: dict[str, Callable[[ErrorDetails, str], str]] = {
    "float_type": _number,
    "float_parsing": _number,
    "int_type": _number,
    "int_parsing": _number,
    "int_from_float": _number,
    "finite_number": _number,
    "greater_than": _bound("above", "gt"),
    "greater_than_equal": _bound("of at least", "ge"),
    "less_than": _bound("below", "lt"),
    "less_than_equal": _bound("of at most", "le"),
    "bool_type": _plain("true or false in small letters"),
    "string_type": _text,
    "string_too_short": _count("character", "at least", "min_length"),
    "string_too_long": _count("character", "at most", "max_length"),
    "string_pattern_mismatch": _plain("small letters and digits with single -, . or _ between them"),
    "too_short": _count("item", "at least", "min_length"),
    "too_long": _count("item", "at most", "max_length"),
    "tuple_type": _plain("a list, each item behind a dash"),
    "dict_type": _GROUP,
    "dataclass_type": _GROUP,
}
"""What to say for each way in which pydantic refuses a value."""
