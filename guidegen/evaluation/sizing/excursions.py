"""Short peaks of a computer against what a supply may deliver for a moment."""

from dataclasses import dataclass

from guidegen.evaluation.findings import UnitResult
from guidegen.evaluation.measures.power_excursion import LARGE_ABOVE_W
from guidegen.records import Excursion
from guidegen.standards import excursion_pairs

Excursions = tuple[tuple[float, float], ...]
"""(peak in % of the rating, for how many ms); the rating itself is allowed for ever and need not stand here."""
RATING_ONLY: Excursions = ()
"""A supply of which nothing above its rating is known."""
ATX_3 = ("atx_3.0", "atx_3.1")
"""Revisions that demand excursions."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Peak:
    """A short peak of the whole computer."""

    power_w: float
    """Delivered power of the whole computer while the peak lasts, W."""
    duration_ms: float
    """How long it lasts, ms."""
    title: str = "short peak"
    """Which part makes it."""

    def raised(self, by_w: float) -> "Peak":
        """The same peak on top of a load that is larger by so many watts."""
        return Peak(power_w=self.power_w + by_w, duration_ms=self.duration_ms, title=self.title)


def published(*, large: bool) -> Excursions:
    """What the ATX 3.x design guides demand; ``large`` for supplies above 450 W with a 16-pin plug.

    >>> published(large=True)[0]
    (200.0, 0.1)
    """
    return tuple((pair.peak_pct, pair.duration_ms) for pair in excursion_pairs(large=large))


def allowed_pct(duration_ms: float, excursions: Excursions) -> float:
    """The highest peak that may last this long, % of the rating; 100 where no row lasts long enough.

    >>> [allowed_pct(ms, published(large=True)) for ms in (0.05, 0.1, 1.0, 5.0, 100.0, 1000.0)]
    [200.0, 200.0, 180.0, 160.0, 120.0, 100.0]
    """
    return max((peak for peak, lasts in excursions if lasts >= duration_ms), default=100.0)


def uncovered(rating_w: float, peaks: tuple[Peak, ...], excursions: Excursions) -> tuple[Peak, ...]:
    """The peaks that a supply of this rating need not deliver; empty where all are covered."""
    return tuple(
        peak for peak in peaks if peak.power_w > rating_w * allowed_pct(peak.duration_ms, excursions) / 100.0
    )


def excursions_of(result: UnitResult) -> Excursions:
    """What one unit may deliver for a moment.

    A unit that claims ATX 3.x is taken at the published table, less every row that it failed on the bench; an older one
    only at what it held on the bench, each sample by the newest session that tried any, as in the verdicts.
    """
    newest = {session.record.sample.id: session.record.excursions for session in result.used if session.record.excursions}
    tried = tuple(one for excursions in newest.values() for one in excursions)
    held = tuple((one.peak_pct, one.duration_ms) for one in tried if one.outcome == "held")
    record = result.unit.record
    if record.claims.standard in ATX_3:
        plugs = result.unit.connectors("pcie_16_12v_2x6", "pcie_16_12vhpwr")
        held += published(large=record.rated_power_w > LARGE_ABOVE_W and plugs > 0)
    failed = tuple(one for one in tried if one.outcome in ("shut_down", "out_of_range"))
    return tuple(dict.fromkeys(row for row in held if not any(_harder(row, one) for one in failed)))


def _harder(row: tuple[float, float], failed: Excursion) -> bool:
    """Whether a row asks for at least as much as what the unit failed at."""
    return row[0] >= failed.peak_pct and row[1] >= failed.duration_ms
