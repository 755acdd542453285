"""Logs of one invented session, a reading a second, and the session that ``guidegen intake`` makes of them.

The session's numbers are those the bench invented; the logs scatter about them, with the slow warming of a supply after
each step of load. The session file is then the intake's, not the bench's.
"""

import random
from collections.abc import Iterator
from pathlib import Path

from guidegen.evaluation import Told
from guidegen.intake import draft_session, read_sweep
from guidegen.records import LoadPoint, NoisePoint, SessionRecord
from guidegen.sources import store
from guidegen.sources.shaping import shape
from guidegen.sources.strict_yaml import read_yaml
from guidegen.sources.writing import scalar

UNIT, SAMPLE = "ostrand-level-850-ii", "b"
LOAD_SECONDS, NOISE_SECONDS, RAMP_SECONDS, WARMING_S = 1000, 600, 5, 50.0
LOAD_MAPPING = """\
# The load bench's logger: voltages in mV, a reading a second.
format: 1
kind: load_sweep
time: {column: t, format: s}
columns:
  P_out: delivered_power_w
  P_in: input_power_w
  PF: power_factor
  U_12V: voltage_12v_v
  U_5V: voltage_5v_v
  U_3V3: voltage_3v3_v
  U_5VSB: voltage_5vsb_v
  I_12V: current_12v_a
  I_5V: current_5v_a
  I_3V3: current_3v3_a
  I_5VSB: current_5vsb_a
  ripple_12V: ripple_12v_mv
  ripple_5V: ripple_5v_mv
  ripple_3V3: ripple_3v3_mv
  fan: fan_rpm
factors: {U_12V: 0.001, U_5V: 0.001, U_3V3: 0.001, U_5VSB: 0.001}
separator: comma
decimal: point
settle_s: 400
leave_s: 2
min_rows: 300
session:
  sample: {id: a, obtained: bought, hardware_revision: "1.0", from_whom: "a shop, anonymously"}
  tested_by: Maren Holloway
  instruments: [load, analyser, scope, tachometer]
  mains: {voltage_v: 230, frequency_hz: 50}
"""
NOISE_MAPPING = """\
# The logger of the quiet room: decimal commas, four microphones, the background taken before the sweep.
format: 1
kind: noise_sweep
time: {column: time, format: s}
columns: {load: delivered_power_w, mic 1: level_dba, mic 2: level_dba, mic 3: level_dba, mic 4: level_dba,
  speed: fan_rpm}
separator: semicolon
decimal: comma
settle_s: 200
leave_s: 2
min_rows: 200
background_dba: 16.2
distance_m: 1.0
session: {instruments: [load, sound-meter, tachometer]}
"""


def write_logged_session(content: Path, *, seed: int) -> None:
    """Logs, mappings and protections below ``content``, and the session that comes of them in place of the invented one."""
    (session, record), = (
        (path, record) for path in sorted((content / "units" / UNIT).glob("2*.yaml")) if (record := _read(path)).sample.id == SAMPLE
    )
    rng = random.Random(f"{seed}|{UNIT}|logs")
    logs, mappings = session.parent / "logs", content / "mappings"
    for folder in (logs, mappings):
        folder.mkdir(exist_ok=True)
    load, noise = logs / f"{session.stem}-load.csv", logs / f"{session.stem}-noise.csv"
    _write(load, _load_rows(record.load_points, rng))
    assert record.noise_sweep is not None
    _write(noise, _noise_rows(record.noise_sweep.points, rng))
    _write(mappings / "bench-load.yaml", iter(LOAD_MAPPING.splitlines()))
    _write(mappings / "quiet-room.yaml", iter(NOISE_MAPPING.splitlines()))
    _write(logs / "protections.yaml", _protection_rows(record))
    session.unlink()
    told = Told(
        day=record.date, sample=SAMPLE, mains_v=record.mains.voltage_v, ambient_c=record.ambient_c,
        tested_by=record.tested_by, protections=record.protections,
    )
    sweeps = tuple(
        read_sweep(content, UNIT, log, mappings / name)
        for log, name in ((load, "bench-load.yaml"), (noise, "quiet-room.yaml"))
    )
    store(content, draft_session(content, UNIT, sweeps, told=told))


