"""One measure a module; their order is the order of the test report. To add one: a module, and a line in the table."""

from collections.abc import Callable

from guidegen.evaluation.findings import Bench, Measure
from guidegen.evaluation.measures import (
    acoustic_noise,
    efficiency,
    facts,
    fan,
    heat,
    hold_up,
    inrush,
    maximum_power,
    power_excursion,
    power_factor,
    protections,
    regulation,
    ripple,
    standby,
    temperatures,
    timing,
    transient_response,
)

MEASURES: dict[str, Callable[[Bench], Measure]] = {
    "efficiency": efficiency.measure,
    "power_factor": power_factor.measure,
    "heat": heat.measure,
    "standby": standby.measure,
    "regulation": regulation.measure,
    "ripple": ripple.measure,
    "transient_response": transient_response.measure,
    "power_excursion": power_excursion.measure,
    "timing": timing.measure,
    "hold_up": hold_up.measure,
    "inrush": inrush.measure,
    "maximum_power": maximum_power.measure,
    "protections": protections.measure,
    "acoustic_noise": acoustic_noise.measure,
    "fan": fan.measure,
    "temperature": temperatures.measure,
    "facts": facts.measure,
}
"""All measures by their name, in the order of the test report."""

__all__ = ["MEASURES"]
