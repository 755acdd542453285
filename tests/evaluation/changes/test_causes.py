"""A difference divided among its causes: exact, fair, and the same in every order."""

from math import fsum

from hypothesis import given
from hypothesis import strategies as st

from guidegen.evaluation import CAUSES
from guidegen.evaluation.changes.causes import NOTHING, Taken, shares, subsets

ALL: Taken = frozenset(CAUSES)
WORTHS = st.fixed_dictionaries({taken: st.floats(-1e6, 1e6) for taken in subsets(CAUSES)})


def test_two_causes_that_help_each_other_share_what_they_do_together() -> None:
    """By hand: alone 20 and −2.5, together 27.5; averaged over both orders (20 + 30)/2 = 25 and (−2.5 + 7.5)/2 = 2.5."""
    worth = {NOTHING: 45.0, frozenset({"measure"}): 65.0, frozenset({"policy"}): 42.5, frozenset({"measure", "policy"}): 72.5}

    assert {"measure": 25.0, "policy": 2.5} == shares(lambda taken: worth[taken], ("measure", "policy"))


def test_the_glove_game_comes_out() -> None:
    """One left glove, two right ones: a pair is worth 1 and the shares are 2/3, 1/6, 1/6 (the textbook's example; from memory)."""
    def pair(taken: Taken) -> float:
        return float("measure" in taken and bool(taken & {"price", "policy"}))

    assert {"measure": 2 / 3, "price": 1 / 6, "policy": 1 / 6} == shares(pair, ("measure", "price", "policy"))


@given(WORTHS)
def test_the_shares_sum_to_the_whole(worths: dict[Taken, float]) -> None:
    """Whatever the guides between the two say; each share is rounded once, so the sum is off by a few last bits at most."""
    divided = shares(worths.__getitem__, CAUSES)

    assert abs(fsum(divided.values()) - (worths[ALL] - worths[NOTHING])) <= 1e-9


@given(WORTHS)
def test_a_cause_that_moves_nothing_gets_nothing(worths: dict[Taken, float]) -> None:
    """And the others get what they would get without it."""
    blind = {taken: worths[taken - {"field"}] for taken in worths}
    divided = shares(blind.__getitem__, CAUSES)

    assert 0.0 == divided["field"]
    assert {cause: divided[cause] for cause in CAUSES[:3]} == shares(blind.__getitem__, CAUSES[:3])


@given(WORTHS, st.permutations(CAUSES))
def test_no_order_of_the_causes_is_preferred(worths: dict[Taken, float], order: list[str]) -> None:
    """The same shares to the last bit, however the causes are named one after another."""
    turned = tuple(cause for name in order for cause in CAUSES if cause == name)

    assert shares(worths.__getitem__, CAUSES) == shares(worths.__getitem__, turned)


def test_without_a_cause_there_is_nothing_to_share() -> None:
    """Two guides that agree."""
    assert {} == shares(lambda _: 1.0, ())
