"""A computer as a list of part classes, and what it draws at rest, in ordinary work, for long and for a moment."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from guidegen.errors import Fault, RequestError, nearest_name
from guidegen.evaluation.sizing.excursions import Peak
from guidegen.evaluation.sizing.wording import watts
from guidegen.origins import Origin
from guidegen.records import PartClass, PartsRecord

MOST_OF_A_KIND = 64
"""More pieces of one class than this are a slip of the pen."""
FEW_OF_A_KIND = {"processor": 4, "graphics": 8, "board": 2, "pump": 8}
"""Kinds of which one computer holds fewer still."""
FILE = "parts.yaml"
"""Where the example computers stand."""
NOMINAL_V = {"12v": 12.0, "5v": 5.0, "3v3": 3.3}
"""Nominal voltage of each rail that parts hang on, V."""

State = Literal["idle", "typical", "sustained", "peak"]
"""At rest, in ordinary work, the longest lasting full load, the highest short peak."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildLine:
    """One class of parts in a build."""

    part: PartClass
    """The class."""
    count: int
    """How many pieces."""

    def watts(self, state: str) -> float:
        """What the pieces draw together, W; ``state`` is idle, typical, sustained or peak."""
        each: float = getattr(self.part, f"{state}_w")
        return self.count * each

    @property
    def words(self) -> str:
        """The line as it is added up, such as ``2 × Memory module: 2 × 5 W = 10 W``."""
        each, together = watts(self.part.sustained_w), watts(self.watts("sustained"))
        if self.count == 1:
            return f"1 × {self.part.title}: {together}"
        return f"{self.count} × {self.part.title}: {self.count} × {each} = {together}"


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildLoad:
    """What a build draws."""

    lines: tuple[BuildLine, ...]
    """Its parts, in the order of the content."""

    def watts(self, state: str) -> float:
        """Delivered power of the whole build in a state, W."""
        return math.fsum(line.watts(state) for line in self.lines)

    def rail_watts(self, rail: str, state: State = "sustained") -> float:
        """Delivered power on one rail, W: each class counts whole on the rail that carries most of it."""
        return math.fsum(line.watts(state) for line in self.lines if line.part.rail == rail)

    def rail_current(self, rail: str, state: State = "sustained") -> float:
        """Current on one rail at its nominal voltage, A."""
        return self.rail_watts(rail, state) / NOMINAL_V[rail]

    @property
    def full_w(self) -> float:
        """Usual full load: everything at its longest lasting load, W."""
        return self.watts("sustained")

    @property
    def idle_w(self) -> float:
        """At rest, W."""
        return self.watts("idle")

    @property
    def peak_w(self) -> float:
        """Full load with the largest single short peak on top, W; peaks of several parts do not fall together
        (common practice, no source).
        """
        return max((peak.power_w for peak in self.peaks()), default=self.full_w)

    def peaks(self) -> tuple[Peak, ...]:
        """The short peaks of the whole build, one for each class that has one, all else at full load."""
        full = self.full_w
        extras = ((line, line.watts("peak") - line.watts("sustained")) for line in self.lines)
        return tuple(
            Peak(power_w=full + extra, duration_ms=line.part.peak_ms, title=line.part.title)
            for line, extra in extras
            if extra > 0
        )

    def plugs(self, kind: str) -> int:
        """How many plugs of a kind the parts need; ``kind`` is cpu_8, pcie_8, pcie_16 or sata."""
        return sum(line.count * int(getattr(line.part, kind)) for line in self.lines)

    def steps(self) -> tuple[str, ...]:
        """The sum at full load, a line a part class and the total, for pencil and paper."""
        return (*(line.words for line in self.lines), f"Together at full load: {watts(self.full_w)}")


def most_of(kind: str) -> int:
    """How many pieces of a kind of part a computer holds at most.

    >>> most_of("processor"), most_of("fan")
    (4, 64)
    """
    return FEW_OF_A_KIND.get(kind, MOST_OF_A_KIND)


def absurd_examples(parts: PartsRecord) -> tuple[Fault, ...]:
    """A fault for each count of an example computer that no computer holds."""
    kinds = {part.id: part.kind for part in parts.classes}
    return tuple(
        Fault(origin=Origin(FILE, ("examples", place, "parts", name)), came=str(count), expected=f"1 to {most_of(kinds[name])} pieces", rule="count")
        for place, build in enumerate(parts.examples)
        for name, count in build.parts.items()
        if name in kinds and not 0 < count <= most_of(kinds[name])
    )


def least_idle_w(parts: PartsRecord) -> float:
    """What the smallest computer of these classes takes at rest, W: its least processor and its least board."""
    idles = ([part.idle_w for part in parts.classes if part.kind == kind] for kind in ("processor", "board"))
    return math.fsum(min(idle, default=0.0) for idle in idles)


def build_load(parts: PartsRecord, wanted: Mapping[str, int]) -> BuildLoad:
    """The load of a build; ``RequestError`` for an unknown class or an absurd count, naming the nearest right one."""
    if not wanted:
        raise RequestError("no parts named: expected at least one part class with a count")
    known = {part.id: part for part in parts.classes}
    for name, count in wanted.items():
        if name not in known:
            nearest = nearest_name(name, tuple(known))
            raise RequestError(
                f"no part class {name}" + (f"; did you mean {nearest}?" if nearest else f"; known: {', '.join(known)}")
            )
        most = most_of(known[name].kind)
        if not 0 < count <= most:
            raise RequestError(f"{count} pieces of {name}: expected 1 to {most}")
    return BuildLoad(
        lines=tuple(BuildLine(part=part, count=wanted[part.id]) for part in parts.classes if part.id in wanted)
    )
