"""Why this rating: the rule that decided, what would change the answer, and why not the next larger one."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.evaluation.sizing.excursions import allowed_pct
from guidegen.evaluation.sizing.rating import Load, RatingOnOffer, Recommendation, failing, largest_w
from guidegen.evaluation.sizing.wording import (
    NO_BREAK,
    listed,
    money,
    number,
    percent,
    percent_against,
    watts,
    with_unit,
)
from guidegen.records import SizingRules

MORE_BUYS_NOTHING = (
    "A supply delivers what the computer asks for, not what its label says: more watts than that buy nothing."
)
"""What stands at the end of every answer, so that nobody takes the largest number for the best."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """What the shops of a region ask."""

    mark: str = ""
    """Mark of its currency."""
    cheapest: Mapping[float, float] = field(default_factory=dict)
    """The lowest fresh price of an advised unit, by rating in W."""


NOBODY_ASKS = Asking()
"""Where no price is known."""


def rule_words(found: Recommendation, load: Load, rules: SizingRules) -> str:
    """The rule that decided, named in a few plain words."""
    high, never = percent(rules.target_high_pct / 100), percent(rules.never_above_pct / 100)
    return {
        "middle": f"usual full load at most {high} of the rating",
        "headroom": f"{percent(load.headroom_pct / 100)} of room for a later upgrade, as wished",
        "peaks": "short peaks within what the supply may deliver for a moment",
        "rail_12v": "current on 12 V within the rail",
        "ceiling": f"the largest rating here: above the {high} to aim at, and with ageing below the {never} never to exceed",
        "largest": "no rating in the guide is large enough",
    }[found.rule]


def reasons(
    found: Recommendation, load: Load, offers: tuple[RatingOnOffer, ...], rules: SizingRules, asking: Asking = NOBODY_ASKS
) -> tuple[str, ...]:
    """The answer in sentences: what and why, what would change it, which larger ratings serve as well, why not the next."""
    if found.rating_w is None or found.share is None:
        return (_too_much(load, offers, rules),)
    larger = tuple(offer.rating_w for offer in offers if offer.rating_w > found.rating_w)
    serving = tuple(rating for rating in larger if rating <= largest_w(load, rules))
    sentences = (
        _answer(found, load, rules), _goal(found, load, rules), _change(found, load, rules),
        _as_well(found, load, serving, asking), _too_large(found, load, larger[len(serving):], asking),
    )
    return tuple(sentence for sentence in sentences if sentence)


def _too_much(load: Load, offers: tuple[RatingOnOffer, ...], rules: SizingRules) -> str:
    largest = max(offers, key=lambda offer: offer.rating_w)
    broken = failing(load, largest, rules)
    aged = load.full_w * (1 + rules.ageing_pct / 100)
    said = f"No rating in this guide is large enough for {watts(load.full_w)}: the largest is {watts(largest.rating_w)}"
    if "ceiling" in broken:
        share, limit = aged / largest.rating_w, rules.never_above_pct / 100
        return (
            f"{said}, where full load with ageing would be {percent_against(share, limit)} of the rating; "
            f"regular use should stay below {percent(limit)}."
        )
    why = "its short peaks exceed what such a supply may deliver" if "peaks" in broken else "its 12 V rail carries less"
    return f"{said}, and {why}."


def _answer(found: Recommendation, load: Load, rules: SizingRules) -> str:
    rating, share, smaller = found.rating_w or 0.0, found.share or 0.0, found.next_smaller_w
    limit = rules.target_high_pct / 100
    said = f"{watts(rating)}: the usual full load of {watts(load.full_w)} is {percent_against(share, limit)} of it"
    if found.rule == "ceiling":
        return (
            f"{said}, more than the {percent(limit)} to aim at, but no larger rating is in this guide; it stays below "
            f"the {percent(rules.never_above_pct / 100)} that regular use should never exceed."
        )
    if smaller is None:
        return f"{said}; it is the smallest rating in this guide, and enough."
    return f"{said}; at {watts(smaller)} {_smaller_fails(found, load, smaller, limit)}."


def _smaller_fails(found: Recommendation, load: Load, smaller: float, limit: float) -> str:
    if found.rule == "headroom":
        return f"the upgrade wished for would bring it to {percent_against(load.grown_w / smaller, limit)}"
    if found.rule == "peaks":
        return "its short peaks would exceed what the supply may deliver for a moment"
    if found.rule == "rail_12v":
        return f"the 12 V rail would be short of {with_unit(load.rail_12v_current, 'A')}"
    return f"it would be {percent_against(load.full_w / smaller, limit)}, more than the {percent(limit)} to aim at"


def _goal(found: Recommendation, load: Load, rules: SizingRules) -> str:
    """What is to be said where the share lies outside the middle."""
    rating, share = found.rating_w or 0.0, found.share or 0.0
    low, limit = rules.target_low_pct / 100, rules.target_high_pct / 100
    if found.rule == "headroom" and not found.goal_met:
        return (
            f"The upgrade would bring it to {percent_against(load.grown_w / rating, limit)}, more than the "
            f"{percent(limit)} to aim at; no larger rating is in this guide."
        )
    if share < low and found.rule == "middle" and found.next_smaller_w is not None:
        return f"That is below the {percent(low)} to aim at, because no rating in between is in this guide."
    return ""


def _change(found: Recommendation, load: Load, rules: SizingRules) -> str:
    """Up to which load the answer holds, and where a smaller rating would be enough."""
    rating, per_watt = found.rating_w or 0.0, rules.target_high_pct / 100 / (1 + load.headroom_pct / 100)
    said = []
    if found.next_larger_w is not None:
        said.append(f"above {watts(rating * per_watt)} of full load it would be {watts(found.next_larger_w)}")
    if found.next_smaller_w is not None and found.rule in ("middle", "headroom"):
        said.append(f"at {watts(found.next_smaller_w * per_watt)} or less {watts(found.next_smaller_w)} would do")
    if load.headroom_pct and found.rule == "headroom":
        said.append("without the wish for an upgrade a smaller rating may do")
    return f"What would change the answer: {'; '.join(said)}." if said else ""


def _as_well(found: Recommendation, load: Load, serving: tuple[float, ...], asking: Asking) -> str:
    """The larger ratings within the rule; what fits of them is offered beside the recommended one."""
    if not serving:
        return ""
    shares = listed(tuple(percent(load.full_w / rating) for rating in serving))
    said = f"{listed(tuple(map(watts, serving)))} {'keeps' if len(serving) == 1 else 'keep'} full load within the rule as well, at {shares}"
    return f"{said}, so units of {'that rating' if len(serving) == 1 else 'those ratings'} that fit are offered, too{_priced(found, serving[0], asking)}."


def _too_large(found: Recommendation, load: Load, beyond: tuple[float, ...], asking: Asking) -> str:
    """Why not the smallest rating that falls below the rule."""
    if not beyond:
        return MORE_BUYS_NOTHING
    return (
        f"Why not {watts(beyond[0])}: it would bring full load down to {percent(load.full_w / beyond[0])} and idle with it, "
        f"nearer to the light loads at which every supply wastes most{_priced(found, beyond[0], asking)}. {MORE_BUYS_NOTHING}"
    )


def _priced(found: Recommendation, larger: float, asking: Asking) -> str:
    """What a larger rating costs beside the recommended one; nothing where one of them has no fresh price."""
    rating = found.rating_w or 0.0
    here, there = asking.cheapest.get(rating), asking.cheapest.get(larger)
    if here is None or there is None:
        return ""
    return (
        f"; the cheapest advised unit of {watts(larger)} costs {money(there, asking.mark)}, "
        f"that of {watts(rating)} {money(here, asking.mark)}"
    )


def rating_steps(
    found: Recommendation, load: Load, offers: tuple[RatingOnOffer, ...], rules: SizingRules
) -> tuple[str, ...]:
    """The sums from the full load to the rating, for pencil and paper."""
    steps = []
    if load.headroom_pct:
        steps.append(f"{watts(load.full_w)} + {percent(load.headroom_pct / 100)} for an upgrade = {watts(load.grown_w)}")
    high = rules.target_high_pct / 100
    steps.append(f"{watts(load.grown_w)} ÷ {percent(high)} = {watts(load.grown_w / high)}")
    offer = next((offer for offer in offers if offer.rating_w == found.rating_w), None)
    if offer is None:
        return (*steps, f"Largest rating in the guide: {watts(max(one.rating_w for one in offers))}")
    rating = offer.rating_w
    steps.append(f"{'Next rating' if found.goal_met else 'Largest rating'} in the guide: {watts(rating)}")
    aged, never = load.full_w * (1 + rules.ageing_pct / 100), rules.never_above_pct / 100
    steps.append(
        f"{watts(load.full_w)} + {percent(rules.ageing_pct / 100)} for ageing = {watts(aged)}: "
        f"{percent_against(aged / rating, never)} of {watts(rating)}, never above {percent(never)}"
    )
    return (*steps, *_peak_steps(load, offer), *_rail_steps(load, offer))


def _peak_steps(load: Load, offer: RatingOnOffer) -> tuple[str, ...]:
    return tuple(
        f"Short peak ({peak.title}): {watts(peak.power_w)} for {number(peak.duration_ms)}{NO_BREAK}ms is "
        f"{percent(peak.power_w / offer.rating_w)}; the ablest unit may deliver "
        f"{percent(allowed_pct(peak.duration_ms, offer.excursions) / 100)} for so long"
        for peak in load.peaks
        if peak.power_w > offer.rating_w
    )


def _rail_steps(load: Load, offer: RatingOnOffer) -> tuple[str, ...]:
    if not load.rail_12v_w:
        return ()
    rail = f"; the rail gives {with_unit(offer.rail_12v_a, 'A')}" if offer.rail_12v_a is not None else ""
    return (f"On 12 V: {watts(load.rail_12v_w)} ÷ 12{NO_BREAK}V = {with_unit(load.rail_12v_current, 'A', 1)}{rail}",)
