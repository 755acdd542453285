"""Names in the policy that lead nowhere are faults with the nearest right one."""

from dataclasses import replace

from guidegen.evaluation import Assessment, answers_of, unknown_findings
from guidegen.records import PolicyRecord


def faults(demo: Assessment, policy: PolicyRecord) -> list[tuple[str, str, str]]:
    """Field, what came and nearest name of each fault."""
    return [(f.origin.field, f.came, f.nearest) for f in unknown_findings(policy, answers_of(demo.results))]


def test_the_policy_of_the_demo_names_only_what_is_measured(demo: Assessment) -> None:
    """The clean case."""
    assert [] == faults(demo, demo.library.policy)


def test_a_misspelt_finding_of_a_criterion(demo: Assessment) -> None:
    """With the nearest key."""
    policy = demo.library.policy
    first = policy.criteria[0]
    broken = replace(first, parts=(replace(first.parts[0], finding="efficency.at_20"), *first.parts[1:]))

    assert [("criteria[0].parts[0].finding", "efficency.at_20", "efficiency.at_20")] == faults(
        demo, replace(policy, criteria=(broken, *policy.criteria[1:])))


def test_a_misspelt_finding_of_a_gate_a_limit_and_a_choice(demo: Assessment) -> None:
    """All at once."""
    policy = demo.library.policy
    broken = replace(
        policy,
        gates=(replace(policy.gates[1], findings=("ripple.12.worst", "ripple.*", "nothing.*")),),
        limits=(replace(policy.limits[0], finding="maximum_power.sustaind_share"),),
        choices=(replace(policy.choices[1], finding="acoustic_noise.men"),),
    )

    assert ["limits[0].finding", "gates[0].findings[0]", "gates[0].findings[2]", "choices[0].finding"] == [
        field for field, _, _ in faults(demo, broken)]


def test_a_gate_on_a_protection_that_nobody_tested(demo: Assessment) -> None:
    """It would hold everything back without a reason."""
    untested = tuple(
        replace(r, verdicts=tuple(v for v in r.verdicts if v.key != "protections.surge")) for r in demo.results
    )
    policy = replace(demo.library.policy, gates=(replace(demo.library.policy.gates[0], protections=("scp", "surge")),))

    assert ["gates[0].protections[1]"] == [f.origin.field for f in unknown_findings(policy, answers_of(untested))]
