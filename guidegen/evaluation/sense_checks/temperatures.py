"""Temperatures: air leaves warmer than it came in, and never much colder than the room."""

from collections.abc import Iterator

from guidegen.evaluation.sense_checks.shapes import Clash, Occasion

SCATTER_K = 0.5
"""By how much the exhaust may read below the intake by scatter alone, at light load with the fan standing, K."""
BELOW_ROOM_K = 5.0
"""How far a reading may lie below the room, K."""


def exhaust(occasion: Occasion) -> Iterator[Clash]:
    """Air that would leave colder than it came in."""
    for place, point in enumerate(occasion.session.record.load_points):
        inlet, outlet = point.intake_c, point.exhaust_c
        if inlet is not None and outlet is not None and outlet < inlet - SCATTER_K:
            at = occasion.at("load_points", place, "exhaust_c")
            yield Clash(at, f"{outlet:g} °C with {inlet:g} °C at the intake", "air that leaves no colder than it came in")


def room(occasion: Occasion) -> Iterator[Clash]:
    """Readings far below the air in the room."""
    ambient = occasion.session.record.ambient_c
    for place, point in enumerate(occasion.session.record.load_points):
        for name, value in (("intake_c", point.intake_c), ("exhaust_c", point.exhaust_c)):
            if value is not None and value < ambient - BELOW_ROOM_K:
                expected = f"at least {ambient - BELOW_ROOM_K:g} °C; the room has {ambient:g} °C"
                yield Clash(occasion.at("load_points", place, name), f"{value:g} °C", expected)
