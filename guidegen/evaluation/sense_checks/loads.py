"""Loads: what the rails carry adds up, fits the nominal load, and no point was written down twice."""

from collections.abc import Callable, Iterator
from dataclasses import fields
from operator import attrgetter

from guidegen.evaluation.measures.points import TOLERANCE_PCT
from guidegen.evaluation.sense_checks.magnitude import NOMINAL_V, slipped
from guidegen.evaluation.sense_checks.shapes import Clash, Occasion, SenseRecords
from guidegen.records import LoadPoint
from guidegen.standards import levels

SUM_PCT, SUM_W = 2.0, 0.5
"""How far the rails' sum may lie from the delivered power: the larger of both, the second for rounded currents."""
SHARE_POINTS, SHARE_FACTOR = 3.0, 2.0
"""How far a nominal load may lie from delivered power over rating: points of %, and a factor for light loads."""
STANDBY_PCT, STANDBY_W = 20.0, 0.01
"""How far the standby rail's power may lie from its current times 5 V: share in %, and rounding."""
BADGE_LOADS_PCT = sorted({load for level in levels("230v_eu_internal") for load, _ in level.floors})
"""Loads at which badges are judged, % of the rating."""
RATINGS_W, FITS = tuple(range(100, 3001, 50)), 3
"""Ratings that supplies are sold with (common practice, no source), and how many of the badge's loads must lie on one to name it."""
_readings: Callable[[LoadPoint], tuple[object, ...]] = attrgetter(*(one.name for one in fields(LoadPoint) if one.name != "load_pct"))
"""All that was read at a load point: everything but the load that it is called by."""


def rail_powers(occasion: Occasion) -> Iterator[Clash]:
    """Recorded currents whose powers do not add up to the delivered power; rails left out can only make it less."""
    rated = occasion.unit.record.rated_power_w
    for place, point in enumerate(occasion.session.record.load_points):
        powers = _powers(point)
        total, given = sum(powers), point.delivered_power_w
        slack = max(SUM_PCT / 100.0 * given, SUM_W)
        above, below = total > given + slack, len(powers) == 4 and total < given - slack
        if powers and (above or below) and not slipped(point, rated):
            yield Clash(
                occasion.at("load_points", place, "delivered_power_w"),
                f"{given:g} W, but volts times amperes of the rails make {total:.1f} W", f"their sum within {SUM_PCT:g} %",
            )
    for place, row in enumerate(occasion.session.record.standby):
        total = NOMINAL_V["5vsb"] * row.current_5vsb_a
        if abs(total - row.delivered_power_w) > STANDBY_PCT / 100.0 * total + STANDBY_W:
            yield Clash(
                occasion.at("standby", place, "delivered_power_w"),
                f"{row.delivered_power_w:g} W, but 5 V times {row.current_5vsb_a:g} A make {total:g} W",
                f"their product within {STANDBY_PCT:g} %",
            )


def _powers(point: LoadPoint) -> tuple[float, ...]:
    """Power of each rail whose current is recorded, W."""
    pairs = (
        (point.voltage_12v_v, point.current_12v_a), (point.voltage_5v_v, point.current_5v_a),
        (point.voltage_3v3_v, point.current_3v3_a), (point.voltage_5vsb_v, point.current_5vsb_a),
    )
    return tuple(volts * amps for volts, amps in pairs if amps is not None)


def load_share(occasion: Occasion) -> Iterator[Clash]:
    """A nominal load that the delivered power contradicts."""
    rated = occasion.unit.record.rated_power_w
    for place, point in enumerate(occasion.session.record.load_points):
        share = 100.0 * point.delivered_power_w / rated
        far = abs(share - point.load_pct) > SHARE_POINTS or not point.load_pct / SHARE_FACTOR <= share <= SHARE_FACTOR * point.load_pct
        if far and slipped(point, rated) != "delivered_power_w":
            yield Clash(
                occasion.at("load_points", place, "load_pct"),
                f"{point.load_pct:g}, but {point.delivered_power_w:g} W are {share:.1f} % of {rated:g} W",
                f"the share of the rating within {SHARE_POINTS:g} points and a factor of {SHARE_FACTOR:g}",
            )


def of_another_rating(occasion: Occasion) -> Iterator[Clash]:
    """Loads of which none lies where a badge is judged, such as those of a log of another unit."""
    rated = occasion.unit.record.rated_power_w
    loads = [point.delivered_power_w for point in occasion.session.record.load_points]
    if not _on_badge_loads(loads, rated):
        fitting = [rating for rating in RATINGS_W if _on_badge_loads(loads, rating) >= FITS]
        best = max(fitting, key=lambda rating: (_on_badge_loads(loads, rating), -abs(rating - rated)), default=None)
        hint = f"; these loads would fit a rating of {best} W: are they those of another unit?" if best else ""
        shares = ", ".join(f"{100.0 * load / rated:.0f}" for load in loads)
        expected = f"a load within {TOLERANCE_PCT:g} point of 10, 20, 50 or 100 %{hint}"
        yield Clash(occasion.at("load_points"), f"loads of {shares} % of {rated:g} W", expected)


def _on_badge_loads(loads: list[float], rating_w: float) -> int:
    """At how many of the loads of a badge one of these loads in W lies, for a supply of this rating."""
    shares = [100.0 * load / rating_w for load in loads]
    return sum(any(abs(share - at) <= TOLERANCE_PCT for share in shares) for at in BADGE_LOADS_PCT)


def readings_twice(occasion: Occasion) -> Iterator[Clash]:
    """Two load points of a session with the very same readings."""
    seen: dict[tuple[object, ...], float] = {}
    for place, point in enumerate(occasion.session.record.load_points):
        readings = _readings(point)
        if readings in seen:
            yield Clash(
                occasion.at("load_points", place), f"the readings of {seen[readings]:g} % again at {point.load_pct:g} %",
                "readings of its own; was a row copied?",
            )
        seen.setdefault(readings, point.load_pct)


def sessions_twice(records: SenseRecords) -> Iterator[tuple[str, Clash]]:
    """Two sessions whose load points are the very same."""
    seen: dict[tuple[LoadPoint, ...], str] = {}
    for occasion in records.places():
        points, file = occasion.session.record.load_points, occasion.session.file
        if points in seen:
            came = f"every reading of {seen[points]} again"
            yield file, Clash(occasion.at("load_points"), came, "readings of its own; was a file copied?")
        seen.setdefault(points, file)
