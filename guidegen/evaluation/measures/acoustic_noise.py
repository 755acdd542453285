"""Acoustic noise: sound pressure level over load, background removed, brought to one metre."""

import math
from dataclasses import dataclass

from guidegen.evaluation.curves import value_at
from guidegen.evaluation.findings import Bench, Curve, CurvePoint, Finding, Measure
from guidegen.evaluation.measures.points import load_share
from guidegen.evaluation.uncertainty import read
from guidegen.origins import Origin
from guidegen.quantities import Quantity

LOADS = ((20, "Noise at 20 % load"), (50, "Noise at half load"), (80, "Noise at 80 % load"), (100, "Noise at full load"))
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
    at_distance = together - background_correction(gap)
    return Corrected(
        at_distance + 20.0 * math.log10(distance_m / REFERENCE_DISTANCE_M), upper_bound=gap < SMALLEST_GAP_DB
    )


def measure(bench: Bench) -> Measure:
    """Levels at nominal loads, the power up to which each threshold is kept, and the course over load."""
    curve, bounded, places = _course(bench)
    if not curve.points:
        return Measure(id="acoustic_noise", title="Acoustic noise")
    rated = bench.unit.record.rated_power_w
    note = "At low load the room is as loud as the unit: an upper bound." if bounded else ""
    findings = []
    for load, title in LOADS:
        level = value_at(curve, load / 100.0 * rated)
        if level is not None:
            findings.append(
                Finding(key=f"acoustic_noise.at_{load}", title=title, decimals=1, better="lower", quantity=level,
                        origins=places, note=note)
            )
    levels = tuple(finding.quantity for finding in findings)
    if len(levels) == len(LOADS):
        findings.append(
            Finding(
                key="acoustic_noise.mean", title="Noise over the load", decimals=1, better="lower", origins=places,
                quantity=Quantity(
                    energy_mean(tuple(q.value for q in levels)), "dB(A)",
                    own=max(q.own for q in levels) / 2, shared=levels[0].shared,
                ),
                note="Mean by energy of the levels at 20, 50, 80 and 100 % load.",
            )
        )
    findings += [_stays_under(curve, threshold, places) for threshold in THRESHOLDS_DBA]
    return Measure(id="acoustic_noise", title="Acoustic noise", findings=tuple(findings), curves=(curve,))


def _course(bench: Bench) -> tuple[Curve, bool, tuple[Origin, ...]]:
    sweep, session = bench.session.record.noise_sweep, bench.session
    points: list[CurvePoint] = []
    bounded = False
    if sweep is not None:
        places: tuple[Origin, ...] = (Origin(session.file, ("noise_sweep", "points")),)
        for read_at in sweep.points:
            level = corrected(read_at.levels_dba, background_dba=read_at.background_dba, distance_m=sweep.distance_m)
            bounded = bounded or level.upper_bound
            points.append(_point(bench, read_at.delivered_power_w, level.level_dba))
    else:
        away = 20.0 * math.log10(session.record.noise_distance_m / REFERENCE_DISTANCE_M)
        told = [(i, p, p.noise_dba) for i, p in enumerate(session.record.load_points) if p.noise_dba is not None]
        places = tuple(Origin(session.file, ("load_points", i, "noise_dba")) for i, _, _ in told)
        points = [_point(bench, p.delivered_power_w, level + away) for _, p, level in told]
    return Curve(key="acoustic_noise", title="Noise over load", points=tuple(points)), bounded, places


def _point(bench: Bench, load_w: float, level: float) -> CurvePoint:
    return CurvePoint(load_w=load_w, load_pct=load_share(bench, load_w), quantity=read(bench, "noise_dba", level, "dB(A)"))


def _stays_under(curve: Curve, threshold: int, places: tuple[Origin, ...]) -> Finding:
    """The delivered power up to which the level stays under a threshold, W; by straight lines between readings."""
    points = curve.points
    note = ""
    reached = points[-1].load_w
    for i, point in enumerate(points):
        if point.quantity.value >= threshold:
            reached = 0.0 if i == 0 else _crossing(points[i - 1], point, threshold)
            note = "Louder from the lowest load on." if i == 0 else ""
            break
    else:
        note = "Never louder within the measured loads."
    return Finding(
        key=f"acoustic_noise.under_{threshold}", title=f"Stays under {threshold} dB(A) up to", decimals=0, better="higher",
        quantity=Quantity(reached, "W"), origins=places, note=note,
    )


def _crossing(low: CurvePoint, high: CurvePoint, threshold: float) -> float:
    share = (threshold - low.quantity.value) / (high.quantity.value - low.quantity.value)
    return low.load_w + share * (high.load_w - low.load_w)
