"""A unit beside the one that it replaces: each number with its difference, and whether that exceeds its uncertainty."""

import math
from dataclasses import dataclass
from typing import Literal

from guidegen.evaluation.findings import Finding, UnitResult
from guidegen.quantities import Quantity
from guidegen.rounding import rounded

COVERAGE = 2
"""Coverage factor, about 95 % (JCGM 100:2008, 6.2)."""
YES_OR_NO = ".acted"
"""End of the keys of findings that say whether something happened; between them a difference is no number."""
Outcome = Literal["better", "worse", "other", "within"]
"""``other``: more than its uncertainty, where neither way is better; ``within``: no more than the doubt, or the same in print."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Revised:
    """A number of both units."""

    then: Finding
    """The predecessor's."""
    now: Finding
    """The successor's."""
    difference: Quantity
    """How much more the successor has, with the standard uncertainty of that."""
    outcome: Outcome
    """What it says."""

    @property
    def doubts(self) -> float:
        """Size of the difference in expanded uncertainties; what has no doubt ranks by 1."""
        doubt = COVERAGE * self.difference.uncertainty
        return abs(self.difference.value) / doubt if doubt else float(self.difference.value != 0)


def revised(now: UnitResult, then: UnitResult) -> tuple[Revised, ...]:
    """Every number that both units have, in the order of the report; yes and no only where they differ."""
    alike = _instruments(now) == _instruments(then)
    pairs = ((finding, then.finding(finding.key)) for finding in now.findings)
    found = (_revised(before, finding, alike=alike) for finding, before in pairs if before is not None)
    return tuple(one for one in found if not one.now.key.endswith(YES_OR_NO) or one.outcome != "within")


def _instruments(result: UnitResult) -> frozenset[str]:
    return frozenset(name for session in result.used for name in session.record.instruments)


def _revised(then: Finding, now: Finding, *, alike: bool) -> Revised:
    difference = _difference(then.quantity, now.quantity, alike=alike)
    same = rounded(now.quantity.value, now.decimals) == rounded(then.quantity.value, then.decimals)
    same = same or not rounded(difference.value, now.decimals)
    return Revised(
        then=then, now=now, difference=difference,
        outcome="within" if same or abs(difference.value) <= COVERAGE * difference.uncertainty
        else "other" if now.better == "neither"
        else "better" if (difference.value > 0) == (now.better == "higher") else "worse",
    )


def _difference(then: Quantity, now: Quantity, *, alike: bool) -> Quantity:
    """The difference: what the same instruments do to both falls out as far as it is alike, own parts add in quadrature.

    JCGM 100:2008, 5.2, with full correlation of the shared parts; other instruments share nothing.
    """
    shared = abs(now.shared - then.shared) if alike else math.hypot(now.shared, then.shared)
    return Quantity(now.value - then.value, now.unit, own=math.hypot(now.own, then.own), shared=shared)
