"""Records with one thing wrong, each beside the same records without it; shared by the tests of the rules."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, timedelta

from guidegen.evaluation import SenseRecords
from guidegen.records import (
    CrossLoad,
    HoldUp,
    LoadPoint,
    Mains,
    MaximumPower,
    NoisePoint,
    NoiseSweep,
    PriceList,
    PriceRow,
    ProtectionTest,
    Standby,
    Unit,
    Withdrawn,
)
from tests.evaluation.invented import FILE, GUIDE, POINTS, SESSION, UNIT, point, session, unit

UNIT_FILE, PRICES = UNIT.file, "prices/here.csv"
AFTER = GUIDE.edition.date + timedelta(days=1)
"""The day after the edition's."""
MIDDLE = 6
"""Place of the load point at 50 %, 375 W."""


def records(*, units: tuple[Unit, ...] = (UNIT,), **changes: object) -> SenseRecords:
    """The invented unit with its session, some fields of the session's record changed."""
    return SenseRecords(guide=GUIDE, units=units, sessions=(session(**changes),))


def with_point(place: int = MIDDLE, **changes: object) -> SenseRecords:
    """The records with some readings of one load point changed."""
    points = (*POINTS[:place], replace(POINTS[place], **changes), *POINTS[place + 1:])  # type: ignore[arg-type]
    return records(load_points=points)


def with_efficiency(pct: float) -> SenseRecords:
    """The records with so much efficiency at half load, and the like at all others."""
    others = min(max(pct, 20.2), 97.9)
    points = tuple(replace(p, input_power_w=100.0 * p.delivered_power_w / (pct if p is POINTS[MIDDLE] else others)) for p in POINTS)
    return records(load_points=points)


def of_three(half: float = 255.7, *, full: float = 529.4) -> SenseRecords:
    """The records of a unit of 450 W with loads of 20, 50 and 100 % alone."""
    pairs = ((20.0, 90.0, 105.9), (50.0, 225.0, half), (100.0, 450.0, full))
    points = tuple(replace(POINTS[0], load_pct=pct, delivered_power_w=out, input_power_w=into) for pct, out, into in pairs)
    rails = (replace(UNIT.record.rails[0], rated_current_a=37.5), *UNIT.record.rails[1:])
    return replace(records(load_points=points), units=(unit(rated_power_w=450.0, rails=rails),))


def louder(at_half: float) -> SenseRecords:
    """The records with this level at half load and 36 dB(A) at full load."""
    points = tuple(replace(p, noise_dba={MIDDLE: at_half, 11: 36.0}.get(place)) for place, p in enumerate(POINTS))
    return records(load_points=points)


def swept(*levels: float) -> SenseRecords:
    """The records with a noise sweep of these mean levels, a hundred watts apart."""
    rows = tuple(
        NoisePoint(delivered_power_w=100.0 * (i + 1), levels_dba=(level - 1, level + 1), background_dba=16.0)
        for i, level in enumerate(levels)
    )
    return records(noise_sweep=NoiseSweep(distance_m=1.0, points=rows))


def currents(point: LoadPoint, *, share: float) -> LoadPoint:
    """The point with currents of all rails whose powers make ``share`` of the delivered power."""
    minor = 4.0 / point.voltage_5v_v
    rest = share * point.delivered_power_w - 4.0 - 2.0
    return replace(point, current_12v_a=rest / point.voltage_12v_v, current_5v_a=minor, current_3v3_a=0.0,
                   current_5vsb_a=2.0 / point.voltage_5vsb_v)


def with_currents(share: float) -> SenseRecords:
    """The records with currents at half load."""
    return records(load_points=(*POINTS[:MIDDLE], currents(POINTS[MIDDLE], share=share), *POINTS[MIDDLE + 1:]))


def of_unit(**changes: object) -> SenseRecords:
    """The records with some fields of the unit's record changed."""
    return records(units=(unit(**changes),))


def cables(**changes: object) -> SenseRecords:
    """The records with the first cable changed."""
    first, *others = UNIT.record.cables
    return of_unit(cables=(replace(first, **changes), *others))  # type: ignore[arg-type]


