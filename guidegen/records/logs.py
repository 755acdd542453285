"""What a bench's data logger wrote, and the mapping that says which of its columns is which field of a session."""

from array import array
from dataclasses import field as dataclass_field
from datetime import date
from typing import Annotated, Literal

from annotated_types import Ge, Le, MinLen

from guidegen.records.kinds import Format, Name, NotNegative, Number, Positive, Text, Whole, record
from guidegen.records.session import Mains, Sample

LogField = Literal[
    "load_pct", "delivered_power_w", "input_power_w", "power_factor",
    "voltage_12v_v", "voltage_5v_v", "voltage_3v3_v", "voltage_5vsb_v",
    "current_12v_a", "current_5v_a", "current_3v3_a", "current_5vsb_a",
    "ripple_12v_mv", "ripple_5v_mv", "ripple_3v3_mv", "ripple_5vsb_mv",
    "noise_dba", "fan_rpm", "intake_c", "exhaust_c",
    "level_dba", "background_dba", "ambient_c", "mains_voltage_v", "mains_frequency_hz",
]
"""What a log column may stand for: a field of a load point (``load_pct`` is the set-point of the load), the level at one
microphone, the background, or the room and the mains of the session."""
NEEDED: dict[str, tuple[LogField, ...]] = {
    "load_sweep": (
        "delivered_power_w", "input_power_w", "power_factor", "voltage_12v_v", "voltage_5v_v", "voltage_3v3_v", "voltage_5vsb_v",
    ),
    "noise_sweep": ("delivered_power_w", "level_dba"),
}
"""Fields that a log of each kind has to have a column for."""


@record
class TimeColumn:
    """How a log tells the time of a row."""

    column: Text
    """Heading of the column."""
    format: Literal["s", "ms", "min", "iso"]
    """Time since any start in s, ms or min, or day and time after ISO 8601 (``2026-03-02T14:05:00.5``)."""


@record
class SessionDefaults:
    """What is the same in all sessions of a bench and stands in no log; a command may say otherwise."""

    sample: Sample | None = None
    """The box on the bench."""
    tested_by: Text | None = None
    """Who stood at the bench."""
    instruments: tuple[Name, ...] = ()
    """Instruments used, by their name in ``guide.yaml``."""
    mains: Mains | None = None
    """The mains."""
    ambient_c: Annotated[Number, Ge(-10), Le(60)] | None = None
    """Air in the room, °C."""


@record
class LogMapping:
    """``mappings/<bench>.yaml``: written once for a bench and a data logger."""

    format: Format
    """Version of the record format: 1."""
    kind: Literal["load_sweep", "noise_sweep"]
    """Load points with rails, ripple and input power; or sound levels round the unit."""
    time: TimeColumn
    """The time of a row."""
    columns: Annotated[dict[Text, LogField], MinLen(1)]
    """Headings of the log, each with the field it stands for; several may be ``level_dba``, one a microphone."""
    factors: dict[Text, Annotated[Positive, Le(1e9)]] = dataclass_field(default_factory=dict)
    """What the values of a column are multiplied by to come to the field's unit, such as 0.001 from mW to W."""
    decimal: Literal["point", "comma", "detect"] = "detect"
    """Decimal mark of a CSV log."""
    separator: Literal["comma", "semicolon", "tab", "detect"] = "detect"
    """What stands between the cells of a CSV log."""
    encoding: Literal["utf-8", "utf-8-with-mark"] = "utf-8"
    """Encoding of a CSV log; ``utf-8-with-mark`` where the logger puts a byte order mark before the first heading."""
    sheet: Text | None = None
    """Sheet of an XLSX log; may be left out where there is one."""
    rows_above: Whole = 0
    """Rows above the heading that say something else."""
    header_rows: Annotated[Whole, Ge(1), Le(10)] = 1
    """Rows of the heading; the first has the names, the others units or notes."""
    settle_s: NotNegative = 0.0
    """Time after a step of load that is left out, s."""
    leave_s: NotNegative = 0.0
    """Time before the next step that is left out, s; for loads that move slowly."""
    min_rows: Annotated[Whole, Ge(2)] = 10
    """Rows that a mean needs at least."""
    step_threshold_pct: Positive = 2.0
    """Change of delivered power that is a new load, % of the rating."""
    steady_pct: Positive = 0.5
    """Drift of delivered and input power over a load that is still steady, % of the mean."""
    steady_dba: Positive = 1.0
    """Drift of a sound level over a load that is still steady, dB(A)."""
    background_dba: Positive | None = None
    """Background of a noise sweep whose log has no column for it, dB(A)."""
    distance_m: Positive = 1.0
    """Distance of the microphones of a noise sweep, m."""
    session: SessionDefaults = SessionDefaults()
    """What stands in no log."""


@record
class LogColumn:
    """A column of a log, as read; no factor is applied yet."""

    name: str
    """Heading."""
    field: LogField
    """What it stands for."""
    values: "array[float]"
    """A number a row."""


@record
class LogReadings:
    """A log, read whole."""

    name: str
    """Name of the file as it is printed."""
    sha256: str
    """Hash of the file, hexadecimal."""
    first_line: int
    """Line of the first row, from 1; the others follow without a gap."""
    day: date | None
    """Day of the first row where the log tells it."""
    seconds: "array[float]"
    """Time of each row since any start, rising, s."""
    columns: tuple[LogColumn, ...]
    """Columns that the mapping names, in its order."""
