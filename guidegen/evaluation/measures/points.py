"""Steady loads: which point stands for a nominal load, and where it was written down."""

from guidegen.evaluation.findings import Bench
from guidegen.origins import Origin
from guidegen.records import LoadPoint

TOLERANCE_PCT = 1.0
"""A point stands for a nominal load when it lies within this many points of it."""


def point_near(bench: Bench, load_pct: float) -> tuple[int, LoadPoint] | None:
    """Place and point of a nominal load, or nothing where none was measured near enough."""
    near = [
        (abs(point.load_pct - load_pct), i, point)
        for i, point in enumerate(bench.session.record.load_points)
        if abs(point.load_pct - load_pct) <= TOLERANCE_PCT
    ]
    if not near:
        return None
    _, i, point = min(near, key=lambda entry: entry[0])
    return i, point


def is_rated(load_pct: float) -> bool:
    """Whether a nominal load in % of the rating belongs to the range for which limits are set: the ATX design guides have ripple and
    noise measured over the whole load range; that the limits on voltage end there, too, is common practice, no source.
    """
    return load_pct <= 100.0 + TOLERANCE_PCT


def is_near(bench: Bench, delivered_w: float, load_pct: float) -> bool:
    """Whether a delivered power in W stands for a nominal load in % of the rating."""
    return abs(load_share(bench, delivered_w) - load_pct) <= TOLERANCE_PCT


def origin(bench: Bench, place: int, *fields: str) -> tuple[Origin, ...]:
    """Origins of fields of one load point."""
    return tuple(Origin(bench.session.file, ("load_points", place, field)) for field in fields)


def load_share(bench: Bench, delivered_w: float) -> float:
    """Delivered power as a share of the rating, %."""
    return 100.0 * delivered_w / bench.unit.record.rated_power_w
