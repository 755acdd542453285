"""How near heat, noise and ripple are to their limits, over the whole load: what the load strip draws."""

from dataclasses import dataclass
from itertools import pairwise

from guidegen.evaluation.findings import UnitResult
from guidegen.records import PolicyRecord

Course = tuple[tuple[float, float], ...]
"""(load in % of the rating, share of the limit), rising in load; empty where nothing was measured."""

LOWEST_LEVEL = ((2.0, 60.0), (20.0, 82.0), (50.0, 85.0), (100.0, 82.0))
"""Efficiency that the lowest demands allow, % by load: the light load of the ATX design guide (336521, efficiency
table, required) and the lowest published level at 230 V EU internal."""
RIPPLE_LIMITS_MV = {"12v": 120.0, "5v": 50.0, "3v3": 50.0}
"""Ripple limits by rail, mV peak to peak (ATX design guides, DC output ripple and noise)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadShares:
    """Shares of limits over load."""

    heat: Course
    """Loss as a share of what the lowest efficiency level allows at that load."""
    noise: Course
    """Level as a share of the way from the policy's floor to its limit."""
    ripple: Course
    """Ripple as a share of its limit, on the rail that is nearest to it."""


def allowed_loss_pct(load_pct: float) -> float:
    """Loss that the lowest demands allow, in % of the rating; linear in loss between the loads that they name.

    >>> round(allowed_loss_pct(50.0), 3)
    8.824
    """
    losses = [(load, load * (100.0 / level - 1.0)) for load, level in LOWEST_LEVEL]
    (low, low_loss), (high, high_loss) = losses[0], losses[1]
    for left, right in pairwise(losses):
        if load_pct >= left[0]:
            (low, low_loss), (high, high_loss) = left, right
    return max(0.0, low_loss + (high_loss - low_loss) * (load_pct - low) / (high - low))


def load_shares(result: UnitResult, policy: PolicyRecord) -> LoadShares:
    """The three courses of a unit."""
    return LoadShares(heat=_heat(result), noise=_noise(result, policy), ripple=_ripple(result))


def _heat(result: UnitResult) -> Course:
    curve = result.curve("loss")
    rated = result.unit.record.rated_power_w
    points = curve.points if curve else ()
    return tuple(
        (p.load_pct, 100.0 * p.quantity.value / rated / allowed_loss_pct(p.load_pct)) for p in points if p.load_pct > 0.5
    )


def _noise(result: UnitResult, policy: PolicyRecord) -> Course:
    curve = result.curve("acoustic_noise")
    floor, limit = policy.noise.floor_dba, policy.noise.limit_dba
    points = curve.points if curve else ()
    return tuple((p.load_pct, max(0.0, (p.quantity.value - floor) / (limit - floor))) for p in points)


def _ripple(result: UnitResult) -> Course:
    shares: dict[float, float] = {}
    for rail, limit in RIPPLE_LIMITS_MV.items():
        curve = result.curve(f"ripple.{rail}")
        for point in curve.points if curve else ():
            share = point.quantity.value / limit
            shares[point.load_pct] = max(share, shares.get(point.load_pct, 0.0))
    return tuple(sorted(shares.items()))
