"""Efficiency: the share of the mains power that arrives, at nominal loads, and the loss over load."""

import math
from dataclasses import replace

from guidegen.evaluation.curves import best_load, efficiency_at, loss_model, peak_loads, value_at
from guidegen.evaluation.findings import Bench, Curve, CurvePoint, Finding, Measure
from guidegen.evaluation.measures.points import load_share, origin, point_near
from guidegen.evaluation.uncertainty import difference, mean, ratio, read, symmetric_interval
from guidegen.origins import Origin
from guidegen.quantities import Quantity

LOADS = ((10, "Efficiency at 10 % load"), (20, "Efficiency at 20 % load"), (50, "Efficiency at half load"),
         (100, "Efficiency at full load"), (110, "Efficiency at 110 % load"))
LIGHT_LOAD_W, LIGHT_LOAD_PCT, LIGHT_LOAD_EDGE_W = 10.0, 2.0, 500.0
"""Light load of the ATX design guide: 10 W up to 500 W of rating, 2 % above (336521, efficiency table)."""
BETWEEN = "Not measured at this load; from the loss at its neighbours."


def measure(bench: Bench) -> Measure:
    """Efficiency at the light and the nominal loads, its mean and its peak; curves ``efficiency`` and ``loss``."""
    efficiency, loss = _curves(bench)
    found = {load: _at(bench, load, title, (efficiency, loss)) for load, title in LOADS}
    findings = [_light(bench, efficiency), *found.values(), _average(found), *_peak(bench, efficiency, loss)]
    return Measure(
        id="efficiency", title="Efficiency",
        findings=tuple(finding for finding in findings if finding is not None), curves=(efficiency, loss),
    )


def _curves(bench: Bench) -> tuple[Curve, Curve]:
    """Efficiency in %, 100·P_DC/P_AC (Generalized Test Protocol for internal supplies, rev 6.7), and loss in W of each load point."""
    efficiencies, losses = [], []
    for point in bench.session.record.load_points:
        out = read(bench, "delivered_power_w", point.delivered_power_w, "W")
        into = read(bench, "input_power_w", point.input_power_w, "W")
        place = {"load_w": point.delivered_power_w, "load_pct": load_share(bench, point.delivered_power_w)}
        efficiencies.append(CurvePoint(**place, quantity=ratio(out, into, "%", factor=100.0)))
        losses.append(CurvePoint(**place, quantity=difference(into, out)))
    return (
        Curve(key="efficiency", title="Efficiency over load", points=tuple(efficiencies)),
        Curve(key="loss", title="Power lost over load", points=tuple(losses)),
    )


def is_measured(finding: Finding) -> bool:
    """Whether the load itself was on the bench; a value between two loads judges no badge."""
    return not finding.note.startswith(BETWEEN)


def _at(bench: Bench, load: int, title: str, curves: tuple[Curve, Curve]) -> Finding | None:
    near = point_near(bench, load)
    if near is not None:
        place, _ = near
        return _finding(f"at_{load}", title, curves[0].points[place].quantity,
                        origins=origin(bench, place, "delivered_power_w", "input_power_w"))
    between = _between(curves, load / 100.0 * bench.unit.record.rated_power_w)
    return _finding(f"at_{load}", title, between, origins=_all_points(bench), note=BETWEEN) if between else None


def _between(curves: tuple[Curve, Curve], load_w: float) -> Quantity | None:
    """Efficiency in % between measured loads: its value through the loss, its doubt from the neighbours."""
    efficiency, loss = curves
    value, doubt = efficiency_at(loss, load_w), value_at(efficiency, load_w)
    return Quantity(value, "%", own=doubt.own, shared=doubt.shared) if value is not None and doubt is not None else None


def _all_points(bench: Bench) -> tuple[Origin, ...]:
    return (Origin(bench.session.file, ("load_points",)),)


def _finding(name: str, title: str, quantity: Quantity, **more: object) -> Finding:
    return Finding(key=f"efficiency.{name}", title=title, quantity=quantity, decimals=1, better="higher", **more)  # type: ignore[arg-type]


def _light(bench: Bench, efficiency: Curve) -> Finding | None:
    rated = bench.unit.record.rated_power_w
    wanted_w = LIGHT_LOAD_W if rated <= LIGHT_LOAD_EDGE_W else LIGHT_LOAD_PCT / 100.0 * rated
    for place, point in enumerate(bench.session.record.load_points):
        if math.isclose(point.delivered_power_w, wanted_w, rel_tol=0.15):
            return _finding("light", f"Efficiency at {wanted_w:.0f} W", efficiency.points[place].quantity,
                            origins=origin(bench, place, "delivered_power_w", "input_power_w"))
    return None


def _average(found: dict[int, Finding | None]) -> Finding | None:
    parts = [found[load] for load in (20, 50, 100)]
    present = tuple(part for part in parts if part is not None)
    if len(present) < len(parts):
        return None
    return _finding(
        "average", "Mean efficiency at 20, 50 and 100 % load", mean(tuple(part.quantity for part in present)),
        origins=tuple(dict.fromkeys(o for part in present for o in part.origins)),
        note="" if all(map(is_measured, present)) else "One or more of the three loads lies between measured ones.",
    )


def _peak(bench: Bench, efficiency: Curve, loss: Curve) -> tuple[Finding, ...]:
    """The best efficiency and where it lies: from the quadratic loss where it holds, else from the measured course."""
    rated = bench.unit.record.rated_power_w
    best_w = best_load(loss)
    if best_w is None:
        return ()
    first, last = loss.points[0].load_w, loss.points[-1].load_w
    model = loss_model(loss, rated)
    modelled = model.peak_load() if model else None
    doubt, modelled_pct, between = 0.0, None, ""
    note = "From a shape-preserving curve through the measured loss."
    if model and modelled is not None and first <= modelled * rated <= last:
        modelled_pct = model.best_efficiency()
        best_w, note = modelled * rated, "From the quadratic loss model, which holds here (leave-one-out)."
        doubt, between = _doubt_of_place(loss, rated, seed=bench.guide.edition.seed)
    elif best_w in (first, last):
        note = "At an end of the measured loads; the best may lie beyond."
    best = _between((efficiency, loss), best_w)
    if best is None:
        return ()
    origins = _all_points(bench)
    return (
        _finding("peak", "Best efficiency", best if modelled_pct is None else replace(best, value=modelled_pct),
                 origins=origins, note=note),
        Finding(key="efficiency.peak_load", title="Load of the best efficiency", decimals=0, origins=origins,
                note=note + between, quantity=Quantity(100.0 * best_w / rated, "%", own=doubt)),
    )


def _doubt_of_place(loss: Curve, rated: float, *, seed: int) -> tuple[float, str]:
    """Standard uncertainty of the best load in % of the rating, and between which loads it lies, in words."""
    drawn = peak_loads(loss, rated, seed=seed)
    if drawn is None:
        return 0.0, ""
    low, high = symmetric_interval(100.0 * drawn)
    return float(100.0 * drawn.std(ddof=1)), f" Simulated, 95 of 100 lie between {low:.0f} % and {high:.0f} %."
