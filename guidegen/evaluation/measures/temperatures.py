"""Temperatures: how much the air warms on its way through."""

from guidegen.evaluation.findings import Bench, Finding, Measure
from guidegen.evaluation.measures.points import origin, point_near
from guidegen.evaluation.uncertainty import difference, read


def measure(bench: Bench) -> Measure:
    """Rise of the exhaust above the intake at full load, °C."""
    near = point_near(bench, 100)
    if near is None or near[1].exhaust_c is None or near[1].intake_c is None:
        return Measure(id="temperature", title="Temperatures")
    place, point = near
    if point.exhaust_c is None or point.intake_c is None:
        return Measure(id="temperature", title="Temperatures")
    rise = difference(read(bench, "temperature_c", point.exhaust_c, "°C"), read(bench, "temperature_c", point.intake_c, "°C"))
    finding = Finding(
        key="temperature.exhaust_rise_at_100", title="Exhaust above intake at full load", decimals=1, better="lower",
        quantity=rise, origins=origin(bench, place, "exhaust_c", "intake_c"),
    )
    return Measure(id="temperature", title="Temperatures", findings=(finding,))
