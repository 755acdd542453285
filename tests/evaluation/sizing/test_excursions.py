"""Short peaks: allowed for how long, by the table, by the bench, or not at all."""

from dataclasses import replace
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.evaluation import Assessment, UnitResult
from guidegen.evaluation.sizing import Peak, allowed_pct, excursions_of, published, uncovered
from guidegen.records import Excursion

TABLE = ((200.0, 0.1), (180.0, 1.0), (160.0, 10.0), (120.0, 100.0))


def tried(
    result: UnitResult, *excursions: Excursion, standard: Literal["atx12v_2.4", "atx_3.0"], rated_w: float = 850.0
) -> UnitResult:
    """The result with these excursions on the bench, this claim and this rating."""
    unit = replace(
        result.unit,
        record=replace(
            result.unit.record, rated_power_w=rated_w, claims=replace(result.unit.record.claims, standard=standard)
        ),
    )
    session = replace(result.used[-1], record=replace(result.used[-1].record, excursions=excursions))
    return replace(result, unit=unit, used=(session,))


def excursion(peak_pct: float, duration_ms: float, outcome: Literal["held", "shut_down", "out_of_range"]) -> Excursion:
    """One excursion from the rating."""
    return Excursion(peak_pct=peak_pct, duration_ms=duration_ms, base_pct=90.0, outcome=outcome)


@pytest.mark.parametrize(("duration_ms", "expected"), [(0.0, 200.0), (0.1, 200.0), (0.2, 180.0), (99.0, 120.0), (101.0, 100.0)])
def test_the_next_longer_row_of_the_table_counts(duration_ms: float, expected: float) -> None:
    """Between two rows the milder one; beyond the last the rating."""
    assert expected == allowed_pct(duration_ms, TABLE)


def test_without_a_table_the_rating_is_all_there_is() -> None:
    """Older supplies: 100 %."""
    assert 100.0 == allowed_pct(0.01, ())


def test_what_exceeds_the_table_is_named() -> None:
    """700 W for 1 ms on 400 W: 175 % is within 180 %, 181 % is not."""
    within, beyond = Peak(power_w=700.0, duration_ms=1.0), Peak(power_w=724.0, duration_ms=1.0, title="card")

    assert (beyond,) == uncovered(400.0, (within, beyond), TABLE)


@given(st.floats(0, 1000), st.floats(0, 1000))
def test_a_longer_peak_is_never_allowed_more(first: float, second: float) -> None:
    """The table falls with time."""
    assert allowed_pct(min(first, second), TABLE) >= allowed_pct(max(first, second), TABLE)


def test_an_older_unit_is_taken_at_what_it_held(small: Assessment) -> None:
    """No claim of ATX 3.x: only the bench speaks."""
    result = tried(small.results[0], excursion(150.0, 1.0, "held"), excursion(180.0, 1.0, "shut_down"), standard="atx12v_2.4")

    assert ((150.0, 1.0),) == excursions_of(result)


def test_an_older_unit_that_was_not_tried_has_its_rating(small: Assessment) -> None:
    """Not tested is not held."""
    assert () == excursions_of(tried(small.results[0], standard="atx12v_2.4"))


def test_a_newer_unit_is_taken_at_the_table_of_its_size(small: Assessment) -> None:
    """Up to 450 W and without a 16-pin plug the lower peaks hold."""
    assert 0 == small.results[0].unit.connectors("pcie_16_12v_2x6", "pcie_16_12vhpwr")

    assert published(large=False) == excursions_of(tried(small.results[0], standard="atx_3.0"))


def test_a_row_that_a_unit_failed_is_struck_from_its_table(small: Assessment) -> None:
    """A claim is no evidence against the bench: who shut down at 130 % for 10 ms has no 135 % for 10 ms."""
    result = tried(small.results[0], excursion(130.0, 10.0, "shut_down"), standard="atx_3.0")

    assert {(150.0, 0.1), (145.0, 1.0), (110.0, 100.0)} == set(excursions_of(result)) - {(100.0, float("inf"))}


def test_a_sample_that_was_tried_again_counts_as_it_was_tried_last(small: Assessment) -> None:
    """As in the verdicts: what shut it down before and was held since may be had; of another sample nothing is forgotten."""
    again = tried(small.results[0], excursion(150.0, 1.0, "held"), standard="atx12v_2.4")
    before = tried(small.results[0], excursion(150.0, 1.0, "shut_down"), standard="atx12v_2.4").used[0]
    other = replace(before, record=replace(before.record, sample=replace(before.record.sample, id="other")))

    assert ((150.0, 1.0),) == excursions_of(replace(again, used=(before, *again.used)))
    assert () == excursions_of(replace(again, used=(other, *again.used)))
