"""A log divided into loads: where each begins, whether it is steady, and the mean of every column with its uncertainty.

A standard uncertainty is of type A: s/√n, with s the sample standard deviation (JCGM 100:2008, 4.2.3).
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import floor, log10
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from guidegen.records import LogColumn, LogField, LogMapping, LogReadings

Numbers = NDArray[np.float64]
"""A number a row."""
State = Literal["steady", "unsteady", "short", "passing"]
"""``passing``: over before the load had settled, part of no mean; ``short``: settled, but too few rows."""
MOST_SEGMENTS = 5000
"""Loads that a log may have; more are the noise of a threshold set too low."""
ABOUT = 1000
"""Rows at most whose median is the level of a load that begins; else as many as a mean needs."""
STAYS = 3
"""Rows that have to be at another level before it is another load: two stray readings are none."""
MOST_DECIMALS = 6
"""Decimals of a written mean at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogMean:
    """Mean of a column over a load."""

    column: str
    """Heading in the log."""
    field: LogField
    """What it stands for; its unit stands in the name."""
    value: float
    """Mean, in the field's unit."""
    uncertainty: float
    """Standard uncertainty of the mean from its scatter, in the same unit."""
    count: int
    """Rows that entered it."""

    @property
    def written(self) -> float:
        """The mean rounded where two digits of its uncertainty end (JCGM 100:2008, 7.2.6)."""
        if self.uncertainty <= 0:
            return round(self.value, MOST_DECIMALS)
        return round(self.value, min(max(1 - floor(log10(self.uncertainty)), 0), MOST_DECIMALS))


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """A stretch of a log at one load."""

    first: int
    """First row, counted from 0."""
    last: int
    """Last row, included."""
    starts_s: float
    """Time of the first row since the start of the log, s."""
    seconds: float
    """Time from its first to its last row, s."""
    used: int
    """Rows that entered the means."""
    load_pct: float
    """Set-point of the log, or delivered power as a share of the rating to the nearest whole percent, %."""
    means: tuple[LogMean, ...]
    """Means in the order of the mapping; none for a segment that is passing or short."""
    state: State
    """Whether it may enter a session."""
    why: str = ""
    """What keeps it from being steady."""

    def mean(self, field: str) -> LogMean | None:
        """The mean of a field, or of the first of several columns that stand for it; nothing where there is none."""
        return next((mean for mean in self.means if mean.field == field), None)


def divide(readings: LogReadings, mapping: LogMapping, *, rated_power_w: float) -> tuple[Segment, ...]:
    """The loads of a log in the order of time."""
    seconds: Numbers = np.frombuffer(readings.seconds, dtype=np.float64)
    columns = tuple((column, _scaled(column, mapping)) for column in readings.columns)
    starts = _starts({column.field: values for column, values in columns}, mapping, rated_power_w)
    ends = (*starts[1:], len(seconds))
    return _joined(
        _segment(seconds, columns, mapping, (first, end, end < len(seconds)), rated_power_w=rated_power_w)
        for first, end in zip(starts, ends, strict=True)
    )


def _joined(segments: Iterable[Segment]) -> tuple[Segment, ...]:
    """The segments with each way from one load to the next as one, however many levels it touched."""
    done: list[Segment] = []
    for segment in segments:
        if done and done[-1].state == segment.state == "passing":
            begun = done.pop()
            seconds = segment.starts_s + segment.seconds - begun.starts_s
            done.append(replace(begun, last=segment.last, seconds=seconds, load_pct=segment.load_pct))
        else:
            done.append(segment)
    return tuple(done)


def _scaled(column: LogColumn, mapping: LogMapping) -> Numbers:
    values: Numbers = np.frombuffer(column.values, dtype=np.float64)
    factor = mapping.factors.get(column.name, 1.0)
    return values if factor == 1.0 else values * factor


def _starts(fields: dict[LogField, Numbers], mapping: LogMapping, rated_power_w: float) -> tuple[int, ...]:
    """First row of each load, by the set-point where the log has one, else by delivered power."""
    if "load_pct" in fields:
        steps = np.flatnonzero(np.diff(fields["load_pct"])) + 1
        return (0, *(int(step) for step in steps[:MOST_SEGMENTS]))
    level, threshold = fields["delivered_power_w"], mapping.step_threshold_pct / 100 * rated_power_w
    starts, width = [0], min(mapping.min_rows, ABOUT)
    while len(starts) <= MOST_SEGMENTS and (step := _next_step(level, starts[-1], threshold, width)) < len(level):
        starts.append(_left(level, starts[-1], step, threshold))
    return tuple(starts)


def _left(level: Numbers, start: int, step: int, threshold: float) -> int:
    """First row of those just before a step that are on their way already, beyond what scatter explains.

    Beyond scatter is six standard deviations, these from the median absolute deviation (1.4826 times it, for a normal
    distribution), and a twentieth of the threshold.
    """
    before = level[max(start, step - ABOUT) : step]
    away = np.abs(before - np.median(before))
    still = np.flatnonzero(away <= max(6 * 1.4826 * float(np.median(away)), threshold / 20))
    return max(start + 1, step - len(before) + int(still[-1]) + 1)


