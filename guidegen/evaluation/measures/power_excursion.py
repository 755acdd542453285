"""Power excursions: short loads above the rating that an ATX 3.x supply must carry."""

import math

from guidegen.evaluation.findings import Bench, Check, Measure, Outcome
from guidegen.origins import Origin
from guidegen.records import Excursion
from guidegen.standards import ExcursionPair, excursion_pairs

LARGE_ABOVE_W = 450.0
"""Above this rating, and with a 16-pin plug, the table's higher peaks hold, W."""
SAME_PCT = 0.5
"""Peaks that lie this near are the same row of the table, points."""
DOCUMENT = "336521 rev 2.0 (ATX 3.0) §3.1.2, ATX12VO table 3-3"
OUTCOMES: dict[str, Outcome] = {
    "held": "pass", "shut_down": "fail", "out_of_range": "fail", "not_tested": "not_tested",
}
WORDS = {
    "held": "rails stayed in range", "shut_down": "shut down", "out_of_range": "a rail left its range",
    "not_tested": "not tested",
}


def base_load(rating_w: float, *, peak: float, duty: float) -> float:
    """Load between the peaks, W, so that the cycle has the rating as its RMS value.

    ``P_base = P·√((1 − d·k²)/(1 − d))`` with peak k as a multiple and duty d as a share; reproduces the example of
    ATX12VO design guide table 3-4.

    >>> [round(base_load(1000, peak=k, duty=d)) for k, d in ((2.0, .05), (1.8, .08), (1.6, .125), (1.2, .25))]
    [918, 897, 882, 924]
    """
    return rating_w * math.sqrt((1.0 - duty * peak**2) / (1.0 - duty))


def measure(bench: Bench) -> Measure:
    """A check for each excursion tried; demanded only of supplies that claim ATX 3.x."""
    checks = tuple(_check(bench, i, one) for i, one in enumerate(bench.session.record.excursions))
    return Measure(id="power_excursion", title="Power excursions", checks=checks)


def demanded(bench: Bench, peak_pct: float) -> ExcursionPair | None:
    """What the table demands of a peak of this height, or nothing above its highest peak and for older claims."""
    unit = bench.unit
    if unit.record.claims.standard not in ("atx_3.0", "atx_3.1"):
        return None
    large = unit.record.rated_power_w > LARGE_ABOVE_W and unit.connectors("pcie_16_12v_2x6", "pcie_16_12vhpwr") > 0
    high_enough = (pair for pair in excursion_pairs(large=large) if pair.peak_pct >= peak_pct - SAME_PCT)
    return min(high_enough, key=lambda pair: pair.peak_pct, default=None)


def _check(bench: Bench, place: int, one: Excursion) -> Check:
    pair = demanded(bench, one.peak_pct)
    outcome, why = OUTCOMES[one.outcome], ""
    if outcome == "fail" and (pair is None or one.duration_ms > pair.duration_ms):
        outcome, why = "inconclusive", "; more than is demanded of it"
    elif outcome == "pass" and pair is not None:
        why = _milder(one, pair)
        outcome = "inconclusive" if why else outcome
    lowest = f", 12 V down to {one.lowest_12v_v:.2f} V" if one.lowest_12v_v is not None else ""
    return Check(
        key=f"power_excursion.{one.peak_pct:g}", title=f"{one.peak_pct:g} % of the rating for {one.duration_ms:g} ms",
        outcome=outcome, detail=WORDS[one.outcome] + lowest + why,
        document=DOCUMENT if pair is not None else f"{DOCUMENT}; not demanded of this unit",
        origins=(Origin(bench.session.file, ("excursions", place, "outcome")),),
    )


def _milder(one: Excursion, pair: ExcursionPair) -> str:
    """Why a peak that was held proves less than the table demands; empty where it proves it."""
    base_pct = base_load(100.0, peak=pair.peak_pct / 100.0, duty=pair.duty_pct / 100.0)
    if one.duration_ms < 0.99 * pair.duration_ms:
        return f"; the table asks for {pair.duration_ms:g} ms"
    if one.base_pct < base_pct - 1.0:
        return f"; only {one.base_pct:.0f} % between the peaks, the test asks for {base_pct:.0f} %"
    return ""
