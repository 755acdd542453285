"""Protections: each called upon on the bench; whether it acted, and where."""

from guidegen.evaluation.findings import Bench, Check, Finding, Measure, Outcome
from guidegen.evaluation.uncertainty import read
from guidegen.origins import Origin
from guidegen.quantities import Quantity
from guidegen.records import ProtectionTest
from guidegen.standards import ProtectionRule, protection_rule, trip_window

TITLES = {
    "ocp_12v": "Over current, 12 V", "ocp_5v": "Over current, 5 V", "ocp_3v3": "Over current, 3.3 V",
    "opp": "Over power", "ovp_12v": "Over voltage, 12 V", "ovp_5v": "Over voltage, 5 V",
    "ovp_3v3": "Over voltage, 3.3 V", "uvp_12v": "Under voltage, 12 V", "uvp_5v": "Under voltage, 5 V",
    "uvp_3v3": "Under voltage, 3.3 V", "scp": "Short circuit", "otp": "Over temperature",
    "no_load": "No load", "surge": "Surge",
}
RAIL_OF = {"ocp_12v": "12v", "ocp_5v": "5v", "ocp_3v3": "3v3"}
WORTH: dict[Outcome, float] = {"pass": 1.0, "conditional_fail": 0.5, "fail": 0.0}
"""What an outcome counts in the score: half where it acts outside the lab's band."""

Judged = tuple[Outcome, str, ProtectionRule]
"""Verdict, what happened, and the rule it was held against."""


def measure(bench: Bench) -> Measure:
    """A check and a worth for each protection, and its trip point where one was recorded."""
    checks: list[Check] = []
    findings: list[Finding] = []
    for i, test in enumerate(bench.session.record.protections):
        outcome, detail, rule = _judge(bench, test)
        place = (Origin(bench.session.file, ("protections", i, "outcome")),)
        checks.append(
            Check(key=f"protections.{test.protection}", title=TITLES[test.protection], outcome=outcome, detail=detail,
                  document=rule.document, standing=rule.standing, origins=place)
        )
        if outcome in WORTH:
            findings.append(
                Finding(
                    key=f"protections.{test.protection}.acted", title=f"{TITLES[test.protection]}: acted", decimals=1,
                    better="higher", quantity=Quantity(WORTH[outcome], ""), origins=place,
                    note="1 acted where it should, 0.5 acted elsewhere, 0 did not act.",
                )
            )
        findings += _trip(bench, i, test)
    return Measure(id="protections", title="Protections", findings=tuple(findings), checks=tuple(checks))


def _judge(bench: Bench, test: ProtectionTest) -> Judged:
    rule = protection_rule(test.protection)
    if test.outcome == "not_tested":
        return "not_tested", test.why_not_tested or "not tested", rule
    if test.outcome == "damaged":
        return "fail", "the unit was damaged", rule
    if test.outcome == "did_not_act":
        reached = f" up to {test.tested_up_to}" if test.tested_up_to else ""
        return "fail", f"did not act{reached}", rule
    return _judge_acted(bench, test, rule)


def _judge_acted(bench: Bench, test: ProtectionTest, rule: ProtectionRule) -> Judged:
    """The verdict on a protection that acted: inside a band or window where there is one."""
    share = trip_share(bench, test)
    band = next((b for b in bench.policy.protection_bands if b.protection == test.protection), None)
    if share is not None and band is not None:
        detail = f"acted at {share:.0f} % of the rating; band {band.from_pct:.0f} % to {band.to_pct:.0f} %"
        house = ProtectionRule(document=band.document, standing="house_rule")
        return ("pass" if band.from_pct <= share <= band.to_pct else "conditional_fail"), detail, house
    window = trip_window(test.protection)
    volts = test.trip_voltage_v
    if window is not None and volts is not None:
        detail = f"acted at {volts:.2f} V; window {window.from_v:g} V to {window.to_v:g} V"
        published = ProtectionRule(document=window.document, standing=window.standing)
        return ("pass" if window.from_v <= volts <= window.to_v else "conditional_fail"), detail, published
    if volts is not None:
        return "pass", f"acted at {volts:.2f} V", rule
    if test.trip_temperature_c is not None:
        return "pass", f"acted at {test.trip_temperature_c:.0f} °C", rule
    return "pass", "acted", rule


def trip_share(bench: Bench, test: ProtectionTest) -> float | None:
    """Where a protection acted as a share of the rated current or power, %; nothing where it has no such rating."""
    if test.protection == "opp" and test.trip_power_w is not None:
        return 100.0 * test.trip_power_w / bench.unit.record.rated_power_w
    rail = RAIL_OF.get(test.protection)
    rated = next((r.rated_current_a for r in bench.unit.record.rails if r.rail == rail), None)
    if rated is None or test.trip_current_a is None:
        return None
    return 100.0 * test.trip_current_a / rated


def _trip(bench: Bench, place: int, test: ProtectionTest) -> list[Finding]:
    points = (
        ("trip_current_a", "current_a", "A", 1), ("trip_power_w", "delivered_power_w", "W", 0),
        ("trip_voltage_v", "voltage_v", "V", 2), ("trip_temperature_c", "temperature_c", "°C", 0),
    )
    return [
        Finding(
            key=f"protections.{test.protection}.trip", title=f"{TITLES[test.protection]}: trip point", decimals=decimals,
            quantity=read(bench, kind, value, unit),  # type: ignore[arg-type]
            origins=(Origin(bench.session.file, ("protections", place, field)),),
        )
        for field, kind, unit, decimals in points
        if (value := getattr(test, field)) is not None
    ]