def _next_step(level: Numbers, start: int, threshold: float, rows: int) -> int:
    """First row after ``start`` from which the level stays away from the median of ``rows``; the row behind the last if none.

    The median is already that of the load to come while the load is still on its way there.
    """
    about = float(np.median(level[start : start + rows]))
    place, width = start, 64
    while place < len(level):
        away = np.abs(level[place : place + width + STAYS - 1] - about) > threshold
        if place + width + STAYS - 1 >= len(level):
            away = np.concatenate((away, np.ones(STAYS - 1, dtype=bool)))
        stays = away[: -STAYS + 1].copy()
        for later in range(1, STAYS):
            stays &= away[later : len(stays) + later]
        stays[: max(start + 1 - place, 0)] = False
        if stays.any():
            return place + int(np.argmax(stays))
        place, width = place + width, min(width * 2, 1 << 17)
    return len(level)


def _segment(
    seconds: Numbers, columns: tuple[tuple[LogColumn, Numbers], ...], mapping: LogMapping, span: tuple[int, int, bool], *,
    rated_power_w: float,
) -> Segment:
    """A segment from its first row to before its end; the last of ``span`` says whether another load follows."""
    first, end, goes_on = span
    start, leaves = seconds[first] + mapping.settle_s, seconds[end - 1] - (mapping.leave_s if goes_on else 0.0)
    low = first + int(np.searchsorted(seconds[first:end], start, side="left"))
    high = first + int(np.searchsorted(seconds[first:end], leaves, side="right"))
    used, level = max(high - low, 0), next(v for c, v in columns if c.field == "delivered_power_w")
    points = next((v for c, v in columns if c.field == "load_pct"), None)
    power = float(np.mean(level[low:high] if used else level[first:end]))
    state: State = "passing" if not used else "short" if used < mapping.min_rows else "steady"
    why = f"{used} rows after settling, at least {mapping.min_rows} are needed" if state == "short" else ""
    means: tuple[LogMean, ...] = ()
    if state == "steady":
        means = tuple(_mean(column, values[low:high]) for column, values in columns)
        why = _drift(seconds[low:high], tuple((c, v[low:high]) for c, v in columns), mapping, rated_power_w=rated_power_w)
        state = "unsteady" if why else "steady"
    return Segment(
        first=first, last=end - 1, starts_s=float(seconds[first] - seconds[0]),
        seconds=float(seconds[end - 1] - seconds[first]), used=used if means else 0,
        load_pct=float(points[first]) if points is not None else _nominal(100 * power / rated_power_w),
        means=means, state=state, why=why,
    )


def _nominal(percent: float) -> float:
    """A load as it is named: whole percents, tenths below one percent."""
    return float(round(percent, 0 if percent >= 1 else 1)) + 0.0


def _mean(column: LogColumn, values: Numbers) -> LogMean:
    deviation = float(np.std(values, ddof=1))
    return LogMean(
        column=column.name, field=column.field, value=float(np.mean(values)),
        uncertainty=deviation / float(np.sqrt(len(values))), count=len(values),
    )


def _drift(
    seconds: Numbers, columns: tuple[tuple[LogColumn, Numbers], ...], mapping: LogMapping, *, rated_power_w: float
) -> str:
    """The first watched column whose drift is beyond its limit, in words; empty where there is none.

    The drift is the slope of the straight line of least squares times the duration; it is beyond the limit when it is so
    by more than twice its own standard uncertainty, so that scatter alone fails no load.
    """
    for column, values in columns:
        power = column.field in ("delivered_power_w", "input_power_w")
        if not power and column.field not in ("level_dba", "noise_dba"):
            continue
        drift, uncertainty = drift_of(seconds, values)
        # A light load of nearly nothing has no percentage worth the name: a hundredth of the rating stands in.
        whole = max(abs(float(np.mean(values))), rated_power_w / 100)
        limit = mapping.steady_pct / 100 * whole if power else mapping.steady_dba
        if abs(drift) - 2 * uncertainty > limit:
            shown = f"{100 * drift / whole:+.2f} %" if power else f"{drift:+.2f} dB(A)"
            allowed = f"{mapping.steady_pct:g} %" if power else f"{mapping.steady_dba:g} dB(A)"
            return f"{column.name} drifts by {shown} in {seconds[-1] - seconds[0]:.0f} s, at most {allowed} is steady"
    return ""


def drift_of(seconds: Numbers, values: Numbers) -> tuple[float, float]:
    """Drift over the whole time and its standard uncertainty, in the values' unit, by a straight line of least squares.

    >>> drift_of(np.array([0.0, 1.0, 2.0]), np.array([5.0, 6.0, 7.0]))
    (2.0, 0.0)
    """
    time = seconds - np.mean(seconds)
    spread = float(np.sum(time**2))
    if spread <= 0:
        return 0.0, 0.0
    slope = float(np.sum(time * (values - np.mean(values)))) / spread
    residual = values - np.mean(values) - slope * time
    freedom = max(len(values) - 2, 1)
    uncertainty = float(np.sqrt(np.sum(residual**2) / freedom / spread))
    duration = float(seconds[-1] - seconds[0])
    return slope * duration, uncertainty * duration
