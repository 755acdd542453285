"""Standby: what the supply takes while the computer is off, and the efficiency of the standby rail."""

from guidegen.evaluation.findings import Bench, Finding, Measure
from guidegen.evaluation.uncertainty import ratio, read
from guidegen.origins import Origin


def measure(bench: Bench) -> Measure:
    """Power without load on the standby rail, W, and efficiency at each load tried, %."""
    findings: list[Finding] = []
    for i, one in enumerate(bench.session.record.standby):
        into = read(bench, "input_power_w", one.input_power_w, "W")
        places = tuple(Origin(bench.session.file, ("standby", i, f)) for f in ("delivered_power_w", "input_power_w"))
        if one.delivered_power_w == 0:
            findings.append(
                Finding(key="standby.no_load", title="Standby power, nothing connected", decimals=2, better="lower",
                        quantity=into, origins=places[1:])
            )
            continue
        out = read(bench, "delivered_power_w", one.delivered_power_w, "W")
        milliamperes = round(1000 * one.current_5vsb_a)
        findings.append(
            Finding(
                key=f"standby.efficiency_at_{milliamperes}", title=f"Standby efficiency at {one.current_5vsb_a:g} A",
                decimals=0, better="higher", quantity=ratio(out, into, "%", factor=100.0), origins=places,
            )
        )
    return Measure(id="standby", title="Standby", findings=tuple(findings))
