"""One thing worth saying about a unit."""

from dataclasses import dataclass
from typing import Literal

from guidegen.evaluation import Finding
from guidegen.origins import Origin

Topic = Literal[
    "safety", "label", "badge", "ripple", "noise", "efficiency", "voltage", "hold_up", "protections", "size", "cables",
    "warranty", "build", "price", "standby",
]
"""What a remark is about; a sentence holds one remark a topic."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark:
    """Something that stands out in a unit's facts, measured on a fixed scale and not against the field."""

    topic: Topic
    """What it is about."""
    good: bool
    """Whether it speaks for the unit."""
    weight: float
    """How much it stands out, 0 to 1; sentences take the weightiest first."""
    clause: str
    """A few words with the number, to be joined with others: ``31 mV of ripple where 120 mV are allowed``."""
    sentence: str
    """The same as a sentence of its own."""
    reader: str = ""
    """Who should buy it for that, or leave it: ``a case with less than 160 mm for the supply``; or empty."""
    numbers: tuple[Finding, ...] = ()
    """Findings whose numbers it says."""
    fields: tuple[Origin, ...] = ()
    """Fields of records that it rests on beside those of its numbers."""


def scale(value: float, *, none: float, full: float) -> float:
    """How far a value has gone from ``none`` (0) to ``full`` (1), held within.

    >>> scale(30.0, none=40.0, full=20.0)
    0.5
    """
    return min(1.0, max(0.0, (value - none) / (full - none)))
