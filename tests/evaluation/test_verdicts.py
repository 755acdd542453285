"""The decision rule, limits that apply, and the worst of several samples."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.evaluation import Check, Finding
from guidegen.evaluation.verdicts import decide, judge, limit_text, of_check, worst
from guidegen.quantities import Quantity
from guidegen.records import Limit

RIPPLE = Limit(finding="ripple.12v.worst", title="Worst ripple on 12 V", at_most=120.0, unit="mV", document="Table 8", standing="seen")


def finding(value: float, own: float = 0.0) -> Finding:
    """A ripple in mV."""
    return Finding(key="ripple.12v.worst", title="Worst ripple on 12 V", quantity=Quantity(value, "mV", own=own), decimals=0)


def outcomes(findings: list[Finding], *limits: Limit, standard: str = "atx_3.1") -> list[str]:
    """Outcomes in the order of the limits."""
    return [verdict.outcome for verdict in judge(findings, limits, claimed_standard=standard)]


@pytest.mark.parametrize(("value", "expected"), [
    (0.05, "fail"), (0.15, "conditional_fail"), (0.25, "conditional_pass"), (10.0, "pass"), (19.95, "conditional_pass"),
    (20.05, "conditional_fail"), (20.15, "fail"),
])
def test_a_range_is_judged_at_its_nearer_end(value: float, expected: str) -> None:
    """.2 to 20 ms with U = .1 ms."""
    assert expected == decide(value, 0.05, at_least=0.2, at_most=20.0).outcome


def test_a_value_without_doubt_passes_on_its_limit_and_fails_beyond() -> None:
    """Simple acceptance is the rule's case for U = 0."""
    assert (("pass", 1.0), ("fail", 0.0)) == tuple(
        (d.outcome, d.probability) for d in (decide(120.0, 0.0, at_most=120.0), decide(120.0001, 0.0, at_most=120.0))
    )


def test_a_limit_without_a_bound_is_refused() -> None:
    """It could judge nothing."""
    with pytest.raises(ValueError, match="at least one bound"):
        decide(1.0, 0.1)


@given(st.floats(-50, 50), st.floats(0.01, 10), st.floats(-50, 50))
def test_the_verdict_and_the_probability_never_contradict_each_other(value: float, u: float, limit: float) -> None:
    """One bound: inside means at least one half, a pass at least .977, a fail at most .023."""
    decided = decide(value, u, at_most=limit)
    low, high = {
        "pass": (0.977, 1.0), "conditional_pass": (0.5, 0.9773), "conditional_fail": (0.0227, 0.5), "fail": (0.0, 0.0228),
    }[decided.outcome]

    assert low - 1e-9 <= decided.probability <= high + 1e-9


def test_a_limit_holds_for_the_standards_that_it_names() -> None:
    """Elsewhere there is no verdict at all."""
    older = replace(RIPPLE, applies_to=("atx_2.52",))

    assert ([], ["pass"]) == (outcomes([finding(50.0)], older), outcomes([finding(50.0)], older, standard="atx_2.52"))


def test_a_limit_without_a_number_says_so_in_plain_words() -> None:
    """Not tested is never a pass, and a reader is not shown a key."""
    verdict = judge([], (RIPPLE,), claimed_standard="atx_3.1")[0]

    assert ("not_tested", "Worst ripple on 12 V", None) == (verdict.outcome, verdict.title, verdict.finding)


@pytest.mark.parametrize("value", [50.0, 119.0, 121.0, 500.0])
def test_a_value_from_memory_never_decides(value: float) -> None:
    """Whatever was found, no published limit was seen."""
    verdict = judge([finding(value, own=2.0)], (replace(RIPPLE, standing="from_memory"),), claimed_standard="atx_3.1")[0]

    assert ("inconclusive", "no published limit seen", None) == (verdict.outcome, verdict.detail, verdict.probability)


def test_a_verdict_keeps_its_reading_its_limit_and_its_rule() -> None:
    """110 mV with U = 12 mV against 120 mV: conditional pass, probability .952 (derived)."""
    verdict = judge([finding(110.0, own=6.0)], (RIPPLE,), claimed_standard="atx_3.1")[0]

    assert ("conditional_pass", "at most 120\N{NO-BREAK SPACE}mV", "Table 8", "seen") == (
        verdict.outcome, verdict.limit_text, verdict.document, verdict.standing
    )
    assert 0.952 == round(verdict.probability or 0.0, 3)


@pytest.mark.parametrize(("low", "high", "text"), [
    (0.2, 20.0, "0.2 ms to 20 ms"), (16.0, None, "at least 16 ms"), (None, 10.0, "at most 10 ms"),
])
def test_a_limit_in_words(low: float | None, high: float | None, text: str) -> None:
    """With a space that does not break."""
    said = limit_text(Limit(finding="timing.t2", at_least=low, at_most=high, unit="ms", document="d", standing="seen"))

    assert text == said.replace("\N{NO-BREAK SPACE}", " ")


def check(outcome: str) -> Check:
    """A check with this outcome."""
    return Check(key="protections.scp", title="Short circuit", outcome=outcome, detail=outcome, document="d", standing="house_rule")  # type: ignore[arg-type]


@pytest.mark.parametrize(("several", "expected"), [
    (("pass", "fail", "conditional_fail"), "fail"), (("pass", "inconclusive"), "inconclusive"),
    (("not_tested", "pass"), "pass"), (("not_tested", "not_tested"), "not_tested"), (("not_tested", "fail"), "fail"),
])
def test_the_worst_sample_speaks_and_an_untested_one_says_nothing(several: tuple[str, ...], expected: str) -> None:
    """A fail on any sample is the verdict; not tested only where none was."""
    assert expected == worst(of_check(check(outcome)) for outcome in several).outcome


def test_a_check_keeps_how_sure_its_rule_is() -> None:
    """A house rule is not passed off as a standard."""
    assert "house_rule" == of_check(check("pass")).standing
