"""One unit at a reader's own loads and mains."""

from dataclasses import replace

import pytest

from guidegen.evaluation import Assessment, Curve, CurvePoint, Measure, UnitResult
from guidegen.evaluation.running_costs import UseLoad
from guidegen.evaluation.sizing.fitted import bench_at, unit_at
from guidegen.quantities import Quantity


def with_115_volts(result: UnitResult, lost_w: float) -> UnitResult:
    """The result with one more session at 115 V, at which every load loses so much."""
    session = result.used[-1]
    low = replace(session, record=replace(session.record, mains=replace(session.record.mains, voltage_v=115.0)))
    points = tuple(
        CurvePoint(load_w=load, load_pct=load / 10, quantity=Quantity(lost_w, "W")) for load in (50.0, 300.0, 600.0)
    )
    measure = Measure(id="efficiency", title="E", curves=(Curve(key="loss", title="Loss", points=points),))
    return replace(result, by_session=(*result.by_session, (low, (measure,))))


@pytest.mark.parametrize(("mains_v", "expected"), [(120.0, 115), (100.0, 115), (230.0, 230), (240.0, 230)])
def test_the_mains_nearest_to_the_reader_counts(small: Assessment, mains_v: float, expected: int) -> None:
    """A reader at 120 V is shown what was measured at 115 V."""
    assert expected == bench_at(with_115_volts(small.results[0], 100.0), mains_v).mains_v


def test_figures_of_an_older_revision_are_not_a_newer_ones(small: Assessment) -> None:
    """Only the older one was measured at 115 V: the newer one's 230 V serve, and are named."""
    made = with_115_volts(small.results[0], 100.0)
    newer = tuple(replace(s, record=replace(s.record, sample=replace(s.record.sample, hardware_revision="9.9"))) for s in made.used)

    assert (115, 230) == (bench_at(made, 120.0).mains_v, bench_at(replace(made, used=newer), 120.0).mains_v)


def test_the_figures_are_those_of_that_mains(small: Assessment) -> None:
    """300 W with 100 W lost at 115 V: 75 %."""
    bench = bench_at(with_115_volts(small.results[0], 100.0), 120.0)
    found = unit_at(bench, UseLoad(use="full", delivered_w=300.0), rated_w=600.0)

    assert [75.0, 400.0, 100.0, 0.5] == pytest.approx([found.efficiency_pct, found.wall_w, found.heat_w, found.share])


def test_where_that_mains_was_not_measured_the_other_one_is_named(small: Assessment) -> None:
    """The small edition knows 230 V alone, and says so."""
    assert 230 == bench_at(small.results[0], 120.0).mains_v


def test_ripple_is_that_of_the_rail_nearest_to_its_limit(small: Assessment) -> None:
    """12 V of 120 mV, 5 V and 3.3 V of 50 mV each; read at a measured load."""
    result = small.results[0]
    curves = [result.curve(f"ripple.{rail}") for rail in ("12v", "5v", "3v3")]
    values = [curve.points[4].quantity.value for curve in curves if curve is not None]
    load = result.curves[0].points[4].load_w
    found = unit_at(bench_at(result, 230.0), UseLoad(use="work", delivered_w=load), rated_w=550.0)

    assert max(v / limit for v, limit in zip(values, (120.0, 50.0, 50.0), strict=True)) == pytest.approx(found.ripple_share or 0.0)
