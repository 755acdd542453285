"""How sure an order is: sure of the same things whoever else is tested, and never sure of who may not be placed."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import rankdata

from guidegen.evaluation import Assessment, BracketAssessment, Ranking, rank, robustness_of
from guidegen.evaluation.robustness.acceptability import FEW, Acceptability, accept
from guidegen.evaluation.robustness.draws import any_weights
from guidegen.evaluation.robustness.fields import field_of, values_as_found, values_in_doubt
from guidegen.evaluation.robustness.rank_sets import Estimate, rank_sets
from guidegen.evaluation.robustness.stability import smallest_change
from guidegen.records import Library

WORTHS = st.lists(st.lists(st.floats(0, 1), min_size=3, max_size=3), min_size=2, max_size=5)


def bracket(assessment: Assessment, identifier: str) -> BracketAssessment:
    """A bracket in the home region."""
    return next(one for one in assessment.home if one.ranking.bracket.id == identifier)


def without(ranking: Ranking, library: Library, unit: str) -> Ranking:
    """The same field, one unit fewer."""
    rest = tuple(s.candidate for s in ranking.standings if s.candidate.id != unit)
    seed = library.guide.edition.seed
    return rank(rest, library.policy, bracket=ranking.bracket, region=ranking.region, seed=seed)


def run_of(values: list[list[float]], *, draws: int = 300) -> Acceptability:
    """A run over all weightings at fixed values."""
    names = tuple(f"u{i}" for i in range(len(values)))
    return accept(names, np.array(values)[:, :, None], any_weights(1, ("a", "b", "c"), draws=draws), in_pairs=True)


@pytest.mark.parametrize("left_out", ["halmer-quill-850", "kestrin-bolt-850", "brevik-tarn-850"])
def test_taking_a_unit_out_changes_no_bit_of_the_other_draws(demo_library: Library, demo: Assessment, left_out: str) -> None:
    """Draws belong to units: the shaken values and the pairwise chances of the rest stay what they were."""
    ranking = bracket(demo, "850").ranking
    policy, seed = demo_library.policy, demo_library.guide.edition.seed
    fewer = without(ranking, demo_library, left_out)
    before, after = (
        field_of(tuple((s.candidate.id, s.candidate.score) for s in one.placed), policy, region="ie", bracket="850")
        for one in (ranking, fewer)
    )
    shaken = dict(zip(before.units, values_in_doubt(before, seed, draws=500), strict=True))
    alone = dict(zip(after.units, values_in_doubt(after, seed, draws=500), strict=True))
    whole, part = (robustness_of(one, policy, seed=seed, draws=500) for one in (ranking, fewer))

    assert all(np.array_equal(shaken[unit], values) for unit, values in alone.items())
    assert whole is not None
    assert part is not None
    for first in after.units:
        for second in after.units:
            assert part.measurement.chance_above(first, second) == whole.measurement.chance_above(first, second)


def test_the_same_content_gives_the_same_numbers_and_another_seed_others(demo_library: Library, demo: Assessment) -> None:
    """Equal to the last bit; the seed of the edition is what draws."""
    one = bracket(demo, "650")
    again, other = (
        robustness_of(one.ranking, demo_library.policy, seed=demo_library.guide.edition.seed + step) for step in (0, 1)
    )

    assert one.robustness == again
    assert one.robustness != other


def test_who_fails_a_gate_is_in_no_run(demo: Assessment) -> None:
    """Neither place nor chance for a unit that may not be recommended."""
    for one in demo.home:
        assert one.robustness is not None
        assert one.robustness.units == tuple(s.candidate.id for s in one.ranking.placed)


def test_values_as_found_are_those_that_rank(demo_library: Library, demo: Assessment) -> None:
    """The runs start from the criteria of the scores, and their weights are the editor's."""
    ranking = bracket(demo, "1000").ranking
    scored = tuple((s.candidate.id, s.candidate.score) for s in ranking.placed)
    field = field_of(scored, demo_library.policy, region="ie", bracket="1000")
    weights = np.array(list(field.weights.values()))
    totals = 100 * (values_as_found(field)[:, :, 0] @ weights)

    assert [round(s.candidate.score.low, 9) for s in ranking.placed] == [round(float(t), 9) for t in totals]


def test_shaken_values_scatter_by_the_uncertainty_of_the_score(demo_library: Library, demo: Assessment) -> None:
    """Where nothing is near an anchor's bend the simulation and first order agree: within a tenth, in the middle of all."""
    ratios = []
    for one in demo.home:
        scored = tuple((s.candidate.id, s.candidate.score) for s in one.ranking.placed)
        field = field_of(scored, demo_library.policy, region="ie", bracket=one.ranking.bracket.id)
        weights = np.array(list(field.weights.values()))
        spread = (100 * np.einsum("ucd,c->ud", values_in_doubt(field, 1, draws=4000), weights)).std(axis=1)
        ratios += [float(s) / score.uncertainty for s, (_, score) in zip(spread, scored, strict=True)]

    assert 0.9 < float(np.median(ratios)) < 1.1