def of_a_log(rated_w: float) -> SenseRecords:
    """The records with the loads of a supply of another rating, called by the shares of the unit's own."""
    points = tuple(point(one.load_pct, rated_w=rated_w) for one in POINTS)
    return records(load_points=tuple(replace(one, load_pct=round(100.0 * one.delivered_power_w / 750.0)) for one in points))


def sized(width: float, height: float, depth: float) -> SenseRecords:
    """The records with these outer sizes, mm."""
    return of_unit(size=replace(UNIT.record.size, width_mm=width, height_mm=height, depth_mm=depth))


def idle(no_load_w: float, at_tenth_w: float = 0.736) -> SenseRecords:
    """The records with this standby power without load and at 0.1 A, W."""
    return records(standby=(Standby(current_5vsb_a=0.0, delivered_power_w=0.0, input_power_w=no_load_w),
                            Standby(current_5vsb_a=0.1, delivered_power_w=0.506, input_power_w=at_tenth_w)))


def held_up(power_good_ms: float, rails_ms: float) -> SenseRecords:
    """The records with this hold-up at full load."""
    return records(hold_up=(HoldUp(load_pct=100.0, power_good_ms=power_good_ms, rails_ms=rails_ms),))


def sweep(*levels: float, background: float = 16.0) -> SenseRecords:
    """The records with a noise sweep of one point."""
    row = NoisePoint(delivered_power_w=375.0, levels_dba=levels, background_dba=background)
    return records(noise_sweep=NoiseSweep(distance_m=1.0, points=(row,)))


def tested(**fields: object) -> SenseRecords:
    """The records with one protection test, and a cross load that held 60 A on +12 V."""
    cross = CrossLoad(name="12v_full", current_12v_a=60.0, current_5v_a=0.5, current_3v3_a=0.5,
                      voltage_12v_v=11.9, voltage_5v_v=5.0, voltage_3v3_v=3.3)
    return records(protections=(ProtectionTest(outcome="acted", **fields),), cross_loads=(cross,))  # type: ignore[arg-type]


def priced(*amounts: float | None) -> SenseRecords:
    """The records with these prices of the unit, a week apart."""
    rows = tuple(
        PriceRow(date=date(2026, 1, 1 + 7 * i), unit=UNIT.id, price=amount, currency="EUR", stock="in_stock", shop="A shop",
                 shop_kind="shop")
        for i, amount in enumerate(amounts)
    )
    return replace(records(), prices=(PriceList(region="here", file=PRICES, rows=rows),))


def with_predecessor(released: date) -> SenseRecords:
    """The records with a predecessor released on this day."""
    older = replace(UNIT, id="older", file="units/older/unit.yaml", record=replace(UNIT.record, model="Box 750 of old", released=released))
    return records(units=(unit(predecessor="older"), older))


def beside_another(**changes: object) -> SenseRecords:
    """The records with a second unit, the same but for these fields."""
    other = unit(**changes)
    return records(units=(UNIT, replace(other, id="another", file="units/another/unit.yaml")))


def priced_twice(**changes: object) -> SenseRecords:
    """The records with two rows of prices on lines 2 and 4, the second one changed."""
    listed = priced(99.0)
    (row,) = listed.prices[0].rows
    rows = (row, replace(row, **changes))  # type: ignore[arg-type]
    return replace(listed, prices=(PriceList(region="here", file=PRICES, rows=rows, lines=(2, 4)),))


def two_sessions(*, copied: bool) -> SenseRecords:
    """The records with a second session, its readings copied or its own."""
    points = POINTS if copied else tuple(replace(p, power_factor=0.97) for p in POINTS)
    second = replace(session(load_points=points), file="units/an-invented-750/2026-03-05.yaml")
    return SenseRecords(guide=GUIDE, units=(UNIT,), sessions=(SESSION, second))


