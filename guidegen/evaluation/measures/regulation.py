"""Voltage regulation: how far each rail strays from nominal, over load, cross load and line."""

from guidegen.evaluation.findings import Bench, Finding, Measure
from guidegen.evaluation.measures.points import is_rated
from guidegen.evaluation.uncertainty import read, scaled
from guidegen.origins import Origin
from guidegen.quantities import Quantity

RAILS = (("12v", "12 V", 12.0), ("5v", "5 V", 5.0), ("3v3", "3.3 V", 3.3), ("5vsb", "5 V standby", 5.0))
"""Short name, printed name and nominal voltage in V."""

Seen = tuple[float, tuple[str, int, str]]
"""A voltage in V and the path of its field in the record."""


def measure(bench: Bench) -> Measure:
    """Lowest, highest and worst voltage of each rail up to full load; the worst under cross load and at the ends of the mains range."""
    findings: list[Finding] = []
    points = bench.session.record.load_points
    for rail, name, nominal in RAILS:
        steady = [(volts, path) for volts, path in _seen(bench, "load_points", rail) if is_rated(points[path[1]].load_pct)]
        if not steady:
            continue
        low, high = min(steady), max(steady)
        worst = max(steady, key=lambda seen: abs(seen[0] - nominal))
        findings += [
            _volts(bench, f"{rail}.lowest", f"Lowest voltage on {name}", low),
            _volts(bench, f"{rail}.highest", f"Highest voltage on {name}", high),
            _strayed(bench, f"{rail}.worst", f"Largest deviation on {name}", worst, nominal),
        ]
        for field, word, title in (("cross_loads", "cross", "under cross load"), ("line_steps", "line", "over the mains range")):
            seen = _seen(bench, field, rail)
            if seen:
                strayed = max(seen, key=lambda one: abs(one[0] - nominal))
                findings.append(_strayed(bench, f"{rail}.{word}", f"Largest deviation on {name} {title}", strayed, nominal))
    return Measure(id="regulation", title="Voltage regulation", findings=tuple(findings))


def _seen(bench: Bench, field: str, rail: str) -> list[Seen]:
    name = f"voltage_{rail}_v"
    return [
        (value, (field, i, name))
        for i, point in enumerate(getattr(bench.session.record, field))
        if (value := getattr(point, name, None)) is not None
    ]


def _volts(bench: Bench, name: str, title: str, seen: Seen) -> Finding:
    value, path = seen
    return Finding(key=f"regulation.{name}", title=title, decimals=2, quantity=read(bench, "voltage_v", value, "V"),
                   origins=(Origin(bench.session.file, path),))


def _strayed(bench: Bench, name: str, title: str, seen: Seen, nominal: float) -> Finding:
    value, path = seen
    doubt = scaled(read(bench, "voltage_v", value, "V"), 100.0 / nominal, "%")
    side = "above" if value > nominal else "below" if value < nominal else "exactly"
    return Finding(
        key=f"regulation.{name}", title=title, decimals=1, better="lower",
        quantity=Quantity(100.0 * abs(value - nominal) / nominal, "%", own=doubt.own, shared=doubt.shared),
        origins=(Origin(bench.session.file, path),), note=f"{side} nominal",
    )
