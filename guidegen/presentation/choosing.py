"""Choices and places in words: why this one, why not the next, who should leave it."""

from guidegen.evaluation import (
    ABSENCES,
    Candidate,
    Chosen,
    CriterionDifference,
    CriterionScore,
    PriceView,
    Ranking,
    Score,
    Standing,
    Verdict,
    explain,
)
from guidegen.presentation.addresses import unit_address
from guidegen.presentation.formatting import (
    NO_BREAK,
    counted,
    day,
    finding_text,
    listed,
    money,
    number,
    order,
    rounded,
    signed,
    with_unit,
)
from guidegen.presentation.names import STOCKS, lower_first
from guidegen.presentation.pieces import Choice, Link, NoChoice, ScorePart
from guidegen.presentation.remarks import Remark, Topic, pick, remarks_on
from guidegen.records import ChoiceRule

RULE_TOPICS: dict[str, tuple[Topic, ...]] = {
    "acoustic_noise": ("noise",), "size": ("size",), "efficiency": ("efficiency",), "ripple": ("ripple",),
    "price": ("price",),
}
"""Topics that a choice's own deciding number already covers."""


def place_text(standing: Standing) -> str:
    """The place as it is printed: a range where units can't be told apart.

    The dash of a range is an en dash, as between any two numbers.
    """
    if standing.best is None or standing.worst is None:
        return ""
    return f"{standing.best}" if standing.best == standing.worst else f"{standing.best}–{standing.worst}"


def score_text(score: Score) -> str:
    """The score of 100, or the range that the unknowns leave where that shows in print."""
    return score_range(score.low, score.high)


def score_range(lowest: float, highest: float) -> str:
    """The score of 100 from its lower to its higher end, or one number where both print alike.

    >>> score_range(56.93, 79.38), score_range(78.31, 78.34)
    ('56.9–79.4', '78.3')
    """
    low, high = number(lowest, 1), number(highest, 1)
    return low if low == high else f"{low}–{high}"


def describe_choices(choices: tuple[Chosen, ...], ranking: Ranking) -> tuple[Choice | NoChoice, ...]:
    """The choices of a bracket; a unit chosen twice is described once and named again."""
    described: list[Choice | NoChoice] = []
    titles: dict[str, str] = {}
    for chosen in choices:
        unit = chosen.standing.candidate.id if chosen.standing else ""
        described.append(describe_choice(chosen, ranking, before=titles.get(unit, "")))
        titles.setdefault(unit, chosen.rule.title)
    return tuple(described)


def describe_choice(chosen: Chosen, ranking: Ranking, *, before: str = "") -> Choice | NoChoice:
    """A choice for the page, or the sentence that nothing meets it; ``before`` is the choice that it was already."""
    if chosen.standing is None:
        return NoChoice(id=chosen.rule.id, title=chosen.rule.title, why=why_nothing(chosen, ranking))
    one = chosen.standing.candidate
    if before:
        return Choice(
            id=chosen.rule.id, title=chosen.rule.title, unit=Link(text=one.name, address=unit_address(one.result.unit)),
            why=f"The {lower_first(before)} again: {lower_first(_lead(chosen, chosen.standing))}.", against=_against(chosen, ranking),
            drawback="", price="", shop=None, overridden=overridden(chosen),
        )
    remarks = remarks_on(one)
    return Choice(
        id=chosen.rule.id,
        title=chosen.rule.title,
        unit=Link(text=one.name, address=unit_address(one.result.unit)),
        why=_why(chosen, remarks),
        against=_against(chosen, ranking),
        drawback=drawback(one, remarks),
        price=price_text(one.prices),
        shop=shop_link(one.prices),
        overridden=overridden(chosen),
    )


def why_nothing(chosen: Chosen, ranking: Ranking) -> str:
    """Why no unit meets a rule, in a sentence."""
    placed = [standing.candidate for standing in ranking.placed]
    failing = sum(standing.candidate.fails for standing in ranking.standings)
    held = sum(one.held_back for one in placed)
    gone = [one.prices.absence for one in placed if not one.held_back and one.prices.absence]
    unseen = gone.count("no_price")
    absent = len(gone) - unseen
    rest = len(placed) - held - unseen - absent
    reasons = [
        f"{counted(failing, 'unit')} {'fails' if failing == 1 else 'fail'} a gate" if failing else "",
        f"{held} {'is' if held == 1 else 'are'} held back by an untested or undecided gate" if held else "",
        f"{unseen} {'has' if unseen == 1 else 'have'} no fresh price" if unseen else "",
        f"{absent} can't be bought now" if absent else "",
        f"the rest score under {number(chosen.rule.least_score, 0)}" if chosen.rule.least_score and rest else "",
    ]
    if not ranking.standings:
        return "Nothing of this wattage has been tested yet."
    return f"None of the {counted(len(ranking.standings), 'unit')} tested: {listed(tuple(r for r in reasons if r))}."


