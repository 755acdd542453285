"""Sessions and samples combined: which count, how numbers meet, and whose verdict speaks."""

from dataclasses import replace
from datetime import date

import pytest

from guidegen.evaluation import UnitResult, evaluate
from guidegen.records import CrossLoad, FanRun, HoldUp, Limit, LoadPoint, Mains, ProtectionTest, Sample, Session
from tests.evaluation.invented import GUIDE, POINTS, POLICY, SESSION, UNIT

CROSS = CrossLoad(
    name="12v_full", current_12v_a=62.0, current_5v_a=0.0, current_3v3_a=0.0, voltage_12v_v=11.88, voltage_5v_v=5.02, voltage_3v3_v=3.31,
)


def trial(  # noqa: PLR0913 - a session in one line
    name: str, day: int, *, sample: str = "a", revision: str = "1.0", volts: float = 230.0, ripple: float = 20.0, **changes: object
) -> Session:
    """A session in March with this ripple on 12 V at every load."""
    points = tuple(replace(p, ripple_12v_mv=ripple) for p in POINTS)
    record = replace(
        SESSION.record, date=date(2026, 3, day), sample=Sample(id=sample, obtained="bought", hardware_revision=revision),
        mains=Mains(voltage_v=volts, frequency_hz=50.0), load_points=points,
    )
    return Session(unit=UNIT.id, file=f"units/{UNIT.id}/{name}.yaml", record=replace(record, **changes))  # type: ignore[arg-type]


def result(*sessions: Session) -> UnitResult:
    """The unit from these sessions, oldest first."""
    return evaluate(UNIT, sessions, GUIDE, POLICY)


def used(*sessions: Session) -> list[str]:
    """Names of the sessions that the compared numbers rest on."""
    return [session.file.split("/")[-1].removesuffix(".yaml") for session in result(*sessions).used]


def ripple(made: UnitResult) -> tuple[float, float, float, str]:
    """Value, own and shared doubt, and note of the worst ripple on 12 V."""
    found = made.finding("ripple.12v.worst")
    assert found is not None
    return found.quantity.value, found.quantity.own, found.quantity.shared, found.note


def test_only_sessions_at_the_reference_mains_are_compared() -> None:
    """230 V here; 115 V stays visible session by session."""
    made = result(trial("us", 1, volts=115.0), trial("eu", 2))

    assert ["eu"] == used(trial("us", 1, volts=115.0), trial("eu", 2))
    assert [115, 230] == [session.mains_volts for session, _ in made.by_session]


def test_the_newest_session_of_a_sample_replaces_its_older_ones() -> None:
    """Re-tested samples count once."""
    assert ["again", "other"] == used(trial("first", 1), trial("again", 3), trial("other", 4, sample="b"))


def test_a_session_of_one_measure_leaves_the_others_as_they_were() -> None:
    """Loads taken anew on the same sample: the protections, times and noise of the older session still hold."""
    bare: dict[str, object] = {
        **dict.fromkeys(("noise_sweep", "maximum_power", "timing", "fan_run")),
        **dict.fromkeys(("cross_loads", "line_steps", "hold_up", "transients", "excursions", "inrush", "standby"), ()),
        "protections": (ProtectionTest(protection="otp", outcome="not_tested", why_not_tested="no oven"),),
    }
    first = trial("first", 1, ripple=20.0, protections=(ProtectionTest(protection="scp", outcome="acted"),), cross_loads=(CROSS,))
    again = trial("again", 3, ripple=30.0, **bare)  # type: ignore[arg-type]
    before, made = result(first), result(first, again)
    alone = {finding.key for finding in result(again).findings}

    assert ["first", "again"] == used(first, again)
    assert {f.key for f in before.findings} == {f.key for f in made.findings}
    assert 30.0 == ripple(made)[0]
    assert {f.key: f for f in before.findings if f.key not in alone} == {f.key: f for f in made.findings if f.key not in alone}
    assert [v.key for v in before.verdicts] == [v.key for v in made.verdicts if v.key != "protections.otp"]
    assert "pass" == (verdict.outcome if (verdict := made.verdict("protections.scp")) else None)


