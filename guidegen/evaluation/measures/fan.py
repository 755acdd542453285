"""The fan: up to which load it stands, where it starts and stops, and its speed over load."""

from guidegen.evaluation.findings import Bench, Curve, CurvePoint, Finding, Measure
from guidegen.evaluation.measures.points import load_share, origin
from guidegen.evaluation.uncertainty import read
from guidegen.origins import Origin
from guidegen.quantities import Quantity


def _run(bench: Bench) -> tuple[Finding, ...]:
    """Where it started with rising load and stopped with falling load, W; the gap keeps it from starting and stopping
    all the time.
    """
    run = bench.session.record.fan_run
    if run is None:
        return ()
    told = (("begins_at", "starts_w", run.starts_w, "Fan starts, load rising"), ("stops_at", "stops_w", run.stops_w, "Fan stops, load falling"))
    return tuple(
        Finding(
            key=f"fan.{name}", title=title, decimals=0, better="higher",
            quantity=read(bench, "delivered_power_w", value, "W"), origins=(Origin(bench.session.file, ("fan_run", field)),),
        )
        for name, field, value, title in told
    )


def measure(bench: Bench) -> Measure:
    """The highest load at which the fan still stands, W, 0 where it always turns; the course of its speed."""
    seen = [(i, p, p.fan_rpm) for i, p in enumerate(bench.session.record.load_points) if p.fan_rpm is not None]
    if not seen:
        return Measure(id="fan", title="Fan")
    points = tuple(
        CurvePoint(load_w=p.delivered_power_w, load_pct=load_share(bench, p.delivered_power_w),
                   quantity=read(bench, "fan_rpm", rpm, "1/min"))
        for _, p, rpm in seen
    )
    standing = []
    for i, point, rpm in seen:
        if rpm > 0:
            break
        standing.append((i, point))
    place, quantity, note = seen[0][0], Quantity(0.0, "W"), "It turns from the lowest load on."
    if standing:
        place, last = standing[-1]
        quantity = read(bench, "delivered_power_w", last.delivered_power_w, "W")
        note = "Highest steady load at which it still stood."
    stands = Finding(key="fan.starts_at", title="Fan stands still up to", decimals=0, better="higher", quantity=quantity,
                     origins=origin(bench, place, "fan_rpm"), note=note)
    return Measure(id="fan", title="Fan", findings=(stands, *_run(bench)),
                   curves=(Curve(key="fan", title="Fan speed over load", points=points),))
