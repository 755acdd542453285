"""Points that were chosen for other anchors are told of."""

from dataclasses import replace
from datetime import date, timedelta

from guidegen.evaluation import reviews_due
from guidegen.records import Library, PolicyRecord


def changed(policy: PolicyRecord, when: date | None) -> PolicyRecord:
    """The policy with the first anchors of its second criterion changed on a day."""
    first, second, *rest = policy.criteria
    part = replace(second.parts[0], anchors_changed=when)
    return replace(policy, criteria=(first, replace(second, parts=(part, *second.parts[1:])), *rest))


def test_points_older_than_their_anchors_are_due(small_library: Library) -> None:
    """One day later is late; the criterion, the finding and both days are named."""
    policy = small_library.policy
    reviewed = policy.criteria[1].weight_reviewed
    (due,) = reviews_due(changed(policy, reviewed + timedelta(days=1)))

    assert ("weight-review", "criteria[1].weight_reviewed") == (due.rule, due.origin.field)
    assert reviewed.isoformat() == due.came
    assert (reviewed + timedelta(days=1)).isoformat() in due.expected


def test_points_looked_at_on_the_same_day_or_of_unknown_anchors_are_not(small_library: Library) -> None:
    """Equal days are a review; anchors without a day say nothing."""
    policy = small_library.policy

    assert () == reviews_due(changed(policy, policy.criteria[1].weight_reviewed))
    assert () == reviews_due(changed(policy, None))
