"""A small parts record and the usual rules."""

from typing import Any

import pytest

from guidegen.records import PartClass, PartsRecord, SizingRules


def part(name: str, kind: str, *, sustained_w: float, **more: Any) -> PartClass:
    """A part class that rests at a tenth of its full load and has no peak unless one is named."""
    told = {
        "title": name.replace(".", " "), "examples": "made up", "idle_w": sustained_w / 10, "typical_w": sustained_w / 2,
        "peak_w": sustained_w, "peak_ms": 0.0, "rail": "12v", "source": "common practice, no source", **more,
    }
    return PartClass(id=name, kind=kind, sustained_w=sustained_w, **told)  # type: ignore[arg-type]


@pytest.fixture(scope="session")
def parts() -> PartsRecord:
    """Two processors, two cards, a board, memory and a disk."""
    return PartsRecord(
        format=1, rest_of_platform_w=96.0, rest_of_platform_source="common practice, no source", examples=(),
        classes=(
            part("processor.small", "processor", sustained_w=90.0, peak_w=180.0, peak_ms=10.0, cpu_8=1),
            part("processor.large", "processor", sustained_w=250.0, peak_w=400.0, peak_ms=10.0, cpu_8=2),
            part("graphics.small", "graphics", sustained_w=150.0, peak_w=300.0, peak_ms=1.0, pcie_8=1),
            part("graphics.large", "graphics", sustained_w=450.0, peak_w=1350.0, peak_ms=0.1, pcie_16=1),
            part("board.plain", "board", sustained_w=40.0, rail="5v"),
            part("memory.module", "memory", sustained_w=5.0, rail="3v3"),
            part("drive.disk", "drive", sustained_w=8.0, peak_w=24.0, peak_ms=5000.0, sata=1),
        ),
    )


@pytest.fixture(scope="session")
def rules() -> SizingRules:
    """The usual rules."""
    return SizingRules(
        target_low_pct=40.0, target_high_pct=60.0, never_above_pct=80.0, ageing_pct=5.0, assumed_efficiency_pct=88.0
    )
