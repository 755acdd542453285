"""Each rule speaks of the thing planted for it, and of nothing in the records beside it that are only just right."""

import pytest

from guidegen.evaluation import RULES, SenseRecords, check_sense
from guidegen.records import Library
from tests.evaluation.invented import GUIDE, SESSION
from tests.evaluation.sense_checks.planted import (
    OTHERS_PLANTED,
    SESSIONS_PLANTED,
    Planted,
    beside_another,
    of_a_log,
    priced_twice,
    records,
    with_point,
)

EVERYTHING_PLANTED = (*SESSIONS_PLANTED, *OTHERS_PLANTED)


def said(found: SenseRecords) -> list[tuple[str, str, str]]:
    """Rule, file and field of every objection."""
    return [(one.rule, one.origin.file, one.origin.field) for one in check_sense(found).objections]


@pytest.mark.parametrize("case", EVERYTHING_PLANTED, ids=lambda case: f"{case.rule} {case.field}")
def test_a_rule_finds_what_was_planted_for_it_and_no_other_speaks(case: Planted) -> None:
    """One objection, with the rule, the file and the field."""
    assert [(case.rule, case.file, case.field)] == said(case.wrong())


@pytest.mark.parametrize("case", EVERYTHING_PLANTED, ids=lambda case: f"{case.rule} {case.field}")
def test_what_is_only_just_right_is_left_alone(case: Planted) -> None:
    """The nearest records that can be have no objection at all."""
    assert [] == said(case.right())


def test_every_rule_has_something_planted_for_it() -> None:
    """A new rule needs a case."""
    assert {rule.name for rule in RULES} == {case.rule for case in EVERYTHING_PLANTED}


def test_no_two_rules_share_a_name() -> None:
    """An accepted entry means one rule."""
    assert len(RULES) == len({rule.name for rule in RULES})


def test_an_objection_says_what_came_and_what_could_stand_there() -> None:
    """In words with numbers and units."""
    (one,) = check_sense(with_point(input_power_w=0.4073)).objections

    assert ("0.4073 at 50 % load", "watts; 407.3 if that was kW") == (one.came, one.expected)


@pytest.mark.parametrize("rated_w", [650.0, 850.0, 550.0])
def test_the_rating_that_the_loads_would_fit_is_named(rated_w: float) -> None:
    """Of a log of another unit, whichever way it is off."""
    (one,) = check_sense(of_a_log(rated_w)).objections

    assert one.expected.endswith(f"; these loads would fit a rating of {rated_w:g} W: are they those of another unit?")


def test_of_two_prices_both_lines_are_named() -> None:
    """The later row's own, and in words that of the one before; a row that is the very same is told so."""
    other, same = (check_sense(found).objections[0] for found in (priced_twice(price=98.0), priced_twice()))

    assert ("98.00 EUR, in_stock of an-invented-750 at A shop on 2026-01-01",
            "one row a unit, shop and day; line 2 has 99.00 EUR, in_stock") == (other.came, other.expected)
    assert ("the row of line 2 a second time", "each row once") == (same.came, same.expected)


def test_of_two_units_both_files_are_named() -> None:
    """That of the copy, and in words that of the first."""
    (one,) = check_sense(beside_another()).objections

    assert "units/another/unit.yaml" == one.origin.file
    assert "another unit than that of units/an-invented-750/unit.yaml; sessions of one unit lie in one folder" == one.expected


def test_sessions_of_unread_units_and_guides_are_passed_over() -> None:
    """What can't be compared is not objected to."""
    wrong = with_point(input_power_w=1.0)

    assert [] == said(SenseRecords(guide=GUIDE, units=(), sessions=wrong.sessions))
    assert [] == said(SenseRecords(guide=None, units=wrong.units, sessions=wrong.sessions))
    assert [] == said(SenseRecords(guide=GUIDE, units=records().units, sessions=(SESSION,)))


def test_the_demo_and_the_small_edition_have_nothing_to_object_to(demo_library: Library, small_library: Library) -> None:
    """All their numbers can be; one stale calibration of the demo stands, with a reason."""
    found = [
        check_sense(SenseRecords(guide=one.guide, units=one.units, sessions=one.sessions, prices=one.prices))
        for one in (demo_library, small_library)
    ]

    assert [(), ()] == [one.objections for one in found]
    assert [["calibration"], []] == [[let.objection.rule for let in one.accepted] for one in found]