def _why(chosen: Chosen, remarks: tuple[Remark, ...]) -> str:
    standing = chosen.standing
    if standing is None:
        raise ValueError("a choice without a unit has no reason")
    lead = _lead(chosen, standing)
    strong = pick(remarks, good=True, most=2, besides=covered_topics(chosen.rule))
    return f"{'; '.join((lead, *(remark.clause for remark in strong)))}."


def covered_topics(rule: ChoiceRule) -> tuple[Topic, ...]:
    """The topics that a rule's own deciding number speaks of."""
    key = rule.finding or ("price" if rule.rule == "best_value" else "")
    return RULE_TOPICS.get(key.split(".")[0], ())


def _lead(chosen: Chosen, standing: Standing) -> str:
    one = standing.candidate
    points = f"{score_text(one.score)} of 100"
    if chosen.rule.rule == "highest_score":
        return points[:1].upper() + points[1:]
    if chosen.rule.rule == "best_value":
        price = one.prices.best.row.price if one.prices.best else None
        asked = f" for {money(price, one.prices.region)}" if price is not None else ""
        return f"{number(one.score.technical, 0)} of 100 before price{asked}"
    found = one.finding(chosen.rule.finding or "")
    return f"{found.title} {finding_text(found)}" if found else ""


def _against(chosen: Chosen, ranking: Ranking) -> str:
    first, second = chosen.standing, chosen.runner_up
    if first is None or chosen.override is not None:
        return ""
    if chosen.rule.rule == "highest_score":
        return " ".join(part for part in (passed_over(first, ranking) or perhaps_passed_over(first, ranking), _next_by_score(chosen)) if part)
    if second is None:
        return ""
    if chosen.rule.rule == "best_value":
        cost = money(chosen.margin, second.candidate.prices.region, decimals=2) if chosen.margin is not None else ""
        return f"Each further point, up to the {second.candidate.name}, costs {cost}." if cost else ""
    return _next_by_finding(first.candidate, second.candidate, chosen.rule.finding or "")


def _next_by_finding(first: Candidate, second: Candidate, key: str) -> str:
    own, other = first.finding(key), second.finding(key)
    if own is None or other is None:
        return ""
    if finding_text(own) == finding_text(other):
        return f"The {second.name} has the same and scores less."
    return f"Next is the {second.name} with {finding_text(other)}."


def passed_over(first: Standing, ranking: Ranking) -> str:
    """The unit that scores higher and still is not chosen, with the reason; empty where there is none."""
    above = highest_passed_over(first, ranking)
    if above is None:
        return ""
    one, why = above
    return f"The {one.name} scores higher ({score_text(one.score)}) but is passed over: {why}."


def perhaps_passed_over(first: Standing, ranking: Ranking) -> str:
    """The unit that may score higher and can't be had, with the reason; empty where there is none."""
    open_ended = [s.candidate for s in ranking.placed if s.candidate.score.high > first.candidate.score.high and not s.candidate.prices.available]
    if not open_ended:
        return ""
    one = max(open_ended, key=lambda other: (other.score.high, other.id))
    return f"The {one.name} may score higher ({score_text(one.score)}) but is passed over: {absence(one.prices)}."


def highest_passed_over(first: Standing, ranking: Ranking) -> tuple[Candidate, str] | None:
    """The highest unit that scores higher than the chosen one and why it isn't chosen, or nothing."""
    above = [s for s in ranking.placed if s.candidate.score.low > first.candidate.score.low]
    if not above:
        return None
    one = above[0].candidate
    held = next((gate for gate in one.gates if gate.holds_back), None)
    return one, f"{lower_first(held.gate.title)} not settled" if held else absence(one.prices)


def absence(view: PriceView) -> str:
    """Why a unit that is not available can't be had."""
    return ABSENCES.get(view.absence, STOCKS[view.availability])


