"""Two guides compared: what differs, and how much of it is due to what; worked by hand on invented units."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from math import fsum

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.evaluation import CAUSES, Change, Changes, changes_between, evaluate_units
from guidegen.records import Library, Limit, Session, Withdrawn

Make = Callable[..., Library]
THREE = {"ash": (8.0, 250.0), "birch": (6.0, 200.0), "cedar": (4.0, 300.0)}
"""Scores: ash ½·80 + ½·50 = 65, birch ½·60 + ½·60 = 60, cedar ½·40 + ½·40 = 40."""


def between(before: Library, after: Library) -> Changes:
    """The two guides compared in Ireland."""
    return changes_between(evaluate_units(before), evaluate_units(after), region="ie")


def told(changes: Changes, *kinds: str) -> list[tuple[object, ...]]:
    """Kind, unit, before and after of some kinds; numbers rounded to what the hand works out."""
    return [
        (one.kind, one.unit, *(round(v, 9) if isinstance(v, float) else v for v in (one.before, one.after)))
        for one in changes.all if not kinds or one.kind in kinds
    ]


def split(change: Change) -> tuple[float, ...]:
    """The shares by measure, price, policy and field, rounded to what the hand works out."""
    return tuple(round(change.because.of(cause), 9) for cause in CAUSES)


def test_the_same_content_changes_nothing(make: Make) -> None:
    """No change at all."""
    assert () == between(make(THREE), make(THREE)).all


def test_a_newcomer_moves_places_and_no_score(make: Make) -> None:
    """A unit of ½·90 + ½·50 = 70 comes first: the choice is its own, and everybody else falls by one place, by the field alone."""
    changes = between(make(THREE), make({**THREE, "date": (9.0, 250.0)}))

    assert [
        ("choice", "date", "ash", "date"), ("new", "date", None, 1), ("place", "ash", 1, 2), ("place", "birch", 2, 3),
        ("place", "cedar", 3, 4),
    ] == told(changes)
    assert {(0.0, 0.0, 0.0, 1.0)} == {split(one) for one in changes.all}


def test_records_and_weights_that_change_together_share_the_points(make: Make) -> None:
    """Years 4 to 8 and points 50/50 to 75/25 at a price of worth ½: 45 to 72.5, of which 25 by the record, 2.5 by the policy.

    By hand: the record alone gives 65, the policy alone 42.5; (20 + 30)/2 and (−2.5 + 7.5)/2.
    """
    changes = between(make({"ash": (4.0, 250.0)}), make({"ash": (8.0, 250.0)}, points=(75.0, 25.0)))
    score = changes.among("score")[0]

    assert [("score", "ash", 45.0, 72.5)] == told(changes, "score")
    assert ((25.0, 0.0, 2.5, 0.0), "points") == (split(score), score.because.counted_in)


def test_two_causes_that_each_win_the_place_halve_it(make: Make) -> None:
    """Birch at 60 passes ash at 65 by 8 instead of 6 years (70), or by 100 € instead of 200 € (70): half a place each."""
    changes = between(make(THREE), make({**THREE, "birch": (8.0, 100.0)}))
    birch, ash = changes.among("place")

    assert [("place", "birch", 2, 1), ("place", "ash", 1, 2)] == told(changes, "place")
    assert [(-0.5, -0.5, 0.0, 0.0), (0.5, 0.5, 0.0, 0.0)] == [split(birch), split(ash)]
    assert "places" == birch.because.counted_in
    assert [("choice", "birch", "ash", "birch")] == told(changes, "choice")
    assert (0.5, 0.5, 0.0, 0.0) == split(changes.among("choice")[0])


def test_who_leaves_lets_others_rise(make: Make) -> None:
    """A unit that its record withdraws, and one whose folder is gone: the first has a reason, both had a place."""
    after = make({name: THREE[name] for name in ("ash", "birch")})
    gone = replace(after.units[0].record, withdrawn=Withdrawn(on=date(2026, 4, 1), reason="Recalled."))
    changes = between(make(THREE), replace(after, units=(replace(after.units[0], record=gone), *after.units[1:])))

    assert [("withdrawn", "ash", 1, None), ("removed", "cedar", 3, None)] == told(changes, "withdrawn", "removed")
    assert [("place", "birch", 2, 1)] == told(changes, "place")


def test_what_people_wrote_is_told_beside_what_came_of_it(make: Make) -> None:
    """A price, a fact, a session and a rule, each by its own kind and field."""
    before, after = make(THREE), make({**THREE, "cedar": (5.0, 290.0)}, points=(60.0, 40.0))
    again = replace(after.sessions[2], file="units/cedar/2026-03-01.yaml",
                    record=replace(after.sessions[2].record, date=date(2026, 3, 1)))
    changes = between(before, replace(after, sessions=(*after.sessions, again)))

    assert [("repriced", "cedar", 300.0, 290.0)] == told(changes, "repriced")
    assert [("corrected", "cedar", 4.0, 5.0)] == told(changes, "corrected")
    assert [("retested", "cedar", None, "2026-03-01")] == told(changes, "retested")
    assert {"criteria[warranty].points", "criteria[price].points"} == {one.what for one in changes.among("policy")}


def test_a_unit_that_changes_brackets_leaves_one_place_and_takes_another(small_library: Library) -> None:
    """By the record of the box alone: no place in the first bracket any more, and one in the second."""
    units = small_library.units
    moved = replace(units[0], record=replace(units[0].record, rated_power_w=650.0))
    changes = between(small_library, replace(small_library, units=(moved, *units[1:])))
    places = [one for one in changes.among("place") if one.unit == units[0].id]

    assert [("550", True, False), ("650", False, True)] == [
        (one.bracket, isinstance(one.before, int), isinstance(one.after, int)) for one in places
    ]
    assert {(1.0, 0.0, 0.0, 0.0)} == {split(one) for one in places}


def rippling(library: Library, millivolts: float) -> Library:
    """The library with the same ripple on 12 V at every load of the first unit."""
    def flat(session: Session) -> Session:
        points = tuple(replace(point, ripple_12v_mv=millivolts) for point in session.record.load_points)
        return replace(session, record=replace(session.record, load_points=points))

    first = library.units[0].id
    return replace(library, sessions=tuple(flat(s) if s.unit == first else s for s in library.sessions))


def limited(library: Library, millivolts: float) -> Library:
    """The library with a house limit for ripple on 12 V beside that of the standard."""
    limit = Limit(finding="ripple.12v.worst", at_most=millivolts, unit="mV", document="House rule", standing="house_rule")
    return replace(library, policy=replace(library.policy, limits=(*library.policy.limits, limit)))


def test_a_gate_that_only_record_and_rule_together_shut_is_due_to_both(small_library: Library) -> None:
    """10 mV becomes 60 mV and a house limit of 20 mV comes: either alone passes, so that each has half of the lost place."""
    unit = small_library.units[0].id
    changes = between(rippling(small_library, 10.0), limited(rippling(small_library, 60.0), 20.0))
    gate, place = changes.among("gate", unit=unit)[0], changes.among("place", unit=unit)[0]

    assert ("pass", "fail", None) == (gate.before, gate.after, place.after)
    assert [(0.5, 0.0, 0.5, 0.0), (0.5, 0.0, 0.5, 0.0)] == [split(gate), split(place)]


def test_a_stricter_rule_shuts_a_gate_by_itself(small_library: Library) -> None:
    """The records are the same; only the house limit is there now."""
    calm = rippling(small_library, 60.0)
    gate = between(calm, limited(calm, 20.0)).among("gate", unit=small_library.units[0].id)[0]

    assert ("pass", "fail", (0.0, 0.0, 1.0, 0.0)) == (gate.before, gate.after, split(gate))


def test_a_price_that_grew_old_is_a_matter_of_price(make: Make) -> None:
    """The same rows looked at two months later: no price counts, and the score loses what the price was worth."""
    before = make({"ash": (8.0, 250.0)})
    later = replace(before.guide, edition=replace(before.guide.edition, date=date(2026, 6, 30)))
    changes = between(before, replace(before, guide=later))

    assert [("repriced", "ash", 250.0, None)] == told(changes, "repriced")
    assert [("score", "ash", 65.0, 40.0)] == told(changes, "score")
    assert (0.0, -25.0, 0.0, 0.0) == split(changes.among("score")[0])


def test_a_region_that_a_guide_does_not_have_cannot_be_compared(make: Make) -> None:
    """The caller asks first."""
    sides = (evaluate_units(make(THREE)), evaluate_units(make(THREE)))
    with pytest.raises(ValueError, match="us is no region of The small bench"):
        changes_between(*sides, region="us")


def whole(change: Change) -> float:
    """What the shares of a change must sum to."""
    return float(change.after or 0) - float(change.before or 0) if change.because.counted_in != "share" else 1.0


GUIDES = st.dictionaries(
    st.sampled_from(("ash", "birch", "cedar", "date", "elm")),
    st.tuples(st.integers(0, 10).map(float), st.integers(1, 50).map(lambda tens: 10.0 * tens)), min_size=1,
)
POINTS = st.tuples(st.integers(1, 100).map(float), st.integers(1, 100).map(float))


@settings(max_examples=40)
@given(GUIDES, GUIDES, POINTS, POINTS)
def test_what_is_counted_sums_to_the_whole(
    make: Make, units: dict[str, tuple[float, float]], later: dict[str, tuple[float, float]],
    points: tuple[float, float], other: tuple[float, float],
) -> None:
    """Points to the difference of the scores, places to the difference of the places, shares to one; the field moves no score."""
    changes = between(make(units, points=points), make(later, points=other))

    assert [] == [
        one for one in changes.all if abs(fsum(one.because.of(cause) for cause in CAUSES) - whole(one)) > 1e-9
    ]
    assert {0.0} >= {one.because.field for one in changes.among("score")}


@settings(max_examples=25)
@given(GUIDES, st.tuples(st.integers(0, 10).map(float), st.integers(1, 50).map(float)))
def test_one_more_unit_changes_no_other_score(
    make: Make, units: dict[str, tuple[float, float]], newcomer: tuple[float, float]
) -> None:
    """It is new, and all that happens to the others happens by the field: places, never points."""
    changes = between(make(units), make({**units, "fir": newcomer}))

    assert ["fir"] == [one.unit for one in changes.among("new")]
    assert {"new", "choice", "place"} >= {one.kind for one in changes.all}
    assert {("field",)} == {one.because.moved for one in changes.all}


@settings(max_examples=25)
@given(GUIDES, GUIDES)
def test_the_order_of_the_records_changes_nothing(
    make: Make, units: dict[str, tuple[float, float]], later: dict[str, tuple[float, float]]
) -> None:
    """Units read in another order (a rotation) give the same changes."""
    names = list(later)
    rotated = {name: later[name] for name in (*names[1:], names[0])}

    assert between(make(units), make(later)).all == between(make(units), make(rotated)).all


@settings(max_examples=25)
@given(GUIDES, GUIDES)
def test_the_way_back_is_the_way_there_with_the_signs_turned(
    make: Make, units: dict[str, tuple[float, float]], later: dict[str, tuple[float, float]]
) -> None:
    """Whichever guide is called the earlier, each cause has the same points."""
    there, back = (
        {(one.unit, cause): one.because.of(cause) for one in changes.among("score") for cause in CAUSES}
        for changes in (between(make(units), make(later)), between(make(later), make(units)))
    )

    assert there.keys() == back.keys()
    assert [] == [key for key in there if abs(there[key] + back[key]) > 1e-9]
