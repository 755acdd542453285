"""An invented unit on an invented bench, small enough to compute by hand; every test changes the one thing it is about."""

from dataclasses import replace
from datetime import date

from guidegen.evaluation import Bench, Check, Finding, Measure
from guidegen.records import (
    BulkCapacitors,
    Cable,
    Claims,
    Construction,
    Edition,
    Fan,
    GuideRecord,
    Instrument,
    LoadPoint,
    Mains,
    NoiseRules,
    OutputCapacitors,
    Person,
    PolicyRecord,
    PriceRules,
    ProtectionBand,
    Publisher,
    RailRating,
    Reading,
    Sample,
    Session,
    SessionRecord,
    Size,
    SizingRules,
    Unit,
    UnitRecord,
)
from guidegen.records.guide import InstrumentQuantity

RATED_W = 750.0
FILE = "units/an-invented-750/2026-03-04.yaml"
LOSS_A_W, LOSS_B, LOSS_C_PER_W = 8.0, 0.03, 1e-4
"""Loss of the invented unit: ``8 W + 0.03·P + 1e-4·P²/W``; best efficiency at √(8/1e-4) = 282.84 W, 92.033 %."""
METERS: dict[InstrumentQuantity, Reading] = {
    "input_power_w": Reading(quantity="input_power_w", gain_pct=0.1, resolution=0.1, repeatability=0.05),
    "delivered_power_w": Reading(quantity="delivered_power_w", gain_pct=0.1, resolution=0.1, repeatability=0.05),
    "power_factor": Reading(quantity="power_factor", offset=0.002),
    "voltage_v": Reading(quantity="voltage_v", gain_pct=0.03),
    "current_a": Reading(quantity="current_a", gain_pct=0.2),
    "ripple_mv": Reading(quantity="ripple_mv", gain_pct=2.0, offset=0.5, resolution=1.0),
    "noise_dba": Reading(quantity="noise_dba", offset=0.4, repeatability=0.3, floor=14.0),
    "time_ms": Reading(quantity="time_ms", resolution=0.1),
    "temperature_c": Reading(quantity="temperature_c", offset=0.2, repeatability=0.1),
    "fan_rpm": Reading(quantity="fan_rpm", resolution=10.0),
}


def lost_w(load_w: float) -> float:
    """Loss of the invented unit, W."""
    return LOSS_A_W + LOSS_B * load_w + LOSS_C_PER_W * load_w**2


def point(load_pct: float, *, rated_w: float = RATED_W) -> LoadPoint:
    """A steady load of the invented unit, without doubt and without noise in the numbers."""
    load_w = load_pct / 100.0 * rated_w
    return LoadPoint(
        load_pct=load_pct, delivered_power_w=load_w, input_power_w=load_w + lost_w(load_w), power_factor=0.98,
        voltage_12v_v=12.05, voltage_5v_v=5.02, voltage_3v3_v=3.31, voltage_5vsb_v=5.03,
    )


POINTS = tuple(point(load) for load in (2.0, 5.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 110.0))