def test_loads_taken_anew_leave_the_measured_hold_up_and_the_run_of_the_fan() -> None:
    """They give a prediction and a fan speed of their own, which displace the older prediction and speed, and nothing measured."""
    turning = tuple(replace(p, fan_rpm=0.0 if p.load_pct < 50 else 700.0) for p in POINTS)
    first = trial("first", 1, load_points=turning, hold_up=(HoldUp(load_pct=100.0, power_good_ms=18.1, rails_ms=19.5),),
                  fan_run=FanRun(starts_w=400.0, stops_w=300.0))
    again = trial("again", 3, load_points=tuple(replace(p, fan_rpm=700.0, input_power_w=p.input_power_w + 1.0) for p in turning))
    before, alone, made = result(first), result(again), result(first, again)
    keys = ("hold_up.power_good_at_100", "hold_up.rails_at_100", "fan.begins_at", "fan.stops_at")

    assert [before.finding(key) for key in keys] == [made.finding(key) for key in keys]
    assert None not in [made.finding(key) for key in keys]
    assert [alone.finding(key) for key in ("hold_up.predicted", "fan.starts_at")] == [
        made.finding(key) for key in ("hold_up.predicted", "fan.starts_at")]
    assert before.finding("hold_up.predicted") != made.finding("hold_up.predicted")
    assert (alone.curve("fan"), before.verdict("hold_up.energy_balance")) == (made.curve("fan"), made.verdict("hold_up.energy_balance"))


def test_a_protection_counts_from_the_session_that_tried_it_last() -> None:
    """One tried again speaks for itself; one left out, or written as not tried, leaves the older outcome."""
    tried = tuple(ProtectionTest(protection=name, outcome="acted") for name in ("scp", "otp", "no_load"))
    again = (ProtectionTest(protection="scp", outcome="did_not_act"), ProtectionTest(protection="otp", outcome="not_tested", why_not_tested="no oven"))
    made = result(trial("first", 1, protections=tried), trial("again", 3, protections=again))
    outcomes = {key: verdict.outcome if (verdict := made.verdict(f"protections.{key}")) else None for key in ("scp", "otp", "no_load")}

    assert {"scp": "fail", "otp": "pass", "no_load": "pass"} == outcomes
    assert ["first", "again"] == [session.file.split("/")[-1].removesuffix(".yaml") for session in made.used]


def test_an_older_hardware_revision_is_not_mixed_in() -> None:
    """Revision 2.0 is another supply."""
    assert ["new"] == used(trial("old", 1), trial("new", 2, sample="b", revision="2.0"))


def test_samples_are_averaged_their_own_doubt_shrinks_and_the_meters_stays() -> None:
    """20 and 30 mV: 25 mV, 10 mV apart; own /√2, shared the mean of both."""
    one, two = result(trial("a", 1, ripple=20.0)), result(trial("b", 1, ripple=30.0))
    value, own, shared, note = ripple(result(trial("a", 1, ripple=20.0), trial("b", 2, sample="b", ripple=30.0)))

    assert (25.0, round(ripple(one)[1] / 2**0.5, 12)) == (value, round(own, 12))
    assert round((ripple(one)[2] + ripple(two)[2]) / 2, 12) == round(shared, 12)
    assert note.replace("\N{NO-BREAK SPACE}", " ").endswith("Mean of 2 samples, 10 mV apart.")


def test_a_course_is_the_mean_over_samples_like_the_numbers_beside_it() -> None:
    """20 and 30 mV at the same loads: 25 mV in the drawing, too; a sample that was taken at other loads is not mixed in."""
    two = result(trial("a", 1, ripple=20.0), trial("b", 2, sample="b", ripple=30.0))
    fewer = tuple(replace(p, ripple_12v_mv=30.0) for p in POINTS[:-1])
    other = result(trial("a", 1, ripple=20.0), trial("b", 2, sample="b", load_points=fewer))

    assert [25.0] * len(POINTS) == course(two)
    assert [30.0] * len(fewer) == course(other)


