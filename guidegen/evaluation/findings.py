"""What a measure finds: numbers with their origin, outcomes of tests, and curves over load."""

from dataclasses import dataclass, field
from sys import intern
from typing import Literal, Protocol

from guidegen.origins import Origin
from guidegen.quantities import Quantity
from guidegen.records import GuideRecord, Instrument, PolicyRecord, Session, Unit
from guidegen.records.guide import InstrumentQuantity, Reading

Better = Literal["higher", "lower", "neither"]
"""Which direction serves a reader."""
Outcome = Literal["pass", "conditional_pass", "conditional_fail", "fail", "inconclusive", "not_tested"]
"""Verdicts by ILAC-G8:09/2019, 4.2, and the two ways of not knowing."""
WORST_FIRST: tuple[Outcome, ...] = (
    "fail", "conditional_fail", "inconclusive", "not_tested", "conditional_pass", "pass",
)
"""Verdicts, the gravest first."""


class Named(Protocol):
    """What has a key and a title."""

    @property
    def key(self) -> str:
        """Dotted key."""

    @property
    def title(self) -> str:
        """What it is, in plain words."""


def _named_alike(one: Named) -> None:
    """Equal keys and titles of all units made one text each: a guide of thousands of units holds millions of them."""
    object.__setattr__(one, "key", intern(one.key))
    object.__setattr__(one, "title", intern(one.title))


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What a measure gets to see: one session of one unit, and what the lab knows of itself."""

    unit: Unit
    """The unit."""
    session: Session
    """The session."""
    guide: GuideRecord
    """The guide, for its instruments."""
    policy: PolicyRecord
    """The policy, for house bands and noise references."""
    _readings: dict[InstrumentQuantity, Reading] = field(init=False, repr=False, compare=False, default_factory=dict)

    def __post_init__(self) -> None:
        for instrument in self.instruments():
            for one in instrument.readings:
                self._readings.setdefault(one.quantity, one)

    def reading(self, kind: InstrumentQuantity) -> Reading | None:
        """How well the first instrument of the session that reads a quantity does so, or nothing."""
        return self._readings.get(kind)

    def instruments(self) -> tuple[Instrument, ...]:
        """The instruments that this session used."""
        return tuple(i for i in self.guide.instruments if i.id in self.session.record.instruments)


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One number about a unit."""

    key: str
    """Dotted key; the first part is the measure, such as ``efficiency.at_50``."""
    title: str
    """What it is, in plain words, as a table row would say it."""
    quantity: Quantity
    """Value, unit, uncertainty."""
    decimals: int
    """Decimals that are printed."""
    better: Better = "neither"
    """Which direction serves a reader."""
    origins: tuple[Origin, ...] = ()
    """Fields of records that it was computed from."""
    note: str = ""
    """What a reader must know to read it rightly, or empty."""
    milder: bool = False
    """Whether the trial asked less of the unit than the document of its limit does, so that a pass says less."""
    upper_bound: bool = False
    """Whether the number may be lower: the instrument or the room hid how far."""

    def __post_init__(self) -> None:
        _named_alike(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """The outcome of a test that is passed or not."""

    key: str
    """Dotted key, such as ``protections.ocp_12v``."""
    title: str
    """What was tested, in plain words."""
    outcome: Outcome
    """How it went."""
    detail: str
    """What happened, in a few words with the numbers already in them."""
    document: str
    """Which rule it was held against."""
    standing: str = "seen"
    """How sure the rule is (``seen``, ``second_hand``, ``from_memory``, ``house_rule``), or that it is ``computed``."""
    origins: tuple[Origin, ...] = ()
    """Fields of records that it rests on."""

    def __post_init__(self) -> None:
        _named_alike(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class CurvePoint:
    """One point of a curve over load."""

    load_w: float
    """Delivered power, W."""
    load_pct: float
    """Delivered power as a share of the rating, %."""
    quantity: Quantity
    """Value there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """A measured course over load, rising in load; never read beyond its ends."""

    key: str
    """Key, such as ``efficiency`` or ``ripple.12v``."""
    title: str
    """What it shows."""
    points: tuple[CurvePoint, ...]
    """Measured points."""
    bounded_w: float = -1.0
    """Highest load at which a value is an upper bound, W; below zero where none is."""

    def upper_bound(self, load_w: float) -> bool:
        """Whether the value at a load is an upper bound."""
        return load_w <= self.bounded_w


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """All that one measure has to say about one session."""

    id: str
    """Name of the measure's module."""
    title: str
    """Name in the terms of the ATX design guides."""
    findings: tuple[Finding, ...] = ()
    """Numbers."""
    checks: tuple[Check, ...] = ()
    """Outcomes."""
    curves: tuple[Curve, ...] = ()
    """Courses over load."""

    @property
    def taken(self) -> bool:
        """Whether the session took it: something was measured or tried."""
        return bool(self.findings or self.curves or any(check.outcome != "not_tested" for check in self.checks))


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """A finding held against a limit by the decision rule, or the outcome of a check."""

    key: str
    """Key of the finding or check."""
    title: str
    """What was judged."""
    outcome: Outcome
    """The verdict."""
    finding: Finding | None
    """The number judged, or nothing for a check."""
    limit_text: str
    """The limit in words with its unit, such as ``at most 120 mV``."""
    document: str
    """Document and clause."""
    standing: str
    """How sure the limit is (``seen``, ``second_hand``, ``from_memory``, ``house_rule``), or that it is ``computed``."""
    probability: float | None = None
    """Probability of conformity (JCGM 106:2012, 7), for judged numbers."""
    margin: float = 0.0
    """How far a judged number lies inside the nearest bound, in its unit; negative outside."""
    detail: str = ""
    """What happened, for checks."""
    origins: tuple[Origin, ...] = ()
    """Fields of records that it rests on."""

    def __post_init__(self) -> None:
        _named_alike(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class BadgeRow:
    """One load of a claimed level."""

    load_pct: float
    """Load, %."""
    what: Literal["efficiency", "power_factor"]
    """What is demanded there."""
    floor: float
    """What the level demands: % or a plain number."""
    found: Finding | None
    """What the bench found; nothing where it was not measured."""
    outcome: Outcome
    """The verdict at this load."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BadgeVerdict:
    """The badge on the box against the bench."""

    claimed: str
    """Level claimed; ``none`` where the box claims nothing."""
    mains_class: str
    """Table used, such as ``230v_eu_internal``."""
    outcome: Outcome
    """Over all loads: the worst of the rows."""
    supported: str
    """Highest level that every measured load reaches at face value; ``none`` where not even the lowest."""
    rows: tuple[BadgeRow, ...]
    """Load by load, for the claimed level (for the supported one where nothing is claimed)."""
    document: str
    """Document of the table."""
    told: BadgeRow | None = None
    """A demand that is known from memory alone, with what was found: undecided, and no part of the outcome."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitResult:
    """Everything the bench says about a unit, sessions and samples combined."""

    unit: Unit
    """The unit."""
    sessions: tuple[Session, ...]
    """All its sessions, oldest first."""
    used: tuple[Session, ...]
    """Sessions that the compared numbers rest on, oldest first: at the reference mains, for each sample those that took a measure last."""
    findings: tuple[Finding, ...]
    """Numbers, over the samples."""
    by_session: tuple[tuple[Session, tuple[Measure, ...]], ...]
    """What every session said by itself."""
    verdicts: tuple[Verdict, ...]
    """Verdicts, each by the worst sample."""
    badge: BadgeVerdict
    """The badge against the bench."""
    curves: tuple[Curve, ...]
    """Courses over load: means over samples taken at the same loads, else each from the newest session used that has it."""
    mains_missed_v: int = 0
    """The policy's reference mains, V, where there is no session at it and the compared numbers are those of the other one; else 0."""
    _by_key: dict[str, Finding] = field(init=False, repr=False, compare=False, default_factory=dict)

    def __post_init__(self) -> None:
        self._by_key.update({finding.key: finding for finding in self.findings})

    def __hash__(self) -> int:
        """Short, since results are long and looked up again and again."""
        return hash((self.unit, len(self.findings)))

    @property
    def revision(self) -> str:
        """The hardware revision that the compared numbers, the badge's verdict and the sizing rest on."""
        return self.used[-1].record.sample.hardware_revision

    @property
    def mains_v(self) -> int:
        """The mains that the compared numbers were measured at, 115 or 230 V."""
        return self.used[-1].mains_volts

    def finding(self, key: str) -> Finding | None:
        """The finding of this key, or nothing where it was not measured."""
        return self._by_key.get(key)

    def curve(self, key: str) -> Curve | None:
        """The curve of this key, or nothing."""
        return next((curve for curve in self.curves if curve.key == key), None)

    def verdict(self, key: str) -> Verdict | None:
        """The verdict of this key, the gravest where several limits bound it, or nothing."""
        found = (verdict for verdict in self.verdicts if verdict.key == key)
        return min(found, key=lambda verdict: WORST_FIRST.index(verdict.outcome), default=None)
