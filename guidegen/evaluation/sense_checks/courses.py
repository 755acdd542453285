"""Courses: what a reading does from one load to the next, so that one that was slipped sticks out from those beside it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from guidegen.evaluation.sense_checks.energy import FROM_W, HIGHEST_EFFICIENCY_PCT, LOWEST_EFFICIENCY_PCT
from guidegen.evaluation.sense_checks.floors import LARGEST_CORRECTION_DB
from guidegen.evaluation.sense_checks.magnitude import slipped
from guidegen.evaluation.sense_checks.shapes import Clash, Occasion
from guidegen.origins import Origin
from guidegen.records import LoadPoint

STEP_OF_RATING_PCT, STEP_OF_LOAD_PCT = 1.0, 2.0
"""By how much a fan, a burst mode or a phase that joins in may take a loss off its curve: the larger of both (common
practice, no source; ten times what the instruments do)."""
STEEPEST = 2.5
"""Power of the load with which losses grow at most; with it, no supply that just meets a badge is objected to."""
COVERAGE = 2.0
"""Standard uncertainties of the instruments that are let through on top (JCGM 100:2008, 6.3.3)."""
FALL_DB = 5.0
"""By how much a unit may be louder at a lower load: a coil that sings, a fan that slows late (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class _Loss:
    """What is lost at one load."""

    place: int
    """Place among the session's load points."""
    point: LoadPoint
    """The load point."""
    slack_w: float
    """How far the loss may lie off its curve, W."""

    @property
    def out_w(self) -> float:
        """Delivered power, W."""
        return self.point.delivered_power_w

    @property
    def lost_w(self) -> float:
        """Loss, W."""
        return self.point.input_power_w - self.point.delivered_power_w

    def between(self, one: "_Loss", other: "_Loss") -> tuple[float, float]:
        """Lowest and highest loss here by those at two other loads, W.

        Of all curves a + b·P + c·P² through both without a negative part, the straight line and the one without b are the
        outermost (loss model: tests/reference/test_loss_model.py); a steeper power leaves room for copper that warms and a
        fan that speeds up.
        """
        rise = other.lost_w - one.lost_w
        low, high = sorted(one.lost_w + rise * self._way(one, other, power) for power in (1.0, STEEPEST))
        return low, high

    def _way(self, one: "_Loss", other: "_Loss", power: float) -> float:
        """How far this load lies from one to the other, 0 to 1 between them, on a scale of a power of the load."""
        return float((self.out_w**power - one.out_w**power) / (other.out_w**power - one.out_w**power))


_Triple = tuple[_Loss, _Loss, _Loss]
"""A load, the one before it and the one after it."""


def losses(occasion: Occasion) -> Iterator[Clash]:
    """Losses off the curve of those beside them, then, among the others, such as fall towards a higher load."""
    left = _sound(occasion)
    while (triple := _worst(left)) is not None:
        odd = min(triple, key=lambda one: _misfit([other for other in left if other is not one]))
        yield _off_curve(occasion, odd, *(one for one in sorted(triple, key=lambda one: one.place) if one is not odd))
        left.remove(odd)
    for before, here in pairwise(left):
        if here.lost_w < before.lost_w - here.slack_w:
            yield Clash(
                _at(occasion, here), f"{_said(here)}, a loss of {here.lost_w:.1f} W",
                f"hardly less than the {before.lost_w:.1f} W lost at {before.point.load_pct:g} %: losses grow with the load",
            )


def _sound(occasion: Occasion) -> list[_Loss]:
    """Rising loads whose powers no other rule objects to."""
    rated, found = occasion.unit.record.rated_power_w, list[_Loss]()
    for place, point in enumerate(occasion.session.record.load_points):
        out_w, in_w = point.delivered_power_w, point.input_power_w
        fits = out_w < FROM_W or LOWEST_EFFICIENCY_PCT * in_w <= 100 * out_w
        if fits and 100 * out_w <= HIGHEST_EFFICIENCY_PCT * in_w and not slipped(point, rated):
            step = max(STEP_OF_RATING_PCT * rated, STEP_OF_LOAD_PCT * out_w) / 100.0
            found.append(_Loss(place, point, step + COVERAGE * _doubt_w(occasion, point)))
    falling = {place for one, other in pairwise(found) if not _rises(one.point, other.point) for place in (one.place, other.place)}
    return [one for one in found if one.place not in falling]


def _rises(before: LoadPoint, point: LoadPoint) -> bool:
    return point.delivered_power_w > before.delivered_power_w and point.input_power_w > before.input_power_w


def _doubt_w(occasion: Occasion, point: LoadPoint) -> float:
    """Standard uncertainty of a loss by the instruments of the session, W."""
    values = {"input_power_w": point.input_power_w, "delivered_power_w": point.delivered_power_w}
    readings = (reading for _, instrument in occasion.instruments() for reading in instrument.readings)
    return math.hypot(*(
        part for reading in readings if reading.quantity in values
        for part in (reading.gain_pct / 100.0 * values[reading.quantity], reading.offset, reading.resolution, reading.repeatability)
    ))


def _worst(left: list[_Loss]) -> _Triple | None:
    """The load that lies farthest off the curve of its neighbours, with these; nothing where none lies off it."""
    worst = max(_triples(left), key=_off, default=None)
    return worst if worst is not None and _off(worst) > 1.0 else None


def _misfit(left: list[_Loss]) -> float:
    """How far all loads lie off the curves of their neighbours; the slip is the one without which this is least."""
    return math.fsum(_off(one) for one in _triples(left))


def _triples(left: list[_Loss]) -> list[_Triple]:
    return [(here, before, after) for before, here, after in zip(left, left[1:], left[2:], strict=False)]


def _off(triple: _Triple) -> float:
    """How far a load lies off the curve of its neighbours, in parts of what is let through."""
    here, before, after = triple
    low, high = here.between(before, after)
    return max(low - here.lost_w, here.lost_w - high, 0.0) / here.slack_w


def _off_curve(occasion: Occasion, odd: _Loss, one: _Loss, other: _Loss) -> Clash:
    low, high = odd.between(one, other)
    beside = " and ".join(f"{100 * x.out_w / x.point.input_power_w:.1f} % at {x.point.load_pct:g} %" for x in (one, other))
    return Clash(
        _at(occasion, odd), _said(odd),
        f"{odd.out_w + low:.1f} to {odd.out_w + high:.1f} W by the efficiency beside it ({beside}), within {odd.slack_w:.1f} W",
    )


def _at(occasion: Occasion, here: _Loss) -> Origin:
    return occasion.at("load_points", here.place, "input_power_w")


def _said(here: _Loss) -> str:
    point = here.point
    share = 100 * point.delivered_power_w / point.input_power_w
    return f"{point.input_power_w:g} W in for {point.delivered_power_w:g} W delivered, {share:.1f} % at {point.load_pct:g} % load"


@dataclass(frozen=True, slots=True)
class _Level:
    """A sound level at one load."""

    path: tuple[str | int, ...]
    """Way to it."""
    load: str
    """The load in words."""
    dba: float
    """Level, dB(A)."""


def noise_falls(occasion: Occasion) -> Iterator[Clash]:
    """Levels far above those of a higher load; what the meter can't have shown is left to the rule about its floor."""
    record, heard = occasion.session.record, occasion.floor("noise_dba") - LARGEST_CORRECTION_DB
    sweep = record.noise_sweep.points if record.noise_sweep else ()
    yield from _falls(occasion, [
        _Level(("load_points", place, "noise_dba"), f"{point.load_pct:g} % load", point.noise_dba)
        for place, point in enumerate(record.load_points) if point.noise_dba is not None and point.noise_dba >= heard
    ])
    yield from _falls(occasion, [
        _Level(("noise_sweep", "points", place, "levels_dba"), f"{row.delivered_power_w:g} W", math.fsum(row.levels_dba) / len(row.levels_dba))
        for place, row in enumerate(sweep) if min(row.levels_dba) >= heard
    ])


def _falls(occasion: Occasion, left: list[_Level]) -> Iterator[Clash]:
    """The greatest fall that is too great, then those among the other levels; the one named is that which explains most."""
    while (pair := _greatest_fall(left)) is not None:
        louder, quieter = pair
        odd = min(pair, key=lambda one: _fallen([other for other in left if other is not one]))
        came = f"{odd.dba:.1f} dB(A) at {odd.load}"
        if odd is louder:
            yield Clash(occasion.at(*odd.path), came, f"at most {FALL_DB:g} dB above the {quieter.dba:.1f} dB(A) at {quieter.load}")
        else:
            yield Clash(occasion.at(*odd.path), came, f"at most {FALL_DB:g} dB below the {louder.dba:.1f} dB(A) at {louder.load}")
        left.remove(odd)


def _greatest_fall(left: list[_Level]) -> tuple[_Level, _Level] | None:
    """The level that lies farthest above one of a higher load, and that one; nothing where none lies too far above."""
    pairs = [(louder, quieter) for place, louder in enumerate(left) for quieter in left[place + 1 :]]
    worst = max(pairs, key=lambda pair: pair[0].dba - pair[1].dba, default=None)
    return worst if worst is not None and worst[0].dba - worst[1].dba > FALL_DB else None


def _fallen(left: list[_Level]) -> float:
    """The greatest fall that would be left, dB."""
    pair = _greatest_fall(left)
    return pair[0].dba - pair[1].dba if pair else 0.0
