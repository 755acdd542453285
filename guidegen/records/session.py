"""One session on the bench: what was connected, and what the instruments showed."""

from dataclasses import field
from typing import Annotated, Literal

from annotated_types import Ge, Le, MinLen

from guidegen.records.accepted import Accepted
from guidegen.records.kinds import (
    Day,
    Format,
    Name,
    NotNegative,
    Number,
    Positive,
    Rail,
    Share,
    Text,
    Whole,
    record,
)
from guidegen.records.unit import Protection


@record
class Sample:
    """The very box that was tested."""

    id: Name
    """Letter or number that the lab gave it, such as ``a``."""
    obtained: Literal["bought", "loaned", "given"]
    """How the lab came by it."""
    hardware_revision: Text
    """Revision on this sample's label."""
    from_whom: Text | None = None
    """Where it came from, in words fit to print (a shop, the maker)."""


@record
class Mains:
    """What came out of the wall, or out of the AC source."""

    voltage_v: Positive
    """Voltage, V."""
    frequency_hz: Positive
    """Frequency, Hz."""


@record
class LoadPoint:
    """One steady load: rails in V, ripple in mV peak to peak, noise in dB(A) at the session's distance."""

    load_pct: NotNegative
    """Nominal load as a share of the rating, %; 2 and below is the light load."""
    delivered_power_w: NotNegative
    """DC power summed over the rails, W."""
    input_power_w: Positive
    """AC power drawn, W."""
    power_factor: Share
    """Power factor at the mains."""
    voltage_12v_v: Positive
    """+12 V rail, V."""
    voltage_5v_v: Positive
    """+5 V rail, V."""
    voltage_3v3_v: Positive
    """+3.3 V rail, V."""
    voltage_5vsb_v: Positive
    """Standby rail, V."""
    current_12v_a: NotNegative | None = None
    """Current on +12 V, A."""
    current_5v_a: NotNegative | None = None
    """Current on +5 V, A."""
    current_3v3_a: NotNegative | None = None
    """Current on +3.3 V, A."""
    current_5vsb_a: NotNegative | None = None
    """Current on the standby rail, A."""
    ripple_12v_mv: NotNegative | None = None
    """Ripple and noise on +12 V, mV peak to peak."""
    ripple_5v_mv: NotNegative | None = None
    """Ripple and noise on +5 V, mV peak to peak."""
    ripple_3v3_mv: NotNegative | None = None
    """Ripple and noise on +3.3 V, mV peak to peak."""
    ripple_5vsb_mv: NotNegative | None = None
    """Ripple and noise on the standby rail, mV peak to peak."""
    noise_dba: Positive | None = None
    """Sound pressure level with the background removed, dB(A)."""
    fan_rpm: NotNegative | None = None
    """Fan speed, 1/min; 0 where it stands still."""
    intake_c: Number | None = None
    """Air at the intake, °C."""
    exhaust_c: Number | None = None
    """Air at the exhaust, °C."""


@record
class CrossLoad:
    """A deliberately lopsided load."""

    name: Literal["minor_rails_full", "12v_full", "5v_full", "3v3_full"]
    """Which corner."""
    current_12v_a: NotNegative
    """Current on +12 V, A."""
    current_5v_a: NotNegative
    """Current on +5 V, A."""
    current_3v3_a: NotNegative
    """Current on +3.3 V, A."""
    voltage_12v_v: Positive
    """+12 V rail, V."""
    voltage_5v_v: Positive
    """+5 V rail, V."""
    voltage_3v3_v: Positive
    """+3.3 V rail, V."""


@record
class LineStep:
    """The rails at full load with the mains at an end of its range."""

    mains_voltage_v: Positive
    """Mains during the reading, V."""
    voltage_12v_v: Positive
    """+12 V rail, V."""
    voltage_5v_v: Positive
    """+5 V rail, V."""
    voltage_3v3_v: Positive
    """+3.3 V rail, V."""


@record
class NoisePoint:
    """Sound levels round the unit at one load, as read; background not yet removed."""

    delivered_power_w: NotNegative
    """DC power during the reading, W."""
    levels_dba: Annotated[tuple[Positive, ...], MinLen(1)]
    """One level a microphone position, dB(A)."""
    background_dba: Positive
    """Level with the unit switched off, dB(A)."""
    fan_rpm: NotNegative | None = None
    """Fan speed, 1/min."""


@record
class NoiseSweep:
    """Noise over load."""

    distance_m: Positive
    """Distance of the microphones, m."""
    points: Annotated[tuple[NoisePoint, ...], MinLen(1)]
    """Readings, rising in load."""


@record
class ProtectionTest:
    """What happened when a protection was called upon."""

    protection: Protection
    """The protection, with its rail where it has one."""
    outcome: Literal["acted", "did_not_act", "damaged", "not_tested"]
    """``acted``: shut down or limited as it should; ``did_not_act``: the limit of the test was reached."""
    trip_current_a: Positive | None = None
    """Current at which it acted, A."""
    trip_power_w: Positive | None = None
    """DC power at which it acted, W."""
    trip_voltage_v: Positive | None = None
    """Rail voltage at which it acted, V."""
    trip_temperature_c: Positive | None = None
    """Temperature at which it acted, °C."""
    tested_up_to: Text | None = None
    """Where the test ended, for a protection that did not act."""
    why_not_tested: Text | None = None
    """Why it was left out."""


@record
class MaximumPower:
    """How far the unit went above or below its label."""

    sustained_w: Positive
    """Highest DC power held for the time stated, W."""
    held_minutes: Positive
    """How long it was held, min."""
    shut_down_w: Positive | None = None
    """DC power at which it switched itself off, W; nothing where the test ended first."""


