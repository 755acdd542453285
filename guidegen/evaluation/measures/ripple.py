"""Ripple and noise: the fast wobble on each rail, peak to peak, worst over all steady loads up to the rating."""

from guidegen.evaluation.findings import Bench, Curve, CurvePoint, Finding, Measure
from guidegen.evaluation.measures.points import is_rated, load_share, origin, point_near
from guidegen.evaluation.uncertainty import read
from guidegen.quantities import Quantity
from guidegen.standards import limits

RAILS = (("12v", "12 V"), ("5v", "5 V"), ("3v3", "3.3 V"), ("5vsb", "5 V standby"))
METHODS = {
    "differential_20mhz": "Differential probe, 20 MHz, 0.1 µF and 10 µF at the plug.",
    "single_ended_20mhz": "Single-ended probe, 20 MHz, 0.1 µF and 10 µF at the plug.",
}


def measure(bench: Bench) -> Measure:
    """The worst ripple of each rail up to full load and at it, the share of the limit, and the courses over all loads, overload too."""
    findings: list[Finding] = []
    curves: list[Curve] = []
    for rail, name in RAILS:
        field = f"ripple_{rail}_mv"
        seen = [
            (value, i, point)
            for i, point in enumerate(bench.session.record.load_points)
            if (value := getattr(point, field)) is not None
        ]
        rated = [entry for entry in seen if is_rated(entry[2].load_pct)]
        if not rated:
            continue
        _, place, _ = max(rated, key=lambda entry: entry[0])
        findings.append(_finding(bench, f"{rail}.worst", f"Worst ripple on {name}", place=place, field=field))
        full = point_near(bench, 100)
        if full is not None and getattr(full[1], field) is not None:
            findings.append(
                _finding(bench, f"{rail}.at_100", f"Ripple on {name} at full load", place=full[0], field=field)
            )
        curves.append(
            Curve(
                key=f"ripple.{rail}", title=f"Ripple on {name} over load",
                points=tuple(
                    CurvePoint(load_w=p.delivered_power_w, load_pct=load_share(bench, p.delivered_power_w),
                               quantity=read(bench, "ripple_mv", value, "mV"))
                    for value, _, p in seen
                ),
            )
        )
    share = _share(findings)
    return Measure(
        id="ripple", title="Ripple and noise", findings=tuple(findings + ([share] if share else [])), curves=tuple(curves)
    )


def _finding(bench: Bench, name: str, title: str, *, place: int, field: str) -> Finding:
    value: float = getattr(bench.session.record.load_points[place], field)
    return Finding(
        key=f"ripple.{name}", title=title, decimals=0, better="lower", quantity=read(bench, "ripple_mv", value, "mV"),
        origins=origin(bench, place, field), note=METHODS[bench.session.record.ripple_method],
    )


def _share(findings: list[Finding]) -> Finding | None:
    """The worst rail as a share of its limit."""
    bounds = {limit.finding: limit.at_most for limit in limits() if limit.at_most is not None}
    shares = [
        (100.0 * finding.quantity.value / bound, bound, finding)
        for finding in findings
        if (bound := bounds.get(finding.key)) is not None
    ]
    if not shares:
        return None
    share, bound, worst = max(shares, key=lambda entry: entry[0])
    factor = 100.0 / bound
    return Finding(
        key="ripple.worst_share", title="Ripple as a share of its limit, worst rail", decimals=0, better="lower",
        quantity=Quantity(share, "%", own=factor * worst.quantity.own, shared=factor * worst.quantity.shared),
        origins=worst.origins, note=worst.title,
    )