UNIT = Unit(
    id="an-invented-750", file="units/an-invented-750/unit.yaml",
    record=UnitRecord(
        format=1, maker="Invented", model="Box 750", revision="1.0", platform_maker="Nobody", released=date(2026, 1, 1),
        rated_power_w=RATED_W, minor_rails_power_w=100.0, form_factor="ATX", warranty_years=7.0,
        rails=(
            RailRating(rail="12v", rated_current_a=62.5), RailRating(rail="5v", rated_current_a=20.0),
            RailRating(rail="3v3", rated_current_a=20.0), RailRating(rail="5vsb", rated_current_a=3.0),
        ),
        size=Size(width_mm=150.0, height_mm=86.0, depth_mm=140.0),
        claims=Claims(badge="gold", badge_mains="230v_eu_internal", standard="atx_3.1", protections=("scp",)),
        construction=Construction(
            primary="half_bridge_llc", secondary="synchronous_dc_dc", inrush_limiter="ntc_relay",
            bulk_capacitors=BulkCapacitors(
                maker_class="first_line", count=1, capacitance_uf=560.0, voltage_v=420.0, temperature_c=105.0
            ),
            output_capacitors=OutputCapacitors(maker_class="first_line", temperature_c=105.0, polymer=True),
        ),
        fan=Fan(size_mm=120.0, bearing="fluid_dynamic", semi_passive=True),
        cables=(
            Cable(connector="sata", count=6, cables=2, length_mm=500.0, fixed=False),
            Cable(connector="pcie_8", count=2, cables=1, length_mm=600.0, fixed=False),
            Cable(connector="pcie_16_12v_2x6", count=1, cables=1, length_mm=600.0, fixed=False),
            Cable(connector="cpu_8", count=2, cables=2, length_mm=650.0, fixed=False),
        ),
    ),
)
SESSION = Session(
    unit=UNIT.id, file=FILE,
    record=SessionRecord(
        format=1, date=date(2026, 3, 4), sample=Sample(id="a", obtained="bought", hardware_revision="1.0"),
        tested_by="Nobody", instruments=("meters",), mains=Mains(voltage_v=230.0, frequency_hz=50.0), ambient_c=23.0,
        load_points=POINTS, protections=(),
    ),
)
GUIDE = GuideRecord(
    format=1, title="Invented", tagline="Invented.", public_address="https://guide.invalid/", theme="test-sheet",
    publisher=Publisher(
        name="Invented", people=(Person(name="Nobody", role="editor"),), contact="nobody@guide.invalid", funding="None.",
        conflicts="None.", paid_links="None.",
    ),
    edition=Edition(name="2026", printing=1, date=date(2026, 4, 1), seed=7), language="en",
    data_licence="https://guide.invalid/licence", home_region="here", brackets=(), regions=(), profiles=(),
    instruments=(
        Instrument(id="meters", kind="every meter", calibrated=date(2026, 1, 1), calibration_months=12,
                   readings=tuple(METERS.values())),
    ),
)
POLICY = PolicyRecord(
    format=1, reference_mains_v=230, criteria=(), gates=(), tiers=(), choices=(),
    protection_bands=(
        ProtectionBand(protection="ocp_12v", from_pct=110.0, to_pct=150.0, document="House band"),
        ProtectionBand(protection="opp", from_pct=110.0, to_pct=150.0, document="House band"),
    ),
    prices=PriceRules(stale_after_days=45, hard_to_find_below_pct=50.0),
    noise=NoiseRules(silent_below_dba=18.0, limit_dba=45.0, floor_dba=15.0),
    sizing=SizingRules(target_low_pct=40.0, target_high_pct=60.0, never_above_pct=80.0, ageing_pct=5.0,
                       assumed_efficiency_pct=88.0),
)


def session(**changes: object) -> Session:
    """The session with some fields of its record changed."""
    return replace(SESSION, record=replace(SESSION.record, **changes))  # type: ignore[arg-type]


def unit(**changes: object) -> Unit:
    """The unit with some fields of its record changed."""
    return replace(UNIT, record=replace(UNIT.record, **changes))  # type: ignore[arg-type]


def bench(**changes: object) -> Bench:
    """The bench with some fields of the session's record changed."""
    return Bench(unit=UNIT, session=session(**changes), guide=GUIDE, policy=POLICY)


def with_points(loads: tuple[float, ...] = (20.0, 50.0, 80.0, 100.0), **values: tuple[float, ...]) -> Bench:
    """The bench with steady loads at 20, 50, 80 and 100 %, or at others, that show these readings, one a load."""
    points = tuple(
        replace(point(load), **{name: shown[i] for name, shown in values.items()})
        for i, load in enumerate(loads)
    )
    return bench(load_points=points)


def found(measure: Measure) -> dict[str, Finding]:
    """Findings by key."""
    return {finding.key: finding for finding in measure.findings}


def value(measure: Measure, key: str, decimals: int = 6) -> float | None:
    """The value of a finding, rounded, or nothing."""
    finding = found(measure).get(key)
    return None if finding is None else round(finding.quantity.value, decimals)


def checks(measure: Measure) -> dict[str, Check]:
    """Checks by key."""
    return {check.key: check for check in measure.checks}
