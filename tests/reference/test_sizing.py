"""Rules of thumb for sizing, and the design guides' worked sums."""

import pytest

from guidegen.evaluation.sizing import recommend
from guidegen.records import Library

RATINGS = (400.0, 450.0, 550.0, 650.0, 750.0, 850.0, 1000.0, 1200.0, 1600.0)


def test_600_watts_lead_to_1000_at_sixty_percent(small_library: Library) -> None:
    """Common practice, no source: a 600 W load suits a 1000 W unit at 60 %."""
    found = recommend(600.0, RATINGS, small_library.policy.sizing)

    assert (1000.0, 0.6, "middle", 850.0) == (found.rating_w, found.share, found.rule, found.next_smaller_w)


@pytest.mark.parametrize("load", [120.0, 240.0, 241.0, 333.0, 450.0, 599.0, 601.0, 959.0])
def test_the_recommendation_is_the_smallest_that_keeps_full_load_in_the_middle(small_library: Library, load: float) -> None:
    """Common practice, no source: at most 60 %, and never larger than that needs."""
    found = recommend(load, RATINGS, small_library.policy.sizing)

    assert found.rating_w == min(r for r in RATINGS if load <= 0.6 * r)


def test_regular_use_never_goes_above_eighty_percent(small_library: Library) -> None:
    """Common practice, no source: 1200 W with ageing on 1600 W is the last that fits; more has no answer."""
    rules = small_library.policy.sizing
    fits, too_much = recommend(1200.0, RATINGS, rules), recommend(1300.0, RATINGS, rules)

    assert ("ceiling", 1600.0) == (fits.rule, fits.rating_w)
    assert ("largest", None) == (too_much.rule, too_much.rating_w)


def test_the_largest_number_is_not_the_best(small_library: Library) -> None:
    """A living-room computer of 240 W is sent to 400 W, not to 1600 W."""
    assert 400.0 == recommend(240.0, RATINGS, small_library.policy.sizing).rating_w
