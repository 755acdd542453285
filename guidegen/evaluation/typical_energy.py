"""Typical energy consumption of a computer as ENERGY STAR and Regulation (EU) 617/2013 count it.

None of them knows a mode for work or games: they compare machines that wait, not how a reader spends the day.
"""

import math
from dataclasses import dataclass

from guidegen.evaluation.running_costs import HOURS_PER_YEAR


@dataclass(frozen=True, slots=True, kw_only=True)
class ModeWeights:
    """Shares of the year that a scheme gives to each mode; they add up to 1."""

    scheme: str
    """Scheme and kind of computer."""
    off: float
    """Off."""
    sleep: float
    """Asleep."""
    long_idle: float
    """Idle for long; 0 where the scheme has one idle mode."""
    short_idle: float
    """Idle for short, or idle where the scheme has one idle mode."""
    document: str
    """Document and how sure the shares are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ModePowers:
    """Power from the wall in each mode."""

    off_w: float
    """Off, W."""
    sleep_w: float
    """Asleep, W."""
    short_idle_w: float
    """Idle for short, W."""
    long_idle_w: float = 0.0
    """Idle for long, W."""


_SECOND_HAND = "as an open-source implementation states them (second-hand)"
ENERGY_STAR_8 = ModeWeights(
    scheme="ENERGY STAR 8.0, desktop", off=0.15, sleep=0.45, long_idle=0.10, short_idle=0.30,
    document=f"ENERGY STAR Computers 8.0, {_SECOND_HAND}",
)
ENERGY_STAR_6_7 = ModeWeights(
    scheme="ENERGY STAR 6.x and 7.x, desktop", off=0.45, sleep=0.05, long_idle=0.15, short_idle=0.35,
    document=f"ENERGY STAR Computers 6.1 and 7.x, {_SECOND_HAND}",
)
ENERGY_STAR_5 = ModeWeights(
    scheme="ENERGY STAR 5.x, desktop", off=0.55, sleep=0.05, long_idle=0.0, short_idle=0.40,
    document=f"ENERGY STAR Computers 5.x, {_SECOND_HAND}",
)
ENERGY_STAR_5_NOTEBOOK = ModeWeights(
    scheme="ENERGY STAR 5.x, notebook", off=0.60, sleep=0.10, long_idle=0.0, short_idle=0.30,
    document="ENERGY STAR Computers 5.x, annex, sample calculation",
)
EU_617_2013 = ModeWeights(
    scheme="Regulation (EU) 617/2013, desktop", off=0.55, sleep=0.05, long_idle=0.0, short_idle=0.40,
    document=f"Regulation (EU) 617/2013 annex II, {_SECOND_HAND}",
)
SCHEMES = (ENERGY_STAR_8, ENERGY_STAR_6_7, ENERGY_STAR_5, ENERGY_STAR_5_NOTEBOOK, EU_617_2013)
"""All schemes."""


def typical_energy_kwh(powers: ModePowers, weights: ModeWeights) -> float:
    """Typical energy consumption in kWh a year: ``8760/1000 · Σ P_mode · T_mode``.

    >>> round(typical_energy_kwh(ModePowers(off_w=2, sleep_w=4, short_idle_w=50), ENERGY_STAR_5), 3)
    186.588
    """
    return HOURS_PER_YEAR / 1000.0 * math.fsum(
        (
            powers.off_w * weights.off, powers.sleep_w * weights.sleep,
            powers.long_idle_w * weights.long_idle, powers.short_idle_w * weights.short_idle,
        )
    )
