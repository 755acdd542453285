"""Simulated places, rank sets and stability against published numbers and closed forms."""

import math
from itertools import product

import numpy as np
from numpy.testing import assert_allclose
from pymcdm.methods import SPOTIS
from scipy.optimize import linprog
from scipy.special import ndtr

from guidegen.evaluation.robustness.acceptability import Acceptability, accept, confidence_factors
from guidegen.evaluation.robustness.draws import Draws, any_weights, near_weights, normals, uniforms
from guidegen.evaluation.robustness.rank_sets import Estimate, rank_sets
from guidegen.evaluation.robustness.stability import crossover, smallest_change, unseat
from guidegen.evaluation.value_functions import worth_of
from guidegen.records import Anchor

SEED = 20261118
MANY = 100_000


def weightings(criteria: int, *, draws: int = MANY) -> Draws:
    """Weights evenly over all weightings of so many criteria."""
    return any_weights(SEED, tuple(f"c{k}" for k in range(criteria)), draws=draws)


def at_fixed_values(values: list[list[float]], *, draws: int = MANY) -> Acceptability:
    """A run over all weightings at values that have no doubt."""
    names = tuple(f"a{i}" for i in range(len(values)))
    return accept(names, np.array(values)[:, :, None], weightings(len(values[0]), draws=draws), in_pairs=True)


def test_units_that_are_best_at_one_thing_each_are_first_equally_often() -> None:
    """Closed form: b¹ = 1/n, central weight on the own criterion H_n/n (n = 2: .75; n = 3: .6111; n = 5: .4567)."""
    for n, own in ((2, 0.75), (3, 11 / 18), (5, 137 / 300)):
        run = at_fixed_values(np.eye(n).tolist())
        rest = (1 - own) / (n - 1)

        assert_allclose([row[0] for row in run.places], 1 / n, atol=0.006)
        assert_allclose(
            np.array([w for w in run.central_weights if w is not None]), np.eye(n) * (own - rest) + rest, atol=0.006
        )


def test_a_compromise_between_two_extremes() -> None:
    """Closed form for (1, 0), (0, 1), (.6, .6): first in .4, .4, .2; central weights (.8, .2), (.2, .8), (.5, .5)."""
    run = at_fixed_values([[1, 0], [0, 1], [0.6, 0.6]])

    assert_allclose(np.array(run.places), [[0.4, 0.1, 0.5], [0.4, 0.1, 0.5], [0.2, 0.8, 0]], atol=0.006)
    assert_allclose(np.array([w for w in run.central_weights if w]), [[0.8, 0.2], [0.2, 0.8], [0.5, 0.5]], atol=0.006)
    assert math.isclose(run.chance_above("a2", "a0"), 0.6, abs_tol=0.006)


MEANS = ((0.0, 11.7, 7.2, 16.6, 13.7, 18.6), (0.086, 9.2, 10.6, 21.2, 14.3, 18.3),
         (0.095, 15.4, 7.5, 20.2, 15.0, 19.5), (0.113, 5.5, 15.7, 12.8, 11.2, 31.0))
SPREADS = ((0.0, 2.5, 1.45, 3.27, 1.89, 1.79), (0.056, 1.86, 1.58, 5.15, 2.93, 3.7),
           (0.044, 2.65, 1.48, 3.78, 3.21, 2.6), (0.048, 2.32, 4.44, 2.45, 3.98, 1.68))
"""Means and standard deviations; of the logarithm in the first criterion, which is the only one to be maximised."""
PLACES = ((0.20, 0.28, 0.30, 0.22), (0.25, 0.29, 0.27, 0.19), (0.17, 0.25, 0.29, 0.30), (0.39, 0.18, 0.15, 0.29))
CENTRAL = ((0.08, 0.14, 0.23, 0.18, 0.16, 0.22), (0.18, 0.17, 0.15, 0.13, 0.15, 0.22),
           (0.21, 0.10, 0.22, 0.13, 0.15, 0.20), (0.18, 0.21, 0.12, 0.21, 0.19, 0.09))
CONFIDENCE = (0.48, 0.44, 0.34, 0.74)


def benefit_and_risk_values(draws: int) -> Draws:
    """Values of the four treatments, linear between the hull of mean ± 1.96 deviations and beyond it."""
    values = np.empty((4, 6, draws))
    for k in range(6):
        low = min(m[k] - 1.96 * s[k] for m, s in zip(MEANS, SPREADS, strict=True))
        high = max(m[k] + 1.96 * s[k] for m, s in zip(MEANS, SPREADS, strict=True))
        for i in range(4):
            x = MEANS[i][k] + SPREADS[i][k] * normals(SEED, f"a{i}", f"c{k}", draws=draws)
            if k == 0:
                values[i, k] = (np.exp(x) - math.exp(low)) / (math.exp(high) - math.exp(low))
            else:
                values[i, k] = (high - x) / (high - low)
    return values


