"""What the browser is given to rank again: all that a score and its doubt rest on, and no more."""

import json
import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from guidegen.evaluation import Assessment, BracketAssessment, Ranking, Standing, assess
from guidegen.evaluation.scores import difference_uncertainties
from guidegen.presentation.weighing import weighing_of
from guidegen.sources import read_library

DEMO = Path(__file__).parent.parent.parent / "content"
Given = dict[str, Any]


@pytest.fixture(scope="module")
def demo() -> Assessment:
    """The demo, assessed."""
    return assess(read_library(DEMO))


def given(ranking: Ranking, demo: Assessment) -> Given:
    """What the page carries."""
    found: Given = json.loads(weighing_of(ranking, demo.library.policy))
    return found


def weights_of(given: Given) -> list[float]:
    """The weight of every part under the policy's own points."""
    whole = math.fsum(one["points"] for one in given["criteria"])
    return [one["points"] / whole * part / math.fsum(one["parts"]) for one in given["criteria"] for part in one["parts"]]


def score(unit: Given, weights: list[float], unknown: float) -> float:
    """The sum of the parts, what was not measured at this worth."""
    worths = (unknown if low is None else low for low in unit["low"])
    return 100 * math.fsum(weight * worth for weight, worth in zip(weights, worths, strict=True))


def test_scores_follow_to_the_last_bit(demo: Assessment) -> None:
    """Every placed unit of every bracket, in the order of the table, with unknowns at their worst and best."""
    for one in demo.home:
        found = given(one.ranking, demo)
        weights = weights_of(found)
        expected = [(s.candidate.id, s.candidate.score.low, s.candidate.score.high) for s in one.ranking.placed]

        assert expected == [(u["id"], score(u, weights, 0), score(u, weights, 1)) for u in found["units"]]


def test_doubts_of_differences_follow(demo: Assessment) -> None:
    """Own doubts in quadrature, shared ones measure by measure as far as they differ, to ten digits of what the evaluation says."""
    for one in demo.home:
        found = given(one.ranking, demo)
        weights, placed = weights_of(found), one.ranking.placed
        measures = [measure for criterion in found["criteria"] for measure in criterion["measures"]]
        for i, first in enumerate(found["units"]):
            for j, second in enumerate(found["units"][:i]):
                own = (x for w, a, b in zip(weights, first["own"], second["own"], strict=True) for x in (w * a, w * b))
                shared: dict[str, float] = {}
                for measure, w, s, t in zip(measures, weights, first["shared"], second["shared"], strict=True):
                    shared[measure] = shared.get(measure, 0.0) + w * (s - t)
                doubt = 100 * math.hypot(*own, *shared.values())

                assert pytest.approx(difference_uncertainties((placed[i].candidate.score, placed[j].candidate.score))[0, 1], rel=1e-10) == doubt


def bracket(demo: Assessment, identifier: str) -> BracketAssessment:
    """A bracket of the home region."""
    return next(one for one in demo.home if one.ranking.bracket.id == identifier)


def untested(standing: Standing) -> Standing:
    """The same unit with its first number never measured."""
    one = standing.candidate
    first, *others = one.score.criteria
    missing = replace(first.parts[0], found=None, low=0.0, high=1.0, own=0.0, shared=0.0)
    criteria = (replace(first, parts=(missing, *first.parts[1:])), *others)
    return replace(standing, candidate=replace(one, score=replace(one.score, criteria=criteria)))


def test_what_was_not_measured_has_no_worth(demo: Assessment) -> None:
    """Nothing stands where a number was never measured, and it counts from nought to one."""
    ranking = bracket(demo, "850").ranking
    first, *others = ranking.standings
    found = given(replace(ranking, standings=(untested(first), *others)), demo)
    unit, weights = found["units"][0], weights_of(found)

    assert None is unit["low"][0]
    assert pytest.approx(100 * weights[0]) == score(unit, weights, 1) - score(unit, weights, 0)


def test_a_line_that_no_weight_changes_is_marked(demo: Assessment) -> None:
    """The Belfry is hard to find whatever counts; that the Ostrand is level with the Quill depends on the weights."""
    found = {unit["id"]: unit["noted"] for unit in given(bracket(demo, "850").ranking, demo)["units"]}

    assert found["quennel-belfry-850"]
    assert not found["ostrand-level-850-ii"]


def test_units_without_a_place_are_left_out(demo: Assessment) -> None:
    """Who fails a gate has no place under any weights."""
    for one in demo.home:
        assert [s.candidate.id for s in one.ranking.placed] == [unit["id"] for unit in given(one.ranking, demo)["units"]]


def test_one_unit_alone_has_nothing_to_be_ranked_against(demo: Assessment) -> None:
    """With fewer than two places there is nothing to weigh."""
    ranking = bracket(demo, "850").ranking

    assert "" == weighing_of(replace(ranking, standings=ranking.standings[:1]), demo.library.policy)


def test_whole_numbers_are_written_short(demo: Assessment) -> None:
    """Worth one is ``1``, and nought has neither sign nor point."""
    text = weighing_of(bracket(demo, "850").ranking, demo.library.policy)

    assert not [number for number in ("1.0,", "0.0,", "-0,", "-0]") if f",{number}" in text]
