"""What the units that fit cost to run, and whether the best pays for itself."""

import pytest

from guidegen.evaluation import Assessment, Question, advise, assess
from guidegen.evaluation.running_costs import compare, use_loads
from guidegen.records import Library

OUTCOMES = {
    "within_warranty": "it has paid for itself within its warranty of",
    "never_within_warranty": "it never pays for itself within its warranty of",
    "undecided": "the measurements leave open whether it pays for itself within its warranty of",
}


@pytest.fixture(scope="module")
def demo(demo_library: Library) -> Assessment:
    """The demo, assessed."""
    return assess(demo_library)


@pytest.mark.parametrize("watts", [350.0, 400.0, 550.0, 650.0])
@pytest.mark.parametrize("region", ["ie", "us"])
def test_the_best_unit_is_held_against_the_cheapest(demo: Assessment, watts: float, region: str) -> None:
    """Price difference by the prices shown; saving and years are those of the two losses at the tariff; the sentence
    says the outcome, and no saving is named where the best is the cheapest.
    """
    advice = advise(Question(delivered_w=watts, region=region, mains_v=230.0), demo)
    there = [unit for unit in advice.units if not unit.absent]
    cheapest = min(there, key=lambda unit: unit.price or 0.0)
    found, said = advice.saving, [one for one in advice.sentences if "the cheapest of those that can be bought" in one]
    if cheapest is advice.units[0]:
        assert (None, [f"{cheapest.name} is the cheapest of those that can be bought."]) == (found, said)
        return

    assert found is not None
    assert (advice.units[0].unit, cheapest.unit) == (found.unit, found.against)
    assert (advice.units[0].price or 0.0) - (cheapest.price or 0.0) == found.price_difference
    assert 1 == len(said)
    assert OUTCOMES[found.payback.outcome] in said[0].replace("\N{NO-BREAK SPACE}", " ")


@pytest.mark.parametrize("watts", [350.0, 500.0, 650.0])
def test_the_saving_is_that_of_two_units_at_the_same_loads(demo: Assessment, watts: float) -> None:
    """At the mains at which all are compared, the same as of the two units alone, doubt included."""
    guide = demo.library.guide
    advice = advise(Question(delivered_w=watts), demo)
    found, tariff = advice.saving, next(one for one in guide.regions if one.id == guide.home_region).tariff_per_kwh
    assert found is not None
    best, cheapest = demo.result(found.unit), demo.result(found.against)
    assert best is not None
    assert cheapest is not None
    alone = compare(
        cheapest, best, loads=use_loads(guide.profiles[0], watts), tariff_per_kwh=tariff, price_difference=found.price_difference
    )

    assert alone is not None
    assert (alone.energy, alone.money, alone.payback) == (found.energy, found.money, found.payback)
    assert {one.unit: one.energy.energy.value for one in advice.costs}[cheapest.unit.id] - found.energy.value == pytest.approx(
        {one.unit: one.energy.energy.value for one in advice.costs}[best.unit.id])
