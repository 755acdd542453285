"""What could be read of a content folder, before anybody knows whether all of it is right."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from guidegen.errors import Fault, nearest_name
from guidegen.origins import Origin, Step
from guidegen.records import (
    Correction,
    FrozenEdition,
    GuideRecord,
    Library,
    Manuscript,
    PartsRecord,
    Picture,
    PolicyRecord,
    PriceList,
    Session,
    Unit,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """The records that have the right shape; nothing where a file has faults of its own."""

    guide: GuideRecord | None
    """``guide.yaml``."""
    policy: PolicyRecord | None
    """``policy.yaml``."""
    parts: PartsRecord | None
    """``parts.yaml``."""
    units: tuple[Unit, ...]
    """Units, by identifier."""
    sessions: tuple[Session, ...]
    """Sessions, by unit, date and file."""
    prices: tuple[PriceList, ...]
    """Price lists, by region."""
    manuscripts: tuple[Manuscript, ...]
    """Pages, by identifier."""
    unit_names: tuple[str, ...]
    """Names of all unit folders, whether their records could be read or not."""
    pictures: tuple[Picture, ...] = ()
    """Pictures, by file."""
    picture_names: tuple[str, ...] = ()
    """Names of all pictures, whether they could be read or not."""
    corrections: Mapping[int, Correction] = field(default_factory=dict)
    """Corrections, by their place in their file."""
    faulty: frozenset[str]
    """Files that have faults of their own."""
    editions: tuple[FrozenEdition, ...] = ()
    """Frozen editions, the latest first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """What a content folder holds, for checks that need not wait until all of it can be read."""

    draft: Draft
    """Records that have the right shape."""
    faults: tuple[Fault, ...]
    """Every fault of shape and reference, in its place."""

    @property
    def library(self) -> Library | None:
        """The whole content, or nothing where it has faults."""
        draft = self.draft
        if self.faults or draft.guide is None or draft.policy is None or draft.parts is None:
            return None
        return Library(
            guide=draft.guide, policy=draft.policy, parts=draft.parts, units=draft.units, sessions=draft.sessions,
            prices=draft.prices, manuscripts=draft.manuscripts, pictures=draft.pictures, editions=draft.editions,
            corrections=tuple(draft.corrections.values()),
        )


def unknown(origin: Origin, name: str, kind: str, known: tuple[str, ...]) -> Fault:
    """A name that leads nowhere."""
    nearest = nearest_name(name, known)
    some = f", one of {', '.join(known)}" if not nearest and 0 < len(known) <= 12 else ""
    article = "an" if kind[0] in "aeio" else "a"
    return Fault(origin=origin, came=name, expected=f"the name of {article} {kind}{some}", nearest=nearest, rule="reference")


def twice(origin: Origin, names: tuple[str, ...], *, field: Step = "id") -> Iterator[Fault]:
    """Names that stand in a list a second time."""
    seen: set[str] = set()
    for place, name in enumerate(names):
        if name in seen:
            yield Fault(origin=origin.at(place, field), came=f"{name} a second time", expected="each name once", rule="duplicate")
        seen.add(name)


def not_rising(origin: Origin, values: tuple[float, ...], *, field: str) -> Iterator[Fault]:
    """Values of a list that are not above the one before."""
    for place in range(1, len(values)):
        if values[place] <= values[place - 1]:
            yield Fault(
                origin=origin.at(place, field), came=f"{values[place]:g}",
                expected=f"more than {values[place - 1]:g}, which comes before", rule="order",
            )
