"""Ripple, regulation, hold-up and timing limits against the documents.

Sources: ATX/ATX12V design guides v0.9 table 8 and v1.1 table 11 (ripple); document 336521 rev 2.0/2.1a, tables 4-2
(regulation), 4-9 and 4-10 (timing and hold-up), seen in copies of the documents.
"""

import pytest

from guidegen.evaluation.findings import Finding
from guidegen.evaluation.verdicts import judge
from guidegen.quantities import Quantity
from guidegen.standards import limits, trip_window

RIPPLE = [("12v", 120.0), ("5v", 50.0), ("3v3", 50.0), ("5vsb", 50.0)]
VOLTS = [("12v", 11.20, 12.60), ("5v", 4.75, 5.25), ("3v3", 3.14, 3.47), ("5vsb", 4.75, 5.25)]


def outcome(key: str, value: float, standard: str = "atx_3.1") -> str:
    """The verdict on a value without doubt."""
    finding = Finding(key=key, title=key, quantity=Quantity(value, "x"), decimals=2)
    return next(v.outcome for v in judge([finding], limits(), claimed_standard=standard) if v.key == key)


@pytest.mark.parametrize(("rail", "limit"), RIPPLE)
def test_ripple_from_both_sides_of_its_limit(rail: str, limit: float) -> None:
    """The limit itself is allowed, a hundredth more is not."""
    assert ("pass", "fail") == (outcome(f"ripple.{rail}.worst", limit), outcome(f"ripple.{rail}.worst", limit + 0.01))


@pytest.mark.parametrize(("rail", "low", "high"), VOLTS)
def test_regulation_from_both_sides_of_both_limits(rail: str, low: float, high: float) -> None:
    """336521 table 4-2: −7/+5 % on 12 V, ±5 % elsewhere."""
    assert ["fail", "pass"] == [outcome(f"regulation.{rail}.lowest", v) for v in (low - 0.001, low)]
    assert ["pass", "fail"] == [outcome(f"regulation.{rail}.highest", v) for v in (high, high + 0.001)]


def test_older_standards_ask_for_five_percent_on_12_v() -> None:
    """11.3 V passes ATX 3.x (−7 %) and fails an older claim (−5 %, 11.40 V)."""
    assert ("pass", "fail") == (outcome("regulation.12v.lowest", 11.3), outcome("regulation.12v.lowest", 11.3, "atx_2.52"))


@pytest.mark.parametrize(("standard", "rails_ms"), [("atx_3.0", 17.0), ("atx_3.1", 12.0)])
def test_hold_up_of_the_rails_is_the_sum_of_t5_and_t6(standard: str, rails_ms: float) -> None:
    """3.0: 16 + 1 ms at full load; 3.1: 11 + 1 ms (derived sums)."""
    key = "hold_up.rails_at_100"

    assert ("pass", "fail") == (outcome(key, rails_ms, standard), outcome(key, rails_ms - 0.1, standard))


@pytest.mark.parametrize("standard", ["atx12v_2.4", "atx_2.52"])
def test_older_standards_ask_for_sixteen_ms_and_are_cited_themselves(standard: str) -> None:
    """T5 of at least 16 ms (design guide v1.1), T6 of at least 1 ms (guides before 2020): no document of 2022 is cited for them."""
    cited = {
        v.document for v in judge([], limits(), claimed_standard=standard) if v.key.startswith(("hold_up.", "timing."))
    }

    assert ("pass", "fail") == tuple(outcome("hold_up.power_good_at_100", ms, standard) for ms in (16.0, 15.9))
    assert ("pass", "fail") == tuple(outcome("hold_up.rails_at_100", ms, standard) for ms in (17.0, 16.9))
    assert 4 == len(cited)
    assert all(document.startswith("ATX12V design guide") for document in cited)


@pytest.mark.parametrize(("key", "good", "bad"), [
    ("timing.t1", 199, 201), ("timing.t2", 0.2, 0.1), ("timing.t2", 20, 20.1), ("timing.t3", 100, 99), ("timing.t3", 250, 251),
    ("timing.t4", 9.9, 10.1),
])
def test_power_on_timing_of_atx_3(key: str, good: float, bad: float) -> None:
    """T1 to T4, required values."""
    assert ("pass", "fail") == (outcome(key, good), outcome(key, bad))


def test_a_limit_without_a_number_is_not_tested() -> None:
    """Absence is never a pass."""
    assert {"not_tested"} == {v.outcome for v in judge([], limits(), claimed_standard="atx_3.1")}


def test_over_voltage_windows() -> None:
    """12 V: 13.4 to 15.6 V (second-hand); 5 V: 5.74 to 7.0 V and 3.3 V: 3.76 to 4.3 V (ATX v0.9 table 11)."""
    found = {p: (w.from_v, w.to_v) for p in ("ovp_12v", "ovp_5v", "ovp_3v3") if (w := trip_window(p))}

    assert {"ovp_12v": (13.4, 15.6), "ovp_5v": (5.74, 7.0), "ovp_3v3": (3.76, 4.3)} == found


def test_no_limit_that_decides_is_quoted_from_memory() -> None:
    """A value from memory never decides a verdict that a page shows as a standard's."""
    assert [] == [limit.finding for limit in limits() if limit.standing == "from_memory"]