def fan_at_lightest(rpm: float, *, semi_passive: bool, lighter: int = 0) -> SenseRecords:
    """The records with a fan that turns so at the lightest load; those lighter than it left out."""
    fan = replace(UNIT.record.fan, semi_passive=semi_passive)
    points = POINTS[lighter:]
    return replace(records(load_points=(replace(points[0], fan_rpm=rpm), *points[1:])), units=(unit(fan=fan),))


@dataclass(frozen=True, slots=True, kw_only=True)
class Planted:
    """One thing wrong."""

    rule: str
    """The rule that has to speak."""
    file: str
    """File that it has to name."""
    field: str
    """Field that it has to name."""
    wrong: Callable[[], SenseRecords]
    """Records with the thing wrong."""
    right: Callable[[], SenseRecords]
    """The nearest records to which no rule objects."""


def at_middle(field: str) -> str:
    """The field of the load point at half load, as a person would write it."""
    return f"load_points[{MIDDLE}].{field}"


def planted(rule: str, field: str, wrong: Callable[[], SenseRecords], right: Callable[[], SenseRecords], *,
            file: str = FILE) -> Planted:
    """One thing wrong, in the session's file if nothing else is said."""
    return Planted(rule=rule, file=file, field=field, wrong=wrong, right=right)


SESSIONS_PLANTED = (
    planted("energy-balance", at_middle("input_power_w"), lambda: with_point(input_power_w=374.0),
            records),
    planted("energy-balance", at_middle("input_power_w"), lambda: with_efficiency(98.1), lambda: with_efficiency(97.99)),
    planted("energy-balance", "standby[0].input_power_w",
            lambda: records(standby=(Standby(current_5vsb_a=1.0, delivered_power_w=5.0, input_power_w=4.9),)),
            lambda: records(standby=(Standby(current_5vsb_a=0.0, delivered_power_w=0.0, input_power_w=0.1),))),
    planted("energy-balance", "load_points[12].input_power_w", lambda: with_point(12, input_power_w=4126.0),
            lambda: with_efficiency(20.1)),
    planted("standby-power", "standby[0].input_power_w", lambda: idle(144.0), lambda: idle(0.144)),
    planted("standby-power", "standby[0].input_power_w", lambda: idle(10.1, 10.3), lambda: idle(9.9, 10.3)),
    planted("standby-power", "standby[0].input_power_w", lambda: idle(0.75), lambda: idle(0.73)),
    planted("rail-powers", "standby[0].delivered_power_w",
            lambda: records(standby=(Standby(current_5vsb_a=1.0, delivered_power_w=6.1, input_power_w=8.0),)),
            lambda: records(standby=(Standby(current_5vsb_a=1.0, delivered_power_w=5.9, input_power_w=8.0),))),
    planted("load-share", "load_points[0].load_pct", lambda: with_point(0, load_pct=0.99), lambda: with_point(0, load_pct=1.01)),
    planted("power-factor", at_middle("power_factor"), lambda: with_point(power_factor=1.01), lambda: with_point(power_factor=1.0)),
    planted("power-factor", at_middle("power_factor"), lambda: with_point(power_factor=0.098), lambda: with_point(power_factor=0.3)),
    planted("power-factor", "load_points[0].power_factor", lambda: with_point(0, power_factor=0.0),
            lambda: with_point(0, power_factor=0.2)),
    planted("input-rises", "load_points[7].input_power_w", lambda: with_point(input_power_w=500.0), records),
    planted("loss-curve", at_middle("input_power_w"), lambda: with_point(input_power_w=418.0), lambda: with_point(input_power_w=416.0)),
    planted("loss-curve", "load_points[12].input_power_w", lambda: with_point(12, input_power_w=880.0),
            lambda: with_point(12, input_power_w=900.0)),
    planted("loss-curve", "load_points[1].input_power_w", lambda: of_three(245.0), lambda: of_three(252.0)),
    planted("loss-curve", "load_points[1].input_power_w", lambda: of_three(235.2, full=459.5), of_three),
    planted("rail-powers", at_middle("delivered_power_w"), lambda: with_currents(1.025), lambda: with_currents(1.015)),
    planted("rail-powers", at_middle("delivered_power_w"), lambda: with_currents(0.975), lambda: with_currents(0.985)),
    planted("load-share", at_middle("load_pct"), lambda: with_point(load_pct=53.1), lambda: with_point(load_pct=52.9)),
    planted("other-rating", "load_points", lambda: of_a_log(650.0), lambda: of_a_log(735.0)),
    planted("readings-twice", "load_points[1]",
            lambda: records(load_points=(POINTS[0], replace(POINTS[0], load_pct=2.5), *POINTS[2:])),
            lambda: records(load_points=(POINTS[0], replace(POINTS[0], load_pct=2.5, delivered_power_w=15.1, input_power_w=23.6), *POINTS[2:]))),
    planted("sessions-twice", "load_points", lambda: two_sessions(copied=True), lambda: two_sessions(copied=False),
            file="units/an-invented-750/2026-03-05.yaml"),
    planted("kilowatts", at_middle("input_power_w"), lambda: with_point(input_power_w=0.4073), records),
    planted("kilowatts", at_middle("delivered_power_w"), lambda: with_point(delivered_power_w=0.375), records),
    planted("rail-voltage", at_middle("voltage_12v_v"), lambda: with_point(voltage_12v_v=12050.0),
            lambda: with_point(voltage_12v_v=12.6)),
    planted("rail-voltage", at_middle("voltage_3v3_v"), lambda: with_point(voltage_3v3_v=5.02),
            lambda: with_point(voltage_3v3_v=3.14)),
    planted("rail-voltage", at_middle("voltage_5vsb_v"), lambda: with_point(voltage_5vsb_v=0.00503),
            lambda: with_point(voltage_5vsb_v=5.25)),
    planted("span", "hold_up[0].rails_ms",
            lambda: records(hold_up=(HoldUp(load_pct=100.0, power_good_ms=17.0, rails_ms=0.0185),)),
            lambda: records(hold_up=(HoldUp(load_pct=100.0, power_good_ms=17.0, rails_ms=18.5),))),
    planted("power-good-late", "hold_up[0].power_good_ms", lambda: held_up(24.1, 15.5), lambda: held_up(15.5, 24.1)),
    planted("power-good-late", "hold_up[0].power_good_ms", lambda: held_up(17.3, 18.2), lambda: held_up(17.3, 18.3)),
    planted("ripple-floor", at_middle("ripple_12v_mv"), lambda: with_point(ripple_12v_mv=0.0), lambda: with_point(ripple_12v_mv=0.5)),
    planted("span", at_middle("ripple_5v_mv"), lambda: with_point(ripple_5v_mv=14000.0),
            lambda: with_point(ripple_5v_mv=140.0)),
    planted("noise-floor", at_middle("noise_dba"), lambda: with_point(noise_dba=12.6), lambda: with_point(noise_dba=12.8)),
    planted("noise-floor", "noise_sweep.points[0].levels_dba[1]", lambda: sweep(16.0, 14.9), lambda: sweep(16.0, 15.1)),
    planted("noise-floor", "noise_sweep.points[0].background_dba", lambda: sweep(16.0, background=13.9),
            lambda: sweep(16.0, background=14.0)),
    planted("noise-falls", at_middle("noise_dba"), lambda: louder(41.1), lambda: louder(40.9)),
    planted("noise-falls", "noise_sweep.points[2].levels_dba", lambda: swept(24.0, 26.0, 18.0, 31.0), lambda: swept(22.0, 23.0, 18.1, 31.0)),
    planted("exhaust-colder", at_middle("exhaust_c"), lambda: with_point(intake_c=25.0, exhaust_c=24.4),
            lambda: with_point(intake_c=25.0, exhaust_c=24.6)),
    planted("colder-than-room", at_middle("intake_c"), lambda: with_point(intake_c=17.9), lambda: with_point(intake_c=18.0)),
    planted("mains", "mains.voltage_v", lambda: records(mains=Mains(voltage_v=200.0, frequency_hz=50.0)),
            lambda: records(mains=Mains(voltage_v=120.0, frequency_hz=60.0))),
    planted("mains", "mains.frequency_hz", lambda: records(mains=Mains(voltage_v=230.0, frequency_hz=55.0)),
            lambda: records(mains=Mains(voltage_v=229.0, frequency_hz=49.9))),
    planted("before-release", "date", lambda: of_unit(released=date(2026, 3, 5)), lambda: of_unit(released=date(2026, 3, 4))),
    planted("calibration", "instruments[0]", lambda: records(date=date(2027, 1, 2)), lambda: records(date=date(2027, 1, 1))),
    planted("trip-below-held", "protections[0].trip_power_w", lambda: tested(protection="opp", trip_power_w=800.0),
            lambda: tested(protection="opp", trip_power_w=820.0)),
    planted("trip-below-held", "protections[0].trip_current_a", lambda: tested(protection="ocp_12v", trip_current_a=59.0),
            lambda: tested(protection="ocp_12v", trip_current_a=59.9)),
    planted("trip-below-held", "protections[0].trip_voltage_v", lambda: tested(protection="ovp_12v", trip_voltage_v=11.0),
            lambda: tested(protection="ovp_12v", trip_voltage_v=13.9)),
    planted("trip-below-held", "maximum_power.shut_down_w",
            lambda: records(maximum_power=MaximumPower(sustained_w=825.0, held_minutes=10.0, shut_down_w=810.0)),
            lambda: records(maximum_power=MaximumPower(sustained_w=825.0, held_minutes=10.0, shut_down_w=826.0))),
    planted("trip-above-held", "protections[0].trip_voltage_v", lambda: tested(protection="uvp_12v", trip_voltage_v=12.1),
            lambda: tested(protection="uvp_12v", trip_voltage_v=9.9)),
    planted("trip-without-acting", "protections[0].trip_power_w",
            lambda: records(protections=(ProtectionTest(protection="opp", outcome="did_not_act", trip_power_w=900.0),)),
            lambda: records(protections=(ProtectionTest(protection="opp", outcome="did_not_act", tested_up_to="900 W"),))),
    planted("not-tested-why", "protections[0]", lambda: records(protections=(ProtectionTest(protection="otp", outcome="not_tested"),)),
            lambda: records(protections=(ProtectionTest(protection="otp", outcome="not_tested", why_not_tested="No chamber."),))),
    planted("semi-passive", "load_points[0].fan_rpm", lambda: fan_at_lightest(610.0, semi_passive=True),
            lambda: fan_at_lightest(0.0, semi_passive=True)),
    planted("semi-passive", "load_points[0].fan_rpm", lambda: fan_at_lightest(620.0, semi_passive=True, lighter=2),
            lambda: fan_at_lightest(620.0, semi_passive=True, lighter=3)),
    planted("semi-passive", "load_points[0].fan_rpm", lambda: fan_at_lightest(0.0, semi_passive=False),
            lambda: fan_at_lightest(610.0, semi_passive=False)),
)
"""Things wrong with a session."""
CLAIMS = UNIT.record.claims
OTHERS_PLANTED = (
    planted("plug-before-standard", "cables[2].connector", lambda: of_unit(claims=replace(CLAIMS, standard="atx_2.52")),
            lambda: of_unit(claims=replace(CLAIMS, standard="atx_3.0")), file=UNIT_FILE),
    planted("cables", "cables[0].cables", lambda: cables(cables=7), lambda: cables(cables=6), file=UNIT_FILE),
    planted("cables", "editor_note",
            lambda: of_unit(cables=tuple(replace(c, fixed=True) for c in UNIT.record.cables), editor_note="Fully modular."),
            lambda: of_unit(cables=tuple(replace(c, fixed=True) for c in UNIT.record.cables), editor_note="It is not modular."),
            file=UNIT_FILE),
    planted("rail-ratings", "rated_power_w", lambda: of_unit(rails=(replace(UNIT.record.rails[0], rated_current_a=50.0), *UNIT.record.rails[1:])),
            lambda: of_unit(rails=(replace(UNIT.record.rails[0], rated_current_a=54.0), *UNIT.record.rails[1:])), file=UNIT_FILE),
    planted("rail-ratings", "rails[3].rated_current_a",
            lambda: of_unit(rails=(*UNIT.record.rails[:3], replace(UNIT.record.rails[3], rated_current_a=188.0))),
            lambda: of_unit(rails=(*UNIT.record.rails[:3], replace(UNIT.record.rails[3], rated_current_a=187.0))), file=UNIT_FILE),
    planted("fact-span", "size.depth_mm", lambda: of_unit(size=replace(UNIT.record.size, depth_mm=14.0)),
            lambda: of_unit(size=replace(UNIT.record.size, depth_mm=100.0)), file=UNIT_FILE),
    planted("fact-span", "cables[0].length_mm", lambda: cables(length_mm=60.0), lambda: cables(length_mm=100.0), file=UNIT_FILE),
    planted("cables-twice", "cables[4]", lambda: of_unit(cables=(*UNIT.record.cables, UNIT.record.cables[0])),
            lambda: of_unit(cables=(*UNIT.record.cables, replace(UNIT.record.cables[0], length_mm=300.0))), file=UNIT_FILE),
    planted("outline", "size.height_mm", lambda: sized(150.0, 140.0, 86.0), lambda: sized(150.0, 86.0, 140.0), file=UNIT_FILE),
    planted("outline", "size.width_mm", lambda: sized(86.0, 150.0, 140.0), lambda: sized(155.0, 81.0, 140.0), file=UNIT_FILE),
    planted("outline", "size.width_mm", lambda: of_unit(form_factor="SFX"),
            lambda: of_unit(form_factor="SFX", size=replace(UNIT.record.size, width_mm=125.0, height_mm=64.0)), file=UNIT_FILE),
    planted("fact-span", "warranty_years", lambda: of_unit(warranty_years=120.0), lambda: of_unit(warranty_years=0.0),
            file=UNIT_FILE),
    planted("claims-twice", "claims.protections[2]", lambda: of_unit(claims=replace(CLAIMS, protections=("scp", "ocp", "scp"))),
            lambda: of_unit(claims=replace(CLAIMS, protections=("scp", "ocp"))), file=UNIT_FILE),
    planted("predecessor-later", "predecessor", lambda: with_predecessor(date(2026, 1, 2)),
            lambda: with_predecessor(date(2026, 1, 1)), file=UNIT_FILE),
    planted("revision-behind", "revision", lambda: of_unit(revision="1.1"), of_unit, file=UNIT_FILE),
    planted("withdrawn-early", "withdrawn.on", lambda: of_unit(withdrawn=Withdrawn(on=date(2025, 12, 31), reason="Recalled.")),
            lambda: of_unit(withdrawn=Withdrawn(on=date(2026, 3, 31), reason="Recalled.")), file=UNIT_FILE),
    planted("withdrawn-late", "withdrawn.on", lambda: of_unit(withdrawn=Withdrawn(on=AFTER, reason="Recalled.")),
            lambda: of_unit(withdrawn=Withdrawn(on=GUIDE.edition.date, reason="Recalled.")), file=UNIT_FILE),
    planted("units-twice", "model", lambda: beside_another(model="BOX  750"), lambda: beside_another(revision="1.1"),
            file="units/another/unit.yaml"),
    planted("units-twice", "model", beside_another, lambda: beside_another(withdrawn=Withdrawn(on=GUIDE.edition.date, reason="It has another name.")),
            file="units/another/unit.yaml"),
    planted("price-twice", "[1]", lambda: priced_twice(price=98.0), lambda: priced_twice(shop="Another"), file=PRICES),
    planted("price-twice", "[1]", priced_twice, lambda: priced_twice(date=date(2026, 1, 2)), file=PRICES),
    planted("price-outlier", "[3].price", lambda: priced(99.0, 98.0, 97.0, 979.0), lambda: priced(99.0, 98.0, 97.0, 290.0),
            file=PRICES),
    planted("price-outlier", "[0].price", lambda: priced(9.9, 98.0, None, 97.0), lambda: priced(9.9, 98.0), file=PRICES),
)
"""Things wrong with a unit or its prices."""
