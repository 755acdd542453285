"""Names in the policy that no measure answers to: a criterion, gate, limit or choice that looks at nothing."""

from collections.abc import Iterator

from guidegen.errors import Fault, nearest_name
from guidegen.evaluation.findings import UnitResult
from guidegen.origins import Origin, Step
from guidegen.records import PolicyRecord

FILE = "policy.yaml"
RULE = "policy-name"
PRICE = "price.per_watt"
"""The one number that is not a unit's own but its region's."""


def unknown_findings(policy: PolicyRecord, results: tuple[UnitResult, ...]) -> tuple[Fault, ...]:
    """A fault for every finding that the policy names and no unit has; none while there are no units."""
    if not results:
        return ()
    known = tuple(dict.fromkeys((*(f.key for r in results for f in r.findings), PRICE)))
    judged = tuple(dict.fromkeys((*known, *(v.key for r in results for v in r.verdicts))))
    unknown = (
        Fault(
            origin=Origin(FILE, path), came=name, expected="the key of a number that some unit has",
            nearest=nearest_name(name, known), rule=RULE,
        )
        for path, name, gate in _named(policy)
        if not _answered(name, judged if gate else known)
    )
    return (*unknown, *_never_tested(policy, results))


def _never_tested(policy: PolicyRecord, results: tuple[UnitResult, ...]) -> Iterator[Fault]:
    """A gate on a protection that was tested on no unit would hold everything back and say nothing."""
    tested = {v.key for r in results for v in r.verdicts if v.outcome != "not_tested"}
    for i, gate in enumerate(policy.gates):
        for j, protection in enumerate(gate.protections):
            if f"protections.{protection}" not in tested:
                yield Fault(
                    origin=Origin(FILE, ("gates", i, "protections", j)), came=protection,
                    expected="a protection that was tested on at least one unit", rule=RULE,
                )


def _answered(name: str, keys: tuple[str, ...]) -> bool:
    return any(key.startswith(name[:-1]) for key in keys) if name.endswith("*") else name in keys


def _named(policy: PolicyRecord) -> Iterator[tuple[tuple[Step, ...], str, bool]]:
    """Path, name, and whether a gate asks (a gate may also look at what was judged and never measured)."""
    for i, criterion in enumerate(policy.criteria):
        for j, part in enumerate(criterion.parts):
            yield ("criteria", i, "parts", j, "finding"), part.finding, False
    for i, limit in enumerate(policy.limits):
        yield ("limits", i, "finding"), limit.finding, False
    for i, gate in enumerate(policy.gates):
        for j, finding in enumerate(gate.findings):
            yield ("gates", i, "findings", j), finding, True
    for i, choice in enumerate(policy.choices):
        if choice.finding is not None:
            yield ("choices", i, "finding"), choice.finding, False
