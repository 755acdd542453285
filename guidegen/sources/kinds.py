"""The shapes of records seen from outside: which fields a group has, which words a field allows, which unit it is in."""

from dataclasses import fields, is_dataclass
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from guidegen.origins import Step

_UNITS = {
    "kwh": "per kWh", "w": "W", "v": "V", "a": "A", "mv": "mV", "ms": "ms", "pct": "%", "dba": "dB(A)", "mm": "mm", "m": "m",
    "c": "°C", "uf": "µF", "hz": "Hz", "rpm": "1/min", "minutes": "minutes", "months": "months", "years": "years",
    "days": "days", "score": "of 100", "points": "points",
}
"""Last part of a field's name, and the unit that it stands for."""


def unit_of(name: str) -> str:
    """The unit in the name of a field, or an empty text.

    >>> unit_of("rated_power_w"), unit_of("power_factor")
    ('W', '')
    """
    return _UNITS.get(name.rpartition("_")[2], "") if "_" in name else ""


def type_at(kind: type[Any], path: tuple[Step, ...]) -> Any:
    """The type of the field at the end of a path, without ``None``; nothing where the path leads nowhere."""
    found: Any = kind
    for step in path:
        if is_dataclass(found) and isinstance(found, type):
            found = _hints(found).get(str(step))
        elif get_origin(found) is tuple:
            found = _bare(get_args(found)[0])
        elif get_origin(found) is dict:
            found = _bare(get_args(found)[1])
        else:
            return None
    return found


def field_names(kind: type[Any], path: tuple[Step, ...]) -> tuple[str, ...]:
    """The fields of the group at the end of a path; none where there is no group."""
    found = type_at(kind, path)
    return _written_names(found) if is_dataclass(found) and isinstance(found, type) else ()


def allowed_words(kind: type[Any], path: tuple[Step, ...]) -> tuple[str, ...]:
    """The words that a field allows, or none where it is not a choice of words."""
    found = type_at(kind, path)
    return tuple(str(word) for word in get_args(found)) if get_origin(found) is Literal else ()


def _written_names(made: type[Any]) -> tuple[str, ...]:
    """The names of a record's fields as they stand in a file: one that Python keeps for itself has another in the record."""
    hints = get_type_hints(made, include_extras=True)
    names = {one.name: [getattr(mark, "alias", None) for mark in getattr(hints[one.name], "__metadata__", ())] for one in fields(made)}
    return tuple(next((alias for alias in marks if alias), name) for name, marks in names.items())


@cache
def _hints(made: type[Any]) -> dict[str, Any]:
    """Types of the fields of a record, bare."""
    return {name: _bare(hint) for name, hint in get_type_hints(made).items()}


def _bare(hint: Any) -> Any:
    """A type without ``Annotated`` and ``None``."""
    if get_origin(hint) in (Union, UnionType):
        return _bare(next(arm for arm in get_args(hint) if arm is not NoneType))
    return hint.__origin__ if hasattr(hint, "__metadata__") else hint
