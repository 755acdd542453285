"""Timing and hold-up: as read, and what the bulk capacitors let one expect."""

import math

from guidegen.evaluation.measures import hold_up, timing
from guidegen.records import HoldUp, Timing
from tests.evaluation.invented import POINTS, bench, checks, found, lost_w, value


def test_the_four_power_on_times() -> None:
    """T1 to T4 in ms, each with its last digit as doubt."""
    made = timing.measure(bench(timing=Timing(power_on_t1_ms=110.0, rise_t2_ms=6.0, power_good_delay_t3_ms=140.0, power_good_rise_t4_ms=0.4)))

    assert [110.0, 6.0, 140.0, 0.4] == [value(made, f"timing.t{i}") for i in (1, 2, 3, 4)]
    assert {round(0.1 / math.sqrt(12), 9)} == {round(f.quantity.own, 9) for f in made.findings}
    assert () == timing.measure(bench()).findings


def test_hold_up_at_full_and_at_eighty_percent() -> None:
    """Rails and power-good stand apart."""
    made = hold_up.measure(bench(hold_up=(
        HoldUp(load_pct=100.0, power_good_ms=16.4, rails_ms=18.0), HoldUp(load_pct=80.0, power_good_ms=21.0, rails_ms=23.1),
    )))

    assert (18.0, 16.4, 23.1, 21.0) == tuple(
        value(made, f"hold_up.{key}") for key in ("rails_at_100", "power_good_at_100", "rails_at_80", "power_good_at_80")
    )


def test_the_prediction_is_the_energy_of_the_bulk_capacitors() -> None:
    """½C(V1² − V2²) = P·t/η with 560 µF, 390 to 300 V; ±20 % of capacitance as a rectangle."""
    predicted = found(hold_up.measure(bench()))["hold_up.predicted"].quantity
    drawn = 750.0 + lost_w(750.0)
    expected = 1000 * 0.5 * 560e-6 * (390**2 - 300**2) / drawn

    assert math.isclose(expected, predicted.value, rel_tol=1e-9)
    assert math.isclose(0.2 / math.sqrt(3), predicted.own / predicted.value, rel_tol=1e-9)


def test_a_bench_that_never_saw_full_load_predicts_nothing() -> None:
    """The efficiency there is not known."""
    assert {} == found(hold_up.measure(bench(load_points=POINTS[:-3])))


def test_a_hold_up_that_the_capacitors_cannot_explain_is_flagged() -> None:
    """Within the doubt of ± 20 % capacitance it passes; twice the energy's worth is not settled."""
    drawn = 750.0 + lost_w(750.0)
    expected = 1000 * 0.5 * 560e-6 * (390**2 - 300**2) / drawn
    made = [
        checks(hold_up.measure(bench(hold_up=(HoldUp(load_pct=100.0, power_good_ms=1.0, rails_ms=rails),))))["hold_up.energy_balance"]
        for rails in (0.9 * expected, 2.0 * expected)
    ]

    assert ["pass", "inconclusive"] == [check.outcome for check in made]
    assert "longer than the capacitors explain" in made[1].detail
