"""Everything that is known of how sure a bracket's order is; three sources of doubt, three runs, never mixed."""

from dataclasses import dataclass

import numpy as np

from guidegen.evaluation.rankings import Ranking
from guidegen.evaluation.robustness.acceptability import Acceptability, accept, confidence_factors
from guidegen.evaluation.robustness.draws import DRAWS, any_weights, near_weights
from guidegen.evaluation.robustness.fields import field_of, values_as_found, values_in_doubt
from guidegen.evaluation.robustness.stability import WeightChange, crossover, unseat
from guidegen.records import PolicyRecord

ENOUGH_FIRSTS = 200
"""Central weights that rest on fewer draws are too uncertain to be put into words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """The weight of one criterion at which the first two units change order."""

    criterion: str
    """Short name of the criterion."""
    weight: float
    """Its weight now."""
    at: float | None
    """Its weight at the change of order, the others keeping their proportions; nothing where none does that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Robustness:
    """How sure the order of a bracket is, for the units that have a place."""

    units: tuple[str, ...]
    """Identifiers by place, in the order of all rows."""
    criteria: tuple[str, ...]
    """Short names of the criteria, in the order of all weights."""
    measurement: Acceptability
    """Readings shaken by their uncertainty, the editor's weights."""
    weights: Acceptability
    """Readings as found, all weightings alike."""
    near: Acceptability
    """Readings as found, weightings near the editor's."""
    both: Acceptability
    """Readings shaken, all weightings alike."""
    confidence: tuple[float | None, ...]
    """Share of the shaken readings in which a unit is first under the weights that suit it best; nothing where fewer
    than ``ENOUGH_FIRSTS`` weightings put it first."""
    unseated: WeightChange | None
    """The smallest change of weights that unseats the first; nothing where no weights do."""
    crossings: tuple[Crossing, ...]
    """Where the first two change order, criterion by criterion; empty with fewer than two units."""

    def central_weights(self, unit: str) -> dict[str, float] | None:
        """Mean weights under which a unit is first with the readings as found; nothing where it never is."""
        weights = self.weights.central_weights[self.units.index(unit)]
        return None if weights is None else dict(zip(self.criteria, weights, strict=True))

    def firsts(self, unit: str) -> int:
        """How many weightings of the run put a unit first."""
        return round(self.weights.first(unit) * self.weights.draws)


def robustness_of(ranking: Ranking, policy: PolicyRecord, *, seed: int, draws: int = DRAWS) -> Robustness | None:
    """How sure the order of a ranking is; nothing where no unit has a place."""
    scored = tuple((standing.candidate.id, standing.candidate.score) for standing in ranking.placed)
    if not scored:
        return None
    field = field_of(scored, policy, region=ranking.region.id, bracket=ranking.bracket.id)
    criteria, editor = tuple(field.weights), tuple(field.weights.values())
    found, shaken = values_as_found(field), values_in_doubt(field, seed, draws=draws)
    every = any_weights(seed, criteria, draws=draws)
    weights = accept(field.units, found, every)
    rows = tuple((unit, tuple(float(v) for v in worths[:, 0])) for unit, worths in zip(field.units, found, strict=True))
    return Robustness(
        units=field.units,
        criteria=criteria,
        measurement=accept(field.units, shaken, np.array(editor)[:, None], in_pairs=True),
        weights=weights,
        near=accept(field.units, found, near_weights(seed, field.weights, draws=draws)),
        both=accept(field.units, shaken, every),
        confidence=confidence_factors(shaken, _well_known(weights)),
        unseated=unseat(rows, editor),
        crossings=_crossings(rows, field.weights),
    )


def _well_known(weights: Acceptability) -> tuple[tuple[float, ...] | None, ...]:
    """Central weights that rest on enough draws."""
    enough = (places[0] * weights.draws >= ENOUGH_FIRSTS - 0.5 for places in weights.places)
    return tuple(central if known else None for central, known in zip(weights.central_weights, enough, strict=True))


def _crossings(rows: tuple[tuple[str, tuple[float, ...]], ...], weights: dict[str, float]) -> tuple[Crossing, ...]:
    if len(rows) < 2:
        return ()
    editor = tuple(weights.values())
    return tuple(
        Crossing(criterion=name, weight=weight, at=crossover(rows[0][1], rows[1][1], editor, k))
        for k, (name, weight) in enumerate(weights.items())
    )