def _next_by_score(chosen: Chosen) -> str:
    first, second = chosen.standing, chosen.runner_up
    if first is None or second is None:
        return ""
    other = second.candidate
    if other.id in first.level_with:
        return f"The measurements can't tell the {first.candidate.name} from the {other.name}; {decides(first.candidate, other, subject='the first')}."
    behind = points_apart(first.candidate.score, other.score)
    return f"The {other.name} is {behind} behind; {decides(first.candidate, other, subject=f'the {first.candidate.name}')}."


def points_apart(first: Score, second: Score) -> str:
    """How far a score lies above another, as a reader finds it from the two as they are printed."""
    apart = rounded(first.low, 1) - rounded(second.low, 1)
    return with_unit(float(apart), "points", 1) if apart else f"less than {with_unit(0.1, 'points', 1)}"


UNKNOWN = "?"
"""Stands for a worth of which nothing was found: nought would be a judgement."""
TELLING_POINTS = 0.5
"""Differences of less than this many points are left out of a sentence."""


def decides(first: Candidate, second: Candidate, *, subject: str) -> str:
    """What sets the first unit apart from the second: where it gains, where it loses, and what of either isn't known."""
    unknown = unknown_words(first, second)
    return f"{_decided(first, second, subject)}; {unknown}, which counts at its worst" if unknown else _decided(first, second, subject)


def unknown_words(*units: Candidate) -> str:
    """What of some units' scores was not found, and so speaks neither for nor against them; empty where all was."""
    return "; ".join(
        f"{_want_of_price(one.prices)} of the {one.name} is known" if criterion.kind == "price"
        else f"the {one.name} is not wholly tested for {lower_first(criterion.title)}"
        for one in units for criterion in one.score.criteria if not criterion.known
    )


def _want_of_price(view: PriceView) -> str:
    """What is wanting where no price counts."""
    return "no price in stock" if view.only_out_of_stock else "no fresh price"


def known_shares(first: Candidate, second: Candidate) -> tuple[CriterionDifference, ...]:
    """What sets two units apart, criterion by criterion, as far as both were found, the largest share first."""
    return tuple(share for share in explain(first.score, second.score).criteria if share.first.known and share.second.known)


def _decided(first: Candidate, second: Candidate, subject: str) -> str:
    shares = known_shares(first, second)
    gains = tuple(criterion_words(share) for share in shares if share.points >= TELLING_POINTS)[:3]
    losses = tuple(criterion_words(share) for share in shares if share.points <= -TELLING_POINTS)[:3]
    parts = (
        f"gains through {listed(gains)}" if gains else "",
        f"loses through {listed(losses)}" if losses else "",
    )
    told = ", and ".join(part for part in parts if part)
    return f"{subject} {told}" if told else "nothing that counts sets them far apart"


def neighbour_words(first: Standing, second: Standing, *, above: bool) -> str:
    """What sets a unit apart from its neighbour, said from its own page; ``first`` scores higher.

    ``above`` says that the page is the second unit's, so that the sentence speaks of the one above it.
    """
    own, other = (second, first) if above else (first, second)
    points = points_apart(first.candidate.score, second.candidate.score)
    why = decides(own.candidate, other.candidate, subject="this unit")
    if other.candidate.id in own.level_with:
        side = "above" if above else "below"
        whole = first.candidate.score.complete and second.candidate.score.complete
        doubt = "less than the doubt" if whole else "less than what isn't known leaves open"
        return f"Level with the {other.candidate.name} {side} it ({points} apart, {doubt}): {why}."
    if above:
        return f"The {other.candidate.name} above it leads by {points}: {why}."
    return f"It leads the {other.candidate.name} below it by {points}: {why}."


def criterion_words(difference: CriterionDifference) -> str:
    """A criterion with the two numbers that matter most in it, and its points."""
    part = difference.parts[0]
    points = signed(difference.points, 1)
    name = lower_first(difference.first.title)
    own, other = part.first.found, part.second.found
    if own is None or other is None or not own.quantity.unit or finding_text(own) == finding_text(other):
        return f"{name} ({points})"
    first = finding_text(own) if own.upper_bound else number(own.quantity.value, own.decimals)  # the unit once, where there is no more to say
    found = f"{first} to {finding_text(other)}"
    return f"{name} ({found}, {points})" if len(difference.parts) == 1 else f"{name} ({points}; {lower_first(own.title)} {found})"


WORTH_SAYING = 0.15
"""A remark of less weight is no drawback that a reader would call one."""


