"""How often a unit holds a place: stochastic multicriteria acceptability analysis (SMAA-2).

Source: Lahdelma and Salminen, SMAA-2, Operations Research 49 (2001) 444–454 (abstract seen, the rest from memory).
Ties: scores within ``TIE`` points share the better place, so that of two equal units in the lead both are first and
none is second. Rows of ``places`` sum to 1; columns do where nothing ties.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from guidegen.evaluation.robustness.draws import Draws
from guidegen.evaluation.scores import TIE

FEW = 120
"""Up to so many units counting who leads is quicker than sorting."""

Worths = Draws | NDArray[np.float32]
"""Worths from 0 to 1: units × criteria × draws."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Acceptability:
    """One run over one field."""

    units: tuple[str, ...]
    """Identifiers, in the order of all rows."""
    draws: int
    """Draws of the run."""
    places: tuple[tuple[float, ...], ...]
    """Rank acceptability: a row a unit, the share of draws in which it holds place 1, 2 and so on."""
    wins: tuple[tuple[float, ...], ...]
    """Pairwise winning index: share of draws in which the unit of the row is above the unit of the column; empty where it
    was not asked for."""
    central_weights: tuple[tuple[float, ...] | None, ...]
    """Mean of the weights under which a unit is first, in the order of the criteria; nothing where it never is."""

    def first(self, unit: str) -> float:
        """Share of draws in which a unit is first."""
        return self.places[self.units.index(unit)][0]

    def chance_above(self, first: str, second: str) -> float:
        """Share of draws in which the one unit is above the other."""
        return self.wins[self.units.index(first)][self.units.index(second)]

    def place_range(self, unit: str, *, share: float = 0.95) -> tuple[int, int]:
        """Places that hold the middle share of the draws; what happened in the simulation, no confidence set."""
        tail, slack = (1.0 - share) / 2.0, 1e-12
        below = np.cumsum(self.places[self.units.index(unit)])
        return int(np.argmax(below > tail + slack)) + 1, int(np.argmax(below >= 1.0 - tail - slack)) + 1


def accept(units: tuple[str, ...], values: Worths, weights: Draws, *, in_pairs: bool = False) -> Acceptability:
    """The run over these draws of values (units × criteria × draws) and weights (criteria × draws).

    Either may have a single draw, which then holds throughout. Units are compared two by two where ``in_pairs`` asks for it.
    """
    scores = totals(values, weights)
    places = _places(scores)
    draws = scores.shape[1]
    rows = tuple(
        tuple(float(n) / draws for n in np.bincount(row, minlength=len(units) + 1)[1 : len(units) + 1]) for row in places
    )
    return Acceptability(
        units=units, draws=draws, places=rows, wins=_wins(places) if in_pairs else (),
        central_weights=tuple(_central(weights, row == 1) for row in places),
    )


def totals(values: Worths, weights: Draws) -> Draws:
    """Scores from 0 to 100, units × draws; summed unit by unit, so that no unit's sum depends on the others."""
    scores, points = np.zeros((values.shape[0], max(values.shape[2], weights.shape[1]))), 100.0 * weights
    for unit, worths in enumerate(values):
        for worth, most in zip(worths, points, strict=True):
            scores[unit] += most * worth
    return scores


def _places(scores: Draws) -> NDArray[np.uint16]:
    """The place of every unit in every draw: one behind all whose lead over it is no tie."""
    if len(scores) <= FEW:
        return _counted(scores)
    order = np.argsort(-scores, axis=0, kind="stable")
    places = np.empty(scores.shape, dtype=np.uint16)
    np.put_along_axis(places, order, np.arange(1, len(scores) + 1, dtype=np.uint16)[:, None], axis=0)
    steps = np.diff(np.take_along_axis(scores, order, axis=0), axis=0)
    tied = np.flatnonzero((steps >= -TIE).any(axis=0))
    places[:, tied] = _counted(scores[:, tied])
    return places


def _counted(scores: Draws) -> NDArray[np.uint16]:
    """The same by counting who leads: the work grows with the square of the units."""
    places, level = np.ones(scores.shape, dtype=np.uint16), scores + TIE
    for other in scores:
        places += other > level
    return places


def _wins(places: NDArray[np.uint16]) -> tuple[tuple[float, ...], ...]:
    """How often each unit holds a better place than each."""
    draws = places.shape[1]
    return tuple(tuple((np.count_nonzero(places > own, axis=1) / draws).tolist()) for own in places)


def _central(weights: Draws, leads: NDArray[np.bool_]) -> tuple[float, ...] | None:
    if not leads.any():
        return None
    if weights.shape[1] == 1:
        return tuple(float(weight) for weight in weights[:, 0])
    return tuple(float(row[leads].mean()) for row in weights)


def confidence_factors(values: Worths, central: tuple[tuple[float, ...] | None, ...]) -> tuple[float | None, ...]:
    """How often each unit is first under the weights that suit it best; low means that the readings are too coarse."""
    return tuple(None if weights is None else _first(values, weights, unit) for unit, weights in enumerate(central))


def _first(values: Worths, weights: tuple[float, ...], unit: int) -> float:
    scores = totals(values, np.array(weights)[:, None])
    return float(np.mean(scores[unit] >= scores.max(axis=0) - TIE))
