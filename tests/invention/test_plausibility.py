"""What holds on every real bench holds on the invented one: energy, rails, fans, capacitors, trip points."""

import math
from collections.abc import Callable, Iterator
from itertools import pairwise

from guidegen.records import Library, LoadPoint, Session, Unit


def points(library: Library) -> Iterator[tuple[Unit, Session, LoadPoint]]:
    """Every steady load of a library."""
    for unit in library.units:
        for session in library.sessions_of(unit.id):
            for point in session.record.load_points:
                yield unit, session, point


def odd(library: Library, wrong: Callable[[Unit, LoadPoint], bool]) -> list[str]:
    """File and load of every point that is wrong."""
    return [f"{session.file} at {point.load_pct:g} %" for unit, session, point in points(library) if wrong(unit, point)]


def rises(values: list[float]) -> bool:
    """Whether each value is above the one before."""
    return all(low < high for low, high in pairwise(values))


def whole_sessions(library: Library) -> tuple[Session, ...]:
    """Sessions with all their tests; one that was made from logs has only the loads that were logged."""
    return tuple(session for session in library.sessions if not session.record.provenance)


def test_the_rails_add_up_to_the_power_delivered(library: Library) -> None:
    """V times I, summed over the rails, is the DC power within half a percent or what a step of 0.01 A can hide."""

    def wrong(_: Unit, p: LoadPoint) -> bool:
        volts = (p.voltage_12v_v, p.voltage_5v_v, p.voltage_3v3_v, p.voltage_5vsb_v)
        amps = (p.current_12v_a, p.current_5v_a, p.current_3v3_a, p.current_5vsb_a)
        total = sum(v * (a or 0.0) for v, a in zip(volts, amps, strict=True))
        return abs(total - p.delivered_power_w) > max(0.005 * p.delivered_power_w, 0.15)

    assert [] == odd(library, wrong)


def test_the_load_is_what_the_row_says(library: Library) -> None:
    """DC power is the stated share of the rating within 1 % or 0.2 W."""

    def wrong(unit: Unit, p: LoadPoint) -> bool:
        nominal = p.load_pct / 100 * unit.record.rated_power_w
        return abs(nominal - p.delivered_power_w) > max(0.01 * nominal, 0.2)

    assert [] == odd(library, wrong)


def test_no_efficiency_is_impossible(library: Library) -> None:
    """From 20 % load on efficiency lies between 78 % and 97.5 %, below it under 96 %: what supplies on sale can do."""

    def wrong(_: Unit, p: LoadPoint) -> bool:
        pct = 100 * p.delivered_power_w / p.input_power_w
        return not (78 <= pct <= 97.5 if p.load_pct >= 20 else 40 <= pct <= 96)

    assert [] == odd(library, wrong)


def test_input_power_rises_with_load(library: Library) -> None:
    """More out needs more in, in every session."""
    falling = [s.file for s in library.sessions if not rises([p.input_power_w for p in s.record.load_points])]
    assert [] == falling


def test_loss_rises_from_a_fifth_of_the_load(library: Library) -> None:
    """Loss of a constant, a linear and a square part grows with load, readings included."""
    falling = [
        s.file for s in library.sessions
        if not rises([p.input_power_w - p.delivered_power_w for p in s.record.load_points if p.load_pct >= 20])
    ]
    assert [] == falling


def test_loss_grows_faster_at_the_top(library: Library) -> None:
    """The square part shows: the last fifth of the load costs more than the fifth before the middle."""
    straight = []
    for session in library.sessions:
        loss = {p.load_pct: p.input_power_w - p.delivered_power_w for p in session.record.load_points}
        if 100 in loss and loss[100] - loss[80] <= loss[40] - loss[20]:
            straight.append(session.file)
    assert [] == straight


def test_mains_at_115_v_costs_efficiency(library: Library) -> None:
    """Half the voltage is twice the current, so the same box loses more at full load."""
    better = []
    for unit in library.units:
        full = {s.mains_volts: p.input_power_w / p.delivered_power_w
                for s in library.sessions_of(unit.id) for p in s.record.load_points if p.load_pct == 100}
        if len(full) == 2 and full[115] <= full[230]:
            better.append(unit.id)
    assert [] == better


def test_twelve_volts_sag_with_load(library: Library) -> None:
    """A rail at full load lies below the same rail at light load, and neither leaves 12 V by more than 5 %."""
    wrong = [
        s.file for s in library.sessions
        if not 11.4 < s.record.load_points[-1].voltage_12v_v < s.record.load_points[0].voltage_12v_v < 12.6
    ]
    assert [] == wrong


