"""Conditions that no score can make up for."""

from dataclasses import dataclass
from typing import Literal

from guidegen.evaluation.findings import UnitResult, Verdict
from guidegen.records import Gate

GateOutcome = Literal["pass", "inconclusive", "not_tested", "fail"]
"""What a gate says; only ``fail`` takes the place away."""
_WORST_FIRST: tuple[GateOutcome, ...] = ("fail", "inconclusive", "not_tested", "pass")


@dataclass(frozen=True, slots=True, kw_only=True)
class GateVerdict:
    """One gate for one unit."""

    gate: Gate
    """The gate."""
    outcome: GateOutcome
    """The worst of what it looks at."""
    because: tuple[Verdict, ...]
    """Verdicts that brought it there; empty for a pass."""
    untested: tuple[str, ...]
    """Keys that were never tested."""

    @property
    def holds_back(self) -> bool:
        """Whether the unit is kept from choices by this gate."""
        doubtful = self.outcome == "not_tested" and self.gate.not_tested == "hold_back"
        return self.outcome in ("fail", "inconclusive") or doubtful


def pass_gates(result: UnitResult, gates: tuple[Gate, ...]) -> tuple[GateVerdict, ...]:
    """What each gate says of a unit, in the order of the policy."""
    return tuple(_pass_gate(result, gate) for gate in gates)


def _pass_gate(result: UnitResult, gate: Gate) -> GateVerdict:
    looked_at: list[tuple[str, Verdict | None]] = []
    for pattern in gate.findings:
        if pattern.endswith("*"):
            found = [v for v in result.verdicts if v.key.startswith(pattern[:-1]) and v.finding is not None]
            looked_at += [(v.key, v) for v in found] or [(pattern, None)]
        else:
            looked_at.append((pattern, result.verdict(pattern)))
    looked_at += [(f"protections.{p}", result.verdict(f"protections.{p}")) for p in gate.protections]
    outcomes = [(key, verdict, _outcome(verdict)) for key, verdict in looked_at]
    worst: GateOutcome = next((w for w in _WORST_FIRST if any(o == w for _, _, o in outcomes)), "not_tested")
    return GateVerdict(
        gate=gate,
        outcome=worst,
        because=tuple(v for _, v, outcome in outcomes if v is not None and outcome == worst != "pass"),
        untested=tuple(key for key, _, outcome in outcomes if outcome == "not_tested"),
    )


def _outcome(verdict: Verdict | None) -> GateOutcome:
    """A protection that acts outside the lab's band still acts; a number within doubt of its limit does not pass."""
    if verdict is None:
        return "not_tested"
    if verdict.outcome == "conditional_fail":
        return "pass" if verdict.finding is None else "inconclusive"
    if verdict.outcome == "conditional_pass":
        return "pass"
    return "not_tested" if verdict.outcome == "not_tested" else verdict.outcome
