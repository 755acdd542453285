"""``policy.yaml``: what counts, how much, and what is never traded."""

from dataclasses import replace
from typing import Annotated, Literal, Self

from annotated_types import MinLen

from guidegen.records.kinds import (
    Count,
    Day,
    Format,
    Name,
    NotNegative,
    Number,
    Percent,
    Positive,
    Share,
    Text,
    YesNo,
    record,
)
from guidegen.records.limit import Limit
from guidegen.records.unit import Protection


@record
class Anchor:
    """A point of a value function."""

    at: Number
    """Value of the finding, in the finding's unit."""
    worth: Share
    """0: just tolerable; 1: no further practical use."""


@record
class LocalAnchors:
    """Anchors that hold in one region and bracket only (prices)."""

    region: Name
    """Region."""
    bracket: Name
    """Bracket."""
    anchors: Annotated[tuple[Anchor, ...], MinLen(2)]
    """Anchors, rising in ``at``."""


@record
class Part:
    """One finding that a criterion looks at."""

    finding: Text
    """Key of the finding."""
    points: Positive
    """Swing points against the other parts of the criterion; the largest swing has 100."""
    anchors: Annotated[tuple[Anchor, ...], MinLen(2)] | None = None
    """Anchors of the piecewise linear value function, rising in ``at``."""
    local_anchors: tuple[LocalAnchors, ...] = ()
    """Anchors per region and bracket, where ``anchors`` is left out."""
    anchors_changed: Day | None = None
    """When the anchors were last changed; points mean something only beside the anchors that they were chosen for."""
    reason: Text
    """Why these anchors."""


@record
class Criterion:
    """One of the things that make a supply good."""

    id: Name
    """Short name."""
    title: Text
    """Name in a sentence."""
    points: Positive
    """Swing points: what the step from worth 0 to worth 1 matters; the largest swing has 100."""
    weight_reviewed: Day
    """When the points were last looked at together with the anchors."""
    kind: Literal["technical", "price"] = "technical"
    """``price`` criteria are left out of the technical score."""
    parts: Annotated[tuple[Part, ...], MinLen(1)]
    """What it looks at."""
    reason: Text
    """Why these points."""


@record
class Gate:
    """A condition that no score can make up for."""

    id: Name
    """Short name."""
    title: Text
    """Name in a sentence."""
    findings: tuple[Text, ...] = ()
    """Limited findings that must not fail; ``*`` as the last part takes all that begin so."""
    protections: tuple[Protection, ...] = ()
    """Protections that must act."""
    not_tested: Literal["hold_back", "allow"]
    """What ``not tested`` does: hold the unit back from choices, or let it pass as far as choices go."""
    reason: Text
    """Why it is a gate."""


@record
class ProtectionBand:
    """Between which shares of the rating a protection should act: the lab's own rule."""

    protection: Protection
    """The protection."""
    from_pct: Positive
    """Lower end, % of the rating."""
    to_pct: Positive
    """Upper end, % of the rating."""
    document: Text
    """Where the band comes from."""


@record
class Tier:
    """A plain word for a range of scores."""

    id: Name
    """Short name."""
    title: Text
    """The word."""
    from_score: Percent
    """Lowest score, of 100."""


@record
class ChoiceRule:
    """How one choice per bracket is made."""

    id: Name
    """Short name."""
    title: Text
    """What the choice is called."""
    rule: Literal["highest_score", "lowest_finding", "highest_finding", "best_value"]
    """Highest score; lowest or highest value of a finding; or the cheapest point of the front of technical score
    against price."""
    finding: Text | None = None
    """The finding, for the rules that need one."""
    least_score: Percent = 0.0
    """Units below this score are not considered."""
    most_per_point_pct: Percent = 0.0
    """For the best value: how much one more point of technical score may cost, % of the price, to be taken."""
    must_be_available: YesNo = True
    """Whether a unit without a fresh price, or hard to find, is left out."""
    reason: Text
    """The rule in a sentence for the reader."""


@record
class Override:
    """A choice that the editor makes against the rule."""

    bracket: Name
    """Bracket."""
    choice: Name
    """Choice."""
    unit: Name
    """Unit that the editor chooses."""
    reason: Text
    """Why; published beside the choice."""


@record
class PriceRules:
    """When a price is too old, and when a unit is hard to find."""

    stale_after_days: Count
    """Older prices do not count."""
    hard_to_find_below_pct: Percent
    """In stock in less than this share of the last twelve weeks' rows: hard to find."""


@record
class NoiseRules:
    """References for noise."""

    silent_below_dba: Positive
    """A level that a reader can't hear over a quiet room, dB(A)."""
    limit_dba: Positive
    """Level at which the load strip is full, dB(A)."""
    floor_dba: Positive
    """Level at which the load strip is empty, dB(A)."""


@record
class SizingRules:
    """How the recommended rating is found; common practice where no standard says so."""

    target_low_pct: Percent
    """Usual full load lies above this share of the rating, %."""
    target_high_pct: Percent
    """Usual full load lies below this share of the rating, %."""
    never_above_pct: Percent
    """Regular use never lies above this share, %."""
    ageing_pct: NotNegative
    """Added to the load for ageing, %."""
    assumed_efficiency_pct: Percent
    """For wall readings of an unknown supply, %."""


@record
class PolicyRecord:
    """``policy.yaml``."""

    format: Format
    """Version of the record format: 1."""
    reference_mains_v: Literal[115, 230]
    """Mains at which units are compared, V."""
    criteria: Annotated[tuple[Criterion, ...], MinLen(1)]
    """What counts."""
    limits: tuple[Limit, ...] = ()
    """House limits beside those of the standards."""
    protection_bands: tuple[ProtectionBand, ...]
    """House bands for trip points."""
    gates: tuple[Gate, ...]
    """What is never traded."""
    tiers: Annotated[tuple[Tier, ...], MinLen(2)]
    """Words for scores, falling; the last is for units that are not advised."""
    choices: Annotated[tuple[ChoiceRule, ...], MinLen(1)]
    """Choices per bracket, in the order shown."""
    overrides: tuple[Override, ...] = ()
    """Choices made by the editor."""
    prices: PriceRules
    """Rules for prices."""
    noise: NoiseRules
    """References for noise."""
    sizing: SizingRules
    """Rules for sizing."""

    def __hash__(self) -> int:
        """Short, since records are long and looked up again and again."""
        return hash(tuple((criterion.id, criterion.points) for criterion in self.criteria))

    def at_the_bench(self) -> Self:
        """What measuring looks at: nothing that weighs, gates, names or chooses, so that no change of these touches a measure."""
        return replace(self, criteria=(), gates=(), tiers=(), choices=(), overrides=())
