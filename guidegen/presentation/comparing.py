"""Two units side by side in the words of an editor: how far apart, what decides, what speaks for the other, how sure."""

from guidegen.evaluation import CriterionDifference, Ranking, Robustness, Standing
from guidegen.presentation.certainty import share_text
from guidegen.presentation.choosing import (
    TELLING_POINTS,
    criterion_words,
    known_shares,
    points_apart,
    score_text,
    standing_note,
)
from guidegen.presentation.formatting import NO_BREAK, counted, listed, number, with_unit


def compare(ranking: Ranking, units: tuple[str, str], sure: Robustness | None) -> tuple[str, ...]:
    """A few sentences on two units of a bracket; whichever scores higher is named first."""
    standings = tuple(s for s in ranking.standings if s.candidate.id in units)
    if len(standings) != 2:
        raise ValueError(f"{' and '.join(units)} are not two units of {ranking.bracket.title}")
    first, second = sorted(standings, key=lambda s: (s.place is None, -s.candidate.score.low))
    if second.place is None:
        return _unplaced(first, second)
    shares = known_shares(first.candidate, second.candidate)
    parts = (_difference(first, second), _decides(shares), _other_side(second, shares), _how_sure(first, second, sure))
    return tuple(part for part in parts if part)


def _unplaced(first: Standing, second: Standing) -> tuple[str, ...]:
    """Scores are not compared where a gate has spoken."""
    out = [standing for standing in (first, second) if standing.place is None]
    return (
        *(f"The {one.candidate.name} has no place: {standing_note(one, None)[0]}." for one in out),
        "No score makes up for a failed gate, so the two are not compared by score.",
    )


def _difference(first: Standing, second: Standing) -> str:
    one, other = first.candidate, second.candidate
    points, scores = points_apart(one.score, other.score), f"{score_text(one.score)} to {score_text(other.score)}"
    if score_text(one.score) == score_text(other.score):
        scores = f"{number(one.score.low, 2)} to {number(other.score.low, 2)}"
    return f"The {one.name} leads the {other.name} by {points}, {scores}."


def _decides(shares: tuple[CriterionDifference, ...]) -> str:
    gains = tuple(share for share in shares if share.points >= TELLING_POINTS)[:3]
    if not gains:
        return f"Nothing that counts sets them {with_unit(TELLING_POINTS, 'points', 1)} apart."
    return f"What decides: {listed(tuple(criterion_words(share) for share in gains))}."


def _other_side(second: Standing, shares: tuple[CriterionDifference, ...]) -> str:
    losses = tuple(share for share in shares if share.points <= -TELLING_POINTS)[:3]
    name = second.candidate.name
    if not losses:
        return f"The {name} has nothing of weight in its favour."
    return f"In favour of the {name}: {listed(tuple(criterion_words(share) for share in losses))}."


def _how_sure(first: Standing, second: Standing, sure: Robustness | None) -> str:
    """The chance with the readings shaken, and whether the two are level."""
    level = second.candidate.id in first.level_with
    verdict = "the two are level" if level else "the two are told apart"
    if sure is None:
        return f"{verdict[:1].upper()}{verdict[1:]}."
    chance = share_text(sure.measurement.chance_above(first.candidate.id, second.candidate.id))
    draws = f"{sure.measurement.draws:,}".replace(",", NO_BREAK)
    words = f"With the readings shaken by their uncertainty it is ahead in {chance} of {draws} runs; {verdict}"
    gaps = tuple(
        f"{counted(missing, 'number')} of the {s.candidate.name}"
        for s in (first, second)
        if (missing := sum(part.found is None for part in s.candidate.score.parts))
    )
    return f"{words}: what was not tested, {listed(gaps)}, may be good or bad." if gaps and level else f"{words}."
