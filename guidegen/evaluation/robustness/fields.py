"""The values of a bracket's units in every draw: readings shaken by their uncertainty, worth by the same anchors."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from guidegen.evaluation.robustness.draws import DRAWS, Draws, normals
from guidegen.evaluation.scores import Score, anchors_at
from guidegen.records import Anchor, PolicyRecord


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """The units of a bracket and region that have a place, with the scale that holds there."""

    units: tuple[str, ...]
    """Identifiers, in the order of the ranking."""
    scores: tuple[Score, ...]
    """Their scores."""
    weights: dict[str, float]
    """The editor's weight of each criterion, in the order of the policy; they sum to 1."""
    anchors: tuple[tuple[Anchor, ...], ...]
    """Anchors of every part, in the order of ``Score.parts``."""


def field_of(scored: tuple[tuple[str, Score], ...], policy: PolicyRecord, *, region: str, bracket: str) -> Field:
    """The field of units and their scores, all scored by this policy in this place."""
    points = sum(criterion.points for criterion in policy.criteria)
    return Field(
        units=tuple(unit for unit, _ in scored),
        scores=tuple(score for _, score in scored),
        weights={criterion.id: criterion.points / points for criterion in policy.criteria},
        anchors=tuple(anchors_at(part, region, bracket) for criterion in policy.criteria for part in criterion.parts),
    )


def values_as_found(field: Field) -> Draws:
    """Worth of every criterion at the readings as they are: units × criteria × one draw."""
    return np.array([[[criterion.low] for criterion in score.criteria] for score in field.scores])


def values_in_doubt(field: Field, seed: int, *, draws: int = DRAWS) -> NDArray[np.float32]:
    """Worth of every criterion with the readings shaken by their uncertainty: units × criteria × draws.

    An error that the instruments make alike for all units is drawn once for each measure (a meter that reads high does so at
    every load), what is a unit's own is drawn for each unit and finding. What was not measured stays at worth 0, where it
    ranks. Worths of seven digits: all units of a bracket are held at once.
    """
    common = _common_errors(field, seed, draws)
    values = np.empty((len(field.units), len(field.weights), draws), dtype=np.float32)
    for i, unit in enumerate(field.units):
        ends = iter(field.anchors)
        for c, criterion in enumerate(field.scores[i].criteria):
            total = np.zeros(draws)
            for part in criterion.parts:
                anchors, found = next(ends), part.found
                share = part.weight / criterion.weight
                if found is None or found.quantity.uncertainty == 0.0:
                    total += share * part.low
                    continue
                errors = found.quantity.own * normals(seed, unit, part.finding, draws=draws)
                errors += found.quantity.shared * common.get(part.measure, 0.0)
                total += share * _worths(found.quantity.value + errors, anchors)
            values[i, c] = total
    return values


def _common_errors(field: Field, seed: int, draws: int) -> dict[str, Draws]:
    """The error that all units share, for each measure that has one."""
    shared = {
        part.measure for score in field.scores for part in score.parts if part.found and part.found.quantity.shared
    }
    return {measure: normals(seed, "every unit", measure, draws=draws) for measure in sorted(shared)}


def _worths(values: Draws, anchors: tuple[Anchor, ...]) -> Draws:
    """Worths of many values at once, as ``value_functions.worth_of`` gives for one."""
    return np.interp(values, [anchor.at for anchor in anchors], [anchor.worth for anchor in anchors])
