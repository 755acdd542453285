"""The rating to look for: usual full load in the middle of it, never near the top, and no larger than that."""

from dataclasses import dataclass
from typing import Literal

from guidegen.records import SizingRules

Rule = Literal["middle", "ceiling", "largest"]
"""What decided: full load at or below the upper target share, the ceiling of regular use, or the largest there is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recommendation:
    """A recommended rating."""

    rating_w: float | None
    """The rating, W; nothing where every rating is too small."""
    full_w: float
    """Usual full load with ageing and headroom, W: what the rating was chosen for."""
    share: float | None
    """Usual full load, without ageing and headroom, as a share of the rating, 0 to 1."""
    rule: Rule
    """What decided."""
    next_smaller_w: float | None
    """The rating below, W, and nothing where there is none."""


def recommend(
    usual_full_w: float, ratings: tuple[float, ...], rules: SizingRules, *, headroom_pct: float = 0.0
) -> Recommendation:
    """The smallest rating at which the usual full load stays at or below the upper target share.

    Where none is large enough for that, the smallest that keeps regular use below the ceiling; where even that fails,
    no rating. Common practice, no source: best efficiency lies at about 40 to 60 % of the rating; stay under 80 % in
    regular use.
    """
    ordered = sorted(ratings)
    grown = usual_full_w * (1 + headroom_pct / 100)
    aged = grown * (1 + rules.ageing_pct / 100)
    in_the_middle = next((r for r in ordered if grown <= r * rules.target_high_pct / 100), None)
    below_ceiling = next((r for r in ordered if aged <= r * rules.never_above_pct / 100), None)
    rating = in_the_middle if in_the_middle is not None else below_ceiling
    rule: Rule = "middle" if in_the_middle is not None else "ceiling" if below_ceiling is not None else "largest"
    smaller = [r for r in ordered if rating is not None and r < rating]
    return Recommendation(
        rating_w=rating, full_w=aged, share=usual_full_w / rating if rating else None, rule=rule,
        next_smaller_w=smaller[-1] if smaller else None,
    )


def delivered_from_wall(wall_w: float, efficiency_pct: float) -> float:
    """Delivered power behind a plug-meter reading, W: wall power times efficiency.

    >>> round(delivered_from_wall(620.0, 88.0), 1)
    545.6
    """
    return wall_w * efficiency_pct / 100.0


def wall_from_delivered(delivered_w: float, efficiency_pct: float) -> float:
    """What a plug meter shows for a delivered power, W.

    >>> round(wall_from_delivered(750.0, 90.0), 1)
    833.3
    """
    return delivered_w * 100.0 / efficiency_pct


def circuit_limit_w(mains_v: float, breaker_a: float) -> float:
    """What a load of three hours and more may draw from a circuit, W: 80 % of the breaker, since continuous load counts
    at 125 % (NEC 210.19(A) and 210.20(A), second-hand; local codes decide).

    >>> circuit_limit_w(120.0, 15.0), circuit_limit_w(120.0, 20.0)
    (1440.0, 1920.0)
    """
    return mains_v * breaker_a * 0.8
