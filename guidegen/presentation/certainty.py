"""How sure an order is, in words: places in simulation, who is first under which weights, what unseats the first."""

from guidegen.evaluation import (
    ENOUGH_FIRSTS,
    BracketAssessment,
    Ranking,
    Robustness,
    Standing,
    WeightChange,
)
from guidegen.presentation.addresses import bracket_address, unit_address
from guidegen.presentation.catalogues import Words
from guidegen.presentation.choosing import place_text, unknown_words
from guidegen.presentation.formatting import NO_BREAK, listed, number, with_unit
from guidegen.presentation.names import lower_first
from guidegen.presentation.pieces import Cell, Column, Table

NOT_KNOWN = "not known"
TELLING = 0.05
"""A central weight counts as high when it exceeds the mean of all weightings by this much."""
LEANING = 0.02
"""The least excess that is told of a unit that many weightings put first."""
MOSTLY = 0.5
"""A unit that is first in this share of all weightings needs no favour."""
SAME_WEIGHT = 1e-9
"""Weights closer than this have not moved."""
TASTE = 0.05
"""Moving less than this share of all weight is a matter of taste."""

Cells = tuple[Cell, ...]
"""A row of a table."""


def certainty_table(one: BracketAssessment, words: Words) -> Table | None:
    """How sure the order of a bracket is, a row a unit; nothing where fewer than two have a place."""
    sure = one.robustness
    if sure is None or len(sure.units) < 2:
        return None
    rows = tuple(_row(standing, sure, one.ranking) for standing in one.ranking.placed)
    draws = f"{sure.measurement.draws:,}".replace(",", NO_BREAK)
    return Table(
        id="certainty",
        caption=words.say("certainty.caption"),
        worded=True,
        columns=(
            Column(key="unit", title=words.say("bracket.unit")), Column(key="sure", title=words.say("certainty.sure")),
            Column(key="simulated", title=words.say("certainty.simulated")),
            Column(key="if", title=words.say("certainty.first")), Column(key="share", title=words.say("certainty.share"), numeric=True),
            Column(key="weakest", title=words.say("certainty.weakest")), Column(key="geometric", title=words.say("certainty.geometric"), numeric=True),
        ),
        rows=rows,
        note=f"“Place, sure” holds for all units at once with 95{NO_BREAK}% confidence. “In simulation” is where the middle "
        f"95{NO_BREAK}% of {draws} runs with shaken readings fell; it is narrower and promises less. “All weightings” "
        f"leaves the readings alone and lets the {len(sure.criteria)} weights be anything. A geometric mean far below the score tells of a weakness that "
        "the sum makes up for.",
    )


def _row(standing: Standing, sure: Robustness, ranking: Ranking) -> tuple[Cell, ...]:
    one = standing.candidate
    best, worst = sure.measurement.place_range(one.id)
    return (
        Cell(text=one.name, address=unit_address(one.result.unit)),
        Cell(text=place_text(standing)),
        Cell(text=f"{best}" if best == worst else f"{best}–{worst}"),
        Cell(text=favour_words(sure, one.id, ranking) if one.score.complete else f"{unknown_words(one)}, counted at its worst"),
        Cell(text=share_text(sure.weights.first(one.id)) if one.score.complete else NOT_KNOWN),
        Cell(text=f"{lower_first(one.score.weakest.title)} ({number(100 * one.score.weakest.low, 0)})"),
        Cell(text=number(one.score.geometric, 1) if one.score.complete else NOT_KNOWN),
    )


def share_text(share: float) -> str:
    """A share of draws in per cent; 0 and 100 are said of nothing but none and all.

    >>> share_text(0.0004), share_text(0.25) == f"25{NO_BREAK}%", share_text(1.0)
    ('under 1\xa0%', True, 'all')
    """
    if share in (0.0, 1.0):
        return "all" if share else "none"
    if share < 0.01:
        return f"under 1{NO_BREAK}%"
    if share > 0.99:
        return f"over 99{NO_BREAK}%"
    return with_unit(100 * share, "%", 0)


