"""What changed since an edition, in the sentences that pages print; a bracket's are recalled as long as both sides stay."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import partial

from guidegen.evaluation import Changes
from guidegen.presentation.changes.lines import change_lines, unit_lines
from guidegen.presentation.changes.reasons import other_home, region_of
from guidegen.presentation.page_keys import Keys, key_of
from guidegen.recalling import Recall, anew

SHELF = "since"
"""Where the sentences are kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketTold:
    """What changed in a bracket."""

    lines: tuple[str, ...]
    """In as few sentences as tell it."""
    units: tuple[tuple[str, tuple[str, ...]], ...]
    """Unit by unit, a sentence a change."""
    new: tuple[str, ...]
    """Units that came, by identifier."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldChanges:
    """What changed since an edition."""

    edition: str
    """The edition's name."""
    printing: int
    """The edition's printing."""
    day: date
    """The edition's day."""
    region: str
    """The region by whose prices both are compared, by name."""
    own_home: str
    """The edition's own home region by name, by whose prices it was printed; empty where it is the same."""
    policy: tuple[str, ...]
    """What changed in the policy."""
    brackets: tuple[tuple[str, str, BracketTold], ...]
    """Identifier and title of each bracket, and what changed in it."""

    def of_bracket(self, bracket: str) -> tuple[str, ...]:
        """The sentences of a bracket."""
        return next((told.lines for name, _, told in self.brackets if name == bracket), ())

    def of_unit(self, unit: str) -> tuple[str, ...]:
        """The sentences about a unit."""
        return tuple(line for _, _, told in self.brackets for name, lines in told.units if name == unit for line in lines)

    @property
    def new(self) -> tuple[str, ...]:
        """Units that the edition did not have, by identifier."""
        return tuple(unit for _, _, told in self.brackets for unit in told.new)

    @property
    def lines(self) -> Iterator[str]:
        """Everything, the policy first."""
        yield from self.policy
        for _, _, told in self.brackets:
            yield from told.lines


def told_of(changes: Changes, after: Keys, recall: Recall = anew) -> ToldChanges:
    """What changed in sentences; ``after`` are the keys of the later guide."""
    guides = changes.guides
    before, edition = Keys.of(guides.before.library), guides.before.library.guide.edition
    common = key_of(before.rules, after.rules, guides.region, guides.moved)
    brackets = tuple(
        (one.id, one.title, recall(SHELF, key_of(common, one.id, before.inside.get(one.id), after.inside.get(one.id)), partial(_told, changes, one.id)))
        for one in guides.brackets
    )
    return ToldChanges(
        edition=edition.name, printing=edition.printing, day=edition.date, region=region_of(changes).name, own_home=other_home(changes),
        policy=change_lines(changes), brackets=brackets,
    )


def _told(changes: Changes, bracket: str) -> BracketTold:
    units = dict.fromkeys(one.unit for one in changes.in_bracket(bracket) if one.unit is not None)
    return BracketTold(
        lines=change_lines(changes, bracket), units=tuple((unit, unit_lines(changes, unit, bracket)) for unit in units),
        new=tuple(one.unit for one in changes.among("new", bracket=bracket) if one.unit is not None),
    )
