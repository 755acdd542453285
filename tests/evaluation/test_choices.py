"""Choices: by the policy's rules, never a unit that is held back, and overridden only with a reason."""

from dataclasses import replace
from itertools import pairwise

from guidegen.evaluation import Assessment, assess, choose, price_front, price_of
from guidegen.evaluation.choices import point_price
from guidegen.records import Library, Override


def chosen_units(assessment: Assessment, bracket: str) -> dict[str, str | None]:
    """The unit of each choice in a bracket of the home region."""
    one = next(b for b in assessment.home if b.ranking.bracket.id == bracket)
    return {c.rule.id: c.standing.candidate.id if c.standing else None for c in one.choices}


def test_the_excellent_unit_that_is_hard_to_find_is_not_chosen(demo: Assessment) -> None:
    """The Belfry is the best before price and can't be bought: no price counts, its score is a range, and another is chosen."""
    ranking = next(b for b in demo.home if b.ranking.bracket.id == "850").ranking

    best = max(ranking.standings, key=lambda standing: standing.candidate.score.technical).candidate

    assert ("quennel-belfry-850", True) == (best.id, best.prices.only_out_of_stock)
    assert best.score.low < ranking.standings[0].candidate.score.low < best.score.high
    assert "quennel-belfry-850" not in chosen_units(demo, "850").values()


def test_no_choice_anywhere_fails_a_gate_or_is_held_back(demo: Assessment) -> None:
    """In every bracket and region."""
    chosen = [c.standing.candidate for b in demo.brackets for c in b.choices if c.standing]

    assert not any(one.fails or one.held_back for one in chosen)


def test_a_protection_that_was_not_tested_holds_a_unit_back(demo: Assessment) -> None:
    """Not tested is never a pass: the Highway 750 has a place and is in no choice."""
    ranking = next(b for b in demo.home if b.ranking.bracket.id == "750").ranking
    standing = ranking.standing("marlowe-and-fenn-highway-750")

    assert standing is not None
    assert (True, True) == (standing.place is not None, standing.candidate.held_back)
    assert "marlowe-and-fenn-highway-750" not in chosen_units(demo, "750").values()


def test_the_quietest_choice_has_the_lowest_noise_of_all_that_may_be_chosen(demo: Assessment) -> None:
    """Recomputed over the field."""
    one = next(b for b in demo.home if b.ranking.bracket.id == "650")
    rule = next(c for c in one.choices if c.rule.id == "quietest")
    able = [s.candidate for s in one.ranking.placed if not s.candidate.held_back and s.candidate.prices.available
            and s.candidate.score.low >= rule.rule.least_score]
    levels = {c.id: found.quantity.value for c in able if (found := c.finding("acoustic_noise.mean"))}

    assert rule.standing is not None
    assert min(levels, key=lambda i: levels[i]) == rule.standing.candidate.id


def test_nothing_beats_a_unit_on_the_front_in_both_price_and_score(demo: Assessment) -> None:
    """Brute force over every pair in every bracket."""
    for bracket in demo.home:
        front = price_front(list(bracket.ranking.placed))
        for member in front:
            rivals = [s for s in bracket.ranking.placed if s is not member]
            assert not any(
                price_of(s) <= price_of(member) and s.candidate.score.technical > member.candidate.score.technical + 1e-9
                and price_of(s) < float("inf")
                for s in rivals
            )


def test_an_override_is_used_with_its_reason_and_keeps_what_the_rule_chose(demo: Assessment, demo_library: Library) -> None:
    """The editor's choice stands beside the rule's."""
    one = next(b for b in demo.home if b.ranking.bracket.id == "850")
    override = Override(bracket="850", choice="first", unit="brevik-tarn-850", reason="Quieter by far for two points.")
    made = choose(one.ranking, replace(demo_library.policy, overrides=(override,)))[0]

    assert made.standing is not None
    assert made.by_rule is not None
    assert ("brevik-tarn-850", "halmer-quill-850") == (made.standing.candidate.id, made.by_rule.candidate.id)


def test_an_override_can_not_choose_a_unit_that_fails(demo: Assessment, demo_library: Library) -> None:
    """Safety does not trade, not even by hand."""
    one = next(b for b in demo.home if b.ranking.bracket.id == "850")
    override = Override(bracket="850", choice="first", unit="kestrin-bolt-850", reason="It is cheap.")
    made = choose(one.ranking, replace(demo_library.policy, overrides=(override,)))[0]

    assert made.standing is not None
    assert ("halmer-quill-850", None) == (made.standing.candidate.id, made.override)


def test_an_empty_bracket_makes_no_choice_and_no_error(demo_library: Library) -> None:
    """A bracket without units is a sentence on the page, not a crash."""
    kept = tuple(u for u in demo_library.units if u.record.rated_power_w < 1400)
    names = {u.id for u in kept}
    fewer = assess(replace(demo_library, units=kept, sessions=tuple(s for s in demo_library.sessions if s.unit in names)))

    assert {"first": None, "quietest": None, "value": None, "shortest": None} == chosen_units(fewer, "1600")


def test_best_value_goes_up_the_front_while_a_point_is_cheap(demo: Assessment) -> None:
    """From the chosen unit down every step cost at most 1 % of the price a point, and the next step up costs more."""
    for bracket in demo.home:
        chosen = next(c for c in bracket.choices if c.rule.id == "value")
        if chosen.standing is None:
            continue
        able = [s for s in bracket.ranking.placed if not s.candidate.held_back and s.candidate.prices.available
                and s.candidate.score.low >= chosen.rule.least_score]
        front = price_front(able)
        here = front.index(chosen.standing)
        steps = [point_price(a, b) / price_of(a) for a, b in pairwise(front)]

        assert all(step <= 0.01 for step in steps[:here])
        assert here == len(front) - 1 or steps[here] > 0.01
