"""Sweeps put together into a session: what comes from where, and what keeps a session from being made."""

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import get_args

import pytest

from guidegen.errors import ContentError
from guidegen.evaluation import Sweep, Told, divide, session_of
from guidegen.records import LogMapping, Mains, ProtectionTest, SessionDefaults
from guidegen.records.unit import Protection
from guidegen.sources.logs import read_log
from tests.bench_logs import LOAD_MAPPING, NOISE_MAPPING, csv_text, load_rows, mapping_from, noise_rows

DAY = date(2026, 3, 4)


def sweep(folder: Path, rows: list[list[str]], mapping: LogMapping) -> Sweep:
    """A log of these rows, divided."""
    (folder / "log.csv").write_text(csv_text(rows), encoding="utf-8")
    readings = read_log(folder / "log.csv", mapping, folder)
    return Sweep(
        readings=readings, mapping=mapping, mapping_file="mappings/bench.yaml",
        segments=divide(readings, mapping, rated_power_w=650.0),
    )


@pytest.fixture
def load(tmp_path: Path) -> Sweep:
    """The load sweep."""
    return sweep(tmp_path, load_rows(), mapping_from(tmp_path, LOAD_MAPPING))


@pytest.fixture
def noise(tmp_path: Path) -> Sweep:
    """The noise sweep."""
    return sweep(tmp_path, noise_rows(), mapping_from(tmp_path, NOISE_MAPPING))


def messages(sweeps: tuple[Sweep, ...], told: Told) -> list[str]:
    """What keeps a session from being made."""
    with pytest.raises(ContentError) as refused:
        session_of(sweeps, told)
    return [fault.message for fault in refused.value.faults]


def test_both_sweeps_meet_in_one_session(load: Sweep, noise: Sweep) -> None:
    """Load points, levels a position, the fan by load from the other log, instruments of both, both logs named."""
    session = session_of((load, noise), Told(day=DAY))
    sound = session.noise_sweep

    assert sound is not None
    assert [10.0, 20.0, 50.0, 100.0] == [point.load_pct for point in session.load_points]
    assert [0.0, 600.0, 1200.0, 1800.0] == [point.fan_rpm for point in session.load_points]
    assert [(18.5, 16.0), (22.5, 16.0), (26.5, 16.0), (30.5, 16.0)] == [(p.levels_dba[1], p.background_dba) for p in sound.points]
    assert ("analyser", "load", "sound-level-meter") == session.instruments
    assert [(100, 120), (100, 120)] == [(one.rows_used, one.rows_read) for one in session.provenance]


def test_a_log_whose_loads_fall_gives_points_that_rise(tmp_path: Path) -> None:
    """Points are put in order of load."""
    rows = load_rows()
    turned = [rows[0], *([row[0], *other[1:]] for row, other in zip(rows[1:], rows[:0:-1], strict=True))]
    session = session_of((sweep(tmp_path, turned, mapping_from(tmp_path)),), Told(day=DAY))

    assert [10.0, 20.0, 50.0, 100.0] == [point.load_pct for point in session.load_points]


def test_what_is_told_goes_before_the_mapping(load: Sweep) -> None:
    """Day, sample, mains, room, person and protections."""
    tested = (ProtectionTest(protection="opp", outcome="acted", trip_power_w=810.0),)
    told = Told(day=DAY, sample="b", mains_v=115.0, frequency_hz=60.0, ambient_c=25.5, tested_by="Edda Quarrier", protections=tested)
    session = session_of((load,), told)

    assert (DAY, "b", Mains(voltage_v=115.0, frequency_hz=60.0)) == (session.date, session.sample.id, session.mains)
    assert (25.5, "Edda Quarrier", tested) == (session.ambient_c, session.tested_by, session.protections)


def test_protections_that_nobody_told_are_not_tested(load: Sweep) -> None:
    """All of them, with the reason: not tested is never a pass."""
    session = session_of((load,), Told(day=DAY))

    assert get_args(Protection) == tuple(test.protection for test in session.protections)
    assert {("not_tested", "not part of this log")} == {(test.outcome, test.why_not_tested) for test in session.protections}


def test_what_stands_nowhere_is_asked_for_all_at_once(load: Sweep) -> None:
    """Each with the place where it could stand."""
    bare = replace(load, mapping=replace(load.mapping, session=SessionDefaults()))

    assert [
        "log.csv: came a log that tells no day, expected the day, with --date",
        ("mappings/bench.yaml, session.ambient_c: came nothing, expected session.ambient_c in the mapping, or --ambient, "
        "or a column for ambient_c"),
        "mappings/bench.yaml, session.instruments: came nothing, expected session.instruments in the mapping",
        ("mappings/bench.yaml, session.mains: came nothing, expected session.mains in the mapping, or --mains and --frequency, "
        "or columns for mains_voltage_v and mains_frequency_hz"),
        "mappings/bench.yaml, session.sample: came nothing, expected session.sample in the mapping",
        "mappings/bench.yaml, session.tested_by: came nothing, expected session.tested_by in the mapping, or --tested-by",
    ] == messages((bare,), Told())


def test_a_load_that_drifts_is_named_with_its_line(tmp_path: Path) -> None:
    """The load, when it begins, by how much it drifts."""
    rows = load_rows()
    for second, row in enumerate(rows[61:91]):
        row[2] = f"{356 + second:.3f}"
    said = messages((sweep(tmp_path, rows, mapping_from(tmp_path)),), Told(day=DAY))

    assert [
        ("log.csv:62: came the load of 50 % that begins at 60 s: P_in drifts by +6.43 % in 24 s, at most 0.5 % is steady, "
        "expected a steady load of enough rows")
    ] == said


def test_a_load_that_comes_twice_is_refused(tmp_path: Path) -> None:
    """Up and down again: which of the two should count is not for the program to say."""
    rows = load_rows()
    again = [[str(200 + second), *row[1:]] for second, row in enumerate(rows[31:61])]
    said = messages((sweep(tmp_path, [*rows, *again], mapping_from(tmp_path)),), Told(day=DAY))

    assert ["log.csv:122: came the load of 20 % that begins at 200 s, expected each load once; it was there at 30 s already"] == said


def test_too_few_loads_and_two_sweeps_of_a_kind_are_refused(tmp_path: Path, load: Sweep, noise: Sweep) -> None:
    """A session has three loads at least, and one load sweep."""
    few = sweep(tmp_path, load_rows()[:61], load.mapping)

    assert ["log.csv: came 2 steady loads, expected at least 3, each longer than settle_s of the mapping"] == messages((few,), Told(day=DAY))
    assert "came 2 load sweeps and 0 noise sweeps" in messages((load, load), Told(day=DAY))[0]
    assert "came 0 load sweeps and 1 noise sweeps" in messages((noise,), Told(day=DAY))[0]
