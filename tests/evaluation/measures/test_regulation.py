"""Voltage regulation over load, cross load and mains."""

import pytest

from guidegen.evaluation.measures import regulation
from guidegen.origins import Origin
from guidegen.records import CrossLoad, LineStep
from tests.evaluation.invented import FILE, bench, found, value, with_points

CROSS = CrossLoad(name="12v_full", current_12v_a=62.0, current_5v_a=0.0, current_3v3_a=0.0, voltage_12v_v=11.88,
                  voltage_5v_v=5.15, voltage_3v3_v=3.3)
LINE = LineStep(mains_voltage_v=90.0, voltage_12v_v=11.94, voltage_5v_v=5.0, voltage_3v3_v=3.267)


def test_lowest_highest_and_worst_of_a_rail() -> None:
    """12.24 V is 2 % above, 11.88 V 1 % below; the worst says on which side it lies."""
    made = regulation.measure(with_points(voltage_12v_v=(12.24, 12.1, 11.88, 11.9)))
    worst = found(made)["regulation.12v.worst"]

    assert (11.88, 12.24, 2.0) == tuple(value(made, f"regulation.12v.{w}") for w in ("lowest", "highest", "worst"))
    assert ("above nominal", (Origin(FILE, ("load_points", 0, "voltage_12v_v")),)) == (worst.note, worst.origins)


def test_voltages_in_overload_count_for_no_limit() -> None:
    """Lowest, highest and worst are of the rated range."""
    made = regulation.measure(with_points((50.0, 100.0, 110.0), voltage_12v_v=(12.1, 11.9, 11.2)))

    assert (11.9, 12.1) == tuple(value(made, f"regulation.12v.{word}") for word in ("lowest", "highest"))
    assert "above nominal" == found(made)["regulation.12v.worst"].note


def test_the_worst_deviation_may_lie_below_nominal() -> None:
    """3 % below is worse than 2 % above."""
    worst = found(regulation.measure(with_points(voltage_12v_v=(12.24, 12.1, 11.9, 11.64))))["regulation.12v.worst"]

    assert (3.0, "below nominal") == (round(worst.quantity.value, 9), worst.note)


@pytest.mark.parametrize(("volts", "note"), [(12.1, "above nominal"), (11.9, "below nominal"), (12.0, "exactly nominal")])
def test_a_deviation_says_its_side(volts: float, note: str) -> None:
    """Above, below, or neither."""
    assert note == found(regulation.measure(with_points(voltage_12v_v=(volts,) * 4)))["regulation.12v.worst"].note


def test_cross_load_and_line_stand_apart_from_steady_loads() -> None:
    """12 V: 1 % at the cross load, .5 % over the mains; 5 V: 3 % at the cross load; 5 V standby has neither."""
    made = regulation.measure(bench(cross_loads=(CROSS,), line_steps=(LINE,)))

    assert (1.0, 0.5, 3.0, 1.0) == (
        value(made, "regulation.12v.cross"), value(made, "regulation.12v.line"), value(made, "regulation.5v.cross"),
        value(made, "regulation.3v3.line"),
    )
    assert not {"regulation.5vsb.cross", "regulation.5vsb.line"} & set(found(made))
    assert 12.05 == value(made, "regulation.12v.lowest")


def test_a_bench_without_cross_load_has_no_cross_load_number() -> None:
    """Not tested is not zero."""
    assert not [key for key in found(regulation.measure(bench())) if key.endswith(("cross", "line"))]
