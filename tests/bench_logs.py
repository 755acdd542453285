"""Small logs of an invented bench for the tests of the intake: four loads of thirty seconds, and their mappings."""

import random
from pathlib import Path

from guidegen.records import LogMapping
from guidegen.sources import read_mapping

HEADING = ("t", "P_out", "P_in", "PF", "U12", "U5", "U3", "USB")
LOADS_W = (65.0, 130.0, 325.0, 650.0)
SECONDS = 30
UNIT = "tarnbeck-kiln-650"
LOAD_MAPPING = """\
format: 1
kind: load_sweep
time: {column: t, format: s}
columns: {P_out: delivered_power_w, P_in: input_power_w, PF: power_factor, U12: voltage_12v_v, U5: voltage_5v_v,
  U3: voltage_3v3_v, USB: voltage_5vsb_v}
factors: {U12: 0.001}
settle_s: 5
min_rows: 10
session:
  sample: {id: a, obtained: bought, hardware_revision: "1.0"}
  tested_by: Ada Brennock
  instruments: [analyser, load]
  mains: {voltage_v: 230, frequency_hz: 50}
  ambient_c: 23
"""
NOISE_MAPPING = """\
format: 1
kind: noise_sweep
time: {column: t, format: s}
columns: {P: delivered_power_w, left: level_dba, right: level_dba, quiet: background_dba, fan: fan_rpm}
settle_s: 5
min_rows: 10
session: {instruments: [sound-level-meter]}
"""


def load_rows(*, seed: int = 1, decimals: int = 3) -> list[list[str]]:
    """The heading and 120 readings of a load sweep; +12 V in mV."""
    rng = random.Random(seed)  # noqa: S311
    rows = [list(HEADING)]
    for load, watts in enumerate(LOADS_W):
        for second in range(SECONDS):
            power = watts + rng.gauss(0, 0.2)
            values = (power, power * 1.08 + 5, 0.98, 12_050 - 20 * load + rng.gauss(0, 1), 5.01, 3.30, 5.03)
            rows.append([str(load * SECONDS + second), *(f"{value:.{decimals}f}" for value in values)])
    return rows


def noise_rows() -> list[list[str]]:
    """The heading and 120 readings of a noise sweep."""
    rng = random.Random(2)  # noqa: S311
    rows = [["t", "P", "left", "right", "quiet", "fan"]]
    for load, watts in enumerate(LOADS_W):
        for second in range(SECONDS):
            values = (watts + rng.gauss(0, 0.2), 18 + 4 * load + rng.gauss(0, 0.1), 18.5 + 4 * load, 16.0, 600.0 * load)
            rows.append([str(load * SECONDS + second), *(f"{value:.2f}" for value in values)])
    return rows


def csv_text(rows: list[list[str]], separator: str = ",") -> str:
    """Rows as the text of a log."""
    return "".join(f"{separator.join(row)}\n" for row in rows)


def mapping_from(folder: Path, text: str = LOAD_MAPPING) -> LogMapping:
    """A mapping read from a file that holds this text."""
    path = folder / "bench.yaml"
    path.write_text(text, encoding="utf-8")
    return read_mapping(path, folder)
