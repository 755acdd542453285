"""Power excursions: short loads above the rating that an ATX 3.x supply must carry."""

import math

from guidegen.evaluation.findings import Bench, Check, Measure, Outcome
from guidegen.origins import Origin
from guidegen.records import Excursion
from guidegen.standards import excursion_pairs

LARGE_ABOVE_W = 450.0
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
    demanded = bench.unit.record.claims.standard in ("atx_3.0", "atx_3.1")
    checks = tuple(_check(bench, i, one, demanded=demanded) for i, one in enumerate(bench.session.record.excursions))
    return Measure(id="power_excursion", title="Power excursions", checks=checks)


def demanded_duration_ms(bench: Bench, peak_pct: float) -> float:
    """How long the table demands a peak of this height, ms; 0 above its highest peak."""
    unit = bench.unit
    large = unit.record.rated_power_w > LARGE_ABOVE_W and unit.connectors("pcie_16_12v_2x6", "pcie_16_12vhpwr") > 0
    pairs = excursion_pairs(large=large)
    return max((pair.duration_ms for pair in pairs if pair.peak_pct >= peak_pct - 0.5), default=0.0)


def _check(bench: Bench, place: int, one: Excursion, *, demanded: bool) -> Check:
    outcome = OUTCOMES[one.outcome]
    asked = demanded and one.duration_ms <= demanded_duration_ms(bench, one.peak_pct)
    if outcome == "fail" and not asked:
        outcome = "inconclusive"
    detail = WORDS[one.outcome] + (f", 12 V down to {one.lowest_12v_v:.2f} V" if one.lowest_12v_v is not None else "")
    return Check(
        key=f"power_excursion.{one.peak_pct:g}", title=f"{one.peak_pct:g} % of the rating for {one.duration_ms:g} ms",
        outcome=outcome, detail=detail, document=DOCUMENT if asked else f"{DOCUMENT}; not demanded of this unit",
        origins=(Origin(bench.session.file, ("excursions", place, "outcome")),),
    )
