"""Ripple and noise: the worst of all loads, full load, and how near the limit."""

from guidegen.evaluation.measures import ripple
from guidegen.origins import Origin
from tests.evaluation.invented import FILE, bench, found, value, with_points


def test_the_worst_ripple_is_the_highest_of_all_loads_and_leads_to_its_reading() -> None:
    """The highest stands at 80 %, not at full load."""
    made = ripple.measure(with_points(ripple_12v_mv=(12.0, 18.0, 31.0, 27.0)))
    worst = found(made)["ripple.12v.worst"]

    assert (31.0, 27.0) == (value(made, "ripple.12v.worst"), value(made, "ripple.12v.at_100"))
    assert (Origin(FILE, ("load_points", 2, "ripple_12v_mv")),) == worst.origins
    assert "20 MHz" in worst.note


def test_overload_is_drawn_and_counts_for_no_limit() -> None:
    """Limits are set for the rated range (ATX design guides, ripple and noise: measured over the whole load range)."""
    made = ripple.measure(with_points((50.0, 100.0, 100.9, 110.0), ripple_12v_mv=(12.0, 18.0, 19.0, 150.0)))

    assert (19.0, 18.0) == (value(made, "ripple.12v.worst"), value(made, "ripple.12v.at_100"))
    assert [12.0, 18.0, 19.0, 150.0] == [one.quantity.value for one in made.curves[0].points]


def test_a_rail_read_in_overload_alone_has_no_number() -> None:
    """Nothing is known of its rated range."""
    assert () == ripple.measure(with_points((110.0,), ripple_12v_mv=(60.0,))).findings


def test_a_rail_without_readings_has_no_number_and_no_course() -> None:
    """Not tested is not zero."""
    made = ripple.measure(with_points(ripple_5v_mv=(9.0, 9.0, 9.0, 11.0)))

    assert {"ripple.5v.worst", "ripple.5v.at_100", "ripple.worst_share"} == set(found(made))
    assert ["ripple.5v"] == [curve.key for curve in made.curves]
    assert () == ripple.measure(bench()).findings


def test_the_worst_share_is_that_of_the_rail_nearest_to_its_own_limit() -> None:
    """30 of 50 mV (60 %) on 3.3 V is nearer than 60 of 120 mV (50 %) on 12 V."""
    made = ripple.measure(with_points(ripple_12v_mv=(1.0, 1.0, 1.0, 60.0), ripple_3v3_mv=(1.0, 1.0, 1.0, 30.0)))
    share = found(made)["ripple.worst_share"]

    assert (60.0, "Worst ripple on 3.3 V") == (share.quantity.value, share.note)
    assert 2.0 * found(made)["ripple.3v3.worst"].quantity.own == share.quantity.own
