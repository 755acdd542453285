"""The desk that a rundown is written at: what every sentence has to know of the guide."""

from dataclasses import dataclass
from decimal import Decimal

from guidegen.evaluation import Candidate, Standing
from guidegen.presentation.rundown.spoken import Voice
from guidegen.records import Library, Region
from guidegen.standards import limits

_THRESHOLDS_DBA = (20.0, 25.0, 30.0)
"""Levels that measures and remarks speak of, dB(A)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """What every sentence has to know."""

    library: Library
    """The guide's records."""
    region: Region
    """Region whose prices are told."""

    def voice(self, one: Candidate | None = None, second: Standing | None = None) -> Voice:
        """How a sentence on one or two units is read: with all names, and no number rounded across a limit of theirs."""
        bounds: dict[str, set[Decimal]] = {"dB(A)": {_exact(level) for level in (*_THRESHOLDS_DBA, *self._noise())}}
        for candidate in (one, second.candidate if second else None):
            if candidate is not None:
                self._bound(candidate, bounds)
        return Voice(region=self.region, names=self._names(), limits={unit: tuple(sorted(at)) for unit, at in bounds.items()})

    def _names(self) -> tuple[str, ...]:
        guide = self.library.guide
        return (*(unit.name for unit in self.library.units), guide.title, f"edition {guide.edition.name}")

    def _noise(self) -> tuple[float, ...]:
        rules = self.library.policy.noise
        return (rules.silent_below_dba, rules.limit_dba)

    def _bound(self, one: Candidate, bounds: dict[str, set[Decimal]]) -> None:
        """Limits on what was found, the rating, and what the badge demands."""
        bounds.setdefault("W", set()).add(_exact(one.result.unit.record.rated_power_w))
        for limit in (*limits(), *self.library.policy.limits):
            edges = {_exact(edge) for edge in (limit.at_least, limit.at_most) if edge is not None}
            bounds.setdefault(limit.unit, set()).update(edges)
        bounds.setdefault("%", set()).update(_exact(row.floor) for row in one.result.badge.rows if row.what == "efficiency")


def _exact(value: float) -> Decimal:
    return Decimal(repr(float(value)))
