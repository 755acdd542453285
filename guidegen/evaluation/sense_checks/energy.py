"""Energy: no more can come out than goes in, and what goes in grows with what comes out."""

from collections.abc import Iterator

from guidegen.evaluation.sense_checks.magnitude import slipped
from guidegen.evaluation.sense_checks.shapes import Clash, Occasion

LOWEST_POWER_FACTOR, FAINTEST_POWER_FACTOR = 0.3, 0.02
"""Below these no supply lies at a fifth of its rating or more, or at any load (common practice, no source)."""
LOWEST_EFFICIENCY_PCT, FROM_W = 20.0, 5.0
"""No supply that delivers so many watts wastes more (common practice, no source)."""
HIGHEST_EFFICIENCY_PCT = 98.0
"""No supply from mains to 12 V wastes less: the highest badge asks for 96 % (``standards/efficiency_levels.toml``), and the
best rectifier with its correction and the best converter behind it lose a hundredth each (common practice, no source)."""

STANDBY_LOSS_W, STANDBY_SPAN_W = 10.0, 200.0
"""No supply that is switched off wastes more (common practice, no source; the guide's own limits lie at a watt and below);
above the second ``spans.py`` speaks."""


def balance(occasion: Occasion) -> Iterator[Clash]:
    """Delivered power that is not below the input power, hardly below it, or next to nothing of it."""
    rated = occasion.unit.record.rated_power_w
    for place, point in enumerate(occasion.session.record.load_points):
        if point.delivered_power_w >= point.input_power_w and not slipped(point, rated):
            yield _too_much(occasion, ("load_points", place), out_w=point.delivered_power_w, in_w=point.input_power_w)
        elif 100 * point.delivered_power_w > HIGHEST_EFFICIENCY_PCT * point.input_power_w and not slipped(point, rated):
            share = 100 * point.delivered_power_w / point.input_power_w
            yield Clash(
                occasion.at("load_points", place, "input_power_w"),
                f"{point.input_power_w:g} W in for {point.delivered_power_w:g} W delivered, {share:.1f} % at {point.load_pct:g} % load",
                f"an efficiency of {HIGHEST_EFFICIENCY_PCT:g} % at most; the highest badge asks for 96 %",
            )
        elif point.delivered_power_w >= FROM_W and 100 * point.delivered_power_w < LOWEST_EFFICIENCY_PCT * point.input_power_w:
            yield Clash(
                occasion.at("load_points", place, "input_power_w"),
                f"{point.input_power_w:g} W in for {point.delivered_power_w:g} W delivered",
                f"an efficiency of {LOWEST_EFFICIENCY_PCT:g} % or more from {FROM_W:g} W on",
            )
    for place, row in enumerate(occasion.session.record.standby):
        if row.delivered_power_w >= row.input_power_w:
            yield _too_much(occasion, ("standby", place), out_w=row.delivered_power_w, in_w=row.input_power_w)


def _too_much(occasion: Occasion, row: tuple[str | int, ...], *, out_w: float, in_w: float) -> Clash:
    return Clash(
        occasion.at(*row, "input_power_w"), f"{in_w:g} W in for {out_w:g} W delivered",
        "more power in than delivered; efficiency stays below 100 %",
    )


def power_factor(occasion: Occasion) -> Iterator[Clash]:
    """A power factor that would make the apparent power smaller than the real one, or absurdly larger."""
    for place, point in enumerate(occasion.session.record.load_points):
        at = occasion.at("load_points", place, "power_factor")
        if point.power_factor > 1:
            yield Clash(at, f"{point.power_factor:g}", "at most 1; apparent power is never below real power")
        elif point.power_factor < FAINTEST_POWER_FACTOR:
            came, expected = f"{point.power_factor:g} with {point.input_power_w:g} W in", f"{FAINTEST_POWER_FACTOR:g} or more, as a share of 1"
            yield Clash(at, came, expected)
        elif point.load_pct >= 20 and point.power_factor < LOWEST_POWER_FACTOR:
            expected = f"{LOWEST_POWER_FACTOR:g} or more from 20 % load on, as a share of 1"
            yield Clash(at, f"{point.power_factor:g} at {point.load_pct:g} % load", expected)


def input_rises(occasion: Occasion) -> Iterator[Clash]:
    """Input power that does not grow although more is delivered; where it is below the delivered, that alone is said."""
    points, rated = occasion.session.record.load_points, occasion.unit.record.rated_power_w
    for place in range(1, len(points)):
        before, point = points[place - 1], points[place]
        if slipped(before, rated) or slipped(point, rated) or point.input_power_w <= point.delivered_power_w:
            continue
        if point.delivered_power_w > before.delivered_power_w and point.input_power_w <= before.input_power_w:
            yield Clash(
                occasion.at("load_points", place, "input_power_w"),
                f"{point.input_power_w:g} W in for {point.delivered_power_w:g} W delivered",
                f"more than the {before.input_power_w:g} W that {before.delivered_power_w:g} W took",
            )


def standby(occasion: Occasion) -> Iterator[Clash]:
    """Standby power far beyond what the rail delivers, or above what a higher standby load takes."""
    rows = occasion.session.record.standby
    for place, row in enumerate(rows):
        at = occasion.at("standby", place, "input_power_w")
        came = f"{row.input_power_w:g} W in for {row.delivered_power_w:g} W delivered"
        higher = [one for one in rows if one.current_5vsb_a > row.current_5vsb_a and one.input_power_w > one.delivered_power_w]
        least = min(higher, key=lambda one: one.input_power_w, default=None)
        if row.input_power_w > STANDBY_SPAN_W or row.input_power_w <= row.delivered_power_w:
            continue
        if row.input_power_w - row.delivered_power_w > STANDBY_LOSS_W:
            hint = f"; {row.input_power_w / 1000.0:g} W if it slipped by 1000" if row.delivered_power_w < row.input_power_w / 1000.0 else ""
            yield Clash(at, came, f"no more than {STANDBY_LOSS_W:g} W above what is delivered{hint}")
        elif least is not None and row.input_power_w > least.input_power_w:
            expected = f"less than the {least.input_power_w:g} W that {least.delivered_power_w:g} W took"
            yield Clash(at, came, expected)
