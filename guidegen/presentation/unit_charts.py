"""The charts of a unit's page, told to the drawings."""

from dataclasses import dataclass
from datetime import date
from typing import Self

from guidegen.evaluation import (
    BracketPrices,
    PriceView,
    Ranking,
    Standing,
    UnitResult,
    cheapest_by_day,
    efficiency_course,
    ripple_limits_mv,
)
from guidegen.presentation.charts import (
    CriterionShare,
    EfficiencyCourse,
    NoiseCourse,
    PriceCourse,
    PriceDay,
    PriceSpan,
    RailRipple,
    Reading,
    RippleCourse,
    ScoreMakeup,
    Span,
    Threshold,
    efficiency_chart,
    noise_chart,
    price_history_chart,
    ripple_chart,
    score_chart,
)
from guidegen.presentation.formatting import COVERAGE, with_unit
from guidegen.presentation.names import BADGES, RAILS
from guidegen.presentation.pieces import Chart
from guidegen.records import Library

RIPPLE_DOCUMENT = "ATX design guides, ripple and noise"


@dataclass(frozen=True, slots=True, kw_only=True)
class Background:
    """What the charts of all units of a bracket show behind the unit."""

    efficiency: tuple[Span, ...]
    """From where to where the bracket's efficiency reaches."""
    noise: tuple[Span, ...]
    """The same of its noise."""
    prices: BracketPrices
    """What its units cost."""
    until: date
    """Day of the edition."""
    quiet_room_dba: float
    """Below so much a quiet room hides it, by the policy."""

    @classmethod
    def of(cls, ranking: Ranking, field: tuple[UnitResult, ...], library: Library) -> Self:
        """The background of a bracket, by all units that belong to it."""
        views = tuple(one.candidate.prices for one in ranking.standings)
        return cls(
            efficiency=spans(field, "efficiency"), noise=spans(field, "acoustic_noise"),
            prices=BracketPrices(views, lasts_days=library.policy.prices.stale_after_days), until=library.guide.edition.date,
            quiet_room_dba=library.policy.noise.silent_below_dba,
        )


def behind(standing: Standing, background: Background) -> tuple[object, ...]:
    """What the charts of a unit show of the other units of its bracket."""
    days = tuple(row.date for row in cheapest_by_day(standing.candidate.prices.history))
    return background.efficiency, background.noise, background.prices.ranges(days)


def unit_charts(standing: Standing, background: Background) -> tuple[Chart, ...]:
    """Efficiency, noise, ripple, the score's parts and the price over time, as far as each was measured."""
    result = standing.candidate.result
    charts = [_efficiency(result, background), _noise(result, background), _ripple(result)]
    if standing.place is not None:
        charts.append(_score(standing))
    charts.append(_prices(standing.candidate.prices, result.unit.name, background))
    return tuple(chart for chart in charts if chart is not None)


def readings(result: UnitResult, key: str) -> tuple[Reading, ...]:
    """The measured points of a curve with their printed doubt."""
    curve = result.curve(key)
    return tuple(
        Reading(p.load_pct, p.quantity.value, COVERAGE * p.quantity.uncertainty, curve.upper_bound(p.load_w))
        for p in curve.points
    ) if curve else ()


def spans(field: tuple[UnitResult, ...], key: str) -> tuple[Span, ...]:
    """From where to where the units of a bracket reach at each nominal load that most of them share."""
    at: dict[int, list[float]] = {}
    for result in field:
        for reading in readings(result, key):
            at.setdefault(round(reading.load_pct / 10) * 10, []).append(reading.value)
    shared = {load: values for load, values in at.items() if load >= 10 and 2 * len(values) >= len(field)}
    return tuple(Span(load, min(values), max(values)) for load, values in sorted(shared.items()))


def _efficiency(result: UnitResult, background: Background) -> Chart | None:
    measured = readings(result, "efficiency")
    if not measured:
        return None
    claimed = result.badge.claimed
    at_its_mains = claimed != "none"
    return efficiency_chart(
        EfficiencyCourse(
            id="efficiency", name=result.unit.name, readings=measured, between=efficiency_course(result),
            floors=tuple((r.load_pct, r.floor) for r in result.badge.rows if r.what == "efficiency") if at_its_mains else (),
            level=BADGES[claimed] if at_its_mains else "",
            bracket=background.efficiency,
        )
    )


def _noise(result: UnitResult, background: Background) -> Chart | None:
    measured = readings(result, "acoustic_noise")
    if not measured:
        return None
    return noise_chart(
        NoiseCourse(
            id="noise", name=result.unit.name, readings=measured, bracket=background.noise,
            thresholds=(Threshold(background.quiet_room_dba, "hidden by a quiet room"), Threshold(25, "quiet"), Threshold(30), Threshold(35, "clearly heard")),
            distance=f"at {with_unit(1, 'm', 0)}",
        )
    )


def _ripple(result: UnitResult) -> Chart | None:
    rails = tuple(
        RailRipple(rail=RAILS[rail].replace(" ", "\N{NO-BREAK SPACE}"), limit_mv=limit, readings=readings(result, f"ripple.{rail}"))
        for rail, limit in ripple_limits_mv().items()
    )
    if not any(rail.readings for rail in rails):
        return None
    return ripple_chart(RippleCourse(id="ripple", name=result.unit.name, rails=rails, document=RIPPLE_DOCUMENT))


def _score(standing: Standing) -> Chart:
    score = standing.candidate.score
    return score_chart(
        ScoreMakeup(
            id="score-parts", name=standing.candidate.name, score=score.low if score.complete else None,
            criteria=tuple(
                CriterionShare(title=c.title, weight=c.weight, worth=100 * c.low if any(p.found for p in c.parts) else None)
                for c in score.criteria
            ),
        )
    )


def _prices(view: PriceView, name: str, background: Background) -> Chart | None:
    if len(view.history) < 2:
        return None
    days = tuple(PriceDay(row.date, row.price, in_stock=row.stock != "out_of_stock") for row in cheapest_by_day(view.history))
    ranges = background.prices.ranges(d.day for d in days)
    top = max((*(d.price or 0.0 for d in days), *(one.high for one in ranges)))
    return price_history_chart(
        PriceCourse(
            id="price-history", name=name, currency=view.region.currency_mark, price_max=round_up(top),
            begin=days[0].day, end=background.until, days=days,
            bracket=tuple(PriceSpan(day=r.day, low=r.low, middle=r.middle, high=r.high) for r in ranges),
        )
    )


def round_up(amount: float) -> float:
    """The next round number above an amount, for the end of an axis.

    >>> round_up(149.0), round_up(412.0)
    (160.0, 450.0)
    """
    step = next(s for s in (10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0) if amount <= 9 * s or s == 1000.0)
    return step * (int(amount / step) + 1)
