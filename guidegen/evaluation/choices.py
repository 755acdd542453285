"""The choices of a bracket, by rules that the policy states."""

from dataclasses import dataclass

from guidegen.evaluation.rankings import Ranking, Standing
from guidegen.evaluation.scores import TIE
from guidegen.records import ChoiceRule, Override, PolicyRecord


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """One choice of one bracket."""

    rule: ChoiceRule
    """The rule."""
    standing: Standing | None
    """The unit, or nothing where none meets the rule."""
    runner_up: Standing | None
    """The next by the rule, or nothing."""
    margin: float | None
    """By how much the unit leads the runner-up, in the rule's measure (points, the finding's unit, or the price of
    one more point of technical score for the best value)."""
    considered: int
    """How many units the rule looked at."""
    override: Override | None
    """The editor's own choice, where there is one."""
    by_rule: Standing | None
    """What the rule chose, where the editor chose otherwise."""


def choose(ranking: Ranking, policy: PolicyRecord) -> tuple[Chosen, ...]:
    """The choices of a bracket, in the order of the policy."""
    return tuple(_choose(ranking, rule, policy) for rule in policy.choices)


def _choose(ranking: Ranking, rule: ChoiceRule, policy: PolicyRecord) -> Chosen:
    able = [s for s in ranking.placed if may_be_chosen(s, rule)]
    ordered = _in_order(able, rule)
    winner = ordered[0] if ordered else None
    runner_up = ordered[1] if len(ordered) > 1 else None
    override = next((o for o in policy.overrides if (o.bracket, o.choice) == (ranking.bracket.id, rule.id)), None)
    wished = ranking.standing(override.unit) if override else None
    if override and wished and wished.place is not None and not wished.candidate.held_back:
        return Chosen(rule=rule, standing=wished, runner_up=winner, margin=None, considered=len(able),
                      override=override, by_rule=winner)
    return Chosen(rule=rule, standing=winner, runner_up=runner_up, margin=_margin(winner, runner_up, rule),
                  considered=len(able), override=None, by_rule=None)


def may_be_chosen(standing: Standing, rule: ChoiceRule, *, though_unknown: bool = False) -> bool:
    """Whether a rule looks at a unit; ``though_unknown``: whether it might if what was not measured turned out at its best."""
    one = standing.candidate
    there = one.prices.available or not rule.must_be_available
    if though_unknown:
        return there and one.score.high >= rule.least_score
    return not one.held_back and there and one.score.low >= rule.least_score


def _in_order(able: list[Standing], rule: ChoiceRule) -> list[Standing]:
    if rule.rule == "highest_score":
        return sorted(able, key=lambda s: (-s.candidate.score.low, s.candidate.id))
    if rule.rule == "best_value":
        return _from_best_value(price_front(able), rule)
    measured = [(found.quantity.value, s) for s in able if (found := s.candidate.finding(rule.finding or "")) is not None]
    sign = 1.0 if rule.rule == "lowest_finding" else -1.0
    return [s for _, s in sorted(measured, key=lambda pair: (sign * pair[0], -pair[1].candidate.score.low))]


def _from_best_value(front: tuple[Standing, ...], rule: ChoiceRule) -> list[Standing]:
    """The front from its best value upward: from the cheapest unit on as long as one more point costs little enough."""
    here = 0
    while here + 1 < len(front) and point_price(front[here], front[here + 1]) <= (
        rule.most_per_point_pct / 100.0 * price_of(front[here])
    ):
        here += 1
    return list(front[here:])


def point_price(cheaper: Standing, dearer: Standing) -> float:
    """What one more point of technical score costs between two units of the front, in the region's currency."""
    points = dearer.candidate.score.technical - cheaper.candidate.score.technical
    return (price_of(dearer) - price_of(cheaper)) / points


def price_front(standings: list[Standing]) -> tuple[Standing, ...]:
    """The units that no other beats in both price and technical score, cheapest first (Pareto front).

    Value for money is read off this front; a quotient of score and price would change with the zero of the score
    (Goodwin and Wright, Decision Analysis for Management Judgment, ch. 3).
    """
    front: list[Standing] = []
    best = -1.0
    for standing in sorted(standings, key=lambda s: (price_of(s), -s.candidate.score.technical, s.candidate.id)):
        if standing.candidate.score.technical > best + TIE:
            front.append(standing)
            best = standing.candidate.score.technical
    return tuple(front)


def price_of(standing: Standing) -> float:
    """Price in the region's currency; infinite without a fresh one."""
    best = standing.candidate.prices.best
    return best.row.price if best is not None and best.row.price is not None else float("inf")


def _margin(winner: Standing | None, runner_up: Standing | None, rule: ChoiceRule) -> float | None:
    if winner is None or runner_up is None:
        return None
    if rule.rule == "highest_score":
        return winner.candidate.score.low - runner_up.candidate.score.low
    if rule.rule == "best_value":
        return point_price(winner, runner_up)
    first, second = (s.candidate.finding(rule.finding or "") for s in (winner, runner_up))
    return abs(first.quantity.value - second.quantity.value) if first and second else None
