"""Gates: each conjunctive, doubt said as doubt, absence never a pass."""

from dataclasses import replace

from guidegen.evaluation import Assessment, Verdict, pass_gates
from guidegen.records import Gate

GATE = Gate(id="g", title="Gate", protections=("scp", "opp"), not_tested="hold_back", reason="test")


def outcome_of(assessment: Assessment, *verdicts: tuple[str, str]) -> tuple[str, bool]:
    """Outcome of the gate for a unit with exactly these protection verdicts."""
    made = tuple(
        Verdict(key=f"protections.{name}", title=name, outcome=outcome, finding=None,  # type: ignore[arg-type]
                limit_text="", document="d", standing="seen")
        for name, outcome in verdicts
    )
    verdict = pass_gates(replace(assessment.results[0], verdicts=made), (GATE,))[0]
    return verdict.outcome, verdict.holds_back


def test_all_that_must_act_and_acts_passes(small: Assessment) -> None:
    """The plain case."""
    assert ("pass", False) == outcome_of(small, ("scp", "pass"), ("opp", "pass"))


def test_one_failure_fails_whatever_else_passes(small: Assessment) -> None:
    """Conjunctive, not an average."""
    assert ("fail", True) == outcome_of(small, ("scp", "pass"), ("opp", "fail"))


def test_what_was_never_recorded_is_not_tested(small: Assessment) -> None:
    """A missing line in the record is not a pass."""
    assert ("not_tested", True) == outcome_of(small, ("scp", "pass"))


def test_a_failure_outweighs_a_test_that_was_not_done(small: Assessment) -> None:
    """The worst of what is known."""
    assert "fail" == outcome_of(small, ("scp", "fail"))[0]


def test_acting_outside_the_house_band_is_still_acting(small: Assessment) -> None:
    """It costs points, not the place."""
    assert ("pass", False) == outcome_of(small, ("scp", "pass"), ("opp", "conditional_fail"))


def test_a_gate_may_allow_what_was_not_tested(small: Assessment) -> None:
    """As the policy sets: then it holds nothing back, and still says not tested."""
    verdict = pass_gates(replace(small.results[0], verdicts=()), (replace(GATE, not_tested="allow"),))[0]

    assert ("not_tested", False) == (verdict.outcome, verdict.holds_back)
