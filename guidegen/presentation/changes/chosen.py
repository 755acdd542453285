"""A choice that falls on another unit, in words: what happened to the one before, and what speaks for the new one."""

from guidegen.evaluation import Change, Changes, Chosen, Ranking, Standing
from guidegen.presentation.changes.places import why_gone
from guidegen.presentation.changes.reasons import region_of, shared_causes
from guidegen.presentation.choosing import absence, describe_choice, passed_over
from guidegen.presentation.formatting import finding_text, listed, money, number, rounded
from guidegen.presentation.names import lower_first


def choice_sentence(changes: Changes, change: Change) -> str:
    """Which unit is chosen instead of which, and why."""
    return f"{choice_title(changes, change)}: {choice_reason(changes, change)}"


def choice_title(changes: Changes, change: Change) -> str:
    """What the choice is called, by the later policy where that has it."""
    policies = (changes.guides.after.library.policy, changes.guides.before.library.policy)
    return next((rule.title for policy in policies for rule in policy.choices if rule.id == change.what), change.what)


def choice_reason(changes: Changes, change: Change) -> str:
    """The sentence behind the name of the choice; choices that changed alike have equal reasons."""
    bracket = change.bracket or ""
    first, last = changes.guides.first(bracket), changes.guides.last(bracket)
    now = changes.guides.choices(bracket, frozenset(changes.guides.moved)).get(change.what)
    before = changes.guides.choices(bracket, frozenset()).get(change.what)
    why = "; ".join(part for part in _why(changes, change, now, last) if part)
    if change.after is None:
        if now is not None and last is not None:
            why = lower_first(describe_choice(now, last).why).rstrip(".")
        return f"none any more, it was the {changes.name(f'{change.before}')}: {why or 'it is no longer asked for'}."
    name = f"the {changes.name(f'{change.after}')}"
    if change.before is None:
        before_that = "there was none" if before is not None else "the bracket is new" if first is None else "the choice is new"
        return f"{name} now, {before_that}; {why}."
    return f"{name} instead of the {changes.name(f'{change.before}')}; {why}."


def _why(changes: Changes, change: Change, now: Chosen | None, last: Ranking | None) -> tuple[str, ...]:
    if now is None or now.standing is None or last is None:
        return ()
    if now.override is not None:
        return (f"the editor's choice: {now.override.reason.rstrip('.')}",)
    former = last.standing(f"{change.before}") if change.before is not None else None
    arrived = "it is new" if changes.among("new", unit=change.after if isinstance(change.after, str) else "") else ""
    left = _why_left(changes, change, former, now) if change.before is not None else ""
    numbers = "" if left or former is None else _numbers(changes, now, now.standing, former)
    told = bool(arrived or left) and change.because.moved == ("field",)
    above = passed_over(now.standing, last).rstrip(".") if now.rule.rule == "highest_score" else ""
    return arrived, left, numbers, lower_first(above), "" if told else f"decided by {shared_causes(changes, change.because, change.bracket or '')}"


def _why_left(changes: Changes, change: Change, former: Standing | None, now: Chosen) -> str:
    """What keeps the unit that was chosen before from being chosen; empty where only the numbers speak against it."""
    name = f"the {changes.name(f'{change.before}')}"
    if former is None:
        return f"{name} {why_gone(changes, f'{change.before}', change.bracket or '')}"
    one = former.candidate
    if one.fails:
        return f"{name} fails a gate"
    held = tuple(lower_first(gate.gate.title) for gate in one.gates if gate.holds_back)
    if held:
        return f"{name} is held back: {listed(held)} not settled"
    if now.rule.must_be_available and not one.prices.available:
        lack = absence(one.prices)
        return f"{name} has {lack}" if lack.startswith("no ") else f"{name} is {lack}"
    if one.score.low < now.rule.least_score:
        return f"{name} scores {number(one.score.low, 1)}, under {number(now.rule.least_score, 0)}"
    return ""


def _numbers(changes: Changes, now: Chosen, winner: Standing, former: Standing) -> str:
    """The deciding number of the two, side by side."""
    if now.rule.rule == "highest_score":
        return _scores(winner, former)
    if now.rule.rule == "best_value":
        return " against ".join(
            f"{number(one.candidate.score.technical, 1)} before price for {_price(changes, one)}" for one in (winner, former)
        )
    found, other = (one.candidate.finding(now.rule.finding or "") for one in (winner, former))
    if found is None or other is None:
        return ""
    title, own, others = lower_first(found.title), finding_text(found), finding_text(other)
    if found.quantity.value == other.quantity.value:
        return f"{title} {own} like the other, so the score decides, {_scores(winner, former)}"
    return f"{title} {own} against {others}" if own != others else f"{title} {own} for both, apart by less than is printed"


def _scores(winner: Standing, former: Standing) -> str:
    """Both scores, with as many decimals as it takes to tell them apart."""
    low, high = (one.candidate.score.low for one in (former, winner))
    decimals = next((d for d in (1, 2, 3) if rounded(low, d) != rounded(high, d)), 1)
    return f"{number(high, decimals)} against {number(low, decimals)} of 100"


def _price(changes: Changes, standing: Standing) -> str:
    best = standing.candidate.prices.best
    price = best.row.price if best is not None else None
    return money(price, region_of(changes)) if price is not None else "no fresh price"
