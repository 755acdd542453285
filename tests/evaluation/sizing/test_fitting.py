"""The units that fit: advised, within the rule, best score first; and which wish to give up."""

from dataclasses import replace
from typing import Any

import pytest

from guidegen.evaluation import Assessment
from guidegen.evaluation.curves import efficiency_at, value_at
from guidegen.evaluation.running_costs import UseLoad
from guidegen.evaluation.sizing import Field, FitList, Load, Plugs, Search, Wishes, fit_units

HEARTH, KILN, CAIRN, EMBER = "tarnbeck-hearth-650", "tarnbeck-kiln-650", "ostrevant-cairn-550", "wexcombe-ember-550"


@pytest.fixture
def everything(small: Assessment) -> Field:
    """All four units advised, with scores and prices."""
    return Field(
        results=small.results, advised=frozenset({HEARTH, KILN, CAIRN, EMBER}),
        scores={HEARTH: 50.0, KILN: 70.0, CAIRN: 60.0, EMBER: 40.0}, prices={HEARTH: 80.0, KILN: 120.0, CAIRN: 90.0},
    )


def fitting(small: Assessment, field: Field, full_w: float, **wishes: Any) -> FitList:
    """The list for a load with these wishes."""
    wished = Wishes(**wishes)
    search = Search(
        load=Load(full_w=full_w, rail_12v_w=full_w, headroom_pct=wished.headroom_pct), minor_w=0.0, mains_v=230.0, wishes=wished,
        uses=(UseLoad(use="idle", delivered_w=0.1 * full_w), UseLoad(use="full", delivered_w=full_w)),
    )
    return fit_units(search, field, small.library.policy.sizing)


def test_the_best_score_comes_first(small: Assessment, everything: Field) -> None:
    """380 W asks for 650 W; both units of that rating fit."""
    assert [KILN, HEARTH] == [one.unit for one in fitting(small, everything, 380.0).units]


def test_every_rating_that_keeps_the_load_within_the_rule_is_offered(small: Assessment, everything: Field) -> None:
    """320 W is 58 % of 550 W and 49 % of 650 W: units of both, the smaller rating first and in it the best score."""
    assert [CAIRN, EMBER, KILN, HEARTH] == [one.unit for one in fitting(small, everything, 320.0).units]


def test_what_cannot_be_bought_comes_last(small: Assessment, everything: Field) -> None:
    """Whatever its score and rating; among themselves such units stand in the same order."""
    absent = {KILN: "hard_to_find", CAIRN: "no_price"}
    units = fitting(small, replace(everything, absent=absent), 320.0).units

    assert [EMBER, HEARTH, CAIRN, KILN] == [one.unit for one in units]
    assert ["", "", "no_price", "hard_to_find"] == [one.absent for one in units]


def test_an_unknown_score_keeps_its_two_ends_and_counts_by_the_lower(small: Assessment, everything: Field) -> None:
    """50 to 95 stands below 70: what is known of it is 50."""
    units = fitting(small, replace(everything, highest={HEARTH: 95.0}), 380.0).units

    assert [(KILN, 70.0, 70.0, False), (HEARTH, 50.0, 95.0, True)] == [
        (one.unit, one.score, one.score_high, one.partly_unknown) for one in units]


def test_a_rating_below_the_rule_is_not_offered(small: Assessment, everything: Field) -> None:
    """250 W is 45 % of 550 W and 38 % of 650 W."""
    assert [CAIRN, EMBER] == [one.unit for one in fitting(small, everything, 250.0).units]


def test_each_rating_has_the_lowest_price_of_its_advised_units(everything: Field) -> None:
    """Nobody is told the price of what is not advised or can't be bought, nor one that nobody knows."""
    advised = replace(everything, advised=frozenset({KILN, CAIRN, EMBER}))
    sold_out = replace(everything, absent={HEARTH: "out_of_stock", CAIRN: "hard_to_find"})

    assert ({550.0: 90.0, 650.0: 80.0}, {550.0: 90.0, 650.0: 120.0}) == (everything.cheapest(), advised.cheapest())
    assert {650.0: 120.0} == sold_out.cheapest()


def test_where_no_smaller_one_is_advised_the_next_larger_serves(small: Assessment, everything: Field) -> None:
    """320 W on 650 W is 49 %, within the middle."""
    field = replace(everything, advised=frozenset({HEARTH, KILN}))

    assert [KILN, HEARTH] == [one.unit for one in fitting(small, field, 320.0).units]


def test_a_unit_that_is_far_too_large_never_fits(small: Assessment, everything: Field) -> None:
    """200 W on 650 W is 31 %, below the middle, and a smaller rating exists."""
    field = replace(everything, advised=frozenset({HEARTH, KILN}))

    assert () == fitting(small, field, 200.0).units


