"""Slips by a factor of 1000 that the rest of a load point betrays: kW for W, mV for V."""

from collections.abc import Iterator

from guidegen.evaluation.sense_checks.shapes import Clash, Occasion
from guidegen.records import CrossLoad, LineStep, LoadPoint
from guidegen.records.kinds import Rail

NOMINAL_V: dict[Rail, float] = {"12v": 12.0, "5v": 5.0, "3v3": 3.3, "5vsb": 5.0, "minus_12v": 12.0}
"""Nominal voltages, V, without sign (ATX design guide, 336521)."""
FARTHEST_PCT = 20.0
"""A steady rail further from its nominal voltage is a slip of the pen or a dead unit (common practice, no source)."""


def slipped(point: LoadPoint, rated_w: float) -> str:
    """The power of a load point that makes sense only in kW, or empty.

    Delivered power says so by the nominal load, input power by the efficiency.
    """
    share = point.load_pct / 100.0 * rated_w
    if share > 0 and 0.9 <= 1000.0 * point.delivered_power_w / share <= 1.1:
        return "delivered_power_w"
    if 0.2 <= point.delivered_power_w / (1000.0 * point.input_power_w) <= 1.0:
        return "input_power_w"
    return ""


def kilowatts(occasion: Occasion) -> Iterator[Clash]:
    """A power written in kW where W belong."""
    rated = occasion.unit.record.rated_power_w
    for place, point in enumerate(occasion.session.record.load_points):
        name = slipped(point, rated)
        if name:
            value = point.delivered_power_w if name == "delivered_power_w" else point.input_power_w
            yield Clash(
                occasion.at("load_points", place, name), f"{value:g} at {point.load_pct:g} % load",
                f"watts; {1000 * value:g} if that was kW",
            )


def rail_voltages(occasion: Occasion) -> Iterator[Clash]:
    """Steady rail voltages far from their nominal value: mV for V, or the reading of another rail."""
    record = occasion.session.record
    rows: tuple[tuple[tuple[str, int], LoadPoint | CrossLoad | LineStep], ...] = (
        *((("load_points", place), point) for place, point in enumerate(record.load_points)),
        *((("cross_loads", place), cross) for place, cross in enumerate(record.cross_loads)),
        *((("line_steps", place), step) for place, step in enumerate(record.line_steps)),
    )
    for (group, place), row in rows:
        volts: dict[Rail, float] = {"12v": row.voltage_12v_v, "5v": row.voltage_5v_v, "3v3": row.voltage_3v3_v}
        if isinstance(row, LoadPoint):
            volts["5vsb"] = row.voltage_5vsb_v
        for rail, value in volts.items():
            nominal = NOMINAL_V[rail]
            if is_far(value, nominal):
                yield _far(occasion, (group, place, f"voltage_{rail}_v"), value=value, nominal=nominal)


def is_far(value: float, nominal: float) -> bool:
    """Whether a steady voltage can't be that of its rail.

    >>> is_far(13.2, 12.0), is_far(0.012, 12.0)
    (False, True)
    """
    return abs(value - nominal) > FARTHEST_PCT / 100.0 * nominal


def _far(occasion: Occasion, path: tuple[str | int, ...], *, value: float, nominal: float) -> Clash:
    thousandth = value / 1000.0
    if not is_far(thousandth, nominal):
        return Clash(occasion.at(*path), f"{value:g}", f"volts; {thousandth:g} if that was mV")
    return Clash(occasion.at(*path), f"{value:g}", f"{nominal:g} V within {FARTHEST_PCT:g} %")
