"""A field of a record found by its path, and the same records with another value in it."""

import re
from dataclasses import fields, is_dataclass, replace
from typing import Any, Protocol

from guidegen.origins import Step
from guidegen.records.guide import GuideRecord
from guidegen.records.library import Library
from guidegen.records.parts import PartsRecord
from guidegen.records.policy import PolicyRecord
from guidegen.records.prices import PriceList
from guidegen.records.session import Session
from guidegen.records.unit import Unit

_STEP = re.compile(r"\[(?:0|[1-9][0-9]*)\]|[^.\[\]]+")
_SINGLE = {"guide.yaml": "guide", "policy.yaml": "policy", "parts.yaml": "parts"}


class Records(Protocol):
    """Records by their files: a library, or as much of one as could be read."""

    @property
    def guide(self) -> GuideRecord | None:
        """``guide.yaml``."""

    @property
    def policy(self) -> PolicyRecord | None:
        """``policy.yaml``."""

    @property
    def parts(self) -> PartsRecord | None:
        """``parts.yaml``."""

    @property
    def units(self) -> tuple[Unit, ...]:
        """Units."""

    @property
    def sessions(self) -> tuple[Session, ...]:
        """Sessions."""

    @property
    def prices(self) -> tuple[PriceList, ...]:
        """Price lists."""


def steps_of(field: str) -> tuple[Step, ...]:
    """The path that a written field stands for, as ``Origin.field`` writes it; empty where it is none.

    >>> steps_of("rails[0].rated_current_a"), steps_of("[12].price"), steps_of("rails[")
    (('rails', 0, 'rated_current_a'), (12, 'price'), ())
    """
    steps: list[Step] = []
    rest = field
    while rest:
        if steps and not rest.startswith(("[", ".")):
            return ()
        found = _STEP.match(rest, 1 if steps and rest[0] == "." else 0)
        if found is None or (rest[0] == "." and found[0].startswith("[")):
            return ()
        steps.append(int(found[0][1:-1]) if found[0].startswith("[") else found[0])
        rest = rest[found.end():]
    return tuple(steps)


def inside(group: object) -> tuple[Step, ...]:
    """The steps that lead further from here: fields of a record, places of a list, names of a table."""
    if is_dataclass(group):
        return tuple(one.name for one in fields(group) if not one.name.startswith("_"))
    if isinstance(group, tuple):
        return tuple(range(len(group)))
    return tuple(group) if isinstance(group, dict) else ()


def value_at(group: object, path: tuple[Step, ...]) -> object:
    """What stands at the end of a path; a ``LookupError`` with the step that leads nowhere."""
    found: Any = group
    for step in path:
        if step not in inside(found):
            raise LookupError(step)
        found = getattr(found, str(step)) if is_dataclass(found) else found[step]
    return found


def with_value(group: Any, path: tuple[Step, ...], value: object) -> Any:
    """The same group with another value at the end of a path; a whole number becomes what a measured field holds."""
    if not path:
        return float(value) if isinstance(group, float) and type(value) is int else value
    step, rest = path[0], path[1:]
    if isinstance(group, tuple) and isinstance(step, int):
        return (*group[:step], with_value(group[step], rest, value), *group[step + 1:])
    if isinstance(group, dict):
        return {**group, step: with_value(group[step], rest, value)}
    return replace(group, **{str(step): with_value(getattr(group, str(step)), rest, value)})


def record_at(library: Records, file: str) -> object:
    """The record that a file of the content holds, rows for a price table; nothing where it holds none."""
    single = {"guide.yaml": library.guide, "policy.yaml": library.policy, "parts.yaml": library.parts}
    if file in single:
        return single[file]
    records: dict[str, object] = {one.file: one.record for one in library.units}
    records |= {one.file: one.record for one in library.sessions}
    records |= {one.file: one.rows for one in library.prices}
    return records.get(file)


def with_record(library: Library, file: str, record: Any) -> Library:
    """The same content with another record in a file."""
    if file in _SINGLE:
        return replace(library, **{_SINGLE[file]: record})
    return replace(
        library,
        units=tuple(replace(one, record=record, digest="") if one.file == file else one for one in library.units),
        sessions=tuple(replace(one, record=record, digest="") if one.file == file else one for one in library.sessions),
        prices=tuple(replace(one, rows=record) if one.file == file else one for one in library.prices),
    )
