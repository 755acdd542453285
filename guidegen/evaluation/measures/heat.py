"""Heat: the power that never reaches the parts, delivered into the room."""

from guidegen.evaluation.findings import Bench, Finding, Measure
from guidegen.evaluation.measures.points import origin, point_near
from guidegen.evaluation.uncertainty import difference, read

BTU_PER_HOUR_PER_WATT = 3.412142
LOADS = ((50, "Heat at half load"), (100, "Heat at full load"))


def btu_per_hour(watts: float) -> float:
    """Heat in BTU/h.

    >>> round(btu_per_hour(500.0))
    1706
    """
    return BTU_PER_HOUR_PER_WATT * watts


def measure(bench: Bench) -> Measure:
    """Loss at half and full load, W."""
    findings = []
    for load, title in LOADS:
        near = point_near(bench, load)
        if near is None:
            continue
        place, point = near
        lost = difference(
            read(bench, "input_power_w", point.input_power_w, "W"), read(bench, "delivered_power_w", point.delivered_power_w, "W")
        )
        findings.append(
            Finding(
                key=f"heat.at_{load}", title=title, decimals=1, better="lower", quantity=lost,
                origins=origin(bench, place, "input_power_w", "delivered_power_w"),
                note=f"{btu_per_hour(lost.value):.0f} BTU/h",
            )
        )
    return Measure(id="heat", title="Heat", findings=tuple(findings))
