"""What ``guidegen rank`` prints for machines: the JSON document and the CSV table."""

import csv
import io
from itertools import pairwise
from typing import Any

from guidegen.evaluation import Assessment, BracketAssessment, Robustness, Standing
from guidegen.presentation import describe_choice

Row = dict[str, Any]
"""A unit of a document, by field."""


def ranking_document(assessment: Assessment, brackets: tuple[BracketAssessment, ...]) -> Row:
    """The whole answer; scores and shares at full precision."""
    return {
        "edition": assessment.library.guide.edition.name,
        "brackets": [_bracket(one) for one in brackets],
    }


def _bracket(one: BracketAssessment) -> Row:
    placed = one.ranking.placed
    below = {s.candidate.id: next_one.candidate.id for s, next_one in pairwise(placed)}
    return {
        "bracket": one.ranking.bracket.id,
        "region": one.ranking.region.id,
        "units": [
            {**_unit(standing), **_sureness(standing, one.robustness, below.get(standing.candidate.id))}
            for standing in one.ranking.standings
        ],
        "choices": [
            {
                "choice": chosen.rule.id,
                "unit": chosen.standing.candidate.id if chosen.standing else None,
                "reason": describe_choice(chosen, one.ranking).why,
            }
            for chosen in one.choices
        ],
    }


def _unit(standing: Standing) -> Row:
    one = standing.candidate
    return {
        "unit": one.id,
        "place": standing.place,
        "place_range": [standing.best, standing.worst] if standing.place is not None else None,
        "score": one.score.low,
        "score_range": [one.score.low, one.score.high],
        "score_uncertainty": one.score.uncertainty,
        "technical_score": one.score.technical,
        "weakest": one.score.weakest.id,
        "geometric_mean": one.score.geometric,
        "beyond_anchors": one.score.beyond,
        "tier": standing.tier.title,
        "level_with": list(standing.level_with),
        "parts": {criterion.id: criterion.low for criterion in one.score.criteria},
        "gates": [{"gate": gate.gate.id, "verdict": gate.outcome} for gate in one.gates],
    }


def _sureness(standing: Standing, sure: Robustness | None, below: str | None) -> Row:
    """How sure a unit's place is; nothing for one without a place.

    The shares of the first place are kept apart by what was shaken: a reader takes a mixture for measurement error.
    """
    unit = standing.candidate.id
    if sure is None or standing.place is None:
        return {"rank_acceptability_first": None, "chance_above_next": None, "central_weights": None}
    return {
        "rank_acceptability_first": {
            "measurement": sure.measurement.first(unit),
            "weights": sure.weights.first(unit),
            "near_weights": sure.near.first(unit),
            "both": sure.both.first(unit),
        },
        "chance_above_next": sure.measurement.chance_above(unit, below) if below is not None else None,
        "central_weights": sure.central_weights(unit),
    }


def ranking_table(brackets: tuple[BracketAssessment, ...]) -> str:
    """The ranking as CSV (RFC 4180, but for lines that end in a line feed): a row a unit, empty where there is nothing."""
    rows = [_flat(one, unit) for document, one in ((_bracket(one), one) for one in brackets) for unit in document["units"]]
    text = io.StringIO()
    if rows:
        writer = csv.DictWriter(text, fieldnames=list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    return text.getvalue()


def _flat(one: BracketAssessment, unit: Row) -> Row:
    best, worst = unit["place_range"] or (None, None)
    first = unit["rank_acceptability_first"] or {}
    ranking = one.ranking
    standing = ranking.standing(unit["unit"])
    return {
        "bracket": ranking.bracket.id,
        "region": ranking.region.id,
        "unit": unit["unit"],
        "name": standing.candidate.name if standing else "",
        "place": unit["place"],
        "best_place": best,
        "worst_place": worst,
        "score": unit["score"],
        "score_high": unit["score_range"][1],
        "score_uncertainty": unit["score_uncertainty"],
        "technical_score": unit["technical_score"],
        "tier": unit["tier"],
        "level_with": " ".join(unit["level_with"]),
        **{f"worth_{name}": worth for name, worth in unit["parts"].items()},
        **{f"gate_{gate['gate']}": gate["verdict"] for gate in unit["gates"]},
        "first_by_measurement": first.get("measurement"),
        "first_of_all_weightings": first.get("weights"),
        "first_near_our_weights": first.get("near_weights"),
        "chance_above_next": unit["chance_above_next"],
    }
