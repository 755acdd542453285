"""A bound on a finding, with the document it comes from."""

from typing import Literal

from guidegen.records.kinds import Number, Text, record

Standing = Literal["seen", "second_hand", "from_memory", "house_rule"]
"""``seen`` in the document, seen in a ``second_hand`` text, quoted ``from_memory`` (never decides), or the lab's own."""


@record
class Limit:
    """Between which values a finding must lie."""

    finding: Text
    """Key of the finding, such as ``ripple.12v.worst``."""
    title: Text | None = None
    """What is bounded, in plain words, for units where it was not measured."""
    at_least: Number | None = None
    """Lower bound in the finding's unit."""
    at_most: Number | None = None
    """Upper bound in the finding's unit."""
    unit: str
    """Unit of the bounds; must be the finding's."""
    document: Text
    """Document and clause."""
    standing: Standing
    """How sure the bound is."""
    mains_v: Literal[115, 230] | None = None
    """Mains at which the bound holds, V; nothing where it holds at both."""
    applies_to: tuple[Text, ...] = ()
    """Claimed standards that the bound holds for; empty for all."""
