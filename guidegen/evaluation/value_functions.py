"""Piecewise linear value functions between anchors that the policy states, the same for every unit."""

from bisect import bisect_right
from dataclasses import dataclass

from guidegen.records import Anchor


@dataclass(frozen=True, slots=True)
class Worth:
    """What a value is worth."""

    worth: float
    """0 to 1."""
    slope: float
    """Change of worth per unit of the value; 0 beyond the anchors."""
    beyond: bool
    """Whether the value lies beyond an outer anchor, so that more of it no longer counts."""


def worth_of(value: float, anchors: tuple[Anchor, ...]) -> Worth:
    """The worth of a value on a scale that is anchored, never stretched to the field of units.

    Anchors rise in ``at``. Beyond the outer ones the worth stays what it is there, and that is told.
    Source: piecewise linear single-attribute value function on a global scale (Belton and Stewart 2002, ch. 5;
    from memory).

    >>> worth_of(85.0, (Anchor(at=80.0, worth=0.0), Anchor(at=90.0, worth=1.0))).worth
    0.5
    """
    first, last = anchors[0], anchors[-1]
    if value < first.at:
        return Worth(first.worth, 0.0, beyond=True)
    if value > last.at:
        return Worth(last.worth, 0.0, beyond=True)
    right = min(bisect_right([anchor.at for anchor in anchors], value), len(anchors) - 1)
    low, high = anchors[right - 1], anchors[right]
    slope = (high.worth - low.worth) / (high.at - low.at)
    return Worth(low.worth + slope * (value - low.at), slope, beyond=False)
