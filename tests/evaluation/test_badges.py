"""The badge: claimed, supported, by which sample, and what was not measured."""

from dataclasses import replace

import pytest

from guidegen.evaluation import BadgeVerdict, Finding, Measure
from guidegen.evaluation.badges import judge_badge, worst_badge
from guidegen.evaluation.measures.efficiency import BETWEEN
from guidegen.quantities import Quantity
from guidegen.records import Unit
from tests.evaluation.invented import UNIT


def claiming(badge: str, mains_class: str | None = "230v_eu_internal") -> Unit:
    """The unit with another claim."""
    claims = replace(UNIT.record.claims, badge=badge, badge_mains=mains_class)  # type: ignore[arg-type]
    return replace(UNIT, record=replace(UNIT.record, claims=claims))


def measured(at_20: float, at_50: float, at_100: float, *, own: float = 0.0, note: str = "") -> tuple[Measure, ...]:
    """Three efficiencies in %; the note stands at half load."""
    values = ((20, at_20, ""), (50, at_50, note), (100, at_100, ""))
    return (Measure(id="efficiency", title="Efficiency", findings=tuple(
        Finding(key=f"efficiency.at_{load}", title="t", quantity=Quantity(value, "%", own=own), decimals=1, note=said)
        for load, value, said in values
    )),)


def judged(unit: Unit, measures: tuple[Measure, ...] | None, volts: int = 230) -> BadgeVerdict:
    """The verdict at a mains."""
    return judge_badge(unit, measures, mains_volts=volts)


@pytest.mark.parametrize(("half", "outcome"), [
    (92.21, "pass"), (92.1, "conditional_pass"), (91.9, "conditional_fail"), (91.7, "fail"),
])
def test_the_badge_is_as_good_as_its_worst_load(half: float, outcome: str) -> None:
    """Gold at 230 V EU asks for 90/92/89 %; U = .2 points."""
    verdict = judged(claiming("gold"), measured(91.0, half, 90.0, own=0.1))

    assert (outcome, ["pass", outcome, "pass"]) == (verdict.outcome, [row.outcome for row in verdict.rows])


def test_a_unit_better_than_its_badge_is_said_to_be() -> None:
    """Claims silver, reaches platinum (92/94/90 %) at face value."""
    verdict = judged(claiming("silver"), measured(92.0, 94.0, 90.0))

    assert ("pass", "silver", "platinum") == (verdict.outcome, verdict.claimed, verdict.supported)


def test_a_level_is_supported_only_with_every_load_and_every_floor() -> None:
    """Silver asks for 87 % at 20 %: great elsewhere does not make up for 86.9 %."""
    assert "bronze" == judged(claiming("gold"), measured(86.9, 96.0, 94.0)).supported


def test_a_load_between_measured_ones_judges_nothing() -> None:
    """The row says not tested, and so does the badge; no level that needs the load is supported."""
    verdict = judged(claiming("gold"), measured(91.0, 93.0, 90.0, note=BETWEEN))

    assert ("not_tested", "none", [True, False, True]) == (
        verdict.outcome, verdict.supported, [row.found is not None for row in verdict.rows]
    )


def test_any_other_note_does_not_unmake_a_measurement() -> None:
    """A remark beside the number is no interpolation."""
    assert "pass" == judged(claiming("gold"), measured(91.0, 93.0, 90.0, note="Mean of 2 samples.")).outcome


def test_no_claim_is_held_against_what_the_bench_supports() -> None:
    """The rows are those of the level reached; the table is that of the session's mains."""
    at_230, at_115 = (judged(claiming("none", None), measured(90.5, 92.5, 89.5), volts) for volts in (230, 115))

    assert ("none", "gold", "230v_eu_internal", 3) == (at_230.claimed, at_230.supported, at_230.mains_class, len(at_230.rows))
    assert ("platinum", "115v_internal") == (at_115.supported, at_115.mains_class)


def test_no_session_at_the_badges_mains_is_not_tested() -> None:
    """The claim stands unjudged."""
    verdict = judged(claiming("gold"), None)

    assert ("not_tested", "none", ()) == (verdict.outcome, verdict.supported, verdict.rows)


def test_the_worst_sample_speaks_for_the_badge() -> None:
    """One that fails against one that passes; among equals the one that supports less."""
    good, better, bad = (
        judged(claiming("gold"), measured(*values)) for values in ((90.5, 92.5, 89.5), (93.0, 95.0, 92.0), (89.0, 92.5, 89.5))
    )

    assert ("fail", "silver") == (worst_badge((good, bad)).outcome, worst_badge((good, bad)).supported)
    assert "gold" == worst_badge((better, good)).supported
