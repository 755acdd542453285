"""Scores: additive, absolute, exact, honest about what is unknown."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.evaluation import Assessment, Finding, Score, score_unit
from guidegen.evaluation.scores import difference_uncertainties
from guidegen.quantities import Quantity
from guidegen.records import Anchor, Criterion, Library, Part, PolicyRecord

UNIT_SCALE = (Anchor(at=0.0, worth=0.0), Anchor(at=100.0, worth=1.0))


def policy_of(base: PolicyRecord, points: dict[str, float]) -> PolicyRecord:
    """The policy with one-part criteria of the given swing points, worth value/100."""
    review = base.criteria[0].weight_reviewed
    criteria = tuple(
        Criterion(id=name, title=name.title(), points=p, weight_reviewed=review, reason="test",
                  parts=(Part(finding=f"{name}.x", points=100.0, anchors=UNIT_SCALE, reason="test"),))
        for name, p in points.items()
    )
    return replace(base, criteria=criteria)


def findings_of(values: dict[str, float], *, own: float = 0.0, shared: float = 0.0) -> dict[str, Finding]:
    """One finding a criterion."""
    return {
        f"{name}.x": Finding(key=f"{name}.x", title=name, quantity=Quantity(value, "", own=own, shared=shared), decimals=1)
        for name, value in values.items()
    }


def scored(base: PolicyRecord, points: dict[str, float], values: dict[str, float]) -> Score:
    """The score of made-up values under made-up points."""
    return score_unit(findings_of(values), policy_of(base, points), region="ie", bracket="x")


OFFICE_POINTS = {"closeness": 100.0, "visibility": 80.0, "image": 70.0, "size": 30.0, "comfort": 20.0, "parking": 10.0}
OFFICE_VALUES = {
    "A": (100, 60, 100, 75, 0, 90), "B": (20, 80, 10, 30, 100, 30), "C": (80, 70, 0, 0, 10, 100),
    "D": (70, 50, 30, 55, 30, 90), "E": (40, 60, 90, 100, 60, 70), "F": (0, 0, 70, 0, 80, 0),
    "G": (60, 100, 20, 50, 50, 80),
}


def test_the_office_example_of_goodwin_and_wright_comes_out(small_library: Library) -> None:
    """Goodwin and Wright, Decision Analysis for Management Judgment, ch. 3, office choice: A 80.8, C 47.4, G 60.2 with
    the book's rounded weights; with unrounded weights A is 80.48 (columns but A from memory, they reproduce the book).
    """
    totals = {}
    for office, row in OFFICE_VALUES.items():
        values = dict(zip(OFFICE_POINTS, map(float, row), strict=True))
        totals[office] = scored(small_library.policy, OFFICE_POINTS, values).low
    rounded = {"closeness": 32.0, "visibility": 26.0, "image": 23.0, "size": 10.0, "comfort": 6.0, "parking": 3.0}
    by_book = {
        office: scored(small_library.policy, rounded, dict(zip(OFFICE_POINTS, map(float, row), strict=True))).low
        for office, row in OFFICE_VALUES.items()
    }

    assert 80.48 == round(totals["A"], 2)
    assert (80.8, 47.4, 60.2) == tuple(round(by_book[o], 1) for o in "ACG")


def test_a_missing_number_opens_a_range_and_is_never_renormalised(small_library: Library) -> None:
    """Worked case: weights .4 .3 .2 .1, values .9 .8 ? .6 give 0.66 to 0.86; leaving the gap out would give 0.825."""
    points = {"a": 40.0, "b": 30.0, "c": 20.0, "d": 10.0}
    score = scored(small_library.policy, points, {"a": 90.0, "b": 80.0, "d": 60.0})

    assert (66.0, 86.0, False) == (round(score.low, 9), round(score.high, 9), score.complete)


def test_a_bad_protection_can_hide_in_a_sum_and_so_needs_a_gate(small_library: Library) -> None:
    """Compensation: 0 for protection at weight 10 % with .95 elsewhere still beats 1 with .74 elsewhere, .855 to .766;
    the minimum and the geometric mean beside the score show what the sum hides.
    """
    points = {"protection": 10.0, "rest": 90.0}
    unsafe = scored(small_library.policy, points, {"protection": 0.0, "rest": 95.0})
    safe = scored(small_library.policy, points, {"protection": 100.0, "rest": 74.0})

    assert (85.5, 76.6) == (round(unsafe.low, 9), round(safe.low, 9))
    assert ("protection", 0.0) == (unsafe.weakest.id, unsafe.geometric)


def test_the_five_criteria_of_the_policy_are_weights_that_sum_to_one(small: Assessment) -> None:
    """Efficiency, ripple, noise, protections and price per watt, normalised once."""
    score = small.home[0].ranking.standings[0].candidate.score

    assert ["efficiency", "ripple", "noise", "protections", "price"] == [c.id for c in score.criteria]
    assert abs(sum(c.weight for c in score.criteria) - 1) < 1e-12


def test_the_technical_score_leaves_price_out_and_nothing_else(small: Assessment) -> None:
    """Recomputed from the parts by hand."""
    score = small.home[0].ranking.standings[0].candidate.score
    technical = [c for c in score.criteria if c.id != "price"]
    by_hand = 100 * sum(c.weight * c.low for c in technical) / sum(c.weight for c in technical)

    assert abs(score.technical - by_hand) < 1e-9


@given(st.lists(st.floats(0, 100), min_size=4, max_size=4), st.floats(0.1, 50))
def test_ten_times_the_points_is_the_same_score(small_library: Library, values: list[float], factor: float) -> None:
    """Only ratios of points matter."""
    names = ("a", "b", "c", "d")
    points = dict(zip(names, (10.0, 20.0, 30.0, 40.0), strict=True))
    found = dict(zip(names, values, strict=True))
    first = scored(small_library.policy, points, found).low
    second = scored(small_library.policy, {n: p * factor for n, p in points.items()}, found).low

    assert abs(first - second) < 1e-9


@given(st.lists(st.tuples(st.floats(0, 100), st.floats(0, 100)), min_size=3, max_size=3))
def test_a_unit_that_is_nowhere_worse_never_scores_less(small_library: Library, pairs: list[tuple[float, float]]) -> None:
    """Dominance."""
    names = ("a", "b", "c")
    points = dict(zip(names, (10.0, 20.0, 30.0), strict=True))
    worse = {n: min(p) for n, p in zip(names, pairs, strict=True)}
    better = {n: max(p) for n, p in zip(names, pairs, strict=True)}

    assert scored(small_library.policy, points, worse).low <= scored(small_library.policy, points, better).low


def test_what_all_units_share_falls_out_of_a_difference(small_library: Library) -> None:
    """η .9130 against .9100, u .0013 of which .0011 in common: the difference has u = √2·√(.0013² − .0011²)."""
    own = (0.13**2 - 0.11**2) ** 0.5
    policy = policy_of(small_library.policy, {"efficiency": 100.0})
    first, second = (
        score_unit(findings_of({"efficiency": value}, own=own, shared=0.11), policy, region="ie", bracket="x")
        for value in (91.30, 91.00)
    )

    assert abs(difference_uncertainties((first, second))[0, 1] - 2**0.5 * own) < 1e-12


def test_what_one_meter_reads_wrong_it_reads_wrong_at_every_load(small_library: Library) -> None:
    """JCGM 100:2008, 5.2.2, note 1: errors of full correlation add, those of two meters add in quadrature; own ones always do."""
    criteria = policy_of(small_library.policy, {"a": 100.0, "b": 50.0}).criteria

    def doubt(first: str, second: str) -> tuple[float, float]:
        """Of the score, and of its difference from a unit without any doubt of its own or of the meters."""
        parts = (Part(finding=first, points=60.0, anchors=UNIT_SCALE, reason="test"), Part(finding=second, points=40.0, anchors=UNIT_SCALE, reason="test"))
        policy = replace(small_library.policy, criteria=(replace(criteria[0], parts=parts),))
        shaken, sure = ({name: Finding(key=name, title=name, quantity=Quantity(50.0, "", own=own, shared=shared), decimals=1) for name in (first, second)}
                        for own, shared in ((0.3, 2.0), (0.0, 0.0)))
        one, other = (score_unit(found, policy, region="ie", bracket="x") for found in (shaken, sure))
        return one.uncertainty, float(difference_uncertainties((one, other))[0, 1])

    own = 0.3 * math.hypot(0.6, 0.4)
    together, apart = math.hypot(own, 2.0), math.hypot(own, 2.0 * math.hypot(0.6, 0.4))

    assert (together, together) == pytest.approx(doubt("noise.at_20", "noise.at_50"))
    assert (apart, apart) == pytest.approx(doubt("noise.at_20", "ripple.12v"))


def test_the_order_of_the_criteria_in_the_file_changes_no_bit(small_library: Library) -> None:
    """Sums are exact, so permuting the terms leaves every bit."""
    values = {f"c{i}": 100 * (i * 0.61803398875 % 1) for i in range(1, 10)}
    points = {name: 1 + 99 * (value * 0.7320508 % 1) for name, value in values.items()}
    shuffled = dict(sorted(points.items(), key=lambda item: item[1]))

    assert scored(small_library.policy, points, values).low == scored(small_library.policy, shuffled, values).low


def test_numbers_beyond_their_scale_are_counted(small_library: Library) -> None:
    """Two of three values saturate: one above, one below."""
    score = scored(small_library.policy, {"a": 1.0, "b": 1.0, "c": 1.0}, {"a": 120.0, "b": -5.0, "c": 50.0})

    assert (2, 50.0) == (score.beyond, round(score.low, 9))
