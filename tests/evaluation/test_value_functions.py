"""Value functions: anchored, monotone, told when they end."""

from hypothesis import given
from hypothesis import strategies as st

from guidegen.evaluation.value_functions import worth_of
from guidegen.records import Anchor

RISING = (Anchor(at=82.0, worth=0.0), Anchor(at=90.0, worth=0.75), Anchor(at=94.0, worth=1.0))


def test_a_value_on_an_anchor_is_worth_what_the_anchor_says() -> None:
    """The policy's own points are met exactly."""
    assert [0.0, 0.75, 1.0] == [worth_of(at, RISING).worth for at in (82.0, 90.0, 94.0)]


def test_a_value_between_anchors_lies_on_the_straight_line() -> None:
    """Halfway between 90 and 94 the worth is halfway between 0.75 and 1."""
    assert 0.875 == worth_of(92.0, RISING).worth


def test_beyond_the_outer_anchors_worth_stays_and_is_told() -> None:
    """Saturation is counted, not hidden."""
    low, high = worth_of(70.0, RISING), worth_of(99.0, RISING)

    assert (0.0, True, 1.0, True) == (low.worth, low.beyond, high.worth, high.beyond)


@given(st.floats(60, 110), st.floats(60, 110))
def test_more_of_a_good_thing_is_never_worth_less(first: float, second: float) -> None:
    """A rising function is monotone everywhere."""
    low, high = sorted((first, second))

    assert worth_of(low, RISING).worth <= worth_of(high, RISING).worth


@given(st.floats(60, 110))
def test_a_change_of_unit_with_its_anchors_changes_nothing(value: float) -> None:
    """Millivolts or volts: the worth is the same."""
    scaled = tuple(Anchor(at=a.at * 1000, worth=a.worth) for a in RISING)

    assert abs(worth_of(value, RISING).worth - worth_of(value * 1000, scaled).worth) < 1e-9