def test_the_published_model_of_four_treatments_and_six_criteria() -> None:
    """Benefit and risk of four antidepressants (Tervonen and others, A stochastic multicriteria model for
    evidence-based decision making in drug benefit–risk analysis, Statistics in Medicine 30 (2011) 1419–1428);
    shares within .02, central weights within .02, confidence factors within .03 of what is published.
    """
    values = benefit_and_risk_values(MANY)
    run = accept(("fluoxetine", "paroxetine", "sertraline", "venlafaxine"), values, weightings(6), in_pairs=True)
    central = np.array([w for w in run.central_weights if w is not None])

    assert_allclose(np.array(run.places), PLACES, atol=0.02)
    assert_allclose(central, CENTRAL, atol=0.02)
    assert_allclose([c or 0.0 for c in confidence_factors(values, run.central_weights)], CONFIDENCE, atol=0.03)


def test_mean_places_are_what_the_pairwise_indices_say() -> None:
    """Exact in every sample: Σ r·b_i^r = 1 + Σ_j P(j above i); and P(i above j) + P(j above i) + P(tie) = 1."""
    run = accept(("a", "b", "c", "d"), benefit_and_risk_values(2000), weightings(6, draws=2000), in_pairs=True)
    means = [sum((r + 1) * share for r, share in enumerate(row)) for row in run.places]
    lost = [1 + sum(run.wins[j][i] for j in range(4)) for i in range(4)]

    assert_allclose(means, lost, atol=1e-12)
    assert_allclose(np.array(run.wins) + np.array(run.wins).T, 1 - np.eye(4), atol=1e-12)


def test_two_readings_in_doubt_win_as_the_normal_distribution_says() -> None:
    """P(A above B) = Φ(Δ/√(σ₁² + σ₂²)): .6 and .5 with σ .1 and .05 give Φ(.8944) = .8144."""
    values = np.stack([[0.6 + 0.1 * normals(SEED, "a", draws=MANY)], [0.5 + 0.05 * normals(SEED, "b", draws=MANY)]])
    chance = accept(("a", "b"), values, np.ones((1, 1)), in_pairs=True).chance_above("a", "b")

    assert math.isclose(chance, float(ndtr(0.1 / math.hypot(0.1, 0.05))), abs_tol=0.005)


def test_weights_are_drawn_evenly_over_all_weightings() -> None:
    """Eight criteria: standard deviation .1102 and P(largest > .4) = 8·.6⁷ − 28·.2⁷ = .2236 (uniform numbers over
    their sum would give .0716 and .0035); four criteria, sorted: means .5208 .2708 .1458 .0625.
    """
    weights, four = weightings(8), weightings(4)

    assert_allclose(weights.sum(axis=0), 1.0, rtol=1e-12)
    assert_allclose(weights.std(axis=1), 0.1102, atol=0.002)
    assert math.isclose(float((weights.max(axis=0) > 0.4).mean()), 8 * 0.6**7 - 28 * 0.2**7, abs_tol=0.006)
    assert_allclose(np.sort(four, axis=0)[::-1].mean(axis=1), [0.5208, 0.2708, 0.1458, 0.0625], atol=0.004)


def test_weights_near_the_editors_scatter_as_dirichlet_does() -> None:
    """Mean w and standard deviation √(w(1 − w)/(K + 1)): w = .4 and K = 50 give .0686."""
    weights = near_weights(SEED, {"a": 0.4, "b": 0.35, "c": 0.25}, nearness=50.0, draws=MANY)

    assert_allclose(weights.mean(axis=1), [0.4, 0.35, 0.25], atol=0.001)
    assert math.isclose(float(weights[0].std()), math.sqrt(0.4 * 0.6 / 51), abs_tol=0.001)


def test_draws_are_the_same_numbers_for_ever() -> None:
    """Philox with a key from BLAKE2b, raw bits: never 0 or 1, uniform, and bit for bit what they were."""
    numbers = uniforms(7, "a", "b", draws=MANY)

    assert (0.0 < numbers.min(), numbers.max() < 1.0) == (True, True)
    assert_allclose([numbers.mean(), numbers.std()], [0.5, 12**-0.5], atol=0.005)
    assert uniforms(7, "a", "b", draws=3).tolist() == numbers[:3].tolist()
    assert not np.array_equal(uniforms(7, "b", "a", draws=3), numbers[:3])


