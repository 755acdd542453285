"""Standby: what the supply takes while the computer is off, and the efficiency of the standby rail."""

from guidegen.evaluation.findings import Bench, Finding, Measure
from guidegen.evaluation.uncertainty import ratio, read
from guidegen.origins import Origin
from guidegen.quantities import Quantity
from guidegen.records.guide import InstrumentQuantity


def measure(bench: Bench) -> Measure:
    """Power without load on the standby rail, W, and efficiency at each load tried, %."""
    findings: list[Finding] = []
    for i, one in enumerate(bench.session.record.standby):
        into = _read(bench, "input_power_w", one.input_power_w)
        places = tuple(Origin(bench.session.file, ("standby", i, f)) for f in ("delivered_power_w", "input_power_w"))
        if one.delivered_power_w == 0:
            findings.append(
                Finding(key="standby.no_load", title="Standby power, nothing connected", decimals=2, better="lower",
                        quantity=into, origins=places[1:])
            )
            continue
        out = _read(bench, "delivered_power_w", one.delivered_power_w)
        milliamperes = round(1000 * one.current_5vsb_a)
        findings.append(
            Finding(
                key=f"standby.efficiency_at_{milliamperes}", title=f"Standby efficiency at {one.current_5vsb_a:g} A",
                decimals=0, better="higher", quantity=ratio(out, into, "%", factor=100.0), origins=places,
            )
        )
    return Measure(id="standby", title="Standby", findings=tuple(findings))


def _read(bench: Bench, usually: InstrumentQuantity, value: float) -> Quantity:
    """A small power, by the range for small powers where one is listed, else by the one for all others."""
    return read(bench, "standby_power_w" if bench.reading("standby_power_w") else usually, value, "W")
