"""Numbers held against limits by a decision rule that is stated and the same everywhere.

Guard band of the expanded uncertainty, non-binary (ILAC-G8:09/2019, 4.2): inside the limit by more than U is a pass,
outside by more than U a fail, and between them a conditional pass or fail.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from statistics import NormalDist

from guidegen.evaluation.findings import WORST_FIRST, Check, Finding, Outcome, Verdict
from guidegen.records import Limit

COVERAGE = 2.0
"""Coverage factor of the guard band: U = 2u, about 95 %."""


@dataclass(frozen=True, slots=True)
class Decision:
    """What the rule says of one number."""

    outcome: Outcome
    """The verdict."""
    probability: float
    """Probability that the true value conforms."""
    margin: float
    """How far the value lies inside the nearest bound, in its unit; negative outside."""


def decide(value: float, u: float, *, at_least: float | None = None, at_most: float | None = None) -> Decision:
    """The verdict on a value with standard uncertainty ``u``, and the probability of conformity.

    Probability: ``Φ((T_U − y)/u) − Φ((T_L − y)/u)`` (JCGM 106:2012, 7).

    >>> decide(110.0, 6.0, at_most=120.0)
    Decision(outcome='conditional_pass', probability=0.9522096477271853, margin=10.0)
    """
    gaps = [gap for gap in (value - at_least if at_least is not None else None,
                            at_most - value if at_most is not None else None) if gap is not None]
    if not gaps:
        raise ValueError("a limit needs at least one bound")
    gap = min(gaps)
    guard = COVERAGE * u
    if gap >= 0:
        outcome: Outcome = "pass" if gap >= guard else "conditional_pass"
    else:
        outcome = "fail" if -gap > guard else "conditional_fail"
    return Decision(outcome, _probability(value, u, at_least=at_least, at_most=at_most), gap)


def _probability(value: float, u: float, *, at_least: float | None, at_most: float | None) -> float:
    if u == 0:
        inside = (at_least is None or value >= at_least) and (at_most is None or value <= at_most)
        return 1.0 if inside else 0.0
    normal = NormalDist()
    upper = normal.cdf((at_most - value) / u) if at_most is not None else 1.0
    lower = normal.cdf((at_least - value) / u) if at_least is not None else 0.0
    return upper - lower


def judge(findings: Iterable[Finding], limits: Iterable[Limit], *, claimed_standard: str) -> tuple[Verdict, ...]:
    """A verdict for every limit that applies; a limit without a number is ``not_tested``, never a pass."""
    by_key = {finding.key: finding for finding in findings}
    return tuple(
        _judge(by_key.get(limit.finding), limit)
        for limit in limits
        if not limit.applies_to or claimed_standard in limit.applies_to
    )


def _judge(finding: Finding | None, limit: Limit) -> Verdict:
    text = limit_text(limit)
    if finding is None:
        return Verdict(key=limit.finding, title=limit.title or limit.finding, outcome="not_tested", finding=None, limit_text=text,
                       document=limit.document, standing=limit.standing)
    quantity = finding.quantity
    decision = decide(quantity.value, quantity.uncertainty, at_least=limit.at_least, at_most=limit.at_most)
    known = limit.standing != "from_memory"
    return Verdict(
        key=limit.finding, title=finding.title, outcome=decision.outcome if known else "inconclusive", finding=finding,
        limit_text=text, document=limit.document, standing=limit.standing,
        probability=decision.probability if known else None, detail="" if known else "no published limit seen",
        margin=decision.margin, origins=finding.origins,
    )


def limit_text(limit: Limit) -> str:
    """The limit in words.

    >>> text = limit_text(Limit(finding="ripple.12v.worst", at_most=120.0, unit="mV", document="d", standing="seen"))
    >>> text.replace(chr(160), " ")
    'at most 120 mV'
    """
    low = f"{limit.at_least:g}\N{NO-BREAK SPACE}{limit.unit}" if limit.at_least is not None else ""
    high = f"{limit.at_most:g}\N{NO-BREAK SPACE}{limit.unit}" if limit.at_most is not None else ""
    if low and high:
        return f"{low} to {high}"
    return f"at least {low}" if low else f"at most {high}"


def of_check(check: Check) -> Verdict:
    """The outcome of a test as a verdict."""
    return Verdict(
        key=check.key, title=check.title, outcome=check.outcome, finding=None, limit_text="", document=check.document,
        standing=check.standing, detail=check.detail, origins=check.origins,
    )


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """The gravest verdict of several samples on the same thing; of equals the one nearest to its bound, or farthest beyond it.

    A sample on which the thing was not tested says nothing of it; where none was tested, that is the verdict.
    """
    all_of_them = tuple(verdicts)
    tested = tuple(verdict for verdict in all_of_them if verdict.outcome != "not_tested")
    return min(tested or all_of_them, key=lambda verdict: (WORST_FIRST.index(verdict.outcome), verdict.margin))
