"""Facts from the box and the callipers that a policy may count like a measure."""

from guidegen.evaluation.findings import Bench, Better, Finding, Measure
from guidegen.origins import Origin
from guidegen.quantities import Quantity
from guidegen.records.unit import Connector

PLUGS: tuple[tuple[str, str, tuple[Connector, ...]], ...] = (
    ("sata", "Drive plugs", ("sata",)),
    ("pcie_8", "8-pin graphics plugs", ("pcie_8",)),
    ("pcie_16", "16-pin graphics plugs", ("pcie_16_12v_2x6", "pcie_16_12vhpwr")),
    ("cpu_8", "8-pin processor plugs", ("cpu_8",)),
)


def measure(bench: Bench) -> Measure:
    """Depth in mm, warranty in years, how many cables, and how many plugs of each kind."""
    unit = bench.unit
    findings = [
        _finding(bench, "size.depth", "Depth", Quantity(unit.record.size.depth_mm, "mm"), path=("size", "depth_mm"), better="lower"),
        _finding(bench, "warranty.years", "Warranty", Quantity(unit.record.warranty_years, "years"),
                 path=("warranty_years",), better="higher"),
    ]
    findings.append(
        _finding(bench, "cables.total", "Cables in the box", Quantity(sum(c.cables for c in unit.record.cables), ""),
                 path=("cables",), better="neither")
    )
    findings += [
        _finding(bench, f"cables.{name}", title, Quantity(unit.connectors(*kinds), ""), path=("cables",), better="higher")
        for name, title, kinds in PLUGS
    ]
    return Measure(id="facts", title="Size, warranty and plugs", findings=tuple(findings))


def _finding(bench: Bench, key: str, title: str, quantity: Quantity, *, path: tuple[str, ...], better: Better) -> Finding:  # noqa: PLR0913 - a row of a table
    return Finding(key=key, title=title, quantity=quantity, decimals=0, better=better,
                   origins=(Origin(bench.unit.file, path),))
