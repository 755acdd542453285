"""One measure a module; their order is the order of the test report. To add one: a module, and a line in the tuple."""

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

MEASURES: tuple[Callable[[Bench], Measure], ...] = (
    efficiency.measure,
    power_factor.measure,
    heat.measure,
    standby.measure,
    regulation.measure,
    ripple.measure,
    transient_response.measure,
    power_excursion.measure,
    timing.measure,
    hold_up.measure,
    inrush.measure,
    maximum_power.measure,
    protections.measure,
    acoustic_noise.measure,
    fan.measure,
    temperatures.measure,
    facts.measure,
)
"""All measures."""

__all__ = ["MEASURES"]
