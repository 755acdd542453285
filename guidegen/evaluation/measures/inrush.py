"""Inrush current: the surge at switch-on."""

from guidegen.evaluation.findings import Bench, Finding, Measure
from guidegen.evaluation.uncertainty import read
from guidegen.origins import Origin


def measure(bench: Bench) -> Measure:
    """The peak of each start tried, A; without doubt where no instrument is listed that reads it: the load's does not see the mains."""
    findings = tuple(
        Finding(
            key=f"inrush.{one.start}", title=f"Inrush current, {one.start} start", decimals=1, better="lower",
            quantity=read(bench, "inrush_a", one.peak_a, "A"),
            origins=(Origin(bench.session.file, ("inrush", i, "peak_a")),),
            note="The design guides state no figure: fuse, switch and rectifier must stand it.",
        )
        for i, one in enumerate(bench.session.record.inrush)
    )
    return Measure(id="inrush", title="Inrush current", findings=findings)
