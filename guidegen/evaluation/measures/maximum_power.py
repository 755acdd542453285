"""Maximum power: how far the unit goes above its label, or stays below it."""

from guidegen.evaluation.findings import Bench, Finding, Measure
from guidegen.evaluation.uncertainty import read, scaled
from guidegen.origins import Origin


def measure(bench: Bench) -> Measure:
    """Power held, and power at shut-down, as shares of the rating, %."""
    maximum = bench.session.record.maximum_power
    if maximum is None:
        return Measure(id="maximum_power", title="Maximum power")
    rated = bench.unit.record.rated_power_w
    findings = [
        Finding(
            key="maximum_power.sustained_share", title="Power held, of the label", decimals=0, better="higher",
            quantity=scaled(read(bench, "delivered_power_w", maximum.sustained_w, "W"), 100.0 / rated, "%"),
            origins=(Origin(bench.session.file, ("maximum_power", "sustained_w")), Origin(bench.unit.file, ("rated_power_w",))),
            note=f"Held for {maximum.held_minutes:g} minutes.",
        )
    ]
    if maximum.shut_down_w is not None:
        findings.append(
            Finding(
                key="maximum_power.shut_down_share", title="Power at which it switched off, of the label", decimals=0,
                quantity=scaled(read(bench, "delivered_power_w", maximum.shut_down_w, "W"), 100.0 / rated, "%"),
                origins=(Origin(bench.session.file, ("maximum_power", "shut_down_w")),),
            )
        )
    return Measure(id="maximum_power", title="Maximum power", findings=tuple(findings))