@record
class HoldUp:
    """What happens after the mains is taken away at one load (ATX design guide, T5 and T6)."""

    load_pct: Positive
    """Load, %."""
    power_good_ms: Positive
    """T5: from loss of AC to PWR_OK low, ms."""
    rails_ms: Positive
    """T5 + T6: from loss of AC until the first rail leaves its range, ms."""


@record
class Timing:
    """Power-on timing (ATX design guide, T1 to T4)."""

    power_on_t1_ms: Positive
    """T1: from PS_ON# to the rails in range, ms."""
    rise_t2_ms: Positive
    """T2: rise of the rails from 10 % to 95 %, ms."""
    power_good_delay_t3_ms: Positive
    """T3: PWR_OK delay, ms."""
    power_good_rise_t4_ms: Positive
    """T4: PWR_OK rise time, ms."""


@record
class Transient:
    """A step of load on one rail."""

    rail: Rail
    """The rail."""
    from_a: NotNegative
    """Current before the step, A."""
    to_a: Positive
    """Current after the step, A."""
    lowest_v: Positive
    """Lowest voltage seen, V."""
    highest_v: Positive
    """Highest voltage seen, V."""
    recovery_ms: NotNegative | None = None
    """Time to settle within 1 % again, ms."""


@record
class Excursion:
    """A short load above the rating (ATX 3.x power excursion)."""

    peak_pct: Positive
    """Peak as a share of the rating, %."""
    duration_ms: Positive
    """Time at the peak, ms."""
    base_pct: Positive
    """Load between the peaks, %."""
    outcome: Literal["held", "shut_down", "out_of_range", "not_tested"]
    """Whether the rails stayed in range."""
    lowest_12v_v: Positive | None = None
    """Lowest +12 V seen, V."""


@record
class Inrush:
    """The current at switch-on."""

    peak_a: Positive
    """Highest current in the first three line cycles, A."""
    start: Literal["cold", "warm"]
    """Whether the supply had been off long enough to cool."""


@record
class Standby:
    """The standby rail alone."""

    current_5vsb_a: NotNegative
    """Load on the standby rail, A; 0 for the bare standby power."""
    delivered_power_w: NotNegative
    """DC power, W."""
    input_power_w: Positive
    """AC power drawn, W."""


@record
class FanRun:
    """Where a fan that may stand still starts with rising load, and stops again with falling load."""

    starts_w: Positive
    """DC power at which it started, load rising slowly, W."""
    stops_w: Positive
    """DC power at which it stopped, load falling slowly, W."""


@record
class Provenance:
    """Which log a session was made from."""

    log: Text
    """Name of the log file."""
    sha256: Annotated[str, MinLen(64)]
    """Hash of the log file."""
    mapping: Text
    """Mapping file used."""
    rows_used: Whole
    """Rows that entered a mean."""
    rows_read: Whole
    """Rows in the log."""


@record
class SessionRecord:
    """``units/<unit>/<date>.yaml``."""

    format: Format
    """Version of the record format: 1."""
    date: Day
    """Day of the session."""
    sample: Sample
    """The box on the bench."""
    tested_by: Text
    """Who stood at the bench."""
    instruments: Annotated[tuple[Name, ...], MinLen(1)]
    """Instruments used, by their name in ``guide.yaml``."""
    mains: Mains
    """The mains."""
    ambient_c: Annotated[Number, Ge(-10), Le(60)]
    """Air in the room, °C."""
    ripple_method: Literal["differential_20mhz", "single_ended_20mhz"] = "differential_20mhz"
    """How ripple was taken: always with 0.1 µF and 10 µF at the plug and a 20 MHz limit."""
    noise_distance_m: Positive = 1.0
    """Distance of the microphone for the levels in ``load_points``, m."""
    load_points: Annotated[tuple[LoadPoint, ...], MinLen(3)]
    """Steady loads, rising."""
    noise_sweep: NoiseSweep | None = None
    """Noise over load, as read."""
    cross_loads: tuple[CrossLoad, ...] = ()
    """Cross loads."""
    line_steps: tuple[LineStep, ...] = ()
    """Full load at the ends of the mains range."""
    protections: Annotated[tuple[ProtectionTest, ...], MinLen(1)]
    """Protections, each tested or said not to be."""
    maximum_power: MaximumPower | None = None
    """How far it went."""
    hold_up: tuple[HoldUp, ...] = ()
    """Hold-up times."""
    timing: Timing | None = None
    """Power-on timing."""
    transients: tuple[Transient, ...] = ()
    """Load steps."""
    excursions: tuple[Excursion, ...] = ()
    """Power excursions."""
    inrush: tuple[Inrush, ...] = ()
    """Inrush currents."""
    standby: tuple[Standby, ...] = ()
    """Standby rail alone."""
    fan_run: FanRun | None = None
    """Where the fan starts and stops."""
    provenance: tuple[Provenance, ...] = ()
    """Logs that this session was made from."""
    accepted: tuple[Accepted, ...] = ()
    """Findings of the sense checks that may stand."""
    remarks: Text | None = None
    """What the numbers do not say."""


@record
class Session:
    """A session record under its place."""

    unit: str
    """Identifier of the unit."""
    file: str
    """File below the content folder."""
    record: SessionRecord
    """What the file says."""
    digest: str = field(default="", compare=False, repr=False)
    """SHA-256 of the file's text; empty where the record doesn't come from a file as it stands."""

    def __hash__(self) -> int:
        """Short, since records are long and looked up again and again."""
        return hash((self.unit, self.file))

    @property
    def mains_volts(self) -> int:
        """115 or 230, whichever the session's mains is nearer to."""
        return 115 if self.record.mains.voltage_v < 160 else 230