FIELD = (0.742, 0.735, 0.731, 0.712, 0.690, 0.655)


def estimates(scores: tuple[float, ...], own: float) -> tuple[Estimate, ...]:
    """Estimates without shared errors."""
    return tuple(Estimate(unit=f"u{i}", low=s, high=s, own=own, shared={}) for i, s in enumerate(scores))


def test_rank_sets_of_six_scores_in_doubt() -> None:
    """An invented field, .742 .735 .731 .712 .690 .655 with u = .010, by the step-down of Mogstad, Romano, Shaikh and
    Wilhelm (recomputed, in no published table): critical value 2.846, below Bonferroni's 2.935, and sets that overlap
    without falling into groups.
    """
    found = rank_sets(estimates(FIELD, 0.010), seed=SEED, draws=MANY)

    assert math.isclose(found.critical_values[0], 2.846, abs_tol=0.02)
    assert found.places == ((1, 4), (1, 4), (1, 4), (1, 5), (4, 6), (5, 6))


def test_one_pair_needs_what_a_two_sided_test_needs() -> None:
    """Two units are two ordered pairs: the critical value is 1.960."""
    found = rank_sets(estimates((1.0, 0.0), 1.0), seed=SEED, draws=MANY)

    assert math.isclose(found.critical_values[0], 1.960, abs_tol=0.02)


def test_rank_sets_shrink_to_places_as_the_doubt_vanishes() -> None:
    """As u → 0 every set is the place itself; without any doubt as well."""
    for own in (1e-6, 0.0):
        assert rank_sets(estimates(FIELD, own), seed=SEED).places == tuple((i, i) for i in range(1, 7))


def test_simultaneous_sets_hold_the_truth_and_the_pairwise_ones() -> None:
    """In 300 invented experiments all six true places lie in their sets at once in 95 % or more (three standard
    deviations of chance allowed), and no set is narrower than that of separate tests at 1.645.
    """
    noise = np.stack([normals(SEED, "experiment", str(i), draws=300) for i in range(6)])
    held = 0
    for run in range(300):
        seen = tuple(score + 0.01 * float(noise[i, run]) for i, score in enumerate(FIELD))
        sets = rank_sets(estimates(seen, 0.01), seed=SEED, draws=2000).places
        held += all(best <= i + 1 <= worst for i, (best, worst) in enumerate(sets))
        for own, (best, worst) in zip(seen, sets, strict=True):
            assert best <= 1 + sum(other - own > 1.645 * 0.01 * 2**0.5 for other in seen)
            assert worst >= 6 - sum(own - other > 1.645 * 0.01 * 2**0.5 for other in seen)

    assert held >= 300 * 0.95 - 3 * (300 * 0.95 * 0.05) ** 0.5


def test_an_error_that_all_share_does_not_blur_the_order() -> None:
    """η .9130 and .9100, u .0013 each of which .0011 is common: told apart by the own part alone, not if it were all own."""
    own = math.sqrt(0.0013**2 - 0.0011**2)
    shared = tuple(Estimate(unit=n, low=v, high=v, own=own, shared={"meter": 0.0011}) for n, v in (("a", 0.913), ("b", 0.91)))

    assert ((1, 1), (2, 2)) == rank_sets(shared, seed=SEED).places
    assert ((1, 2), (1, 2)) == rank_sets(estimates((0.913, 0.910), 0.0013), seed=SEED).places


def test_the_offices_change_order_where_the_book_says() -> None:
    """Goodwin and Wright, Decision Analysis for Management Judgment, ch. 3: weight of turnover from 0 to 100, office E
    81.7 to 60.4, crossed by A at 52.1; with unrounded weights (columns of E from memory, they reproduce the book).
    """
    swings = (100.0, 80.0, 70.0, 30.0, 20.0, 10.0)
    a, e = (100, 60, 100, 75, 0, 90), (40, 60, 90, 100, 60, 70)

    def halves(values: tuple[int, ...]) -> tuple[float, float]:
        weighed = [w * v for w, v in zip(swings, values, strict=True)]
        return sum(weighed[:3]) / sum(swings[:3]), sum(weighed[3:]) / sum(swings[3:])

    weight = crossover(halves(e), halves(a), (sum(swings[:3]) / sum(swings), sum(swings[3:]) / sum(swings)), 0)

    assert (60.4, 81.7) == tuple(round(half, 1) for half in halves(e))
    assert 52.1 == round(100 * (weight or 0.0), 1)


VALUES = ((0.9, 0.3, 0.6, 0.5), (0.7, 0.8, 0.4, 0.5), (0.5, 0.6, 0.9, 0.2), (0.6, 0.2, 0.5, 0.4))
WEIGHTS = (0.4, 0.2, 0.3, 0.1)


