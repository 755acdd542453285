"""Weights that were chosen for other anchors.

Swing points say what the step from worth 0 to worth 1 matters, so that a moved anchor silently changes what they mean
(range sensitivity: von Nitzsch and Weber, Management Science 39 (1993) 937–943; from memory).
"""

from collections.abc import Iterator

from guidegen.errors import Fault
from guidegen.origins import Origin
from guidegen.records import PolicyRecord

RULE = "weight-review"
"""Name of the rule in documents."""


def reviews_due(policy: PolicyRecord) -> tuple[Fault, ...]:
    """The criteria whose points were last looked at before one of their anchors changed; this stops no publication."""
    return tuple(_due(policy))


def _due(policy: PolicyRecord) -> Iterator[Fault]:
    for c, criterion in enumerate(policy.criteria):
        for part in criterion.parts:
            if part.anchors_changed is not None and part.anchors_changed > criterion.weight_reviewed:
                yield Fault(
                    origin=Origin("policy.yaml", ("criteria", c, "weight_reviewed")),
                    came=criterion.weight_reviewed.isoformat(),
                    expected=f"the points of {criterion.id} looked at again since the anchors of {part.finding} changed "
                    f"on {part.anchors_changed.isoformat()}",
                    rule=RULE,
                )
