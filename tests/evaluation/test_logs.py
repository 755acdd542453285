"""Loads found in a log: their bounds, their steadiness, their means, each held to another computation."""

import random
from array import array
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.evaluation import Segment, divide
from guidegen.evaluation.logs import LogMean, drift_of
from guidegen.records import LogColumn, LogMapping, LogReadings, TimeColumn
from guidegen.sources.logs import read_log
from tests.bench_logs import LOADS_W, SECONDS, csv_text, load_rows, mapping_from

RATED_W = 650.0


def readings_of(power: list[float], *, set_point: list[float] | None = None) -> LogReadings:
    """A log of a reading a second."""
    columns = [LogColumn(name="P", field="delivered_power_w", values=array("d", power))]
    if set_point is not None:
        columns.append(LogColumn(name="set", field="load_pct", values=array("d", set_point)))
    seconds = array("d", range(len(power)))
    return LogReadings(name="log.csv", sha256="0" * 64, first_line=2, day=None, seconds=seconds, columns=tuple(columns))


def mapping(**other: object) -> LogMapping:
    """A mapping of the power alone, 5 s to settle."""
    usual: dict[str, object] = {
        "format": 1, "kind": "load_sweep", "time": TimeColumn(column="t", format="s"), "columns": {"P": "delivered_power_w"},
        "settle_s": 5.0, "min_rows": 10,
    }
    return LogMapping(**(usual | other))  # type: ignore[arg-type]


def divided(power: list[float], **other: object) -> tuple[Segment, ...]:
    """The loads of a log of power."""
    return divide(readings_of(power), mapping(**other), rated_power_w=RATED_W)


def test_means_and_uncertainties_are_those_of_numpy(tmp_path: Path) -> None:
    """Mean and s/√n of the rows from 5 s after each step, computed from the text of the log (JCGM 100:2008, 4.2.3)."""
    (tmp_path / "log.csv").write_text(csv_text(load_rows()), encoding="utf-8")
    rules = mapping_from(tmp_path)
    segments = divide(read_log(tmp_path / "log.csv", rules, tmp_path), rules, rated_power_w=RATED_W)
    table = np.array([[float(cell) for cell in row] for row in load_rows()[1:]])

    assert [10.0, 20.0, 50.0, 100.0] == [segment.load_pct for segment in segments]
    for load, segment in enumerate(segments):
        used = table[load * SECONDS + 5 : (load + 1) * SECONDS]
        volts = segment.mean("voltage_12v_v")
        power = segment.mean("input_power_w")
        assert volts is not None
        assert power is not None
        assert (SECONDS - 5, "steady") == (segment.used, segment.state)
        assert pytest.approx((used[:, 4] / 1000).mean(), rel=1e-12) == volts.value
        assert pytest.approx(used[:, 2].mean(), rel=1e-12) == power.value
        assert pytest.approx(used[:, 2].std(ddof=1) / 25**0.5, rel=1e-9) == power.uncertainty


@settings(max_examples=40, deadline=None)
@given(
    loads=st.lists(st.integers(1, 20), min_size=1, max_size=8).map(lambda ws: [50.0 * w for i, w in enumerate(ws) if not i or w != ws[i - 1]]),
    rows=st.integers(20, 200), ramp=st.integers(0, 4), seed=st.integers(0, 99),
)
def test_every_load_is_found_where_it_stands(loads: list[float], rows: int, ramp: int, seed: int) -> None:
    """As many steady loads as were set, each at its power, whatever lies between them."""
    rng = random.Random(seed)  # noqa: S311
    power: list[float] = []
    for place, watts in enumerate(loads):
        before = loads[place - 1] if place else watts
        power += [before + (watts - before) * (step + 1) / (ramp + 1) for step in range(ramp)]
        power += [watts + rng.gauss(0, 0.1) for _ in range(rows)]
    steady = [segment for segment in divided(power) if segment.state != "passing"]

    assert ["steady"] * len(loads) == [segment.state for segment in steady]
    assert loads == pytest.approx([mean.value for segment in steady if (mean := segment.mean("delivered_power_w"))], abs=0.2)


