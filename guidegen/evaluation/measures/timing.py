"""Power-on and power-good timing, T1 to T4 of the ATX design guide."""

from guidegen.evaluation.findings import Bench, Finding, Measure
from guidegen.evaluation.uncertainty import read
from guidegen.origins import Origin

FIELDS = (
    ("t1", "power_on_t1_ms", "Power-on time (T1)", 0),
    ("t2", "rise_t2_ms", "Rise time (T2)", 1),
    ("t3", "power_good_delay_t3_ms", "Power-good delay (T3)", 0),
    ("t4", "power_good_rise_t4_ms", "Power-good rise time (T4)", 2),
)


def measure(bench: Bench) -> Measure:
    """The four times, ms."""
    timing = bench.session.record.timing
    if timing is None:
        return Measure(id="timing", title="Timing")
    return Measure(
        id="timing", title="Timing",
        findings=tuple(
            Finding(
                key=f"timing.{name}", title=title, decimals=decimals,
                quantity=read(bench, "time_ms", getattr(timing, field), "ms"),
                origins=(Origin(bench.session.file, ("timing", field)),),
            )
            for name, field, title, decimals in FIELDS
        ),
    )
