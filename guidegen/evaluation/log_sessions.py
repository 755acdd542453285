"""Loads of one or two logs put together into a session record: load points, noise sweep, room and mains."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields, replace
from datetime import date
from typing import Any, TypeVar, get_args

from guidegen.errors import ContentError, Fault
from guidegen.evaluation.logs import Segment
from guidegen.origins import Origin
from guidegen.records import (
    Accepted,
    LoadPoint,
    LogMapping,
    LogReadings,
    Mains,
    NoisePoint,
    NoiseSweep,
    ProtectionTest,
    Provenance,
    Sample,
    SessionRecord,
)
from guidegen.records.unit import Protection

T = TypeVar("T")
_POINT_FIELDS = tuple(field.name for field in fields(LoadPoint))
_FEWEST_POINTS = 3
NOT_IN_A_LOG = "not part of this log"
"""Why a protection was not tested where nobody said what became of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sweep:
    """A log divided into its loads."""

    readings: LogReadings
    """The log."""
    mapping: LogMapping
    """Its mapping."""
    mapping_file: str
    """Name of the mapping file as it is printed."""
    segments: tuple[Segment, ...]
    """Its loads in the order of time."""

    @property
    def steady(self) -> tuple[Segment, ...]:
        """The loads that have means, rising."""
        return tuple(sorted((s for s in self.segments if s.state == "steady"), key=lambda s: s.load_pct))

    @property
    def provenance(self) -> Provenance:
        """What the session says of this log."""
        return Provenance(
            log=self.readings.name, sha256=self.readings.sha256, mapping=self.mapping_file,
            rows_used=sum(segment.used for segment in self.steady), rows_read=len(self.readings.seconds),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What was said beside the logs; it goes before the mapping and before the log."""

    day: date | None = None
    """Day of the session."""
    sample: str | None = None
    """Name of the sample."""
    mains_v: float | None = None
    """Mains, V."""
    frequency_hz: float | None = None
    """Mains, Hz."""
    ambient_c: float | None = None
    """Room, °C."""
    tested_by: str | None = None
    """Who stood at the bench."""
    protections: tuple[ProtectionTest, ...] = ()
    """Protections; none: all are written as not tested."""
    accepted: tuple[Accepted, ...] = ()
    """Findings of the sense checks that may stand."""


def session_of(sweeps: tuple[Sweep, ...], told: Told) -> SessionRecord:
    """The session of a load sweep and of a noise sweep, where there is one; raises a ``ContentError`` with every fault."""
    faults = [fault for sweep in sweeps for fault in _sweep_faults(sweep)]
    loads = tuple(sweep for sweep in sweeps if sweep.mapping.kind == "load_sweep")
    noises = tuple(sweep for sweep in sweeps if sweep.mapping.kind == "noise_sweep")
    if len(loads) != 1 or len(noises) > 1:
        came, expected = f"{len(loads)} load sweeps and {len(noises)} noise sweeps", "one load sweep, and one noise sweep or none"
        raise ContentError((Fault(origin=Origin(sweeps[0].mapping_file, ("kind",)), came=came, expected=expected, rule="log"),))
    faults += _frame_faults(sweeps, told)
    if faults:
        raise ContentError(tuple(faults))
    noise = noises[0] if noises else None
    return SessionRecord(
        format=1, date=_day(sweeps, told), sample=_sample(sweeps, told), tested_by=_tested_by(sweeps, told),
        instruments=tuple(dict.fromkeys(name for sweep in sweeps for name in sweep.mapping.session.instruments)),
        mains=_mains(sweeps, told), ambient_c=_ambient(sweeps, told),
        load_points=_load_points(loads[0], noise), noise_sweep=_noise_sweep(noise) if noise else None,
        protections=told.protections or untested(), provenance=tuple(sweep.provenance for sweep in sweeps),
        accepted=told.accepted,
    )


def untested() -> tuple[ProtectionTest, ...]:
    """All protections, none of them tested."""
    return tuple(
        ProtectionTest(protection=name, outcome="not_tested", why_not_tested=NOT_IN_A_LOG) for name in get_args(Protection)
    )


def _sweep_faults(sweep: Sweep) -> Iterator[Fault]:
    """Loads that are not steady, too short, or there twice; too few loads."""
    seen: dict[float, Segment] = {}
    for segment in sweep.segments:
        origin, line = Origin(sweep.readings.name), sweep.readings.first_line + segment.first
        name = f"the load of {segment.load_pct:g} % that begins at {segment.starts_s:.0f} s"
        if segment.state in ("unsteady", "short"):
            expected = "a steady load of enough rows"
            yield Fault(origin=origin, line=line, column=1, came=f"{name}: {segment.why}", expected=expected, rule="unsteady")
        elif segment.state == "steady" and segment.load_pct in seen:
            before = seen[segment.load_pct].starts_s
            expected = f"each load once; it was there at {before:.0f} s already"
            yield Fault(origin=origin, line=line, column=1, came=name, expected=expected, rule="duplicate")
        elif segment.state == "steady":
            seen[segment.load_pct] = segment
    fewest = _FEWEST_POINTS if sweep.mapping.kind == "load_sweep" else 1
    if len(seen) < fewest:
        came, expected = f"{len(seen)} steady loads", f"at least {fewest}, each longer than settle_s of the mapping"
        yield Fault(origin=Origin(sweep.readings.name), came=came, expected=expected, rule="log")


def _frame_faults(sweeps: tuple[Sweep, ...], told: Told) -> Iterator[Fault]:
    """What stands neither in a log nor in a mapping, and was not said."""
    origin = Origin(sweeps[0].mapping_file)
    mains = _mains_parts(sweeps, told)
    there = {
        "session.sample": any(sweep.mapping.session.sample for sweep in sweeps),
        "session.tested_by": bool(_tested_by(sweeps, told)),
        "session.instruments": any(sweep.mapping.session.instruments for sweep in sweeps),
        "session.mains": None not in mains,
        "session.ambient_c": _ambient_or_none(sweeps, told) is not None,
    }
    for name, known in there.items():
        if not known:
            expected = f"{name} in the mapping{_ELSEWHERE.get(name, '')}"
            yield Fault(origin=origin.at(*name.split(".")), came="nothing", expected=expected, rule="missing")
    if _day_or_none(sweeps, told) is None:
        yield Fault(origin=Origin(sweeps[0].readings.name), came="a log that tells no day", expected="the day, with --date", rule="missing")


_ELSEWHERE = {
    "session.tested_by": ", or --tested-by",
    "session.mains": ", or --mains and --frequency, or columns for mains_voltage_v and mains_frequency_hz",
    "session.ambient_c": ", or --ambient, or a column for ambient_c",
}


def _load_points(loads: Sweep, noise: Sweep | None) -> tuple[LoadPoint, ...]:
    """A row a load; fan speed comes from the noise sweep at the same load where the load sweep has none."""
    fans = {s.load_pct: found.written for s in (noise.steady if noise else ()) if (found := s.mean("fan_rpm")) is not None}
    points = []
    for segment in loads.steady:
        values: dict[str, Any] = {mean.field: mean.written for mean in segment.means if mean.field in _POINT_FIELDS}
        values["load_pct"] = segment.load_pct
        if segment.load_pct in fans:
            values.setdefault("fan_rpm", fans[segment.load_pct])
        points.append(LoadPoint(**values))
    return tuple(points)


def _noise_sweep(noise: Sweep) -> NoiseSweep:
    points = []
    for segment in noise.steady:
        power, background, fan = (segment.mean(name) for name in ("delivered_power_w", "background_dba", "fan_rpm"))
        assert power is not None
        quiet = background.written if background is not None else noise.mapping.background_dba
        assert quiet is not None
        levels = tuple(mean.written for mean in segment.means if mean.field == "level_dba")
        points.append(NoisePoint(
            delivered_power_w=power.written, levels_dba=levels, background_dba=quiet, fan_rpm=fan.written if fan else None,
        ))
    return NoiseSweep(distance_m=noise.mapping.distance_m, points=tuple(points))


def _first(found: Iterable[T | None]) -> T | None:
    return next((one for one in found if one is not None), None)


def _logged(sweeps: tuple[Sweep, ...], field: str) -> float | None:
    """Mean of a field over all rows used, each row counting once, to a tenth."""
    means = [mean for sweep in sweeps for segment in sweep.steady if (mean := segment.mean(field)) is not None]
    count = sum(mean.count for mean in means)
    return round(sum(mean.value * mean.count for mean in means) / count, 1) if count else None


def _day_or_none(sweeps: tuple[Sweep, ...], told: Told) -> date | None:
    return told.day or _first(sweep.readings.day for sweep in sweeps)


def _day(sweeps: tuple[Sweep, ...], told: Told) -> date:
    found = _day_or_none(sweeps, told)
    assert found is not None
    return found


def _sample(sweeps: tuple[Sweep, ...], told: Told) -> Sample:
    found = _first(sweep.mapping.session.sample for sweep in sweeps)
    assert found is not None
    return found if told.sample is None else replace(found, id=told.sample)


def _tested_by(sweeps: tuple[Sweep, ...], told: Told) -> str:
    return told.tested_by or _first(sweep.mapping.session.tested_by for sweep in sweeps) or ""


def _mains_parts(sweeps: tuple[Sweep, ...], told: Told) -> tuple[float | None, float | None]:
    usual = _first(sweep.mapping.session.mains for sweep in sweeps)
    volts = (told.mains_v, _logged(sweeps, "mains_voltage_v"), usual.voltage_v if usual else None)
    hertz = (told.frequency_hz, _logged(sweeps, "mains_frequency_hz"), usual.frequency_hz if usual else None)
    return _first(volts), _first(hertz)


def _mains(sweeps: tuple[Sweep, ...], told: Told) -> Mains:
    volts, hertz = _mains_parts(sweeps, told)
    assert volts is not None
    assert hertz is not None
    return Mains(voltage_v=volts, frequency_hz=hertz)


def _ambient_or_none(sweeps: tuple[Sweep, ...], told: Told) -> float | None:
    usual = (sweep.mapping.session.ambient_c for sweep in sweeps)
    return _first((told.ambient_c, _logged(sweeps, "ambient_c"), *usual))


def _ambient(sweeps: tuple[Sweep, ...], told: Told) -> float:
    found = _ambient_or_none(sweeps, told)
    assert found is not None
    return found
