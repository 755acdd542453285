"""What a sense check gets to see, what it says, and what a rule is."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from guidegen.origins import Origin
from guidegen.records import (
    Accepted,
    GuideRecord,
    Instrument,
    PriceList,
    Session,
    Unit,
)
from guidegen.records.guide import InstrumentQuantity


@dataclass(frozen=True, slots=True)
class Clash:
    """Something that can't be, as a check says it."""

    origin: Origin
    """File and field that it speaks of."""
    came: str
    """What stands there, with what it clashes with."""
    expected: str
    """What could stand there."""
    name: str = ""
    """What an ``accepted`` entry may call the field, where rows of a table move; empty for the field's own path."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Objection:
    """A clash with the rule that found it."""

    rule: str
    """Short name of the rule."""
    origin: Origin
    """File and field."""
    came: str
    """What stands there."""
    expected: str
    """What could stand there."""
    nearest: str = ""
    """The right name nearest to the one that came, or empty."""
    names: tuple[str, ...]
    """What an ``accepted`` entry may call the field."""
    holder: str
    """File whose ``accepted`` list may let it stand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AcceptedObjection:
    """An objection that the editor looked into and lets stand."""

    objection: Objection
    """What the check says."""
    accepted: Accepted
    """The editor's entry, with the reason."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SenseRecords:
    """The records to be checked, as far as they could be read."""

    guide: GuideRecord | None
    """``guide.yaml``, for the instruments; nothing where it could not be read."""
    units: tuple[Unit, ...]
    """Units."""
    sessions: tuple[Session, ...]
    """Sessions, by unit, date and file."""
    prices: tuple[PriceList, ...] = ()
    """Price lists."""
    complete: bool = True
    """Whether everything could be read; only then an ``accepted`` entry of a unit can be told to match nothing."""
    _by_id: dict[str, Unit] = field(init=False, repr=False, compare=False, default_factory=dict)

    def __post_init__(self) -> None:
        self._by_id.update({unit.id: unit for unit in self.units})

    def unit(self, identifier: str | None) -> Unit | None:
        """The unit of this identifier, or nothing."""
        return self._by_id.get(identifier or "")

    def places(self) -> Iterator["Occasion"]:
        """Every session whose unit and the guide could be read."""
        for session in self.sessions:
            unit = self.unit(session.unit)
            if unit is not None and self.guide is not None:
                yield Occasion(unit=unit, session=session, guide=self.guide)


@dataclass(frozen=True, slots=True, kw_only=True)
class Occasion:
    """One session with what it is to be held against."""

    unit: Unit
    """The unit on the bench."""
    session: Session
    """The session."""
    guide: GuideRecord
    """The guide, for its instruments."""

    def at(self, *steps: str | int) -> Origin:
        """A field of the session's record."""
        return Origin(self.session.file, steps)

    def instruments(self) -> tuple[tuple[int, Instrument], ...]:
        """The instruments used, each with its place in the session's list."""
        known = {instrument.id: instrument for instrument in self.guide.instruments}
        used = enumerate(self.session.record.instruments)
        return tuple((place, known[name]) for place, name in used if name in known)

    def floor(self, quantity: InstrumentQuantity) -> float:
        """Lowest value of a quantity that an instrument of the session can show; 0 where none is stated."""
        readings = (reading for _, instrument in self.instruments() for reading in instrument.readings)
        return min((reading.floor for reading in readings if reading.quantity == quantity), default=0.0)


OnSession = Callable[[Occasion], Iterator[Clash]]
"""Looks at one session alone."""
Known = Mapping[str, Sequence[tuple[str, Clash]]]
"""What rules about sessions found, by rule: each clash with the file of its session, in the order of the sessions."""
Check = Callable[[SenseRecords], Iterator[tuple[str, Clash]]]
"""Runs over the records; yields each clash with the file whose ``accepted`` list may let it stand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One thing that is checked."""

    name: str
    """Short name, as faults and ``accepted`` entries say it."""
    looks_at: str
    """What it objects to, in plain words."""
    check: Check
    """The check."""
    on_session: OnSession | None = None
    """The check of one session, where the rule looks at nothing else."""

    def objections(self, records: SenseRecords, known: Known) -> Iterator[Objection]:
        """Everything that the rule objects to; ``known`` is what rules about sessions say of each."""
        found = self.check(records) if self.on_session is None else known.get(self.name, ())
        for holder, clash in found:
            names = (clash.origin.field, clash.name) if clash.name else (clash.origin.field,)
            yield Objection(rule=self.name, origin=clash.origin, came=clash.came, expected=clash.expected,
                            names=names, holder=holder)


def session_rule(name: str, looks_at: str, check: OnSession) -> Rule:
    """A rule about one session at a time."""

    def run(records: SenseRecords) -> Iterator[tuple[str, Clash]]:
        for occasion in records.places():
            for clash in check(occasion):
                yield occasion.session.file, clash

    return Rule(name=name, looks_at=looks_at, check=run, on_session=check)


def unit_rule(name: str, looks_at: str, check: Callable[[Unit, SenseRecords], Iterator[Clash]]) -> Rule:
    """A rule about one unit record at a time."""

    def run(records: SenseRecords) -> Iterator[tuple[str, Clash]]:
        for unit in records.units:
            for clash in check(unit, records):
                yield unit.file, clash

    return Rule(name=name, looks_at=looks_at, check=run)
