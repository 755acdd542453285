"""Every field of the records that takes free text, found by its type, and records with other texts in these fields."""

from collections.abc import Callable
from dataclasses import fields, is_dataclass
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

from pydantic import StringConstraints

Field = tuple[str, str]
"""Kind of record and field."""
Take = Callable[[Field], str]
"""Gives the text for the next slot of a field."""
LOOKED_UP: frozenset[Field] = frozenset({
    ("Part", "finding"), ("Gate", "findings"), ("Limit", "finding"), ("ChoiceRule", "finding"),
    ("Limit", "unit"), ("Limit", "applies_to"), ("Accepted", "field"), ("UnitPicture", "file"), ("Correction", "file"),
    ("Correction", "field"), ("TermForms", "heading"), ("TermForms", "written"),
    ("TermForms", "found_by"),
})
"""Texts that must be the name of something else in the content, or are looked for in it and printed nowhere."""
ADDRESSES: frozenset[Field] = frozenset({
    ("GuideRecord", "public_address"), ("GuideRecord", "data_licence"), ("PriceRow", "link"), ("Moved", "from_address"),
    ("Moved", "to_address"),
})
"""Texts that are addresses; they have a test of their own."""
CODES: frozenset[Field] = frozenset({
    ("Region", "currency"), ("PriceRow", "currency"), ("Provenance", "sha256"),
})
"""Codes of a fixed length; the currency of a price must be its region's."""
PROSE: frozenset[Field] = frozenset(
    {("Bracket", "serves"), ("UnitRecord", "editor_note"), ("Manuscript", "body"), ("Correction", "words")}
)
"""Texts that are Markdown with numbers bound to the data."""


def is_free(hint: Any) -> bool:
    """Whether a type, or what a collection or an alternative of it holds, is text without a pattern."""
    origin = get_origin(hint)
    if origin is Annotated:
        base, *rules = get_args(hint)
        return is_free(base) and not any(isinstance(rule, StringConstraints) and rule.pattern for rule in rules)
    if origin in (tuple, Union, UnionType):
        return any(is_free(inner) for inner in get_args(hint))
    return hint is str


def free_fields(*kinds: type[Any]) -> frozenset[Field]:
    """Every field of free text in records of these kinds and in all that they are made of."""
    found: set[Field] = set()
    for kind in kinds:
        for name, hint in get_type_hints(kind, include_extras=True).items():
            if is_free(hint):
                found.add((kind.__name__, name))
            found |= free_fields(*_records_in(hint))
    return frozenset(found)


def _records_in(hint: Any) -> tuple[type[Any], ...]:
    if isinstance(hint, type) and is_dataclass(hint):
        return (hint,)
    return tuple(one for inner in get_args(hint) for one in _records_in(inner))


def filled(record: Any, take: Take) -> dict[str, Any]:
    """The record as plain groups and lists with each free text taken anew; a free text that was left out is filled, too."""
    kind = type(record)
    hints = get_type_hints(kind, include_extras=True)
    whole: dict[str, Any] = {}
    for field in fields(record):
        place, value = (kind.__name__, field.name), getattr(record, field.name)
        if is_free(hints[field.name]) and place not in LOOKED_UP | ADDRESSES | CODES:
            whole[field.name] = take(place)
        elif value is not None:
            whole[field.name] = _plain(value, take)
    return whole


def _plain(value: Any, take: Take) -> Any:
    if is_dataclass(value):
        return filled(value, take)
    return [_plain(item, take) for item in value] if isinstance(value, tuple) else value