def test_a_standing_fan_is_lost_in_the_background(library: Library) -> None:
    """Where the fan stands, every microphone reads within 1.5 dB of the background; nowhere does one read below it."""
    wrong = []
    for session in library.sessions:
        sweep = session.record.noise_sweep
        for point in sweep.points if sweep else ():
            above = [level - point.background_dba for level in point.levels_dba]
            if min(above) < 0 or (point.fan_rpm == 0 and max(above) > 1.5):
                wrong.append(f"{session.file} at {point.delivered_power_w:g} W")
    assert [] == wrong


def test_noise_follows_fan_speed(library: Library) -> None:
    """Level changes as 50 lg of the speed (fan laws, second-hand), within 1.5 dB where background no longer counts."""
    wrong = []
    for session in library.sessions:
        sweep = session.record.noise_sweep
        clear = [p for p in (sweep.points if sweep else ()) if p.fan_rpm and min(p.levels_dba) > p.background_dba + 10]
        for low, high in pairwise(clear):
            step = sum(high.levels_dba) / len(high.levels_dba) - sum(low.levels_dba) / len(low.levels_dba)
            assert low.fan_rpm is not None
            assert high.fan_rpm is not None
            if abs(step - 50 * math.log10(high.fan_rpm / low.fan_rpm)) > 1.5:
                wrong.append(f"{session.file} at {high.delivered_power_w:g} W")
    assert [] == wrong


def test_only_a_semi_passive_fan_stands_still(library: Library) -> None:
    """A fan that the box doesn't call semi-passive turns at every load, and the others stand at the lightest."""
    wrong = [
        s.file for unit in library.units for s in library.sessions_of(unit.id)
        if unit.record.fan.semi_passive != (s.record.load_points[0].fan_rpm == 0)
    ]
    assert [] == wrong


def test_hold_up_comes_from_the_capacitors(library: Library) -> None:
    """The energy of the bulk capacitors between 388 V and 302 V lasts as long as was read (C·(V1²-V2²)/2 = P·t/η), within 10 %."""
    wrong = []
    for unit in library.units:
        bulk = unit.record.construction.bulk_capacitors
        joule = 0.5 * bulk.count * bulk.capacitance_uf * 1e-6 * (388**2 - 302**2)
        for session in library.sessions_of(unit.id):
            drawn = {p.load_pct: p.input_power_w for p in session.record.load_points}
            wrong += [
                f"{session.file} at {h.load_pct:g} %" for h in session.record.hold_up
                if abs(h.rails_ms / (1000 * joule / drawn[h.load_pct]) - 1) > 0.1
            ]
    assert [] == wrong


def test_power_good_falls_before_the_rails(library: Library) -> None:
    """PWR_OK warns at least 1 ms ahead (ATX design guide, T6)."""
    wrong = [s.file for s in library.sessions for h in s.record.hold_up if h.rails_ms - h.power_good_ms < 1]
    assert [] == wrong


def test_nothing_is_read_beyond_shut_down(library: Library) -> None:
    """A unit that switches itself off at some power has no steady load above it, and holds less than that."""
    wrong = []
    for session in whole_sessions(library):
        far = session.record.maximum_power
        assert far is not None
        assert far.shut_down_w is not None
        top = max(p.delivered_power_w for p in session.record.load_points)
        if not top < far.shut_down_w or not far.sustained_w < far.shut_down_w:
            wrong.append(session.file)
    assert [] == wrong


def test_over_power_protection_is_what_shuts_down(library: Library) -> None:
    """The trip point of the protection test and the power at shut-down are one thing, within 5 %."""
    wrong = []
    for session in whole_sessions(library):
        trips = [t.trip_power_w for t in session.record.protections if t.protection == "opp" and t.trip_power_w]
        far = session.record.maximum_power
        assert far is not None
        assert far.shut_down_w is not None
        wrong += [session.file for trip in trips if abs(trip / far.shut_down_w - 1) > 0.05]
    assert [] == wrong


def test_every_protection_has_a_row(library: Library) -> None:
    """Fourteen protections, each once, in every session; one left out says why, one that failed says how far it was taken."""
    wrong = []
    for session in library.sessions:
        tests = session.record.protections
        silent = [t for t in tests if t.outcome == "not_tested" and not t.why_not_tested]
        silent += [t for t in tests if t.outcome == "did_not_act" and not t.tested_up_to]
        if silent or len({t.protection for t in tests}) != 14 or len(tests) != 14:
            wrong.append(session.file)
    assert [] == wrong


def test_every_unit_was_on_the_reference_mains(library: Library) -> None:
    """230 V for all, and 115 V at 10, 20, 50 and 100 % where the badge is from the 115 V table."""
    wrong = []
    for unit in library.units:
        loads = {
            volts: {p.load_pct for s in library.sessions_of(unit.id) if s.mains_volts == volts for p in s.record.load_points}
            for volts in (115, 230)
        }
        if not loads[230] or (unit.record.claims.badge_mains == "115v_internal" and not {10, 20, 50, 100} <= loads[115]):
            wrong.append(unit.id)
    assert [] == wrong