def _read(path: Path) -> SessionRecord:
    made, faults = shape(SessionRecord, read_yaml(path.name, path.read_text(encoding="utf-8")).value, file=path.name)
    assert made is not None, faults
    return made


def _write(path: Path, rows: Iterator[str]) -> None:
    path.write_text("\n".join(rows) + "\n", encoding="utf-8", newline="\n")


def _load_rows(points: tuple[LoadPoint, ...], rng: random.Random) -> Iterator[str]:
    """Rows of the load bench; the load is moved within seconds, the losses settle within minutes."""
    yield "t,P_out,P_in,PF,U_12V,U_5V,U_3V3,U_5VSB,I_12V,I_5V,I_3V3,I_5VSB,ripple_12V,ripple_5V,ripple_3V3,fan"
    time, before = 0, 0.0
    for point in points:
        for second in range(LOAD_SECONDS):
            moved = min(1.0, (second + 1) / RAMP_SECONDS)
            power = before + (point.delivered_power_w - before) * moved
            cold = 0.004 * 2.718 ** (-second / WARMING_S)
            volts = (point.voltage_12v_v, point.voltage_5v_v, point.voltage_3v3_v, point.voltage_5vsb_v)
            amps = (point.current_12v_a, point.current_5v_a, point.current_3v3_a, point.current_5vsb_a)
            ripples = (point.ripple_12v_mv, point.ripple_5v_mv, point.ripple_3v3_mv)
            share = power / max(point.delivered_power_w, 1.0)
            yield ",".join((
                str(time), f"{power + rng.gauss(0, 0.05):.1f}", f"{point.input_power_w * share * (1 - cold) + rng.gauss(0, 0.08):.1f}",
                f"{min(1.0, point.power_factor + rng.gauss(0, 0.001)):.3f}",
                *(f"{1000 * volt + rng.gauss(0, 1.5):.0f}" for volt in volts),
                *(f"{(amp or 0.0) * share + rng.gauss(0, 0.005):.2f}" for amp in amps),
                *(f"{max(0.0, (ripple or 0.0) + rng.gauss(0, 0.6)):.0f}" for ripple in ripples),
                f"{round((point.fan_rpm or 0.0) + (rng.gauss(0, 6) if point.fan_rpm else 0.0), -1):.0f}",
            ))
            time += 1
        before = point.delivered_power_w


def _noise_rows(points: tuple[NoisePoint, ...], rng: random.Random) -> Iterator[str]:
    """Rows of the quiet room."""
    yield "time;load;mic 1;mic 2;mic 3;mic 4;speed"
    time, before = 0, 0.0
    for point in points:
        for second in range(NOISE_SECONDS):
            moved = min(1.0, (second + 1) / RAMP_SECONDS)
            power = before + (point.delivered_power_w - before) * moved
            levels = (f"{level + rng.gauss(0, 0.15):.1f}" for level in point.levels_dba)
            fan = round((point.fan_rpm or 0.0) + (rng.gauss(0, 6) if point.fan_rpm else 0.0), -1)
            yield ";".join((str(time), f"{power + rng.gauss(0, 0.3):.1f}", *levels, f"{fan:.0f}")).replace(".", ",")
            time += 1
        before = point.delivered_power_w


def _protection_rows(record: SessionRecord) -> Iterator[str]:
    yield "# What became of the protections; goes with the logs of the same day."
    names = ("protection", "outcome", "trip_current_a", "trip_power_w", "trip_voltage_v", "trip_temperature_c", "why_not_tested")
    for test in record.protections:
        cells = (f"{name}: {scalar(value)}" for name in names if (value := getattr(test, name)) is not None)
        yield f"- {{{', '.join(cells)}}}"
