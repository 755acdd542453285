"""Spans: between which values a number of each field can lie at all, whatever the unit.

They are wide, so that they catch another unit or a slipped decimal point and never judge a supply; common practice, no source.
"""

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from guidegen.evaluation.sense_checks.shapes import Clash, Occasion, SenseRecords
from guidegen.origins import Origin, Step
from guidegen.records import Unit

Path = tuple[Step, ...]
"""Way from the top of a record to a field or an item of a list."""


class Span(NamedTuple):
    """Lowest and highest value of a field; 0, where a record allows it, is always let through."""

    field: str
    """Way to the field; lists are gone through."""
    low: float
    """Lowest value."""
    high: float
    """Highest value."""
    unit: str
    """Unit of both."""


SESSION_SPANS = (
    Span("ambient_c", 5, 60, "°C"),
    Span("noise_distance_m", 0.05, 10, "m"),
    Span("load_points.ripple_12v_mv", 0.5, 2000, "mV"),
    Span("load_points.ripple_5v_mv", 0.5, 2000, "mV"),
    Span("load_points.ripple_3v3_mv", 0.5, 2000, "mV"),
    Span("load_points.ripple_5vsb_mv", 0.5, 2000, "mV"),
    Span("load_points.noise_dba", 0, 90, "dB(A)"),
    Span("load_points.fan_rpm", 100, 10000, "1/min"),
    Span("load_points.intake_c", -10, 80, "°C"),
    Span("load_points.exhaust_c", -10, 120, "°C"),
    Span("noise_sweep.distance_m", 0.05, 10, "m"),
    Span("noise_sweep.points.levels_dba", 0, 100, "dB(A)"),
    Span("noise_sweep.points.background_dba", 0, 60, "dB(A)"),
    Span("noise_sweep.points.fan_rpm", 100, 10000, "1/min"),
    Span("cross_loads.current_12v_a", 0.05, 500, "A"),
    Span("cross_loads.current_5v_a", 0.05, 100, "A"),
    Span("cross_loads.current_3v3_a", 0.05, 100, "A"),
    Span("line_steps.mains_voltage_v", 80, 290, "V"),
    Span("protections.trip_current_a", 1, 1000, "A"),
    Span("protections.trip_power_w", 10, 10000, "W"),
    Span("protections.trip_voltage_v", 1, 25, "V"),
    Span("protections.trip_temperature_c", 40, 250, "°C"),
    Span("maximum_power.sustained_w", 20, 5000, "W"),
    Span("maximum_power.held_minutes", 0.05, 1440, "min"),
    Span("maximum_power.shut_down_w", 20, 10000, "W"),
    Span("hold_up.load_pct", 1, 150, "%"),
    Span("hold_up.power_good_ms", 0.5, 1000, "ms"),
    Span("hold_up.rails_ms", 0.5, 1000, "ms"),
    Span("timing.power_on_t1_ms", 1, 2000, "ms"),
    Span("timing.rise_t2_ms", 0.05, 200, "ms"),
    Span("timing.power_good_delay_t3_ms", 5, 2000, "ms"),
    Span("timing.power_good_rise_t4_ms", 0.0005, 100, "ms"),
    Span("transients.from_a", 0.02, 500, "A"),
    Span("transients.to_a", 0.05, 500, "A"),
    Span("transients.lowest_v", 1, 20, "V"),
    Span("transients.highest_v", 1, 25, "V"),
    Span("transients.recovery_ms", 0.001, 100, "ms"),
    Span("excursions.peak_pct", 100, 400, "%"),
    Span("excursions.duration_ms", 0.01, 1000, "ms"),
    Span("excursions.base_pct", 1, 150, "%"),
    Span("excursions.lowest_12v_v", 1, 20, "V"),
    Span("inrush.peak_a", 1, 500, "A"),
    Span("standby.current_5vsb_a", 0.001, 20, "A"),
    Span("standby.delivered_power_w", 0.005, 100, "W"),
    Span("standby.input_power_w", 0.005, 200, "W"),
)
"""Spans of a session's fields."""
UNIT_SPANS = (
    Span("rails.rated_current_a", 0.05, 500, "A"),
    Span("minor_rails_power_w", 5, 1000, "W"),
    Span("size.width_mm", 30, 400, "mm"),
    Span("size.height_mm", 30, 400, "mm"),
    Span("size.depth_mm", 30, 600, "mm"),
    Span("claims.noise_dba", 3, 80, "dB(A)"),
    Span("claims.hold_up_ms", 1, 500, "ms"),
    Span("construction.bulk_capacitors.count", 1, 20, ""),
    Span("construction.bulk_capacitors.capacitance_uf", 10, 5000, "µF"),
    Span("construction.bulk_capacitors.voltage_v", 100, 1000, "V"),
    Span("construction.bulk_capacitors.temperature_c", 60, 200, "°C"),
    Span("construction.output_capacitors.temperature_c", 60, 200, "°C"),
    Span("fan.size_mm", 20, 300, "mm"),
    Span("cables.count", 1, 40, ""),
    Span("cables.length_mm", 100, 3000, "mm"),
    Span("warranty_years", 0.5, 30, "years"),
)
"""Spans of a unit record's fields."""


def of_session(occasion: Occasion) -> Iterator[Clash]:
    """Numbers of a session outside their spans."""
    for span in SESSION_SPANS:
        for path, value in _outside(occasion.session.record, span):
            yield _clash(span, occasion.at(*path), value)


def of_unit(unit: Unit, records: SenseRecords) -> Iterator[Clash]:
    """Numbers of a unit record outside their spans."""
    del records
    for span in UNIT_SPANS:
        for path, value in _outside(unit.record, span):
            yield _clash(span, Origin(unit.file, path), value)


def numbers(record: Any, steps: Sequence[str]) -> list[tuple[Path, float]]:
    """Every number at the end of a way through records and lists, each with its path; what is left out has none."""
    ends: list[tuple[Path, Any]] = [((), record)]
    for step in steps:
        ends = [((*path, step), getattr(one, step)) for path, one in _each(ends)]
    return list(_each(ends))


def _each(ends: list[tuple[Path, Any]]) -> Iterator[tuple[Path, Any]]:
    """What stands at these ends: of a list its items, of what is left out nothing."""
    for path, one in ends:
        if isinstance(one, tuple):
            yield from _each([((*path, place), item) for place, item in enumerate(one)])
        elif one is not None:
            yield path, one


def _outside(record: Any, span: Span) -> list[tuple[Path, float]]:
    """The numbers of a record outside a span, each with its path."""
    return [(path, value) for path, value in numbers(record, span.field.split(".")) if value != 0 and not span.low <= value <= span.high]


def _clash(span: Span, origin: Origin, value: float) -> Clash:
    unit = f" {span.unit}" if span.unit else ""
    slips = [slip for slip in (value * 1000.0, value / 1000.0) if span.low <= slip <= span.high]
    hint = f"; {slips[0]:g}{unit} if it slipped by 1000" if slips else ""
    return Clash(origin, f"{value:g}{unit}", f"{span.low:g} to {span.high:g}{unit}{hint}")
