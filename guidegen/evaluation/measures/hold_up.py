"""Hold-up time: how long the rails last without mains, and what the bulk capacitors let one expect."""

import math

from guidegen.evaluation.curves import efficiency_at
from guidegen.evaluation.findings import Bench, Check, Curve, CurvePoint, Finding, Measure
from guidegen.evaluation.measures.points import load_share, point_near
from guidegen.evaluation.uncertainty import difference, read
from guidegen.origins import Origin
from guidegen.quantities import Quantity

BUS_V, DROP_OUT_V = 390.0, 300.0
"""Voltage of the bulk capacitors behind an active power-factor corrector, and where the converter gives up
(common practice, no source)."""
CAPACITANCE_TOLERANCE = 0.20
"""Electrolytic capacitors are sold to ±20 % (common practice, no source); taken as rectangular."""


def hold_up_ms(capacitance_uf: float, *, load_w: float, efficiency: float) -> float:
    """Hold-up in ms by the energy of the bulk capacitors: ``½·C·(V1² − V2²) = P·t/η``.

    >>> round(hold_up_ms(560.0, load_w=750.0, efficiency=0.92), 1)
    21.3
    """
    energy_j = 0.5 * capacitance_uf * 1e-6 * (BUS_V**2 - DROP_OUT_V**2)
    return 1000.0 * energy_j * efficiency / load_w


def measure(bench: Bench) -> Measure:
    """Measured hold-up at each load tried, and the prediction at full load."""
    findings: list[Finding] = []
    for i, tried in enumerate(bench.session.record.hold_up):
        load = round(tried.load_pct)
        for name, field, title in (
            ("rails", "rails_ms", "Hold-up of the rails"), ("power_good", "power_good_ms", "Power-good hold-up (T5)"),
        ):
            findings.append(
                Finding(
                    key=f"hold_up.{name}_at_{load}", title=f"{title} at {'full' if load == 100 else f'{load} %'} load",
                    decimals=1, better="higher", quantity=read(bench, "time_ms", getattr(tried, field), "ms"),
                    origins=(Origin(bench.session.file, ("hold_up", i, field)),),
                )
            )
    predicted = _predicted(bench)
    measured = next((finding for finding in findings if finding.key == "hold_up.rails_at_100"), None)
    return Measure(
        id="hold_up", title="Hold-up time", findings=(*findings, *((predicted,) if predicted else ())),
        checks=(_balance(measured, predicted),) if measured and predicted else (),
    )


def _balance(measured: Finding, predicted: Finding) -> Check:
    """Whether the measured hold-up is what the capacitors' energy allows; more than twice the doubt apart is a flag."""
    gap = measured.quantity.value - predicted.quantity.value
    doubt = 2.0 * math.hypot(measured.quantity.uncertainty, predicted.quantity.uncertainty)
    side = "longer" if gap > 0 else "shorter"
    return Check(
        key="hold_up.energy_balance", title="Hold-up against the energy of the bulk capacitors",
        outcome="pass" if abs(gap) <= doubt else "inconclusive",
        detail=f"{measured.quantity.value:.1f} ms measured, {predicted.quantity.value:.1f} ms ± {doubt:.1f} ms expected"
        + ("" if abs(gap) <= doubt else f": {side} than the capacitors explain"),
        document="Energy balance of the bulk capacitors (½·C·(V1² − V2²) = P·t/η)", standing="computed",
        origins=(*measured.origins, *predicted.origins),
    )


def _predicted(bench: Bench) -> Finding | None:
    rated = bench.unit.record.rated_power_w
    points = tuple(
        CurvePoint(
            load_w=p.delivered_power_w, load_pct=load_share(bench, p.delivered_power_w),
            quantity=difference(Quantity(p.input_power_w, "W"), Quantity(p.delivered_power_w, "W")),
        )
        for p in bench.session.record.load_points
    )
    full = point_near(bench, 100)
    nearest_w = full[1].delivered_power_w if full is not None else rated
    efficiency = efficiency_at(Curve(key="loss", title="Loss", points=points), nearest_w)
    if efficiency is None:
        return None
    bulk = bench.unit.record.construction.bulk_capacitors
    value = hold_up_ms(bulk.count * bulk.capacitance_uf, load_w=rated, efficiency=efficiency / 100.0)
    return Finding(
        key="hold_up.predicted", title="Hold-up that the bulk capacitors let one expect at full load", decimals=1,
        quantity=Quantity(value, "ms", own=value * CAPACITANCE_TOLERANCE / 3**0.5),
        origins=(Origin(bench.unit.file, ("construction", "bulk_capacitors")),),
        note=f"Energy balance from {BUS_V:.0f} V down to {DROP_OUT_V:.0f} V, capacitance ± 20 %.",
    )
