"""Power factor: real over apparent power at the mains."""

from guidegen.evaluation.findings import Bench, Curve, CurvePoint, Finding, Measure
from guidegen.evaluation.measures.points import load_share, origin, point_near
from guidegen.evaluation.uncertainty import read

LOADS = ((20, "Power factor at 20 % load"), (50, "Power factor at half load"), (100, "Power factor at full load"))


def measure(bench: Bench) -> Measure:
    """Power factor at nominal loads, and its course over load."""
    findings = []
    for load, title in LOADS:
        near = point_near(bench, load)
        if near is not None:
            place, point = near
            findings.append(
                Finding(
                    key=f"power_factor.at_{load}", title=title, decimals=3, better="higher",
                    quantity=read(bench, "power_factor", point.power_factor, ""),
                    origins=origin(bench, place, "power_factor"),
                )
            )
    points = tuple(
        CurvePoint(load_w=p.delivered_power_w, load_pct=load_share(bench, p.delivered_power_w),
                   quantity=read(bench, "power_factor", p.power_factor, ""))
        for p in bench.session.record.load_points
    )
    curve = Curve(key="power_factor", title="Power factor over load", points=points)
    return Measure(id="power_factor", title="Power factor", findings=tuple(findings), curves=(curve,))
