"""What a change is: one thing that two guides say differently, and what caused it."""

from dataclasses import dataclass
from typing import Literal

from guidegen.evaluation.changes.causes import Because
from guidegen.evaluation.changes.differences import Plain
from guidegen.evaluation.changes.mixtures import Mixtures
from guidegen.evaluation.lazily import Lazily

POLICY = "policy of the guide"
"""Name of the policy among the parts; no bracket can bear it."""

Kind = Literal[
    "policy", "choice", "new", "withdrawn", "removed", "gate", "place", "score", "tier", "retested", "corrected", "repriced"
]
"""``policy``, ``retested``, ``corrected`` and ``repriced`` are what people wrote, ``new``, ``withdrawn`` and ``removed``
which units there are, and the rest is what came of it. A unit is ``withdrawn`` where its record says so, ``removed`` where
the record or its last session is gone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One thing that differs between two guides."""

    kind: Kind
    """What kind of thing."""
    unit: str | None = None
    """Identifier of the unit; of a choice, the unit chosen now; nothing for the policy."""
    bracket: str | None = None
    """Identifier of the bracket; nothing for the policy."""
    what: str = ""
    """Which choice, gate, field, session record or part of the offer (``price``, ``stock``); empty where the kind says all."""
    before: Plain = None
    """How it was: place, score, word, unit chosen, day of the session, price; nothing where it was not there."""
    after: Plain = None
    """How it is."""
    because: Because
    """What caused it, in points, places or shares of one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """Two guides compared in one region."""

    guides: Mixtures
    """The two guides, and those between them."""
    parts: Lazily[tuple[Change, ...]]
    """The policy, named ``POLICY``, then each bracket by its identifier: choices, who came and went, gates, places, scores,
    words, records, prices; compared when somebody looks."""

    @property
    def all(self) -> tuple[Change, ...]:
        """All changes, the policy first."""
        return tuple(one for part in self.parts for one in part)

    def in_bracket(self, bracket: str | None) -> tuple[Change, ...]:
        """The changes of a bracket; of the policy and all brackets, where none is named."""
        return self.all if bracket is None else self.parts.named(bracket) or ()

    def among(self, *kinds: Kind, bracket: str | None = None, unit: str | None = None) -> tuple[Change, ...]:
        """The changes of some kinds; of one bracket or unit, where it is named."""
        part = self.parts[0] if kinds == ("policy",) else self.in_bracket(bracket)
        return tuple(one for one in part if one.kind in kinds and unit in (None, one.unit))

    def name(self, unit: str) -> str:
        """The name of a unit, as it is now or as it was."""
        found = self.guides.after.library.unit(unit) or self.guides.before.library.unit(unit)
        return found.name if found is not None else unit
