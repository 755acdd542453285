"""Units worth testing next, held to closed forms."""

import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from scipy.stats import norm

from guidegen.evaluation import Assessment, BracketAssessment, Deciding, Standing, assess, deciding_units
from guidegen.evaluation.gates import GateOutcome
from guidegen.evaluation.scores import PartScore
from guidegen.records import Library
from guidegen.sources import read_library

SMALL = Path(__file__).parents[1] / "small_edition" / "content"
OUTCOMES: tuple[GateOutcome, ...] = ("inconclusive", "not_tested")
UNIT = "wexcombe-ember-550"


@pytest.fixture(scope="module")
def library() -> Library:
    """The small edition."""
    return read_library(SMALL)


def bracket_of(guide: Assessment) -> BracketAssessment:
    """The bracket of 550 W at home."""
    return next(one for one in guide.home if one.ranking.bracket.id == "550")


def without_noise(library: Library) -> Library:
    """The library with nothing heard of one unit."""
    return replace(library, sessions=tuple(
        replace(s, record=replace(s.record, noise_sweep=None, load_points=tuple(replace(p, noise_dba=None) for p in s.record.load_points)))
        if s.unit == UNIT else s for s in library.sessions))


def doubtful(standing: Standing, points: float) -> Standing:
    """The unit with a score that is doubtful by so many points, all of it through its first part."""
    first = standing.candidate.score.parts[0]
    return changed(standing, lambda part: replace(part, own=points / 100.0 if part is first else 0.0))


def better(standing: Standing, points: float) -> Standing:
    """The unit with so many more points, all of them for its first part."""
    first = standing.candidate.score.parts[0]
    return changed(standing, lambda part: replace(part, low=part.low + points / (100.0 * part.weight)) if part is first else part)


def changed(standing: Standing, change: Callable[[PartScore], PartScore]) -> Standing:
    """The unit with every part of its score changed."""
    score = standing.candidate.score
    parts = {id(part): change(part) for part in score.parts}
    criteria = tuple(replace(c, parts=tuple(parts[id(part)] for part in c.parts)) for c in score.criteria)
    return replace(standing, candidate=replace(standing.candidate, score=replace(score, criteria=criteria)))


def asked(one: BracketAssessment) -> dict[str, Deciding]:
    """What decides the first choice, by unit."""
    found = deciding_units(one.ranking, one.choices, seed=1)
    return {unit.standing.candidate.id: unit for unit in found if unit.rule.rule == "highest_score"}


@pytest.mark.parametrize("place", [0, 1])
def test_chance_and_gain_are_those_of_the_normal_distribution(library: Library, place: int) -> None:
    """A lead m, doubtful by s, turns with Φ(−m/s), for s·φ(m/s) − m·Φ(−m/s) on average (unit normal loss; Raiffa and Schlaifer 1961,
    from memory), whichever of the two units is the doubtful one.
    """
    one = bracket_of(assess(library))
    lead = one.ranking.placed[0].candidate.score.low - one.ranking.placed[1].candidate.score.low
    unit = one.ranking.placed[place].candidate.id
    standings = tuple(doubtful(s, 10.0 if s.candidate.id == unit else 0.0) for s in one.ranking.standings)
    found = asked(replace(one, ranking=replace(one.ranking, standings=standings)))

    assert {unit} == set(found)
    assert found[unit].chance == pytest.approx(norm.sf(lead / 10), abs=0.015)
    assert found[unit].gain == pytest.approx(10 * norm.pdf(lead / 10) - lead * norm.sf(lead / 10), abs=0.12)


def test_what_was_not_measured_lies_anywhere(library: Library) -> None:
    """Two parts unknown, of a and b points: their sum passes a gap d above the larger with (a + b − d)²/2ab."""
    one = bracket_of(assess(without_noise(library)))
    standing = one.ranking.standing(UNIT)
    assert standing is not None
    a, b = (100 * part.weight for part in standing.candidate.score.parts if part.found is None)
    gap = max(a, b) + 0.3 * min(a, b)
    nearer = better(standing, one.ranking.placed[0].candidate.score.low - standing.candidate.score.low - gap)
    found = asked(replace(one, ranking=replace(one.ranking, standings=tuple(nearer if s is standing else s for s in one.ranking.standings))))

    assert {UNIT} == set(found)
    assert found[UNIT].chance == pytest.approx((a + b - gap) ** 2 / (2 * a * b), abs=0.02)
    assert ["acoustic_noise.at_50", "acoustic_noise.at_100"] == [part.finding for part in found[UNIT].missing]


def test_a_unit_kept_back_by_a_failure_is_not_worth_testing(library: Library) -> None:
    """One that fails a gate decides nothing; one whose gate was only not tested may."""
    one = bracket_of(assess(library))
    wide = replace(one, ranking=replace(one.ranking, standings=tuple(doubtful(s, 20.0) for s in one.ranking.standings)))
    kept = {outcome: asked(_kept_back(wide, outcome)) for outcome in OUTCOMES}

    assert (False, True) == (UNIT in kept["inconclusive"], UNIT in kept["not_tested"])
    assert 1 == len(kept["not_tested"][UNIT].gates)


def _kept_back(one: BracketAssessment, outcome: GateOutcome) -> BracketAssessment:
    """The bracket with a gate of this outcome before the unit."""
    def held(standing: Standing) -> Standing:
        first, *others = standing.candidate.gates
        gate = replace(first, outcome=outcome, gate=replace(first.gate, not_tested="hold_back"))
        return replace(standing, candidate=replace(standing.candidate, gates=(gate, *others)))

    standings = tuple(held(s) if s.candidate.id == UNIT else s for s in one.ranking.standings)
    return replace(one, ranking=replace(one.ranking, standings=standings))


def test_a_sure_order_leaves_nothing_to_test(library: Library) -> None:
    """Without any doubt no unit can change the choice."""
    one = bracket_of(assess(library))
    sure = replace(one, ranking=replace(one.ranking, standings=tuple(doubtful(s, 0.0) for s in one.ranking.standings)))

    assert {} == asked(sure)
    assert all(math.isfinite(unit.gain) for unit in asked(one).values())
