"""One question, one answer."""

from dataclasses import asdict
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.errors import RequestError
from guidegen.evaluation import Assessment
from guidegen.evaluation.sizing import CAUTIONS, Question, Wishes, advise, field_in

GAMES = {"processor.mid": 1, "graphics.mid": 1, "memory.module": 2, "drive.solid-state": 1, "board.usual": 1, "fan.case": 3}
"""90 + 200 + 10 + 7 + 40 + 7.5 = 354.5 W; idle 8 + 12 + 4 + 1 + 15 + 3 = 43 W."""


def plain(sentences: tuple[str, ...]) -> str:
    """All sentences in one text with ordinary spaces."""
    return " ".join(sentences).replace("\N{NO-BREAK SPACE}", " ")


def test_parts_lead_to_a_rating_with_its_rule(small: Assessment) -> None:
    """354.5 W ÷ 60 % = 591 W: 650 W."""
    advice = advise(Question(parts=GAMES), small)

    assert (650.0, "usual full load at most 60 % of the rating") == (advice.recommended_rating_w, plain((advice.rule,)))
    assert 354.5 == advice.loads[-1].delivered_w
    assert "1 × Graphics card, middle class: 200 W" in plain(advice.steps)
    assert "The parts need 1 8-pin processor plug and 1 8-pin graphics plug." in plain(advice.sentences)


def test_idle_and_work_come_from_the_parts_and_the_rest_from_the_profile(small: Assessment) -> None:
    """43 W at rest by the sum of the parts, not by a share of full load."""
    loads = {one.use: one.delivered_w for one in advise(Question(parts=GAMES, profile="evenings"), small).loads}

    assert ["idle", "work", "gaming", "full"] == list(loads)
    assert [43.0, pytest.approx(0.8 * 354.5), 354.5] == [loads["idle"], loads["gaming"], loads["full"]]


def test_watts_alone_lead_to_the_same_rating(small: Assessment) -> None:
    """The same load by another door, with a word about peaks that nobody knows."""
    advice = advise(Question(delivered_w=354.5), small)

    assert 650.0 == advice.recommended_rating_w
    assert "short peaks of the graphics card are not known" in plain(advice.sentences)


def test_a_plug_meter_is_read_through_the_assumed_efficiency(small: Assessment) -> None:
    """400 W × 88 % = 352 W delivered."""
    advice = advise(Question(wall_w=400.0), small)

    assert 352.0 == advice.loads[-1].delivered_w
    assert "400 W × 88 % (assumed) = 352 W delivered" in plain(advice.steps)


def test_a_plug_meter_is_read_through_a_known_efficiency(small: Assessment) -> None:
    """400 W × 80 % = 320 W delivered."""
    assert 320.0 == advise(Question(wall_w=400.0, present_efficiency_pct=80.0), small).loads[-1].delivered_w


def test_a_plug_meter_before_a_tested_unit_is_read_through_its_bench(small: Assessment) -> None:
    """Wall power at a load point leads back to that load point."""
    result = small.results[0]
    loss = result.curve("loss")
    assert loss is not None
    point = loss.points[-3]
    question = Question(wall_w=point.load_w + point.quantity.value, present_unit=result.unit.id)

    assert point.load_w == pytest.approx(advise(question, small).loads[-1].delivered_w)


def test_the_plug_shows_more_than_is_delivered_by_the_unit_named(small: Assessment) -> None:
    """Wall = delivered over the efficiency measured on the first unit that fits."""
    advice = advise(Question(delivered_w=354.5), small)
    full = advice.loads[-1]

    assert advice.units[0].unit == full.measured_on
    assert full.wall_w == pytest.approx(354.5 / (advice.units[0].efficiency_pct or 0.0) * 100.0)
    assert 354.5 / 650.0 == full.share
    assert f"(measured on {advice.units[0].name}) = " in plain(advice.steps)


def test_no_unit_that_fails_or_is_held_back_is_ever_named(demo: Assessment) -> None:
    """Safety does not trade, at no load and whatever is wished."""
    unfit = {s.candidate.id for one in demo.home for s in one.ranking.standings if s.candidate.fails or s.candidate.held_back}
    named = {
        unit for load in range(60, 1000, 60) for advice in (advise(Question(delivered_w=float(load)), demo),)
        for unit in (*(one.unit for one in advice.units), *(u for one in advice.give_up for u in one.units))
    }

    assert unfit
    assert named
    assert set() == unfit & named


def test_units_of_the_last_tier_are_not_advised(demo: Assessment) -> None:
    """The last tier is for what is not advised."""
    region = demo.library.guide.regions[0]
    last = demo.library.policy.tiers[-1].id
    low = {s.candidate.id for one in demo.in_region(region.id) for s in one.ranking.standings if s.tier.id == last}

    assert low
    assert set() == low & field_in(demo, region).advised


def test_figures_from_another_mains_are_said_to_be_so(small: Assessment) -> None:
    """The small edition was measured at 230 V."""
    there, here = (plain(advise(Question(delivered_w=354.5, mains_v=v), small).sentences) for v in (120.0, 230.0))

    assert " were measured at 230 V, not at the 120 V of your mains" in there
    assert " were measured at " not in here


