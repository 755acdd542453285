"""Heat, fan, temperatures, standby, inrush, maximum power, and the facts from the box."""

from dataclasses import replace

from guidegen.evaluation.measures import (
    MEASURES,
    facts,
    fan,
    heat,
    inrush,
    maximum_power,
    standby,
    temperatures,
)
from guidegen.records import FanRun, Inrush, MaximumPower, Standby
from tests.evaluation.invented import bench, found, lost_w, value, with_points


def test_heat_is_the_loss_in_watts_with_its_btu() -> None:
    """750 W: 8 + 22.5 + 56.25 = 86.75 W, 296 BTU/h (1 W = 3.412142 BTU/h)."""
    made = heat.measure(bench())

    assert (round(lost_w(375.0), 6), 86.75) == (value(made, "heat.at_50"), value(made, "heat.at_100"))
    assert "296 BTU/h" == found(made)["heat.at_100"].note


def test_the_fan_stands_up_to_the_last_load_before_it_turns() -> None:
    """A later stand-still does not count."""
    made = fan.measure(with_points(fan_rpm=(0.0, 0.0, 700.0, 0.0)))

    assert (375.0, 4) == (value(made, "fan.starts_at"), len(made.curves[0].points))


def test_where_the_fan_starts_and_stops_again() -> None:
    """Rising 400 W, falling 330 W; both with the load's doubt."""
    base = with_points(fan_rpm=(0.0, 0.0, 700.0, 900.0))
    run = replace(base, session=replace(base.session, record=replace(base.session.record, fan_run=FanRun(starts_w=400.0, stops_w=330.0))))
    made = fan.measure(run)

    assert (400.0, 330.0) == (value(made, "fan.begins_at"), value(made, "fan.stops_at"))


def test_a_fan_that_always_turns_stands_up_to_nothing_and_says_so() -> None:
    """A finding of 0 W, not a missing one; without readings there is none."""
    turning = found(fan.measure(with_points(fan_rpm=(500.0, 600.0, 700.0, 900.0))))["fan.starts_at"]

    assert (0.0, "It turns from the lowest load on.") == (turning.quantity.value, turning.note)
    assert () == fan.measure(bench()).findings


def test_the_exhaust_above_the_intake_at_full_load() -> None:
    """Both readings at 100 %; one alone says nothing."""
    made = temperatures.measure(with_points(intake_c=(23.0, 23.5, 24.0, 25.0), exhaust_c=(25.0, 28.0, 33.0, 39.5)))

    assert 14.5 == value(made, "temperature.exhaust_rise_at_100")
    assert () == temperatures.measure(with_points(exhaust_c=(25.0, 28.0, 33.0, 39.5))).findings


def test_standby_power_and_the_efficiency_of_its_rail() -> None:
    """Nothing connected: watts; loaded: per cent, named by its milliamperes."""
    made = standby.measure(bench(standby=(
        Standby(current_5vsb_a=0.0, delivered_power_w=0.0, input_power_w=0.12),
        Standby(current_5vsb_a=0.045, delivered_power_w=0.225, input_power_w=0.45),
    )))

    assert (0.12, 50.0) == (value(made, "standby.no_load"), value(made, "standby.efficiency_at_45"))
    assert () == standby.measure(bench()).findings


def test_inrush_of_each_start() -> None:
    """Amperes, and that the guides state no figure."""
    made = inrush.measure(bench(inrush=(Inrush(peak_a=46.0, start="cold"), Inrush(peak_a=71.0, start="warm"))))

    assert (46.0, 71.0) == (value(made, "inrush.cold"), value(made, "inrush.warm"))
    assert "no figure" in found(made)["inrush.cold"].note


def test_maximum_power_as_shares_of_the_label() -> None:
    """900 W of 750 W is 120 %; a test that ended before shut-down has no shut-down."""
    made = maximum_power.measure(bench(maximum_power=MaximumPower(sustained_w=900.0, held_minutes=10.0, shut_down_w=1050.0)))
    open_end = maximum_power.measure(bench(maximum_power=MaximumPower(sustained_w=900.0, held_minutes=10.0)))

    assert (120.0, 140.0) == (value(made, "maximum_power.sustained_share"), value(made, "maximum_power.shut_down_share"))
    assert "maximum_power.shut_down_share" not in found(open_end)
    assert () == maximum_power.measure(bench()).findings


def test_facts_from_the_box() -> None:
    """Depth, warranty, cables and plugs; both kinds of 16-pin plug count."""
    made = facts.measure(bench())
    keys = ("size.depth", "warranty.years", "cables.total", "cables.sata", "cables.pcie_8", "cables.pcie_16", "cables.cpu_8")

    assert (140.0, 7.0, 6.0, 6.0, 2.0, 1.0, 2.0) == tuple(value(made, key) for key in keys)


def test_every_measure_is_named_after_its_module_and_no_key_comes_twice() -> None:
    """Keys are what policies, verdicts and prose hold on to."""
    made = [measure(bench()) for measure in MEASURES.values()]
    keys = [finding.key for one in made for finding in one.findings]

    assert list(MEASURES) == [one.id for one in made]
    assert sorted(set(keys)) == sorted(keys)
