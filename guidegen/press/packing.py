"""Values of the program as bytes and back, fast, and without running anything that the bytes may name.

Bytes of ``pickle`` in which each of the program's own dataclasses is told by its class and its fields. Frozen dataclasses
with slots are slow to rebuild by themselves; here their slots are set directly. Reading admits the program's dataclasses
and the few types below by name, so that forged bytes can give wrong values and no more.
"""

import gc
import pickle
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import fields, is_dataclass
from datetime import date
from functools import cache
from importlib import import_module
from io import BytesIO
from operator import attrgetter
from typing import Any

PLAIN: dict[tuple[str, str], type] = {("datetime", "date"): date, ("builtins", "frozenset"): frozenset}
"""Other types that may be named, beside the plain ones of ``pickle`` itself."""
OWN = "guidegen."
"""Where the program's dataclasses stand."""


def pack(value: object, *, once: bool = False) -> bytes:
    """The value as bytes; raises ``pickle.PicklingError`` where it holds anything but plain values and own dataclasses.

    With ``once`` what is found in several places is written as often: nobody has to keep in mind what was written already.
    """
    written = BytesIO()
    packer = _Packer(written, pickle.HIGHEST_PROTOCOL)
    packer.fast = once
    packer.dump(value)
    return written.getvalue()


def unpack(packed: bytes) -> Any:
    """The value that was packed; raises ``pickle.UnpicklingError`` where the bytes are none of ``pack``."""
    try:
        with _uncollected():
            return _Unpacker(BytesIO(packed)).load()
    except (AttributeError, EOFError, ImportError, IndexError, KeyError, OverflowError, RecursionError, TypeError, ValueError) as error:
        raise pickle.UnpicklingError(f"came {error}, expected what was packed") from error


class _Packer(pickle.Pickler):
    def reducer_override(self, obj: Any) -> Any:
        """A dataclass as its class and fields; what is not known stops."""
        kind: Any = type(obj)
        if _is_own(kind):
            return kind, _values(kind)(obj)
        if (kind is type and _is_own(obj)) or (kind.__module__, kind.__qualname__) in PLAIN or obj in PLAIN.values():
            return NotImplemented
        raise pickle.PicklingError(f"came a {kind.__module__}.{kind.__qualname__}, expected plain values and dataclasses of the program")


class _Unpacker(pickle.Unpickler):
    def find_class(self, module: str, name: str, /) -> Any:
        """What makes a dataclass of its fields, or a type of the list above."""
        plain = PLAIN.get((module, name))
        return plain if plain is not None else _maker(module, name)


@cache
def _maker(module: str, name: str) -> Callable[..., Any]:
    """What sets the slots of a new instance, field by field; refuses everything but the program's own dataclasses."""
    kind = getattr(import_module(module), name) if module.startswith(OWN) and "." not in name else None
    if not isinstance(kind, type) or not _is_own(kind) or kind.__module__ != module:
        raise pickle.UnpicklingError(f"came {module}.{name}, expected a dataclass of the program")
    setters = [getattr(kind, one).__set__ for one in _names(kind)]
    new = object.__new__

    def made(*values: Any) -> Any:
        instance: Any = new(kind)
        for setter, value in zip(setters, values, strict=True):
            setter(instance, value)
        return instance

    return made


@cache
def _is_own(kind: Any) -> bool:
    return is_dataclass(kind) and kind.__module__.startswith(OWN) and hasattr(kind, "__slots__")


@cache
def _names(kind: Any) -> tuple[str, ...]:
    return tuple(one.name for one in fields(kind))


@cache
def _values(kind: Any) -> Callable[[Any], tuple[Any, ...]]:
    """What takes the values of all fields out of an instance."""
    names = _names(kind)
    return attrgetter(*names) if len(names) > 1 else lambda one: tuple(getattr(one, name) for name in names)


@contextmanager
def _uncollected() -> Iterator[None]:
    """Without looking for garbage, of which reading makes none: it would be looked for thousands of times."""
    before = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if before:
            gc.enable()