def test_every_answer_carries_all_cautions_and_the_circuit(small: Assessment) -> None:
    """Whoever reads one answer may read no other page."""
    advice = advise(Question(delivered_w=300.0), small)

    assert CAUTIONS == advice.cautions
    assert "qualified electrician" in plain(advice.sentences)
    assert "uninterruptible" in plain(advice.sentences)


def test_a_load_beyond_every_rating_is_answered_in_plain_words(small: Assessment) -> None:
    """Nothing to buy, and why."""
    advice = advise(Question(delivered_w=2000.0), small)

    assert (None, ()) == (advice.recommended_rating_w, advice.units)
    assert advice.sentences[0].startswith("No rating in this guide is large enough")
    assert all(one.share is None for one in advice.loads)


def test_the_wish_that_stands_in_the_way_is_named(small: Assessment) -> None:
    """No unit is 50 mm deep."""
    advice = advise(Question(delivered_w=354.5, wishes=Wishes(depth_mm=50.0)), small)

    assert [("depth",)] == [one.wishes for one in advice.give_up]
    assert "If you give up the limit of 50 mm in depth, " in plain(advice.sentences)


def test_running_costs_stand_beside_the_units_that_fit(small: Assessment) -> None:
    """At the tariff of the region."""
    advice = advise(Question(parts=GAMES), small)
    tariff = small.library.guide.regions[0].tariff_per_kwh

    assert advice.costs
    assert {one.unit for one in advice.costs} <= {one.unit for one in advice.units}
    assert all(one.cost.value == pytest.approx(one.energy.energy.value * tariff) for one in advice.costs)


def test_the_answer_has_the_fields_of_the_document(small: Assessment) -> None:
    """The names that others rely on."""
    document = asdict(advise(Question(parts=GAMES), small))

    assert {"recommended_rating_w", "rule", "loads", "units", "cautions"} <= set(document)
    assert {"use", "delivered_w", "wall_w", "share"} <= set(document["loads"][0])
    assert {"unit", "share", "efficiency_pct", "noise_dba", "heat_w"} <= set(document["units"][0])


@pytest.mark.parametrize(("question", "message"), [
    ({}, "expected exactly one of parts, delivered watts and wall watts"),
    ({"delivered_w": 300.0, "wall_w": 300.0}, "expected exactly one of parts, delivered watts and wall watts"),
    ({"delivered_w": -3.0}, "delivered power of -3 W: expected more than 0 and at most 10000 W"),
    ({"delivered_w": 300.0, "region": "ei"}, "no region ei; "),
    ({"delivered_w": 300.0, "profile": "gamng"}, "no reader profile gamng; "),
    ({"delivered_w": 300.0, "mains_v": 12.0}, "mains of 12 V: expected 90 to 264 V, the range that supplies are built for"),
    ({"delivered_w": 300.0, "wishes": Wishes(headroom_pct=-1.0)}, "headroom of -1 %: expected 0 to 200 %"),
    ({"delivered_w": 300.0, "wishes": Wishes(depth_mm=0.0)}, "depth of 0: expected more than 0"),
    ({"delivered_w": 300.0, "wishes": Wishes(budget=float("nan"))}, "budget of nan: expected more than 0"),
    ({"wall_w": 300.0, "present_efficiency_pct": 101.0}, "efficiency of 101 %: expected 50 to 100 %"),
    ({"wall_w": 300.0, "present_unit": "tarnbeck-kiln-65"}, "no unit tarnbeck-kiln-65; did you mean tarnbeck-kiln-650?"),
    ({"wall_w": 3000.0, "present_unit": "tarnbeck-kiln-650"}, "3000 W at the plug lies beyond what was measured on "),
    ({"parts": {"processor.mid": 4, "graphics.hig": 1}}, "no part class graphics.hig; did you mean graphics.high?"),
])
def test_what_cannot_be_answered_is_refused_in_a_sentence(small: Assessment, question: dict[str, Any], message: str) -> None:
    """What came, what was expected, and the nearest right name."""
    with pytest.raises(RequestError) as raised:
        advise(Question(**question), small)

    assert str(raised.value).startswith(message)


@settings(max_examples=25, deadline=None)
@given(load=st.floats(20, 960), headroom=st.floats(0, 50))
def test_every_unit_named_meets_the_rules(demo: Assessment, load: float, headroom: float) -> None:
    """Share within the goal where the goal is met, and the rating never below the recommended one."""
    advice = advise(Question(delivered_w=load, wishes=Wishes(headroom_pct=headroom)), demo)

    assert advice.recommended_rating_w is not None
    limit = 0.6 if advice.found.goal_met else 0.8
    assert all(one.share <= limit * (1 + 1e-9) for one in advice.units)
    assert all(one.rating_w >= advice.recommended_rating_w for one in advice.units)
    order = [(bool(one.absent), one.rating_w, -one.score) for one in advice.units]
    assert order == sorted(order)