@settings(max_examples=30, deadline=None)
@given(WORTHS)
def test_shares_of_places_sum_to_one(values: list[list[float]]) -> None:
    """For every unit; and mean places follow from the pairwise chances, ties or not."""
    run = run_of(values)
    for i, row in enumerate(run.places):
        lost = 1 + sum(run.wins[j][i] for j in range(len(values)))
        assert abs(sum(row) - 1) < 1e-12
        assert abs(sum((r + 1) * share for r, share in enumerate(row)) - lost) < 1e-12


@pytest.mark.parametrize("units", [5, FEW, FEW + 1, 3 * FEW])
def test_places_are_those_of_a_reference_whether_counted_or_sorted(units: int) -> None:
    """Ties share the better place, as ``scipy.stats.rankdata`` has it by ``min``: in small fields and in large ones."""
    rng = np.random.default_rng(units)
    values = rng.integers(0, 40, (units, 1, 50)) / 40
    values[:, :, ::2] = rng.random((units, 1, 25))
    run = accept(tuple(map(str, range(units))), values, np.ones((1, 1)))
    expected = rankdata(-values[:, 0], method="min", axis=0)

    assert [[float((row == place).mean()) for place in range(1, units + 1)] for row in expected] == [list(row) for row in run.places]


@settings(max_examples=30, deadline=None)
@given(WORTHS)
def test_a_unit_that_is_nowhere_worse_is_never_placed_lower(values: list[list[float]]) -> None:
    """Dominance: against its own better double a unit never wins, and is first no more often."""
    better = [min(1.0, value + 0.1) for value in values[0]]
    run = run_of([*values, better])

    assert 0.0 == run.wins[0][-1]
    assert run.places[-1][0] >= run.places[0][0]


@settings(max_examples=30, deadline=None)
@given(WORTHS)
def test_equal_units_share_every_place(values: list[list[float]]) -> None:
    """A double ties in every draw, whatever its name."""
    run = run_of([*values, values[0]])

    assert run.places[0] == run.places[-1]
    assert (0.0, 0.0) == (run.wins[0][-1], run.wins[-1][0])


@settings(max_examples=30, deadline=None)
@given(WORTHS)
def test_central_weights_are_weights_or_nothing(values: list[list[float]]) -> None:
    """They sum to 1; who is never first has none, not zeros."""
    run = run_of(values)
    for row, weights in zip(run.places, run.central_weights, strict=True):
        assert (row[0] == 0) == (weights is None)
        assert weights is None or abs(sum(weights) - 1) < 1e-9


@settings(max_examples=30, deadline=None)
@given(st.lists(st.floats(0, 100), min_size=2, max_size=6), st.floats(0, 5))
def test_a_place_by_score_lies_in_its_rank_set(scores: list[float], own: float) -> None:
    """Whatever the doubt; and no place falls outside the field."""
    field = tuple(Estimate(unit=f"u{i}", low=s, high=s, own=own, shared={}) for i, s in enumerate(scores))
    for one, (best, worst) in zip(field, rank_sets(field, seed=1, draws=500).places, strict=True):
        place = 1 + sum(other.low > one.low + 1e-9 for other in field)
        assert 1 <= best <= place <= worst <= len(field)


@settings(max_examples=50, deadline=None)
@given(st.lists(st.floats(0, 1), min_size=4, max_size=4), st.lists(st.floats(0, 1), min_size=4, max_size=4))
def test_changed_weights_are_weights(first: list[float], other: list[float]) -> None:
    """None below 0, sum 1, and the distance is what they moved."""
    weights = (0.4, 0.3, 0.2, 0.1)
    change = smallest_change(tuple(first), tuple(other), weights)
    if change is not None:
        distance, moved = change
        assert min(moved) >= 0.0
        assert abs(sum(moved) - 1) < 1e-9
        assert abs(distance - sum(abs(a - b) for a, b in zip(moved, weights, strict=True))) < 1e-12


def test_what_was_not_measured_widens_a_place(demo: Assessment) -> None:
    """A score from 50 to 90 may be first or last whatever the meters say."""
    known = Estimate(unit="known", low=70.0, high=70.0, own=0.1, shared={})
    unknown = replace(known, unit="unknown", low=50.0, high=90.0)

    assert ((1, 2), (1, 2)) == rank_sets((known, unknown), seed=demo.library.guide.edition.seed).places
