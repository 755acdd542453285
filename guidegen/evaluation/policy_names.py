"""Names in the policy that no measure answers to: a criterion, gate, limit or choice that looks at nothing."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from guidegen.errors import Fault, nearest_name
from guidegen.evaluation.findings import UnitResult
from guidegen.origins import Origin, Step
from guidegen.records import PolicyRecord

FILE = "policy.yaml"
RULE = "policy-name"
PRICE = "price.per_watt"
"""The one number that is not a unit's own but its region's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """What some units have an answer to, by keys."""

    found: tuple[str, ...] = ()
    """What was measured."""
    judged: tuple[str, ...] = ()
    """What was held against a limit or tried."""
    tried: tuple[str, ...] = ()
    """What of it was tested."""


def answers_of(results: Iterable[UnitResult]) -> Answers:
    """What these units have an answer to."""
    kept = tuple(results)
    verdicts = tuple(verdict for result in kept for verdict in result.verdicts)
    return Answers(
        found=_once(finding.key for result in kept for finding in result.findings),
        judged=_once(verdict.key for verdict in verdicts),
        tried=_once(verdict.key for verdict in verdicts if verdict.outcome != "not_tested"),
    )


def together(answers: Iterable[Answers]) -> Answers:
    """What several groups of units have an answer to."""
    all_of = tuple(answers)
    return Answers(
        found=_once(key for one in all_of for key in one.found), judged=_once(key for one in all_of for key in one.judged),
        tried=_once(key for one in all_of for key in one.tried),
    )


def _once(keys: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(keys))


def unknown_findings(policy: PolicyRecord, answers: Answers) -> tuple[Fault, ...]:
    """A fault for every finding that the policy names and no unit has; none while there are no units."""
    if not answers.found:
        return ()
    known = (*answers.found, PRICE)
    judged = _once((*known, *answers.judged))
    unknown = (
        Fault(
            origin=Origin(FILE, path), came=name, expected="the key of a number that some unit has",
            nearest=nearest_name(name, known), rule=RULE,
        )
        for path, name, gate in _named(policy)
        if not _answered(name, judged if gate else known)
    )
    return (*unknown, *_never_tested(policy, answers))


def _never_tested(policy: PolicyRecord, answers: Answers) -> Iterator[Fault]:
    """A gate on a protection that was tested on no unit would hold everything back and say nothing."""
    for i, gate in enumerate(policy.gates):
        for j, protection in enumerate(gate.protections):
            if f"protections.{protection}" not in answers.tried:
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
