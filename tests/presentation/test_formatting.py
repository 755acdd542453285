"""One rounding route for everything that is printed."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.evaluation import Finding
from guidegen.presentation.formatting import (
    NO_BREAK,
    finding_figure,
    finding_text,
    finding_with_doubt,
    number,
    order,
    rounded,
    with_unit,
    within_text,
)
from guidegen.quantities import Quantity


def test_a_half_goes_to_the_even_digit_of_what_the_number_says() -> None:
    """ISO 80000-1:2009, annex B, rule A (from memory): 2.675 is taken for 2.675, not for its binary neighbour."""
    assert ["2.68", "2.66", "0.12", "2"] == [str(rounded(v, d)) for v, d in ((2.675, 2), (2.665, 2), (0.125, 2), (2.5, 0))]


def test_nothing_is_ever_minus_zero() -> None:
    """−0.04 to one decimal is 0.0."""
    assert ("0.0", "−0.1") == (number(-0.04, 1), number(-0.06, 1))


@given(st.floats(-1e6, 1e6), st.integers(0, 4))
def test_what_a_reader_sees_is_what_a_machine_reads(value: float, decimals: int) -> None:
    """The printed number and the sorted one are the same decimal."""
    assert number(value, decimals).replace("−", "-") == order(value, decimals)
    assert abs(Decimal(order(value, decimals)) - Decimal(repr(value))) <= Decimal("0.5").scaleb(-decimals)


def test_value_and_doubt_end_at_the_same_digit() -> None:
    """12.4 mV with u = 0.31 mV prints ± 0.6 mV (k = 2)."""
    finding = Finding(key="k", title="t", quantity=Quantity(12.41, "mV", own=0.31), decimals=1)

    assert f"12.4{NO_BREAK}±{NO_BREAK}0.6{NO_BREAK}mV" == finding_with_doubt(finding)


def test_a_doubt_too_small_to_print_is_shown_as_one_digit_and_never_as_none() -> None:
    """11.98 V with u = 0.001 V prints ± 0.01 V."""
    finding = Finding(key="k", title="t", quantity=Quantity(11.98, "V", own=0.001), decimals=2)

    assert finding_with_doubt(finding).endswith(f"±{NO_BREAK}0.01{NO_BREAK}V")


def test_a_number_without_unit_has_no_space_behind_it() -> None:
    """A power factor is a bare number."""
    assert "0.95" == with_unit(0.95, "", 2)


@pytest.mark.parametrize(("value", "printed"), [(0.842, "0.9 %"), (0.8, "0.8 %"), (0.85, "0.9 %"), (0.0, "0.0 %"), (0.76, "0.8 %")])
def test_a_bound_is_rounded_up(value: float, printed: str) -> None:
    """What stays within it does so in print, too."""
    finding = Finding(key="regulation.12v.worst", title="Largest deviation", quantity=Quantity(value, "%"), decimals=1)

    assert printed == within_text(finding).replace("\N{NO-BREAK SPACE}", " ")


def test_an_upper_bound_is_marked_wherever_a_finding_is_printed() -> None:
    """In words in a sentence, by a sign where there is room for a number alone."""
    level = Finding(key="k", title="t", decimals=1, quantity=Quantity(15.8, "dB(A)", own=0.2), upper_bound=True)
    measured = replace(level, upper_bound=False)

    assert ("at most 15.8 dB(A)", "15.8 dB(A)") == tuple(finding_text(one).replace(NO_BREAK, " ") for one in (level, measured))
    assert ("≤ 15.8", "15.8") == tuple(finding_figure(one).replace(NO_BREAK, " ") for one in (level, measured))
    assert ("≤ 15.8 ± 0.4 dB(A)", "15.8 ± 0.4 dB(A)") == tuple(
        finding_with_doubt(one).replace(NO_BREAK, " ") for one in (level, measured))