def drawback(one: Candidate, remarks: tuple[Remark, ...]) -> str:
    """The weightiest thing against a unit, and who should leave it; failing that, where it loses most points."""
    against = tuple(remark for remark in pick(remarks, good=False, most=2) if remark.weight >= WORTH_SAYING)
    if not against:
        costs = max(one.score.parts, key=lambda part: part.weight * (1 - part.low))
        found = f", {finding_text(costs.found)}" if costs.found else ""
        lost = number(100 * costs.weight * (1 - costs.low), 1)
        return f"Drawback: nothing stands out; most is lost through {lower_first(costs.title)}{found} ({lost} points)."
    first = against[0]
    words = f"Drawback: {first.clause}."
    skip = next((remark.reader for remark in against if remark.reader), "")
    return f"{words} Leave it for {skip}." if skip else words


def overridden(chosen: Chosen) -> str:
    """The editor's reason for a choice against the rule, or empty."""
    if chosen.override is None:
        return ""
    rule = chosen.by_rule.candidate.name if chosen.by_rule else "no unit"
    return f"The editor's choice: {chosen.override.reason} By the rule it would be {rule}."


def price_text(view: PriceView) -> str:
    """The price with its day, region and stock, or that there is none."""
    if view.best is None or view.best.row.price is None:
        if view.last_seen is None:
            return f"No price seen in {view.region.name}"
        return f"{_want_of_price(view).capitalize()} in {view.region.name}; the last is from {day(view.last_seen)}"
    tax = "" if view.region.tax == "included" else " before tax"
    stock = "" if view.availability == "in_stock" else f", {STOCKS[view.availability]}"
    return (
        f"{money(view.best.row.price, view.region)}{tax}, {view.region.name}, {day(view.best.row.date)}{stock}"
    )


def shop_link(view: PriceView) -> Link | None:
    """The offer behind the price, with its relation; a paid link says so in its words."""
    if view.best is None or not view.best.row.link:
        return None
    row = view.best.row
    paid = f" (paid{NO_BREAK}link)" if row.paid_link else ""
    rel = "sponsored noopener" if row.paid_link else "nofollow noopener"
    return Link(text=f"{row.shop}{paid}", address=row.link, rel=rel)


def score_parts(score: Score) -> tuple[ScorePart, ...]:
    """The criteria of a score for the small drawing, in the order of the policy."""
    return tuple(
        ScorePart(
            title=criterion.title,
            worth=number(100 * criterion.low, 0) if _found(criterion) else UNKNOWN,
            width=order(100 * criterion.weight, 1),
            filled=order(100 * criterion.low, 1),
            text=f"{criterion.title}: {number(100 * criterion.low, 0) + ' of 100' if _found(criterion) else 'not known'}, weight "
            f"{number(100 * criterion.weight, 1)}{NO_BREAK}%"
            + (", not everything tested" if _found(criterion) and not criterion.known else ""),
        )
        for criterion in score.criteria
    )


def _found(criterion: CriterionScore) -> bool:
    return any(part.found is not None for part in criterion.parts)


def standing_note(standing: Standing, above: Standing | None) -> tuple[str, bool]:
    """What must be said under a name in the table, and whether it warns; a level unit is named, since the reader may sort
    the table by another column.
    """
    one = standing.candidate
    failed = [gate for gate in one.gates if gate.outcome == "fail"]
    if failed:
        causes = tuple(_cause(gate.because[0]) for gate in failed if gate.because)
        return f"{listed(causes)}: not advised", True
    held = [gate for gate in one.gates if gate.holds_back]
    if held:
        names = tuple(lower_first(gate.gate.title) for gate in held)
        return f"held back from choices, {listed(names)}: {'undecided' if held[0].outcome == 'inconclusive' else 'not tested'}", True
    if not one.prices.available:
        return absence(one.prices), False
    if above is not None and above.candidate.id in standing.level_with:
        return f"level with the {above.candidate.name}", False
    return "", False


def row_note(standing: Standing, above: Standing | None) -> tuple[str, bool]:
    """The note under a name, and whether it warns; with the mains where the unit was not measured at the one compared at."""
    note, warns = standing_note(standing, above)
    result = standing.candidate.result
    mains = f"measured at {with_unit(result.mains_v, 'V', 0)}" if result.mains_missed_v else ""
    return "; ".join(part for part in (note, mains) if part), warns


def _cause(verdict: Verdict) -> str:
    if verdict.finding is not None:
        return f"{lower_first(verdict.title)} {finding_text(verdict.finding)}, {verdict.limit_text}"
    return f"{lower_first(verdict.title)} {verdict.detail}" if verdict.detail else lower_first(verdict.title)
