"""A unit beside the one that it replaces, in words and tables: every number, and what changed inside."""

from guidegen.evaluation import Revised, UnitResult, revised
from guidegen.presentation.catalogues import Words
from guidegen.presentation.formatting import (
    COVERAGE,
    NO_BREAK,
    counted,
    finding_text,
    listed,
    number,
    rounded,
    signed,
    with_unit,
)
from guidegen.presentation.names import lower_first
from guidegen.presentation.pieces import Fact, Table
from guidegen.presentation.tables import plain_table, worded_table
from guidegen.presentation.unit_words import construction_facts

OUTCOMES = {"better": "better", "worse": "worse", "other": "differs", "within": "within the doubt"}
"""What a difference says; where neither way is better it only differs."""
BEYOND = ", by more than its uncertainty"
"""Said behind them where numbers within the doubt stand beside."""
MOST_ROWS = 24
"""Most rows of the table on the report; the bench record has the rest."""
_ACTED = {1.0: "acted", 0.5: "acted outside its band", 0.0: "did not act"}
"""What findings of yes and no stand for."""


def predecessor_words(result: UnitResult, before: UnitResult | None) -> str:
    """What changed since the unit that this one replaces, in a sentence; empty without a predecessor."""
    if before is None:
        return ""
    changes = sorted(revised(result, before), key=lambda one: -one.doubts)
    better, worse = (tuple(lower_first(one.now.title) for one in changes if one.outcome == way) for way in ("better", "worse"))
    if not better and not worse:
        return f"Beside the {before.unit.name} nothing is better or worse by more than the doubt."
    parts = [f"better in {counted(len(better), 'number')}, most of all {listed(better[:3])}"] if better else []
    parts += [f"worse in {counted(len(worse), 'number')}, most of all {listed(worse[:3])}"] if worse else []
    return f"Beside the {before.unit.name} it is {'; and '.join(parts)}."


def predecessor_table(result: UnitResult, before: UnitResult, words: Words) -> Table:
    """The numbers that are most surely better or worse than the predecessor's, in the order of the report."""
    every = revised(result, before)
    changed = tuple(one for one in every if one.outcome in ("better", "worse"))
    surest = sorted(changed, key=lambda one: -one.doubts)[:MOST_ROWS]
    kept = tuple(one for one in changed if one in surest)
    left = f"the {len(kept)} surest of {len(changed)}" if len(kept) < len(changed) else "all of them"
    note = (
        f"What is better or worse by more than the expanded uncertainty of the difference (k = {COVERAGE}), {left}; the bench "
        f"record sets all {counted(len(every), 'number')} beside each other."
    )
    return _table("predecessor", result, before, words, (kept, note))


def whole_predecessor_table(result: UnitResult, before: UnitResult, words: Words) -> Table:
    """Every number beside the predecessor's."""
    note = (
        f"Differences with their expanded uncertainty (k = {COVERAGE}); what the same instruments do to both units falls out of them."
    )
    return _table("predecessor-whole", result, before, words, (revised(result, before), note))


def _table(identifier: str, result: UnitResult, before: UnitResult, words: Words, told: tuple[tuple[Revised, ...], str]) -> Table:
    rows, note = told
    headings = (
        "", before.unit.record.model, result.unit.record.model, words.say("predecessor.difference"), words.say("predecessor.change"),
    )
    return worded_table(plain_table(
        identifier, words.say("predecessor.caption", unit=before.unit.name), headings,
        tuple(_row(one, beyond="" if identifier == "predecessor" else BEYOND) for one in rows), note=note,
    ))


def _row(one: Revised, *, beyond: str) -> tuple[str, ...]:
    outcome = OUTCOMES[one.outcome] + ("" if one.outcome == "within" else beyond)
    if one.now.key.endswith(".acted"):
        then, now = (_ACTED.get(finding.quantity.value, finding_text(finding)) for finding in (one.then, one.now))
        return one.now.title, then, now, "", outcome
    return one.now.title, finding_text(one.then), finding_text(one.now), _difference(one), outcome


def _difference(one: Revised) -> str:
    """The difference with its expanded uncertainty, both ending at the same digit."""
    decimals = one.now.decimals
    unit = "points" if one.difference.unit == "%" else one.difference.unit
    doubt = rounded(COVERAGE * one.difference.uncertainty, decimals)
    spread = f"{NO_BREAK}±{NO_BREAK}{doubt}" if doubt else ""
    return f"{signed(one.difference.value, decimals)}{spread}{NO_BREAK}{unit}".rstrip()


def inside_table(result: UnitResult, before: UnitResult, words: Words) -> Table:
    """What differs in the two records of the box and its inside, field by field."""
    then, now = ({fact.label: fact.text for fact in _facts(one, words)} for one in (before, result))
    rows = tuple((label, then.get(label, ""), now.get(label, "")) for label in {**now, **then} if then.get(label) != now.get(label))
    headings = ("", before.unit.record.model, result.unit.record.model)
    note = "" if rows else "The two records name the same parts, size and warranty."
    return worded_table(plain_table("predecessor-inside", words.say("predecessor.inside"), headings, rows, note=note))


def _facts(result: UnitResult, words: Words) -> tuple[Fact, ...]:
    """What is inside, and what the box says of itself."""
    record, say = result.unit.record, words.say
    return (
        *construction_facts(result, words),
        Fact(label=say("facts.built_by"), text=record.platform_maker),
        Fact(label=say("facts.rated"), text=with_unit(record.rated_power_w, "W", 0)),
        Fact(label=say("facts.form"), text=f"{record.form_factor}, {with_unit(record.size.depth_mm, 'mm', 0)} deep"),
        Fact(label=say("facts.warranty"), text=f"{number(record.warranty_years, 0)} years"),
    )