def test_rows_on_the_way_to_the_next_load_enter_no_mean() -> None:
    """A load that leaves slowly, within the threshold of a new load, does not drag its mean."""
    power = [100.0 + 0.05 * (row % 3) for row in range(60)] + [103.0, 106.0, 109.0, *[300.0] * 60]
    first = divided(power)[0]
    mean = first.mean("delivered_power_w")

    assert mean is not None
    assert first.last == 59
    assert pytest.approx(100.05, abs=0.01) == mean.value


def test_two_stray_readings_are_no_new_load() -> None:
    """Three rows elsewhere are needed for a step."""
    power = [100.0] * 20 + [300.0] * 2 + [100.0] * 20

    assert 1 == len(divided(power, steady_pct=100.0))


def test_the_set_point_divides_where_the_log_has_one() -> None:
    """Loads closer than the threshold are told apart by what was set, and named by it."""
    power, points = [100.0] * 30 + [101.0] * 30, [15.0] * 30 + [15.2] * 30
    segments = divide(readings_of(power, set_point=points), mapping(), rated_power_w=RATED_W)

    assert [(0, 15.0), (30, 15.2)] == [(segment.first, segment.load_pct) for segment in segments]


def test_a_drifting_load_is_named_and_scatter_is_not_drift() -> None:
    """The slope of the mean decides, as far as it is known."""
    rng = random.Random(3)  # noqa: S311
    drifting = divided([300 + row * 0.05 for row in range(100)])[0]
    scattered = divided([300 + rng.gauss(0, 3) for _ in range(15)])[0]

    assert ("unsteady", "steady") == (drifting.state, scattered.state)
    assert "P drifts by +1.55 % in 94 s, at most 0.5 % is steady" == drifting.why


def test_a_load_that_is_cut_short_is_said_to_be() -> None:
    """Settled, but with too few rows for a mean."""
    segments = divided([100.0] * 40 + [300.0] * 9)

    assert ["steady", "short"] == [segment.state for segment in segments]
    assert "4 rows after settling, at least 10 are needed" == segments[1].why


def test_seconds_before_a_step_can_be_left_out() -> None:
    """But not those before the end of the log."""
    segments = divided([100.0] * 40 + [300.0] * 40, leave_s=10.0)

    assert [25, 35] == [segment.used for segment in segments]


def test_drift_is_that_of_the_straight_line_of_numpy() -> None:
    """Slope and its standard uncertainty as ``numpy.polyfit`` has them."""
    rng = np.random.default_rng(5)
    seconds = np.arange(50.0)
    values = 3 + 0.1 * seconds + rng.normal(0, 0.5, 50)
    line, spread = np.polyfit(seconds, values, 1, cov=True)
    drift, uncertainty = drift_of(seconds, values)

    assert pytest.approx(line[0] * 49, rel=1e-9) == drift
    assert pytest.approx(float(np.sqrt(spread[0, 0])) * 49, rel=1e-9) == uncertainty


@pytest.mark.parametrize(
    ("uncertainty", "written"), [(0.0123, 12.346), (1.2, 12.3), (30.0, 12.0), (0.0, 12.345679), (1e-9, 12.345679)]
)
def test_a_mean_is_written_with_two_digits_of_its_uncertainty(uncertainty: float, written: float) -> None:
    """JCGM 100:2008, 7.2.6: usually two significant digits of the uncertainty at most suffice."""
    mean = LogMean(column="P", field="delivered_power_w", value=12.3456789, uncertainty=uncertainty, count=10)

    assert written == mean.written


def test_loads_are_named_by_whole_percents() -> None:
    """Tenths below one percent."""
    names = [divided([watts] * 20)[0].load_pct for watts in (3.2, 13.1, *LOADS_W)]

    assert [0.5, 2.0, 10.0, 20.0, 50.0, 100.0] == names