def test_the_mean_of_a_bound_is_a_bound() -> None:
    """One sample at the meter's floor at half load and below: there the drawn mean is an upper bound, too."""
    floor = tuple(replace(p, noise_dba=14.0 if p.load_pct <= 50 else 30.0) for p in POINTS)
    loud = tuple(replace(p, noise_dba=30.0) for p in POINTS)
    made = result(trial("a", 1, load_points=floor), trial("b", 2, sample="b", load_points=loud))
    curve = made.curve("acoustic_noise")

    assert curve is not None
    assert [p.load_pct <= 50 for p in curve.points] == [curve.upper_bound(p.load_w) for p in curve.points]
    assert {True, False} == {curve.upper_bound(p.load_w) for p in curve.points}


def course(made: UnitResult) -> list[float]:
    """Ripple on 12 V, load by load."""
    curve = made.curve("ripple.12v")
    return [point.quantity.value for point in curve.points] if curve else []


def test_the_mean_leads_to_every_reading_once() -> None:
    """A fact of the box is not listed once a sample."""
    made = result(trial("a", 1), trial("b", 2, sample="b"))
    depth, worst = made.finding("size.depth"), made.finding("ripple.12v.worst")

    assert (1, 2) == (len(depth.origins) if depth else 0, len(worst.origins) if worst else 0)


def test_the_verdict_is_that_of_the_worst_sample() -> None:
    """20 and 140 mV: the mean of 80 mV passes nothing."""
    made = result(trial("a", 1, ripple=20.0), trial("b", 2, sample="b", ripple=140.0))
    verdict = made.verdict("ripple.12v.worst")

    assert verdict is not None
    assert verdict.finding is not None
    assert ("fail", 140.0) == (verdict.outcome, verdict.finding.quantity.value)


@pytest.mark.parametrize("ripples", [(20.0, 30.0), (30.0, 20.0), (140.0, 160.0), (160.0, 140.0)])
def test_of_samples_with_one_verdict_the_number_nearest_to_the_limit_is_printed(ripples: tuple[float, float]) -> None:
    """At most 120 mV: both pass, or both fail; the larger ripple speaks, whichever sample came first."""
    first, second = ripples
    verdict = result(trial("a", 1, ripple=first), trial("b", 2, sample="b", ripple=second)).verdict("ripple.12v.worst")

    assert verdict is not None
    assert verdict.finding is not None
    assert max(ripples) == verdict.finding.quantity.value
    assert 120.0 - max(ripples) == verdict.margin


@pytest.mark.parametrize(("first", "second", "expected"), [
    ("acted", "not_tested", "pass"), ("not_tested", "not_tested", "not_tested"), ("acted", "did_not_act", "fail"),
])
def test_a_protection_tried_on_one_sample_is_tried(first: str, second: str, expected: str) -> None:
    """A destructive test is made on one sample; a sample that fails it speaks for all."""
    tests = [(ProtectionTest(protection="scp", outcome=outcome),) for outcome in (first, second)]  # type: ignore[arg-type]
    made = result(trial("a", 1, protections=tests[0]), trial("b", 2, sample="b", protections=tests[1]))
    verdict = made.verdict("protections.scp")

    assert expected == (verdict.outcome if verdict else None)


def test_without_a_session_at_the_reference_mains_the_other_serves_and_says_so() -> None:
    """Efficiency depends on the mains and says it; ripple and depth do not."""
    made = result(trial("us", 1, volts=115.0))
    notes = {key: f.note if (f := made.finding(key)) else None for key in ("efficiency.at_50", "size.depth")}

    assert "At 115 V; the guide compares at 230 V." == (notes["efficiency.at_50"] or "").replace("\N{NO-BREAK SPACE}", " ")
    assert "" == notes["size.depth"]


