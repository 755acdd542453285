"""Protections: acted or not, in band or not, and by which rule."""

import pytest

from guidegen.evaluation.measures import protections
from guidegen.records import ProtectionTest
from tests.evaluation.invented import bench, checks, found, value


@pytest.mark.parametrize(("amperes", "outcome", "worth"), [
    (68.75, "pass", 1.0), (93.75, "pass", 1.0), (68.0, "conditional_fail", 0.5), (94.0, "conditional_fail", 0.5),
])
def test_over_current_is_held_against_the_house_band(amperes: float, outcome: str, worth: float) -> None:
    """110 to 150 % of 62.5 A is 68.75 to 93.75 A, ends included; acting elsewhere counts half."""
    made = protections.measure(bench(protections=(ProtectionTest(protection="ocp_12v", outcome="acted", trip_current_a=amperes),)))
    check = checks(made)["protections.ocp_12v"]

    assert (outcome, "House band", "house_rule") == (check.outcome, check.document, check.standing)
    assert (worth, amperes) == (value(made, "protections.ocp_12v.acted"), value(made, "protections.ocp_12v.trip"))
    assert "A" == found(made)["protections.ocp_12v.trip"].quantity.unit


@pytest.mark.parametrize(("watts", "outcome"), [(825.0, "pass"), (1125.0, "pass"), (820.0, "conditional_fail")])
def test_over_power_is_held_against_the_rating(watts: float, outcome: str) -> None:
    """110 to 150 % of 750 W is 825 to 1125 W."""
    made = protections.measure(bench(protections=(ProtectionTest(protection="opp", outcome="acted", trip_power_w=watts),)))

    assert outcome == checks(made)["protections.opp"].outcome


@pytest.mark.parametrize(("protection", "volts", "outcome", "standing"), [
    ("ovp_12v", 15.6, "pass", "second_hand"), ("ovp_12v", 15.61, "conditional_fail", "second_hand"),
    ("ovp_5v", 5.74, "pass", "seen"), ("ovp_5v", 5.73, "conditional_fail", "seen"), ("ovp_3v3", 4.31, "conditional_fail", "seen"),
])
def test_over_voltage_is_held_against_the_published_window(protection: str, volts: float, outcome: str, standing: str) -> None:
    """5 and 3.3 V: ATX design guide v0.9 table 11, seen; 12 V: as makers' sheets give it, second-hand."""
    test = ProtectionTest(protection=protection, outcome="acted", trip_voltage_v=volts)  # type: ignore[arg-type]
    check = checks(protections.measure(bench(protections=(test,))))[f"protections.{protection}"]

    assert (outcome, standing) == (check.outcome, check.standing)


@pytest.mark.parametrize("outcome", ["did_not_act", "damaged"])
def test_a_protection_that_does_not_act_fails_and_is_worth_nothing(outcome: str) -> None:
    """Whatever the reason; damage is said."""
    test = ProtectionTest(protection="scp", outcome=outcome, tested_up_to="5 s")  # type: ignore[arg-type]
    made = protections.measure(bench(protections=(test,)))

    assert ("fail", 0.0) == (checks(made)["protections.scp"].outcome, value(made, "protections.scp.acted"))
    assert ("damaged" if outcome == "damaged" else "up to 5 s") in checks(made)["protections.scp"].detail


def test_a_protection_that_was_not_tested_has_a_check_and_no_worth() -> None:
    """Not tested is neither pass nor zero, and says why."""
    made = protections.measure(bench(protections=(
        ProtectionTest(protection="otp", outcome="not_tested", why_not_tested="loaned unit"),
    )))

    assert ("not_tested", "loaned unit") == (checks(made)["protections.otp"].outcome, checks(made)["protections.otp"].detail)
    assert () == made.findings


def test_a_protection_without_a_figure_passes_by_acting() -> None:
    """OTP: required, temperature left open; the trip point is still told in °C."""
    made = protections.measure(bench(protections=(ProtectionTest(protection="otp", outcome="acted", trip_temperature_c=121.0),)))

    assert ("pass", "seen") == (checks(made)["protections.otp"].outcome, checks(made)["protections.otp"].standing)
    assert (121.0, "°C") == (value(made, "protections.otp.trip"), found(made)["protections.otp.trip"].quantity.unit)
