"""Acoustic noise: sound pressure level over load, background removed, brought to one metre."""

import math
from dataclasses import dataclass, replace

from guidegen.evaluation.curves import value_at
from guidegen.evaluation.findings import Bench, Curve, CurvePoint, Finding, Measure
from guidegen.evaluation.measures.points import is_near, load_share
from guidegen.evaluation.uncertainty import at_floor, combined, read
from guidegen.origins import Origin
from guidegen.quantities import Quantity
from guidegen.records import NoiseSweep

LOADS = ((20, "Noise at 20 % load"), (50, "Noise at half load"), (80, "Noise at 80 % load"), (100, "Noise at full load"))
BOUND = "The room or the meter is as loud as the unit here: an upper bound."
NEVER_LOUDER = "Never louder within the measured loads."
"""Note of a threshold that was never reached."""
THRESHOLDS_DBA = (20, 25, 30, 35)
REFERENCE_DISTANCE_M = 1.0
SMALLEST_GAP_DB, FREE_GAP_DB = 6.0, 15.0
"""Gap between source with background and background alone: below the first a level is an upper bound, above the second
nothing is corrected (ISO 3744:2010, 8.2.3, read in a second text)."""


@dataclass(frozen=True, slots=True)
class Corrected:
    """A level with the background removed."""

    level_dba: float
    """Level, dB(A)."""
    upper_bound: bool
    """Whether the background is too near for more than an upper bound."""
    amplification: float = 1.0
    """By how much a doubt of the level as read grows when the background is removed; by this less one, a doubt of the
    background."""


def energy_mean(levels: tuple[float, ...]) -> float:
    """Mean of levels by energy, dB: ``10·lg((1/N)·Σ10^(L/10))`` (ISO 3744:2010, equation 12, from a second text).

    >>> round(energy_mean((30.0, 32.0, 31.0, 35.0, 33.0)), 2)
    32.55
    """
    return 10.0 * math.log10(math.fsum(10.0 ** (level / 10.0) for level in levels) / len(levels))


def energy_sum(levels: tuple[float, ...]) -> float:
    """Level of all sources together, dB.

    >>> round(energy_sum((60.0, 60.0)), 2)
    63.01
    """
    return 10.0 * math.log10(math.fsum(10.0 ** (level / 10.0) for level in levels))


def background_correction(gap_db: float) -> float:
    """K1 in dB for a gap of ``gap_db``: ``−10·lg(1 − 10^(−ΔL/10))``, held at the value for 6 dB below that, 0 above 15 dB.

    ISO 3744:2010, 8.2.3 and equation 16, from a second text.

    >>> round(background_correction(10.0), 5), background_correction(15.1), round(background_correction(3.0), 5)
    (0.45757, 0.0, 1.25628)
    """
    if gap_db > FREE_GAP_DB:
        return 0.0
    return -10.0 * math.log10(1.0 - 10.0 ** (-max(gap_db, SMALLEST_GAP_DB) / 10.0))


def corrected(levels: tuple[float, ...], *, background_dba: float, distance_m: float) -> Corrected:
    """Energy mean of positions less background, at one metre (free field: 20·lg of the ratio of distances)."""
    together = energy_mean(levels)
    gap = together - background_dba
    level = together - background_correction(gap) + to_one_metre(distance_m)
    if SMALLEST_GAP_DB <= gap <= FREE_GAP_DB:
        return Corrected(level, upper_bound=False, amplification=1.0 / (1.0 - 10.0 ** (-gap / 10.0)))
    return Corrected(level, upper_bound=gap < SMALLEST_GAP_DB)


def to_one_metre(distance_m: float) -> float:
    """What a level at a distance changes by when it is brought to one metre, dB (free field, textbook).

    >>> round(to_one_metre(0.5), 2)
    -6.02
    """
    return 20.0 * math.log10(distance_m / REFERENCE_DISTANCE_M)


