"""The units that fit a computer, smallest rating first, and which wish to give up where none does."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations

from guidegen.evaluation.findings import UnitResult
from guidegen.evaluation.running_costs import UseLoad
from guidegen.evaluation.sizing.demands import Plugs
from guidegen.evaluation.sizing.excursions import excursions_of
from guidegen.evaluation.sizing.fitted import UnitAtLoad, bench_at, unit_at
from guidegen.evaluation.sizing.rating import Load, RatingOnOffer, Recommendation, failing, largest_w, recommend_for
from guidegen.evaluation.sizing.wording import ABSENCES, listed, number, with_unit
from guidegen.records import SizingRules


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What a reader wishes for; each can be given up."""

    headroom_pct: float = 0.0
    """Room for a later upgrade, % of the full load."""
    depth_mm: float | None = None
    """Room in the case, mm."""
    budget: float | None = None
    """Highest price, in the region's currency."""
    plugs: Plugs = field(default_factory=Plugs)
    """Plugs that are needed, by the parts or by the reader's own count."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """The units to choose from, judged already."""

    results: Sequence[UnitResult]
    """What the bench says of each."""
    advised: frozenset[str]
    """Units that passed every gate and are advised; no other is ever named."""
    scores: Mapping[str, float]
    """Score by unit, 0 to 100, with everything unknown at its worst."""
    prices: Mapping[str, float]
    """Price by unit where a fresh one is known, in the region's currency."""
    highest: Mapping[str, float] = field(default_factory=dict)
    """Score with everything unknown at its best, of the units of which something is unknown."""
    absent: Mapping[str, str] = field(default_factory=dict)
    """Why a unit can't be bought now, of those that can't: ``no_price``, ``hard_to_find`` or ``out_of_stock``."""

    def offers(self) -> tuple[RatingOnOffer, ...]:
        """The ratings that exist, each by the ablest of its units."""
        return ratings_on_offer(map(offer_of, self.results))

    def cheapest(self) -> dict[float, float]:
        """The lowest fresh price of an advised unit that can be bought, by rating in W, where there is one."""
        found: dict[float, float] = {}
        for result in self.results:
            rating, price = result.unit.record.rated_power_w, self.prices.get(result.unit.id)
            if price is not None and result.unit.id in self.advised and result.unit.id not in self.absent:
                found[rating] = min(price, found.get(rating, price))
        return found