def test_what_is_not_advised_is_never_named(small: Assessment, everything: Field) -> None:
    """Neither as a unit nor behind a wish."""
    field = replace(everything, advised=frozenset({CAIRN}))
    found = fitting(small, field, 320.0, depth_mm=100.0, budget=10.0)

    assert {CAIRN} == {unit for one in found.give_up for unit in one.units}
    assert [CAIRN] == [one.unit for one in fitting(small, field, 320.0).units]


def test_a_unit_shows_what_the_bench_measured_at_the_readers_load(small: Assessment, everything: Field) -> None:
    """Share, efficiency, heat and noise at 380 W, from the curves."""
    best = fitting(small, everything, 380.0).units[0]
    result = small.result(KILN)
    assert result is not None
    loss, noise = result.curve("loss"), result.curve("acoustic_noise")
    assert loss is not None
    assert noise is not None
    level = value_at(noise, 380.0)
    assert level is not None

    assert (380.0 / 650.0, efficiency_at(loss, 380.0), level.value) == (best.share, best.efficiency_pct, best.noise_dba)
    assert best.heat_w == pytest.approx(380.0 / (best.efficiency_pct or 0.0) * 100.0 - 380.0)
    assert ["idle", "full"] == [one.use for one in best.at]
    assert all(one.ripple_share is not None and 0 < one.ripple_share < 1 for one in best.at)


def test_a_load_that_was_not_measured_has_no_figures(small: Assessment, everything: Field) -> None:
    """4 W lies below the lightest load on the bench."""
    search = Search(
        load=Load(full_w=380.0), minor_w=0.0, mains_v=230.0, wishes=Wishes(),
        uses=(UseLoad(use="idle", delivered_w=4.0), UseLoad(use="full", delivered_w=380.0)),
    )
    idle = fit_units(search, everything, small.library.policy.sizing).units[0].at[0]

    assert (None, None, None, None) == (idle.efficiency_pct, idle.heat_w, idle.noise_dba, idle.ripple_share)


@pytest.mark.parametrize(("wishes", "given_up", "units"), [
    ({"depth_mm": 100.0}, ("depth",), (KILN, HEARTH)),
    ({"budget": 20.0}, ("budget",), (KILN, HEARTH)),
    ({"plugs": Plugs(pcie_16=2)}, ("plugs",), (KILN, HEARTH)),
    ({"depth_mm": 100.0, "budget": 20.0}, ("depth", "budget"), (KILN, HEARTH)),
])
def test_the_fewest_wishes_that_stand_in_the_way_are_named(
    small: Assessment, everything: Field, wishes: dict[str, Any], given_up: tuple[str, ...], units: tuple[str, ...]
) -> None:
    """Each alone first, then together."""
    assert [(given_up, units)] == [(o.wishes, o.units) for o in fitting(small, everything, 380.0, **wishes).give_up]


def test_headroom_is_given_up_where_only_the_larger_rating_would_hold_it(small: Assessment, everything: Field) -> None:
    """320 W with a fifth more asks for 650 W, of which none is advised here; 550 W holds 320 W."""
    field = replace(everything, advised=frozenset({CAIRN}))
    found = fitting(small, field, 320.0, headroom_pct=20.0)

    assert (650.0, ()) == (found.found.rating_w, found.units)
    assert [(("headroom",), (CAIRN,))] == [(one.wishes, one.units) for one in found.give_up]


def test_a_wish_that_does_not_help_is_not_named(small: Assessment, everything: Field) -> None:
    """The depth stands in the way, the budget does not."""
    assert [("depth",)] == [one.wishes for one in fitting(small, everything, 380.0, depth_mm=100.0, budget=500.0).give_up]


def test_missing_plugs_are_never_to_be_made_up_with_an_adapter(small: Assessment, everything: Field) -> None:
    """Giving up the plugs means other parts."""
    said = fitting(small, everything, 380.0, plugs=Plugs(pcie_16=1)).give_up[0].sentence

    assert "do not make one up with an adapter" in said


def test_a_unit_behind_a_wish_is_named_with_why_it_cannot_be_bought(small: Assessment, everything: Field) -> None:
    """Whoever gives up a wish for it should know; what can be bought is named first."""
    field = replace(everything, absent={KILN: "out_of_stock"})
    said = fitting(small, field, 380.0, depth_mm=100.0).give_up[0].sentence

    assert said.endswith("Tarnbeck Hearth 650 and Tarnbeck Kiln 650 (out of stock) fit.")


def test_a_price_that_nobody_knows_is_within_no_budget(small: Assessment, everything: Field) -> None:
    """No fresh price, no promise."""
    assert [CAIRN, KILN, HEARTH] == [one.unit for one in fitting(small, everything, 320.0, budget=500.0).units]


def test_units_without_room_on_the_minor_rails_stay_out(small: Assessment, everything: Field) -> None:
    """500 W on 5 V and 3.3 V is more than any of them gives there."""
    search = Search(
        load=Load(full_w=380.0), minor_w=500.0, mains_v=230.0, wishes=Wishes(), uses=(UseLoad(use="full", delivered_w=380.0),)
    )

    assert () == fit_units(search, everything, small.library.policy.sizing).units
