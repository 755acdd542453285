"""What stands for everything that a page shows, so that a page that stands already is not made again.

A key is taken from the records themselves (the hash of their text, or their whole ``repr``), not from what was computed of them: the same records
and the same program give the same page, and records are at hand before anything is computed.
"""

from dataclasses import dataclass
from hashlib import sha256
from typing import Self

from guidegen.evaluation import units_inside
from guidegen.records import Library, PriceRow


def key_of(*values: object) -> str:
    """SHA-256 of the values as they are written out; of equal values come equal keys.

    >>> key_of(1, "a") == key_of(1, "a"), key_of("1", "a") == key_of(1, "a")
    (True, False)
    """
    return sha256(repr(values).encode()).hexdigest()


@dataclass(frozen=True, slots=True)
class Keys:
    """Keys of the records that pages rest on."""

    measuring: str
    """What everything measured rests on: the guide, and the policy without what weighs and chooses."""
    rules: str
    """What everything judged and ranked rests on: guide and policy."""
    common: str
    """What every page rests on: guide, policy, parts and prose."""
    units: dict[str, str]
    """Each unit with its sessions and prices, by identifier."""
    inside: dict[str, str]
    """All units of a bracket, by the bracket's identifier."""
    prices: str
    """All price tables."""

    @classmethod
    def of(cls, library: Library) -> Self:
        """The keys of a library."""
        sessions: dict[str, list[object]] = {}
        for session in library.sessions:
            sessions.setdefault(session.unit, []).append((session.file, session.digest) if session.digest else session)
        prices: dict[str, list[tuple[str, PriceRow]]] = {}
        for table in library.prices:
            for row in table.rows:
                prices.setdefault(row.unit, []).append((table.region, row))
        units = {one.id: key_of(one.id, one.digest or one, sessions.get(one.id), prices.get(one.id)) for one in library.units}
        guide = library.guide
        inside = {bracket.id: key_of([units[unit] for unit in units_inside(library, bracket)]) for bracket in guide.brackets}
        tables = key_of([(one.region, one.file, one.digest or one.rows) for one in library.prices])
        rules = key_of(guide, library.policy)
        return cls(
            measuring=key_of(guide, library.policy.at_the_bench()), rules=rules, common=key_of(rules, library.parts, library.manuscripts),
            units=units, inside=inside, prices=tables,
        )

    def measured(self, units: tuple[str, ...]) -> str:
        """The key of what was measured of some units and held against limits."""
        return key_of(self.measuring, [self.units[unit] for unit in units])

    def bracket(self, bracket: str) -> str:
        """The key of what a bracket shows of its own."""
        return key_of(self.common, self.inside[bracket])

    def unit_page(self, unit: str, *others: object) -> str:
        """The key of a unit's page: its own records, and whatever of others is set into it."""
        return key_of(self.common, self.units[unit], *others)

    def bench_page(self, unit: str, *others: object) -> str:
        """The key of a unit's bench record, in which nothing is weighed, and of what is set into it."""
        return key_of(self.measuring, self.units[unit], *others)