def ratings_on_offer(offers: Iterable[RatingOnOffer]) -> tuple[RatingOnOffer, ...]:
    """The ratings that units have, each by the ablest of its units."""
    by_rating: dict[float, list[RatingOnOffer]] = {}
    for one in offers:
        by_rating.setdefault(one.rating_w, []).append(one)
    return tuple(_ablest(by_rating[rating]) for rating in sorted(by_rating))


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """What is looked for."""

    load: Load
    """What the rating is chosen for; its headroom is that of the wishes."""
    uses: tuple[UseLoad, ...]
    """Loads at which every unit is shown; ``full`` is one of them."""
    minor_w: float
    """Full load on +5 V and +3.3 V together, W."""
    mains_v: float
    """Mains voltage at the reader's, V."""
    wishes: Wishes
    """What may be given up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitFit:
    """A unit that fits."""

    unit: str
    """Identifier."""
    name: str
    """Maker and model."""
    rating_w: float
    """Rated power, W."""
    score: float
    """Score, 0 to 100, with everything unknown at its worst."""
    score_high: float
    """The same with everything unknown at its best."""
    price: float | None
    """Price, or nothing without a fresh one."""
    absent: str
    """Why it can't be bought now: ``no_price``, ``hard_to_find`` or ``out_of_stock``; empty where it can."""
    share: float
    """Usual full load as a share of the rating."""
    efficiency_pct: float | None
    """Efficiency at full load, %."""
    noise_dba: float | None
    """Noise at full load at 1 m, dB(A)."""
    noise_bound: bool
    """Whether that is only an upper bound."""
    heat_w: float | None
    """Heat at full load, W."""
    hold_up_ms: float | None
    """Measured hold-up time (T5) at full rating, ms."""
    mains_v: int
    """Mains at which it was measured: 115 or 230 V."""
    at: tuple[UnitAtLoad, ...]
    """The same at every load."""

    @property
    def partly_unknown(self) -> bool:
        """Whether the score is a range in print."""
        return number(self.score, 1) != number(self.score_high, 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class GiveUp:
    """Wishes whose giving up brings units."""

    wishes: tuple[str, ...]
    """Which: headroom, depth, budget, plugs."""
    units: tuple[str, ...]
    """Units that fit then, best first."""
    sentence: str
    """The same in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FitList:
    """The units that fit."""

    found: Recommendation
    """The rating looked for."""
    units: tuple[UnitFit, ...]
    """Units, those that can be bought before those that can't, of each the smallest rating first and in it the best score."""
    give_up: tuple[GiveUp, ...]
    """Where none fits: the wishes that stand in the way, as few at once as it takes."""


def offer_of(result: UnitResult) -> RatingOnOffer:
    """What one unit has on offer."""
    return RatingOnOffer(
        rating_w=result.unit.record.rated_power_w, rail_12v_a=result.unit.rated_current("12v"),
        excursions=excursions_of(result),
    )


def _ablest(offers: list[RatingOnOffer]) -> RatingOnOffer:
    currents = [one.rail_12v_a for one in offers if one.rail_12v_a is not None]
    return RatingOnOffer(
        rating_w=offers[0].rating_w, rail_12v_a=max(currents, default=None),
        excursions=max((one.excursions for one in offers), key=lambda rows: (max(rows, default=(0.0, 0.0)), len(rows))),
    )


def fit_units(search: Search, field: Field, rules: SizingRules) -> FitList:
    """The advised units that fit, what can be bought first; where none does, wishes are given up in turn."""
    found = recommend_for(search.load, field.offers(), rules)
    fitting = _fitting(search, field, rules, found)
    units = tuple(_unit_fit(result, search, field) for result in fitting)
    return FitList(found=found, units=units, give_up=() if units else _give_up(search, field, rules))


def _fitting(search: Search, field: Field, rules: SizingRules, found: Recommendation) -> tuple[UnitResult, ...]:
    """Units of every rating that keeps the load within the rule, the smallest rating first and in it the best score: what is larger
    than it need be stands below, and is worth a look where it costs less. What can't be bought now stands below them all. A
    score counts by its lower end, as in every ranking of the guide: by what is known.
    """
    able = (r for r in field.results if r.unit.id in field.advised and _bears(r, search, rules, found))
    wished = (r for r in able if all(met(r, search.wishes, field) for met in WISHES.values()))
    return tuple(sorted(wished, key=lambda r: (
        r.unit.id in field.absent, r.unit.record.rated_power_w, -field.scores.get(r.unit.id, 0.0), r.unit.id)))


def _bears(result: UnitResult, search: Search, rules: SizingRules, found: Recommendation) -> bool:
    """Whether a unit carries the load by every rule and is not needlessly large."""
    if found.rating_w is None:
        return False
    rating, largest = result.unit.record.rated_power_w, max(found.rating_w, largest_w(search.load, rules))
    broken = set(failing(search.load, offer_of(result), rules))
    if not found.goal_met:
        broken -= {"middle", "headroom"}
    minor = search.minor_w <= result.unit.record.minor_rails_power_w
    return found.rating_w <= rating <= largest and not broken and minor


def _shallow_enough(result: UnitResult, wishes: Wishes, field: Field) -> bool:
    del field
    return wishes.depth_mm is None or result.unit.record.size.depth_mm <= wishes.depth_mm


def _cheap_enough(result: UnitResult, wishes: Wishes, field: Field) -> bool:
    price = field.prices.get(result.unit.id)
    return wishes.budget is None or (price is not None and price <= wishes.budget)


def _plugs_there(result: UnitResult, wishes: Wishes, field: Field) -> bool:
    del field
    return not wishes.plugs.missing_from(result.unit)


WISHES: dict[str, Callable[[UnitResult, Wishes, Field], bool]] = {
    "depth": _shallow_enough, "budget": _cheap_enough, "plugs": _plugs_there,
}
"""Wishes that a unit meets or not; headroom is met by the rating."""


def _unit_fit(result: UnitResult, search: Search, field: Field) -> UnitFit:
    bench = bench_at(result, search.mains_v)
    at = tuple(unit_at(bench, use, rated_w=result.unit.record.rated_power_w) for use in search.uses)
    full = next(one for one in at if one.use == "full")
    hold_up = result.finding("hold_up.power_good_at_100")
    return UnitFit(
        unit=result.unit.id, name=result.unit.name, rating_w=result.unit.record.rated_power_w,
        score=field.scores.get(result.unit.id, 0.0), price=field.prices.get(result.unit.id), absent=field.absent.get(result.unit.id, ""),
        score_high=field.highest.get(result.unit.id, field.scores.get(result.unit.id, 0.0)), share=full.share,
        efficiency_pct=full.efficiency_pct, noise_dba=full.noise_dba, noise_bound=full.noise_bound, heat_w=full.heat_w,
        hold_up_ms=hold_up.quantity.value if hold_up else None, mains_v=bench.mains_v, at=at,
    )


def _without(search: Search, wishes: tuple[str, ...]) -> Search:
    """The search with some wishes given up."""
    kept, nothing = search.wishes, Wishes()
    left = Wishes(
        headroom_pct=(nothing if "headroom" in wishes else kept).headroom_pct,
        depth_mm=(nothing if "depth" in wishes else kept).depth_mm,
        budget=(nothing if "budget" in wishes else kept).budget,
        plugs=(nothing if "plugs" in wishes else kept).plugs,
    )
    return replace(search, wishes=left, load=replace(search.load, headroom_pct=left.headroom_pct))


def _give_up(search: Search, field: Field, rules: SizingRules) -> tuple[GiveUp, ...]:
    """The fewest wishes whose giving up brings a unit: each alone, then pairs, then more."""
    active = _active(search.wishes)
    for size in range(1, len(active) + 1):
        tried = (_tried(search, field, rules, wishes) for wishes in combinations(active, size))
        helpful = tuple(one for one in tried if one is not None)
        if helpful:
            return helpful
    return ()


def _active(wishes: Wishes) -> tuple[str, ...]:
    there = {
        "headroom": wishes.headroom_pct > 0, "depth": wishes.depth_mm is not None, "budget": wishes.budget is not None,
        "plugs": wishes.plugs != Plugs(),
    }
    return tuple(wish for wish, wished in there.items() if wished)


def _tried(search: Search, field: Field, rules: SizingRules, wishes: tuple[str, ...]) -> GiveUp | None:
    relaxed = _without(search, wishes)
    fitting = _fitting(relaxed, field, rules, recommend_for(relaxed.load, field.offers(), rules))
    if not fitting:
        return None
    names = tuple(named_with_absence(result.unit.name, field.absent.get(result.unit.id, "")) for result in fitting)
    return GiveUp(
        wishes=wishes, units=tuple(result.unit.id for result in fitting), sentence=_words(search.wishes, wishes, names)
    )


def named_with_absence(name: str, absent: str) -> str:
    """A unit's name, behind it why it can't be bought now.

    >>> named_with_absence("Tarnbeck Kiln 650", "no_price"), named_with_absence("Tarnbeck Kiln 650", "")
    ('Tarnbeck Kiln 650 (no fresh price)', 'Tarnbeck Kiln 650')
    """
    return f"{name} ({ABSENCES[absent]})" if absent else name


def _words(wished: Wishes, given_up: tuple[str, ...], names: tuple[str, ...]) -> str:
    named = {
        "headroom": f"the {with_unit(wished.headroom_pct, '%')} of room for an upgrade",
        "depth": f"the limit of {with_unit(wished.depth_mm or 0.0, 'mm')} in depth",
        "budget": f"the limit of {number(wished.budget or 0.0)} on the price",
        "plugs": f"the plugs asked for ({wished.plugs.words})",
    }
    shown = listed(names) if len(names) <= 3 else f"{', '.join(names[:3])} and {len(names) - 3} more"
    said = (
        f"If you give up {listed(tuple(named[wish] for wish in given_up))}, "
        f"{shown} {'fits' if len(names) == 1 else 'fit'}."
    )
    if "plugs" in given_up:
        said += " Then choose parts that need no plug that is missing; do not make one up with an adapter."
    return said
