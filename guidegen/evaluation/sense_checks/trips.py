"""Trip points: no protection acts below what the unit was seen to hold, and where none acted there is none."""

from collections.abc import Iterator

from guidegen.evaluation.sense_checks.magnitude import is_far
from guidegen.evaluation.sense_checks.shapes import Clash, Occasion
from guidegen.records import CrossLoad, LoadPoint, ProtectionTest, SessionRecord

TRIP_POINTS = (("trip_current_a", "A"), ("trip_power_w", "W"), ("trip_voltage_v", "V"), ("trip_temperature_c", "°C"))
"""Fields that say where a protection acted, with their units."""
SCATTER_PCT = 1.0
"""By how much two tries of one protection may differ, % of what was held (common practice, no source)."""


def below_held(occasion: Occasion) -> Iterator[Clash]:
    """Protections that would have acted at a load that was held."""
    record = occasion.session.record
    for place, test in enumerate(record.protections):
        for name, value, held, unit in _pairs(test, record):
            if value is not None and held is not None and value < (1.0 - SCATTER_PCT / 100.0) * held:
                at = occasion.at("protections", place, name)
                yield Clash(at, f"{value:g} {unit}", f"more than {held:g} {unit}, which was held in this session")
    limits = record.maximum_power
    if limits is not None and limits.shut_down_w is not None and limits.shut_down_w < limits.sustained_w:
        expected = f"more than {limits.sustained_w:g} W, which was held for {limits.held_minutes:g} min"
        yield Clash(occasion.at("maximum_power", "shut_down_w"), f"{limits.shut_down_w:g} W", expected)


def without_acting(occasion: Occasion) -> Iterator[Clash]:
    """Trip points of protections that did not act, or were not called upon."""
    for place, test in enumerate(occasion.session.record.protections):
        for name, unit in TRIP_POINTS if test.outcome in ("did_not_act", "not_tested") else ():
            value = getattr(test, name)
            if value is not None:
                expected = "outcome: acted, or no trip point; tested_up_to says where a test ended"
                yield Clash(occasion.at("protections", place, name), f"{value:g} {unit} with the outcome {test.outcome}", expected)


def without_reason(occasion: Occasion) -> Iterator[Clash]:
    """Protections that were not tested, and nobody says why."""
    for place, test in enumerate(occasion.session.record.protections):
        if test.outcome == "not_tested" and test.why_not_tested is None:
            expected = "the field why_not_tested; what was not tested is told with the reason"
            yield Clash(occasion.at("protections", place), f"{test.protection}, not_tested without a reason", expected)


def _pairs(test: ProtectionTest, record: SessionRecord) -> Iterator[tuple[str, float | None, float | None, str]]:
    """Field, trip point and highest load held, with the unit."""
    if test.protection == "opp":
        powers = [point.delivered_power_w for point in record.load_points]
        powers += [record.maximum_power.sustained_w] if record.maximum_power else []
        yield "trip_power_w", test.trip_power_w, max(powers), "W"
    if test.protection.startswith("ocp_"):
        yield "trip_current_a", test.trip_current_a, highest_current(record, test.protection.removeprefix("ocp_")), "A"
    if test.protection.startswith("ovp_"):
        volts = voltages(record, test.protection.removeprefix("ovp_"))
        yield "trip_voltage_v", test.trip_voltage_v, max(volts, default=None), "V"


def above_held(occasion: Occasion) -> Iterator[Clash]:
    """Under-voltage protections that would have acted at a steady voltage."""
    record = occasion.session.record
    for place, test in enumerate(record.protections):
        if test.protection.startswith("uvp_") and test.trip_voltage_v is not None:
            lowest = min(voltages(record, test.protection.removeprefix("uvp_")), default=None)
            if lowest is not None and test.trip_voltage_v > lowest:
                at = occasion.at("protections", place, "trip_voltage_v")
                yield Clash(at, f"{test.trip_voltage_v:g} V", f"less than {lowest:g} V, which was held in this session")


def voltages(record: SessionRecord, rail: str) -> tuple[float, ...]:
    """Steady voltages of a main rail, V, without slips of the pen."""
    values = {
        "12v": (12.0, tuple(point.voltage_12v_v for point in record.load_points)),
        "5v": (5.0, tuple(point.voltage_5v_v for point in record.load_points)),
        "3v3": (3.3, tuple(point.voltage_3v3_v for point in record.load_points)),
    }
    nominal, found = values[rail]
    return tuple(value for value in found if not is_far(value, nominal))


def highest_current(record: SessionRecord, rail: str) -> float | None:
    """Highest steady current on a main rail, A; nothing where none was recorded."""
    loads: tuple[LoadPoint | CrossLoad, ...] = (*record.load_points, *record.cross_loads)
    values = {
        "12v": tuple(load.current_12v_a for load in loads),
        "5v": tuple(load.current_5v_a for load in loads),
        "3v3": tuple(load.current_3v3_a for load in loads),
    }
    return max((value for value in values[rail] if value is not None), default=None)
