"""A value with its unit and its standard uncertainty, split as the guide needs it."""

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Quantity:
    """A measured value; unit in words of the SI or the trade (``W``, ``mV``, ``dB(A)``, ``%``)."""

    value: float
    """The value in ``unit``."""
    unit: str
    """Unit as printed; empty for a plain number."""
    own: float = 0.0
    """Standard uncertainty of this value alone (scatter, resolution), in ``unit``."""
    shared: float = 0.0
    """Standard uncertainty common to every value from the same instrument, in ``unit``, with its sign
    of influence left out."""

    @property
    def uncertainty(self) -> float:
        """Combined standard uncertainty in ``unit`` (JCGM 100:2008, 5.1.2).

        >>> Quantity(10.0, "W", own=0.3, shared=0.4).uncertainty
        0.5
        """
        return math.hypot(self.own, self.shared)