def score(values: tuple[float, ...], weights: tuple[float, ...]) -> float:
    """The additive score."""
    return math.fsum(w * v for w, v in zip(weights, values, strict=True))


def test_a_crossing_is_where_the_order_changes() -> None:
    """Brute force, as Triantaphyllou and Sánchez (Decision Sciences 28 (1997) 151–194) check theirs: apply the
    change and rank again, for every pair and criterion; where there is no crossing, no weight changes the order.
    """
    for first, second, moved in product(VALUES, VALUES, range(4)):
        at = crossover(first, second, WEIGHTS, moved)
        if at is None:
            signs = {np.sign(round(lead(first, second, moved, t / 50), 12)) for t in range(51)} - {0.0}
            assert len(signs) <= 1
        else:
            around = [lead(first, second, moved, min(max(at + step, 0.0), 1.0)) for step in (-1e-3, 0.0, 1e-3)]
            assert math.isclose(around[1], 0.0, abs_tol=1e-12)
            assert around[0] * around[2] <= 0.0


def lead(first: tuple[float, ...], second: tuple[float, ...], moved: int, weight: float) -> float:
    """The difference of two scores with one weight set and the others in their proportions."""
    rest = 1 - WEIGHTS[moved]
    weights = tuple(weight if k == moved else w * (1 - weight) / rest for k, w in enumerate(WEIGHTS))
    return score(first, weights) - score(second, weights)


def least_by_programme(first: tuple[float, ...], other: tuple[float, ...]) -> float | None:
    """The same question put to a linear programme: weights up and down, their sum least."""
    n = len(WEIGHTS)
    gains = np.subtract(other, first)
    found = linprog(
        np.ones(2 * n), A_ub=[-np.concatenate([gains, -gains])], b_ub=[float(gains @ WEIGHTS)],
        A_eq=[np.concatenate([np.ones(n), -np.ones(n)])], b_eq=[0.0], bounds=[(0, None)] * n + [(0, w) for w in WEIGHTS],
    )
    return found.fun if found.status == 0 else None


def test_the_smallest_change_of_weights_is_that_of_a_linear_programme() -> None:
    """Against HiGHS for every pair; nothing where the one is nowhere better."""
    for first, other in product(VALUES, VALUES):
        expected, found = least_by_programme(first, other), smallest_change(first, other, WEIGHTS)
        assert (expected is None) == (found is None)
        if expected is not None and found is not None:
            assert math.isclose(expected, found[0], abs_tol=1e-9)
            assert score(other, found[1]) >= score(first, found[1]) - 1e-12


def test_no_smaller_change_unseats_the_first() -> None:
    """Brute force: of 20 000 weightings none that lies nearer has another unit first."""
    found = unseat(tuple((str(i), row) for i, row in enumerate(VALUES)), WEIGHTS)
    weights = near_weights(SEED, dict(zip("abcd", WEIGHTS, strict=True)), nearness=80.0, draws=20_000)
    totals = np.array(VALUES) @ weights
    nearer = np.abs(weights - np.array(WEIGHTS)[:, None]).sum(axis=0) < (found.distance if found else 0.0)

    assert found is not None
    assert ("1", True) == (found.to, bool(nearer.any()))
    assert {0} == set(totals[:, nearer].argmax(axis=0).tolist())


def test_anchored_values_are_one_less_the_distance_of_another_method() -> None:
    """With linear anchors the score is Σw less the SPOTIS distance (Dezert and others, The SPOTIS rank reversal free
    method, FUSION 2020), here by pymcdm on that paper's example A (.1989 .3707 .3063 .7491, published to .001).
    """
    matrix = np.array([[10.5, -3.1, 1.7], [-4.7, 0, 3.4], [8.1, 0.3, 1.3], [3.2, 7.3, -5.3]])
    bounds, kinds, weights = np.array([[-5, 12], [-6, 10], [-8, 5]]), np.array([1, -1, 1]), np.array([0.2, 0.3, 0.5])
    distances = SPOTIS(bounds)(matrix, weights, kinds)
    ours = [
        1 - math.fsum(
            w * worth_of(x, (Anchor(at=low, worth=float(kind < 0)), Anchor(at=high, worth=float(kind > 0)))).worth
            for w, x, (low, high), kind in zip(weights, row, bounds, kinds, strict=True)
        )
        for row in matrix
    ]

    assert_allclose(ours, distances, atol=1e-12)
    assert_allclose(ours, [0.1989, 0.3707, 0.3063, 0.7491], atol=1e-3)
