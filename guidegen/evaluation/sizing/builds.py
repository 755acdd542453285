"""A computer as a list of part classes, and what it draws at rest, in ordinary work, for long and for a moment."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.errors import RequestError, nearest_name
from guidegen.records import PartClass, PartsRecord

MOST_OF_A_KIND = 64
"""More pieces of one class than this are a slip of the pen."""


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


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildLoad:
    """What a build draws."""

    lines: tuple[BuildLine, ...]
    """Its parts, in the order of the content."""

    def watts(self, state: str) -> float:
        """Delivered power of the whole build in a state, W."""
        return math.fsum(line.watts(state) for line in self.lines)

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
        extra = max((line.watts("peak") - line.watts("sustained") for line in self.lines), default=0.0)
        return self.full_w + max(0.0, extra)

    def plugs(self, kind: str) -> int:
        """How many plugs of a kind the parts need; ``kind`` is cpu_8, pcie_8, pcie_16 or sata."""
        return sum(line.count * int(getattr(line.part, kind)) for line in self.lines)


def build_load(parts: PartsRecord, wanted: Mapping[str, int]) -> BuildLoad:
    """The load of a build; ``RequestError`` for an unknown class or an absurd count, naming the nearest right one."""
    known = {part.id: part for part in parts.classes}
    for name, count in wanted.items():
        if name not in known:
            nearest = nearest_name(name, tuple(known))
            raise RequestError(f"no part class {name}" + (f"; did you mean {nearest}?" if nearest else ""))
        if not 0 < count <= MOST_OF_A_KIND:
            raise RequestError(f"{count} pieces of {name}: expected 1 to {MOST_OF_A_KIND}")
    return BuildLoad(
        lines=tuple(BuildLine(part=part, count=wanted[part.id]) for part in parts.classes if part.id in wanted)
    )
