"""The whole published efficiency table, each floor from both sides.

Source: the published levels of the 80 PLUS scheme, 115 V internal, 230 V EU internal and 230 V redundant classes, as an
encyclopedia's table and a second copy of it give them (second-hand; the scheme's own sheet was not seen). Power factor:
the same table; the white level's load is given both ways and is left out.
"""

from dataclasses import replace

import pytest

from guidegen.evaluation.badges import judge_badge
from guidegen.evaluation.findings import BadgeVerdict, Finding, Measure
from guidegen.quantities import Quantity
from guidegen.records import Library
from guidegen.standards import levels

TABLE: dict[str, dict[str, dict[int, float]]] = {
    "115v_internal": {
        "white": {20: 80, 50: 80, 100: 80}, "bronze": {20: 82, 50: 85, 100: 82}, "silver": {20: 85, 50: 88, 100: 85},
        "gold": {20: 87, 50: 90, 100: 87}, "platinum": {20: 90, 50: 92, 100: 89},
        "titanium": {10: 90, 20: 92, 50: 94, 100: 90},
    },
    "230v_redundant": {
        "bronze": {20: 81, 50: 85, 100: 81}, "silver": {20: 85, 50: 89, 100: 85}, "gold": {20: 88, 50: 92, 100: 88},
        "platinum": {20: 90, 50: 94, 100: 91}, "titanium": {10: 90, 20: 94, 50: 96, 100: 91},
    },
    "230v_eu_internal": {
        "white": {20: 82, 50: 85, 100: 82}, "bronze": {20: 85, 50: 88, 100: 85}, "silver": {20: 87, 50: 90, 100: 87},
        "gold": {20: 90, 50: 92, 100: 89}, "platinum": {20: 92, 50: 94, 100: 90},
        "titanium": {10: 90, 20: 94, 50: 96, 100: 94},
    },
}
POWER_FACTOR_115 = {"bronze": (50, 0.90), "silver": (50, 0.90), "gold": (50, 0.90), "platinum": (50, 0.95), "titanium": (20, 0.95)}
CELLS = [(c, n, load) for c, rows in TABLE.items() for n, floors in rows.items() for load in floors]


def measured(values: dict[int, float], power_factor: float = 0.999) -> tuple[Measure, ...]:
    """What a bench without doubt would have found."""
    efficiency = tuple(
        Finding(key=f"efficiency.at_{load}", title="t", quantity=Quantity(value, "%"), decimals=1) for load, value in values.items()
    )
    factors = tuple(
        Finding(key=f"power_factor.at_{load}", title="t", quantity=Quantity(power_factor, ""), decimals=3) for load in (20, 50, 100)
    )
    return (Measure(id="efficiency", title="t", findings=efficiency), Measure(id="power_factor", title="t", findings=factors))


def verdict(library: Library, mains_class: str, level: str, measures: tuple[Measure, ...]) -> BadgeVerdict:
    """The badge's verdict for a unit that claims the level."""
    unit = library.units[0]
    claims = replace(unit.record.claims, badge=level, badge_mains=mains_class)  # type: ignore[arg-type]
    claiming = replace(unit, record=replace(unit.record, claims=claims))
    return judge_badge(claiming, measures, mains_volts=115 if mains_class.startswith("115") else 230)


def test_every_cell_of_the_data_is_the_published_one() -> None:
    """The packaged table against the copy above, both ways."""
    packaged = {
        name: {level.name: {int(load): floor for load, floor in level.floors} for level in levels(name)} for name in TABLE
    }

    assert TABLE == packaged


@pytest.mark.parametrize(("mains_class", "level", "load"), CELLS)
def test_a_hair_under_a_floor_is_no_pass_and_on_it_is_one(small_library: Library, mains_class: str, level: str, load: int) -> None:
    """Every floor from both sides, the other loads exactly met."""
    floors = dict(TABLE[mains_class][level])
    under = verdict(small_library, mains_class, level, measured({**floors, load: floors[load] - 0.01}))
    on = verdict(small_library, mains_class, level, measured(floors))

    assert ("fail", "pass") == (under.outcome, on.outcome)
    assert (level, True) == (on.supported, under.supported != level)


@pytest.mark.parametrize("level", POWER_FACTOR_115)
def test_the_power_factor_that_a_level_demands(small_library: Library, level: str) -> None:
    """At 115 V, at the load that the level names, from both sides."""
    load, floor = POWER_FACTOR_115[level]
    made = measured(dict(TABLE["115v_internal"][level]))
    at = {
        value: verdict(
            small_library, "115v_internal", level,
            (made[0], replace(made[1], findings=tuple(
                replace(f, quantity=Quantity(value, "")) if f.key == f"power_factor.at_{load}" else f for f in made[1].findings
            ))),
        ).outcome
        for value in (floor - 0.001, floor)
    }

    assert {floor - 0.001: "fail", floor: "pass"} == at


def test_a_load_that_was_not_measured_supports_no_level(small_library: Library) -> None:
    """Titanium needs 10 %; without that load the bench can't support it."""
    floors = {load: v + 1 for load, v in TABLE["230v_eu_internal"]["titanium"].items() if load != 10}

    assert "platinum" == verdict(small_library, "230v_eu_internal", "titanium", measured(floors)).supported
