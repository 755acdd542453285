"""Places: by score, as ranges, for nobody who fails a gate, and never moved by a newcomer."""

from dataclasses import replace

import pytest

from guidegen.evaluation import Assessment, Ranking, assess, rank
from guidegen.evaluation.rankings import tier_of
from guidegen.records import Library


def scores_of(assessment: Assessment) -> dict[tuple[str, str], float]:
    """Every score, by region and unit."""
    return {
        (one.ranking.region.id, s.candidate.id): s.candidate.score.low
        for one in assessment.brackets
        for s in one.ranking.standings
    }


@pytest.mark.parametrize("left_out", ["halmer-quill-850", "kestrin-bolt-850", "ostrand-level-750", "norvane-plain-450"])
def test_taking_a_unit_out_changes_no_other_score_by_a_bit(demo_library: Library, demo: Assessment, left_out: str) -> None:
    """A score is absolute: testing one more unit never moves the others."""
    fewer = replace(
        demo_library,
        units=tuple(u for u in demo_library.units if u.id != left_out),
        sessions=tuple(s for s in demo_library.sessions if s.unit != left_out),
    )
    rest = {key: score for key, score in scores_of(demo).items() if key[1] != left_out}

    assert rest == scores_of(assess(fewer))


def test_the_order_of_the_records_changes_nothing(demo_library: Library, demo: Assessment) -> None:
    """Places do not depend on the order in which units were read (a rotation, which is not its own inverse)."""
    units = demo_library.units
    rotated = replace(demo_library, units=(*units[11:], *units[:11]))
    places = [[(s.candidate.id, s.place, s.best, s.worst) for s in b.ranking.placed] for b in demo.brackets]

    assert places == [[(s.candidate.id, s.place, s.best, s.worst) for s in b.ranking.placed] for b in assess(rotated).brackets]


def test_a_bracket_knows_nothing_of_the_others(demo_library: Library, demo: Assessment) -> None:
    """Emptying one bracket leaves the places in the rest as they were."""
    kept = tuple(u for u in demo_library.units if not 800 <= u.record.rated_power_w < 900)
    names = {u.id for u in kept}
    without = assess(replace(demo_library, units=kept, sessions=tuple(s for s in demo_library.sessions if s.unit in names)))

    for before, after in zip(demo.brackets, without.brackets, strict=True):
        if before.ranking.bracket.id != "850":
            assert [s.candidate.id for s in before.ranking.standings] == [s.candidate.id for s in after.ranking.standings]


def test_who_fails_a_gate_has_no_place_and_the_last_tier(demo: Assessment) -> None:
    """Whatever its price: the cheap unit with too much ripple is shown and not ranked."""
    standing = next(b for b in demo.home if b.ranking.bracket.id == "850").ranking.standing("kestrin-bolt-850")

    assert standing is not None
    assert (None, "Not advised", True) == (standing.place, standing.tier.title, standing.candidate.fails)


def test_a_ranking_that_places_a_failing_unit_cannot_be_made(demo: Assessment) -> None:
    """The rule is held by the value itself."""
    ranking = next(b for b in demo.home if b.ranking.bracket.id == "850").ranking
    failing = next(s for s in ranking.standings if s.candidate.fails)
    with pytest.raises(ValueError, match="can't hold place 1"):
        Ranking(bracket=ranking.bracket, region=ranking.region, standings=(replace(failing, place=1),))


def test_two_equal_units_share_a_place_and_are_not_ordered_by_name(demo: Assessment, demo_library: Library) -> None:
    """A copy under another name ties: same place, each level with the other."""
    ranking = next(b for b in demo.home if b.ranking.bracket.id == "1000").ranking
    one = ranking.standings[0].candidate
    twin_unit = replace(one.result.unit, id="zz-twin")
    twin = replace(one, result=replace(one.result, unit=twin_unit))
    both = rank((one, twin), demo_library.policy, bracket=ranking.bracket, region=ranking.region)

    assert [(1, 1, 2), (1, 1, 2)] == [(s.place, s.best, s.worst) for s in both.standings]


def test_the_units_made_on_one_platform_are_level(demo: Assessment) -> None:
    """The demo's two units that can't be told apart share a range of places."""
    ranking = next(b for b in demo.home if b.ranking.bracket.id == "1000").ranking
    atlas = ranking.standing("orrin-vale-atlas-1000")

    assert atlas is not None
    assert "tallow-and-pike-steady-1000" in atlas.level_with


def test_a_place_always_lies_in_its_range(demo: Assessment) -> None:
    """Best ≤ place ≤ worst for every placed unit in every region."""
    placed = [s for b in demo.brackets for s in b.ranking.placed]

    assert all((s.best or 0) <= (s.place or 0) <= (s.worst or 0) for s in placed)


def test_a_tier_is_taken_from_the_unrounded_score(demo_library: Library) -> None:
    """69.96 prints as 70.0 and is still below 70."""
    tiers = demo_library.policy.tiers
    edge = tiers[1].from_score

    assert (tiers[1].title, tiers[2].title) == (tier_of(edge, tiers).title, tier_of(edge - 0.04, tiers).title)