def mean_level(levels: tuple[Quantity, ...]) -> Quantity:
    """The energy mean with its doubt: own parts by their share of the energy in quadrature, shared parts by their sum."""
    value = energy_mean(tuple(level.value for level in levels))
    shares = [10.0 ** ((level.value - value) / 10.0) / len(levels) for level in levels]
    return Quantity(
        value, levels[0].unit,
        own=combined(shares, [level.own for level in levels]),
        shared=math.fsum(share * level.shared for share, level in zip(shares, levels, strict=True)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Course:
    """Noise over load, and what is known of it."""

    curve: Curve
    """Levels at one metre."""
    origins: tuple[Origin, ...]
    """Where they were written down."""

    def finding(self, name: str, title: str, level: Quantity, *, up_to_w: float, note: str = "") -> Finding:
        """A level, with the note that it is an upper bound where it is one."""
        hidden = self.curve.upper_bound(up_to_w)
        return Finding(key=f"acoustic_noise.{name}", title=title, decimals=1, better="lower", quantity=level,
                       origins=self.origins, note=f"{note} {BOUND if hidden else ''}".strip(), upper_bound=hidden)


def measure(bench: Bench) -> Measure:
    """Levels at nominal loads, the power up to which each threshold is kept, and the course over load."""
    course = _course(bench)
    if not course.curve.points:
        return Measure(id="acoustic_noise", title="Acoustic noise")
    rated = bench.unit.record.rated_power_w
    levels = {load: _level_at(bench, course.curve, load) for load, _ in LOADS}
    findings = [
        course.finding(f"at_{load}", title, level, up_to_w=load / 100.0 * rated)
        for load, title in LOADS
        if (level := levels[load]) is not None
    ]
    found = tuple(level for level in levels.values() if level is not None)
    if len(found) == len(LOADS):
        findings.append(
            course.finding("mean", "Noise over the load", mean_level(found), up_to_w=LOADS[0][0] / 100.0 * rated,
                           note="Mean by energy of the levels at 20, 50, 80 and 100 % load.")
        )
    findings += [_stays_under(bench, course, threshold) for threshold in THRESHOLDS_DBA]
    findings += _over_days(bench, course)
    return Measure(id="acoustic_noise", title="Acoustic noise", findings=tuple(findings), curves=(course.curve,))


def _over_days(bench: Bench, course: _Course) -> list[Finding]:
    """What each reader profile hears over a day: the mean by energy over its hours at the bracket's usual full load."""
    bracket = bench.guide.bracket_of(bench.unit.record.rated_power_w)
    if bracket is None:
        return []
    findings = []
    for profile in bench.guide.profiles:
        loads = [(use.share_of_full_pct / 100.0 * bracket.usual_full_load_w, use.hours_per_day) for use in profile.uses]
        lowest = course.curve.points[0].load_w
        heard = [(value_at(course.curve, max(load, lowest)), hours) for load, hours in loads if hours > 0]
        if not heard or any(level is None for level, _ in heard):
            continue
        quantity = daily_level(tuple((level, hours) for level, hours in heard if level is not None))
        findings.append(
            course.finding(f"profile_{profile.id}", f"Noise over a day, {profile.title.lower()}", quantity,
                           up_to_w=max(load for load, _ in loads),
                           note=f"Mean by energy over the profile's hours; full load {bracket.usual_full_load_w:.0f} W.")
        )
    return findings


def daily_level(heard: tuple[tuple[Quantity, float], ...]) -> Quantity:
    """Mean by energy of levels that last for hours: ``10·lg(Σh·10^(L/10)/Σh)``; the doubt of the loudest stands for all.

    >>> round(daily_level(((Quantity(30.0, "dB(A)"), 1.0), (Quantity(20.0, "dB(A)"), 9.0))).value, 2)
    22.79
    """
    hours = math.fsum(h for _, h in heard)
    level = 10.0 * math.log10(math.fsum(h * 10.0 ** (q.value / 10.0) for q, h in heard) / hours)
    loudest = max((q for q, _ in heard), key=lambda q: q.value)
    return Quantity(level, loudest.unit, own=loudest.own, shared=loudest.shared)


def _level_at(bench: Bench, curve: Curve, load_pct: float) -> Quantity | None:
    """The level read at a nominal load, else by a straight line between its neighbours."""
    near = [point for point in curve.points if is_near(bench, point.load_w, load_pct)]
    if near:
        return min(near, key=lambda point: abs(point.load_pct - load_pct)).quantity
    return value_at(curve, load_pct / 100.0 * bench.unit.record.rated_power_w)


def _course(bench: Bench) -> _Course:
    return _told(bench) if bench.session.record.noise_sweep is None else _swept(bench, bench.session.record.noise_sweep)


def _swept(bench: Bench, sweep: NoiseSweep) -> _Course:
    """Levels as read round the unit, background not yet removed."""
    points, bounded = [], [-1.0]
    for read_at in sweep.points:
        made = corrected(read_at.levels_dba, background_dba=read_at.background_dba, distance_m=sweep.distance_m)
        if made.upper_bound or all(at_floor(bench, "noise_dba", level) for level in read_at.levels_dba):
            bounded.append(read_at.delivered_power_w)
        together = mean_level(tuple(read(bench, "noise_dba", level, "dB(A)") for level in read_at.levels_dba))
        background = read(bench, "noise_dba", read_at.background_dba, "dB(A)")
        own = math.hypot(made.amplification * together.own, (made.amplification - 1.0) * background.own)
        points.append(_point(bench, read_at.delivered_power_w, replace(together, value=made.level_dba, own=own)))
    return _Course(curve=_curve(points, max(bounded)), origins=(Origin(bench.session.file, ("noise_sweep", "points")),))


def _told(bench: Bench) -> _Course:
    """Levels of the steady loads, background already removed."""
    away = to_one_metre(bench.session.record.noise_distance_m)
    told = [(i, p, p.noise_dba) for i, p in enumerate(bench.session.record.load_points) if p.noise_dba is not None]
    points = [
        _point(bench, p.delivered_power_w, replace(read(bench, "noise_dba", level, "dB(A)"), value=level + away))
        for _, p, level in told
    ]
    bounded = [p.delivered_power_w for _, p, level in told if at_floor(bench, "noise_dba", level)]
    return _Course(curve=_curve(points, max(bounded, default=-1.0)),
                   origins=tuple(Origin(bench.session.file, ("load_points", i, "noise_dba")) for i, _, _ in told))


def _curve(points: list[CurvePoint], bounded_w: float) -> Curve:
    return Curve(key="acoustic_noise", title="Noise over load", points=tuple(points), bounded_w=bounded_w)


def _point(bench: Bench, load_w: float, level: Quantity) -> CurvePoint:
    return CurvePoint(load_w=load_w, load_pct=load_share(bench, load_w), quantity=level)


def _stays_under(bench: Bench, course: _Course, threshold: int) -> Finding:
    """The delivered power up to which the level stays under a threshold, W; by straight lines between readings."""
    points = course.curve.points
    louder = next((i for i, point in enumerate(points) if point.quantity.value >= threshold), None)
    note = ""
    if louder is None:
        reached, note = Quantity(points[-1].load_w, "W"), NEVER_LOUDER
    elif louder == 0:
        reached, note = Quantity(0.0, "W"), "Louder from the lowest load on."
    else:
        reached = _crossing(bench, points[louder - 1], points[louder], threshold)
    return Finding(
        key=f"acoustic_noise.under_{threshold}", title=f"Stays under {threshold} dB(A) up to", decimals=0, better="higher",
        quantity=reached, origins=course.origins, note=note,
    )


def _crossing(bench: Bench, low: CurvePoint, high: CurvePoint, threshold: float) -> Quantity:
    """Where the straight line between two points reaches the threshold, W; a doubt of the level moves it by the slope."""
    slope = (high.quantity.value - low.quantity.value) / (high.load_w - low.load_w)
    reached = low.load_w + (threshold - low.quantity.value) / slope
    power = read(bench, "delivered_power_w", reached, "W")
    level = value_at(Curve(key="noise", title="", points=(low, high)), reached) or high.quantity
    return replace(power, own=math.hypot(power.own, level.own / slope), shared=math.hypot(power.shared, level.shared / slope))