def favour_words(sure: Robustness, unit: str, ranking: Ranking) -> str:
    """What must matter for a unit to be first, from the mean of the weights that put it first."""
    weights = sure.central_weights(unit)
    if weights is None:
        return "under no weighting"
    if sure.firsts(unit) < ENOUGH_FIRSTS:
        return "under hardly any weighting"
    even = 1 / len(weights)
    titles = {c.id: lower_first(c.title) for c in ranking.placed[0].candidate.score.criteria}
    high = sorted((name for name in weights if weights[name] - even >= TELLING), key=lambda name: -weights[name])[:2]
    if sure.weights.first(unit) >= MOSTLY:
        low = min(weights, key=lambda name: weights[name])
        return f"unless {titles[low]} matters most" if even - weights[low] >= LEANING else "whatever matters most"
    if not high:
        high = [max(weights, key=lambda name: weights[name])]
    return f"if {listed(tuple(titles[name] for name in high))} {'matters' if len(high) == 1 else 'matter'} most"


def stability_words(one: BracketAssessment) -> str:
    """How far the weights must move before another unit is first, and which; or empty."""
    sure = one.robustness
    if sure is None or len(sure.units) < 2:
        return ""
    names = {s.candidate.id: s.candidate.name for s in one.ranking.placed}
    first = names[sure.units[0]]
    if sure.unseated is None:
        return f"No weighting puts another unit before the {first}: none is better in anything that counts."
    other = names[sure.unseated.to]
    if sure.unseated.distance == 0.0:
        return f"The {other} is even with the {first} as it is."
    share = sure.unseated.distance / 2
    verdict = "so little is a matter of taste" if share < TASTE else "so much is another opinion"
    return (
        f"Moving {with_unit(100 * share, '%', 1)} of all weight {_moved(one, sure.unseated)} would put the {other} before "
        f"the {first}; {verdict}."
    )


def _moved(one: BracketAssessment, change: WeightChange) -> str:
    """From which criteria weight moves, and to which."""
    criteria = one.ranking.placed[0].candidate.score.criteria
    steps = [(new - c.weight, lower_first(c.title)) for c, new in zip(criteria, change.weights, strict=True)]
    losing = tuple(title for step, title in steps if step < -SAME_WEIGHT)
    gaining = tuple(title for step, title in steps if step > SAME_WEIGHT)
    return f"from {listed(losing)} to {listed(gaining)}"


def stability_insert(rows: tuple[Cells, ...]) -> Table | None:
    """How sure the first place of every bracket is, by the rows of all of them; nothing where no bracket has two units."""
    if not any(rows):
        return None
    headings = ("Bracket", "First", "By the measurements", "Near our weights", "Of all weightings", "Unseated by", "Weight to move")
    return Table(
        id="stability",
        caption="How sure the first place of each bracket is",
        columns=tuple(
            Column(key=f"c{i}", title=title, numeric=i in (2, 3, 4, 6)) for i, title in enumerate(headings)
        ),
        rows=tuple(row for row in rows if row),
        note="Shares of draws in which the unit is first: readings shaken by their uncertainty; weights scattered around "
        "ours; every weighting alike. The last column is the least weight that must move from some criteria to another.",
    )


def stability_row(one: BracketAssessment) -> Cells:
    """The row of a bracket; empty where nothing could be first instead."""
    sure = one.robustness
    if sure is None or len(sure.units) < 2:
        return ()
    candidates = {s.candidate.id: s.candidate for s in one.ranking.placed}
    first = candidates[sure.units[0]]
    change = sure.unseated
    return (
        Cell(text=one.ranking.bracket.title, address=bracket_address(one.ranking.bracket)),
        Cell(text=first.name, address=unit_address(first.result.unit)),
        *(Cell(text=share_text(run.first(first.id))) for run in (sure.measurement, sure.near, sure.weights)),
        Cell(text=candidates[change.to].name if change else "no unit"),
        Cell(text=with_unit(50 * change.distance, "%", 1) if change else "none would do"),
    )
