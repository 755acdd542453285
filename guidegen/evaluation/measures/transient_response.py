"""Transient response: how far a rail swings when the load steps."""

from guidegen.evaluation.findings import Bench, Finding, Measure
from guidegen.evaluation.uncertainty import read
from guidegen.origins import Origin
from guidegen.records import Transient
from guidegen.standards import transient_step

RAILS = {"12v": "12 V", "5v": "5 V", "3v3": "3.3 V", "5vsb": "5 V standby", "minus_12v": "−12 V"}


def measure(bench: Bench) -> Measure:
    """Lowest and highest voltage of each rail during its steps."""
    steps = bench.session.record.transients
    findings: list[Finding] = []
    for rail in dict.fromkeys(step.rail for step in steps):
        own = [(i, step) for i, step in enumerate(steps) if step.rail == rail]
        low, high = min(own, key=lambda s: s[1].lowest_v), max(own, key=lambda s: s[1].highest_v)
        for (place, step), field, word in ((low, "lowest_v", "lowest"), (high, "highest_v", "highest")):
            value: float = getattr(step, field)
            findings.append(
                Finding(
                    key=f"transient_response.{rail}.{word}", title=f"{word.title()} voltage on {RAILS[rail]} during a step",
                    decimals=2, quantity=read(bench, "voltage_v", value, "V"),
                    origins=(Origin(bench.session.file, ("transients", place, field)),),
                    note=_note(bench, step), milder=_wanted_a(bench, step) is not None,
                )
            )
    return Measure(id="transient_response", title="Transient response", findings=tuple(findings))


def _note(bench: Bench, step: Transient) -> str:
    """The step that was tried, and the design guide's where that is larger."""
    told, wanted_a = f"Step from {step.from_a:g} A to {step.to_a:g} A.", _wanted_a(bench, step)
    return f"{told} Smaller than the {wanted_a:.1f} A of the design guide." if wanted_a is not None else told


def _wanted_a(bench: Bench, step: Transient) -> float | None:
    """The step of the design guide, A, where the one that was tried is smaller; else nothing."""
    asked = transient_step(step.rail)
    rated = bench.unit.rated_current(step.rail)
    if asked is None or (asked.share_pct is not None and rated is None):
        return None
    wanted_a = asked.current_a if asked.current_a is not None else (asked.share_pct or 0.0) / 100.0 * (rated or 0.0)
    return wanted_a if abs(step.to_a - step.from_a) < 0.99 * wanted_a else None