def test_a_limit_of_one_mains_judges_sessions_at_that_mains_alone() -> None:
    """The design guide's efficiency is a demand at 115 V."""
    at_115, at_230 = (result(trial("s", 1, volts=volts)).verdict("efficiency.at_50") for volts in (115.0, 230.0))

    assert ("pass", None) == (at_115.outcome if at_115 else None, at_230)


def with_half_load(input_power_w: float) -> tuple[LoadPoint, ...]:
    """The steady loads with another draw at half load."""
    return tuple(replace(p, input_power_w=input_power_w) if p.load_pct == 50 else p for p in POINTS)


def test_the_badge_is_judged_at_its_own_mains_by_the_worst_sample() -> None:
    """Gold at 230 V EU: sample b draws 420 W for 375 W (89.3 %) and fails the 92 % at half load."""
    good = replace(trial("a", 1), record=replace(trial("a", 1).record, load_points=POINTS))
    bad = trial("b", 2, sample="b", load_points=with_half_load(420.0))
    other_mains = trial("us", 3, volts=115.0)

    assert "fail" == result(good, bad, other_mains).badge.outcome
    assert result(good, bad).badge == result(bad).badge
    assert result(bad, good).badge == result(bad).badge
    assert "not_tested" == result(other_mains).badge.outcome


def test_of_samples_that_all_reach_the_badge_the_one_nearest_to_its_floor_is_printed() -> None:
    """Both reach 92 % at half load, one by little: its numbers are the badge's, whichever came first."""
    near, far = trial("a", 1, load_points=with_half_load(406.0)), trial("b", 2, sample="b", load_points=with_half_load(404.0))

    assert result(near).badge.outcome == result(far).badge.outcome
    assert result(near).badge != result(far).badge
    assert result(near, far).badge == result(far, near).badge == result(near).badge


def test_the_badge_of_an_older_revision_says_nothing_of_the_newer_one() -> None:
    """Gold at 230 V: only revision 1.0 was measured there; with the guide at 115 V, what is compared is revision 1.1."""
    policy = replace(POLICY, reference_mains_v=115)
    sessions = (trial("old", 1), trial("old-us", 2, volts=115.0), trial("new-us", 3, sample="c", revision="1.1", volts=115.0))
    old, made = (evaluate(UNIT, some, GUIDE, policy) for some in (sessions[:2], sessions))

    assert (old.badge.outcome, old.revision) != ("not_tested", "1.1")
    assert ("not_tested", "1.1") == (made.badge.outcome, made.revision)


def test_a_result_says_which_mains_it_misses() -> None:
    """Nothing where there is a session at the guide's."""
    assert (230, 115) == ((made := result(trial("us", 1, volts=115.0))).mains_missed_v, made.mains_v)
    assert (0, 230) == ((made := result(trial("eu", 1))).mains_missed_v, made.mains_v)


def test_house_limits_are_judged_beside_the_published_ones() -> None:
    """The gravest verdict on a finding is the one that is asked for."""
    strict = Limit(finding="ripple.12v.worst", at_most=10.0, unit="mV", document="House rule", standing="house_rule")
    made = evaluate(UNIT, (trial("a", 1, ripple=20.0),), GUIDE, replace(POLICY, limits=(strict,)))
    verdict = made.verdict("ripple.12v.worst")

    assert ["pass", "fail"] == [v.outcome for v in made.verdicts if v.key == "ripple.12v.worst"]
    assert ("fail", "house_rule") == ((verdict.outcome, verdict.standing) if verdict else None)


def test_what_was_not_tested_has_no_number_and_its_limit_says_so() -> None:
    """Not tested is neither zero nor a pass."""
    made = result(trial("a", 1))

    assert made.finding("hold_up.rails_at_100") is None
    assert "not_tested" == (verdict.outcome if (verdict := made.verdict("hold_up.rails_at_100")) else None)


def test_the_same_records_give_the_same_result() -> None:
    """Whatever was evaluated before."""
    assert result(trial("a", 1)) == result(trial("a", 1))
