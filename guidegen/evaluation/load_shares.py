"""How near heat, noise and ripple are to their limits, over the whole load: what the load strip draws."""

from dataclasses import dataclass
from itertools import pairwise

from guidegen.evaluation.findings import UnitResult
from guidegen.records import PolicyRecord
from guidegen.standards import levels, limits

Course = tuple[tuple[float, float], ...]
"""(load in % of the rating, share of the limit), rising in load; empty where nothing was measured."""

LIGHT_LOAD = (2.0, 60.0)
"""Light load of the ATX design guide, % of the rating, and the efficiency that it requires there, % (336521, efficiency
table)."""
RAILS = ("12v", "5v", "3v3")
"""Rails that the ripple band looks at."""


def lowest_demands() -> tuple[tuple[float, float], ...]:
    """Efficiency that the lowest demands allow, (load in %, efficiency in %): the design guide's light load and the lowest
    published level at 230 V EU internal.
    """
    return (LIGHT_LOAD, *levels("230v_eu_internal")[0].floors)


def ripple_limits_mv() -> dict[str, float]:
    """Ripple limits by rail, mV peak to peak."""
    bounds = {limit.finding: limit.at_most for limit in limits()}
    return {rail: bound for rail in RAILS if (bound := bounds.get(f"ripple.{rail}.worst")) is not None}


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
    losses = [(load, load * (100.0 / level - 1.0)) for load, level in lowest_demands()]
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
    for rail, limit in ripple_limits_mv().items():
        curve = result.curve(f"ripple.{rail}")
        for point in curve.points if curve else ():
            share = point.quantity.value / limit
            shares[point.load_pct] = max(share, shares.get(point.load_pct, 0.0))
    return tuple(sorted(shares.items()))
