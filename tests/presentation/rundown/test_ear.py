"""Numbers for the ear: never across a limit, never out of order, and said as they are written."""

from decimal import Decimal
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.presentation.rundown.ear import (
    all_for_the_ear,
    for_the_ear,
    nearness,
    number_words,
    ordinal_words,
    same_to_the_ear,
    whole_words,
    year_words,
)

PRINTED = st.decimals(min_value=-5000, max_value=5000, places=2, allow_nan=False, allow_infinity=False).map(Decimal)
UNITS = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"]
TENS = {word: 10 * n for n, word in enumerate(["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"], start=2)}


def side(value: Decimal, bound: Decimal) -> int:
    """Below, on, or above."""
    return (value > bound) - (value < bound)


def understood(words: str) -> int:
    """A whole number as a listener understands it: each word counted, hundreds and thousands multiplied."""
    total = part = 0
    for word in words.replace("-", " ").replace(" and ", " ").split():
        if word == "thousand":
            total, part = total + part * 1000, 0
        elif word == "hundred":
            part *= 100
        else:
            part += 1 if word == "a" else TENS[word] if word in TENS else UNITS.index(word)
    return total + part


@given(st.integers(min_value=0, max_value=999_999))
def test_a_listener_understands_the_number_that_was_written(count: int) -> None:
    """Words and back, by a listener that knows nothing of the speaker."""
    assert count == understood(whole_words(count))


@given(PRINTED, st.lists(PRINTED, max_size=4))
def test_no_rounding_crosses_a_limit(printed: Decimal, limits: list[Decimal]) -> None:
    """Below stays below, above above, and what is on the limit stays on it; zero is always a limit."""
    said = for_the_ear(printed, limits)

    assert [side(printed, limit) for limit in (Decimal(0), *limits)] == [side(said, limit) for limit in (Decimal(0), *limits)]


@given(st.lists(PRINTED, min_size=2, max_size=5).map(tuple), st.lists(PRINTED, max_size=2))
def test_numbers_heard_together_keep_their_order(printed: tuple[Decimal, ...], limits: list[Decimal]) -> None:
    """None becomes equal to another, and none passes it."""
    said = all_for_the_ear(printed, limits)

    assert [side(a, b) for a, b in combinations(printed, 2)] == [side(a, b) for a, b in combinations(said, 2)]


@given(PRINTED, PRINTED)
def test_alone_no_order_turns_round(first: Decimal, second: Decimal) -> None:
    """The smaller is never said to be the larger; where both sound the same, they are called practically the same."""
    low, high = sorted((first, second))

    assert for_the_ear(low) <= for_the_ear(high)
    assert same_to_the_ear(low, high) == (for_the_ear(low) == for_the_ear(high))


@given(PRINTED)
def test_rounding_stays_within_half_a_step(printed: Decimal) -> None:
    """Half of ten from 1000, half of one from 10, half of a tenth below."""
    step = Decimal(10) if abs(printed) >= 1000 else Decimal(1) if abs(printed) >= 10 else Decimal("0.1")

    assert abs(for_the_ear(printed) - printed) <= step / 2


@pytest.mark.parametrize(("printed", "limit", "said"), [
    ("93.4", "90", "93"), ("119.6", "120", "119.6"), ("119.96", "120", "119.96"), ("120.4", "120", "120.4"),
    ("119.4", "120", "119"), ("1034", "1000", "1030"), ("1004", "1000", "1004"), ("0.04", "1", "0.04"), ("0.84", "1", "0.8"),
])
def test_the_rule_by_hand(printed: str, limit: str, said: str) -> None:
    """Worked by hand from the rule in the module's docstring (common practice, no source)."""
    assert Decimal(said) == for_the_ear(Decimal(printed), [Decimal(limit)])


def test_how_near_it_is_said() -> None:
    """A quarter of a step is just under or over; more is about; nothing before an exact number."""
    said = [nearness(Decimal(printed), for_the_ear(Decimal(printed))) for printed in ("92.9", "93.2", "93.4", "93.0", "93")]

    assert ["just under", "just over", "about", "", ""] == said


def test_days_years_and_fractions() -> None:
    """As an English reader says them (common practice, no source)."""
    assert ["first", "second", "third", "twelfth", "twentieth", "twenty-second", "thirty-first"] == [
        ordinal_words(day) for day in (1, 2, 3, 12, 20, 22, 31)
    ]
    assert ["twenty twenty-six", "two thousand", "nineteen oh five"] == [year_words(year) for year in (2026, 2000, 1905)]
    assert "zero point eight" == number_words(Decimal("0.80"))
