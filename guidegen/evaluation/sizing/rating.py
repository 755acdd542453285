"""The rating to look for: usual full load in the middle of it, never near the top, and no larger than that."""

from dataclasses import dataclass
from typing import Literal

from guidegen.errors import RequestError
from guidegen.evaluation.sizing.excursions import RATING_ONLY, Excursions, Peak, uncovered
from guidegen.records import SizingRules

Rule = Literal["middle", "headroom", "peaks", "rail_12v", "ceiling", "largest"]
"""What decided: full load at or below the upper target share, the upgrade wished for, short peaks, the current on 12 V,
the ceiling of regular use on the largest rating there is, or that nothing is large enough."""
RAIL_V = 12.0
"""Nominal voltage of the rail that carries processor and graphics card, V."""
ROUNDING = 1e-9
"""A load that exceeds a share by no more than this fraction meets it: the last bits of a sum decide nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RatingOnOffer:
    """A rating that exists in the guide, by the ablest of its units."""

    rating_w: float
    """The rating, W."""
    rail_12v_a: float | None = None
    """Rated current on 12 V, A; nothing where it isn't known."""
    excursions: Excursions = RATING_ONLY
    """What it may deliver for a moment."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """What a rating is chosen for."""

    full_w: float
    """Usual full load, delivered, W."""
    rail_12v_w: float = 0.0
    """Part of it on 12 V, W."""
    peaks: tuple[Peak, ...] = ()
    """Short peaks of the whole computer; empty where they aren't known."""
    headroom_pct: float = 0.0
    """Wished for a later upgrade, % of the full load."""

    @property
    def grown_w(self) -> float:
        """Full load with the upgrade wished for, W."""
        return self.full_w * (1 + self.headroom_pct / 100)

    @property
    def rail_12v_current(self) -> float:
        """Current on 12 V at full load, A."""
        return self.rail_12v_w / RAIL_V


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
    next_larger_w: float | None = None
    """The rating above, W, and nothing where there is none."""
    goal_met: bool = True
    """Whether full load with the upgrade wished for stays at or below the upper target share."""


def recommend(
    usual_full_w: float, ratings: tuple[float, ...], rules: SizingRules, *, headroom_pct: float = 0.0
) -> Recommendation:
    """The smallest rating at which the usual full load stays at or below the upper target share, from watts alone."""
    offers = tuple(RatingOnOffer(rating_w=rating) for rating in ratings)
    return recommend_for(Load(full_w=usual_full_w, headroom_pct=headroom_pct), offers, rules)


def recommend_for(load: Load, offers: tuple[RatingOnOffer, ...], rules: SizingRules) -> Recommendation:
    """The smallest rating that meets every rule; a larger load never leads to a smaller one.

    Where none meets the upper target share, the largest there is, as long as regular use stays below the ceiling; where
    even that fails, no rating. Common practice, no source: best efficiency lies at about 40 to 60 % of the rating; stay
    under 80 % in regular use.
    """
    if not offers:
        raise RequestError("the guide holds no rating to choose from: expected at least one unit")
    ordered = sorted(offers, key=lambda offer: offer.rating_w)
    place = next((i for i, offer in enumerate(ordered) if not failing(load, offer, rules)), None)
    if place is None:
        return _fallback(load, ordered, rules)
    smaller = ordered[place - 1] if place else None
    decided = failing(load, smaller, rules)[0] if smaller else "middle"
    return _made(load, rules, ordered=ordered, place=place, rule=decided)


def failing(load: Load, offer: RatingOnOffer, rules: SizingRules) -> tuple[Rule, ...]:
    """The rules that a rating breaks, in the order in which they are named; empty where it meets them all."""
    high = rules.target_high_pct / 100
    within = {
        "middle": _within(load.full_w, offer.rating_w * high),
        "headroom": _within(load.grown_w, offer.rating_w * high),
        **_bearable(load, offer, rules),
    }
    order: tuple[Rule, ...] = ("middle", "headroom", "ceiling", "peaks", "rail_12v")
    return tuple(rule for rule in order if not within[rule])


def largest_w(load: Load, rules: SizingRules) -> float:
    """The largest rating at which full load is not below the lower target share, W."""
    return load.full_w * 100.0 / rules.target_low_pct


def _bearable(load: Load, offer: RatingOnOffer, rules: SizingRules) -> dict[str, bool]:
    """What holds even where the goal is out of reach."""
    aged = load.full_w * (1 + rules.ageing_pct / 100)
    return {
        "ceiling": _within(aged, offer.rating_w * rules.never_above_pct / 100),
        "peaks": not uncovered(offer.rating_w, load.peaks, offer.excursions),
        "rail_12v": offer.rail_12v_a is None or _within(load.rail_12v_current, offer.rail_12v_a),
    }


def _within(value: float, limit: float) -> bool:
    return value <= limit * (1 + ROUNDING)


def _fallback(load: Load, ordered: list[RatingOnOffer], rules: SizingRules) -> Recommendation:
    """The largest rating where it can bear the load, or none."""
    broken = failing(load, ordered[-1], rules)
    if all(_bearable(load, ordered[-1], rules).values()):
        rule: Rule = "ceiling" if "middle" in broken else "headroom"
        return _made(load, rules, ordered=ordered, place=len(ordered) - 1, rule=rule)
    return Recommendation(
        rating_w=None, full_w=_chosen_for(load, rules), share=None, rule="largest",
        next_smaller_w=None, goal_met=False,
    )


def _made(
    load: Load, rules: SizingRules, *, ordered: list[RatingOnOffer], place: int, rule: Rule
) -> Recommendation:
    rating = ordered[place].rating_w
    return Recommendation(
        rating_w=rating, full_w=_chosen_for(load, rules), share=load.full_w / rating, rule=rule,
        next_smaller_w=ordered[place - 1].rating_w if place else None,
        next_larger_w=ordered[place + 1].rating_w if place + 1 < len(ordered) else None,
        goal_met=_within(load.grown_w, rating * rules.target_high_pct / 100),
    )


def _chosen_for(load: Load, rules: SizingRules) -> float:
    return load.grown_w * (1 + rules.ageing_pct / 100)
