"""What a browser needs to rank a bracket again by the reader's own weights, as ``evaluation.rankings`` would."""

import json
from typing import Any

from guidegen.evaluation import CERTAINTY, TIE, PartScore, Ranking, Standing, measure_of
from guidegen.presentation.choosing import row_note, score_parts
from guidegen.records import Criterion, PolicyRecord


def weighing_of(ranking: Ranking, policy: PolicyRecord) -> str:
    """The criteria and each placed unit's worths and doubts as JSON, in the order of the table; empty below two units.

    Worths come from the value functions of the policy and stand at full precision. What a criterion weighs, the reader
    says; what its parts weigh within it, the policy.
    """
    if len(ranking.placed) < 2:
        return ""
    described = {
        "criteria": [_criterion(one) for one in policy.criteria],
        "tiers": [[_plain(tier.from_score), tier.title] for tier in policy.tiers],
        "tie": TIE,
        "certainty": CERTAINTY,
        "units": [_unit(standing) for standing in ranking.placed],
    }
    return json.dumps(described, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def _criterion(one: Criterion) -> dict[str, Any]:
    return {"id": one.id, "title": one.title, "points": _plain(one.points), "parts": [_plain(part.points) for part in one.parts],
            "measures": [measure_of(part.finding) for part in one.parts]}


def _unit(standing: Standing) -> dict[str, Any]:
    """A unit; ``low`` holds nothing where a part was not measured, which counts from worth 0 to worth 1.

    ``own`` and ``shared`` are standard uncertainties of the worths, ``noted`` whether the line under the name says
    something that no weight changes.
    """
    one = standing.candidate
    parts = one.score.parts
    return {
        "id": one.id,
        "noted": bool(row_note(standing, None)[0]),
        "worths": [part.worth for part in score_parts(one.score)],
        "low": [None if part.found is None else _plain(part.low) for part in parts],
        "own": [_doubt(part.own, part) for part in parts],
        "shared": [_doubt(part.shared, part) for part in parts],
    }


def _doubt(weighted: float, part: PartScore) -> float:
    """The uncertainty of a part's worth by itself, to twelve digits: more than any decision about level units needs."""
    return _plain(float(f"{weighted / part.weight:.12g}"))


def _plain(value: float) -> float:
    """The number as an integer where it is one, which is shorter; minus nought is nought."""
    return int(value) if value.is_integer() else value
