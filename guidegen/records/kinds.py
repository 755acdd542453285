"""The kinds of value a record is made of: what a number may be, said once."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated, Literal, TypeVar, dataclass_transform

from annotated_types import Ge, Gt, Le, MaxLen, MinLen
from pydantic import AllowInfNan, Strict, StringConstraints

T = TypeVar("T")


@dataclass_transform(frozen_default=True, kw_only_default=True)
def record(made: type[T]) -> type[T]:
    """A frozen, slotted dataclass whose fields ``sources`` checks strictly: unknown keys are faults."""
    finished = dataclass(frozen=True, slots=True, kw_only=True)(made)
    setattr(finished, "__pydantic_config__", {"extra": "forbid", "use_attribute_docstrings": True})  # noqa: B010
    return finished


Number = Annotated[float, Strict(), AllowInfNan(False)]
"""A finite number; text that looks like one is refused."""
Positive = Annotated[Number, Gt(0)]
"""A number above zero."""
NotNegative = Annotated[Number, Ge(0)]
"""Zero or more."""
Percent = Annotated[Number, Ge(0), Le(100)]
"""0 to 100."""
Share = Annotated[Number, Ge(0), Le(1)]
"""0 to 1."""
Whole = Annotated[int, Strict(), Ge(0)]
"""A whole number, zero or more."""
Count = Annotated[int, Strict(), Ge(1)]
"""A whole number, one or more."""
YesNo = Annotated[bool, Strict()]
"""``true`` or ``false``."""
Day = Annotated[date, Strict()]
"""A day, written year-month-day."""
Text = Annotated[str, MinLen(1), MaxLen(4000)]
"""Some words."""
Name = Annotated[str, StringConstraints(pattern=r"^[a-z0-9]+([._-][a-z0-9]+)*$", max_length=80)]
"""An identifier: lower case letters, digits, and single ``-``, ``.`` or ``_`` between them."""
Format = Literal[1]
"""Version of the record format."""

Rail = Literal["12v", "5v", "3v3", "5vsb", "minus_12v"]
"""An output of a power supply; ``3v3`` is +3.3 V, ``5vsb`` the standby rail."""
Badge = Literal["none", "white", "bronze", "silver", "gold", "platinum", "titanium"]
"""Efficiency level as printed on the box."""
MainsClass = Literal["115v_internal", "230v_eu_internal", "230v_redundant"]
"""Which of the published efficiency tables a claim refers to."""
