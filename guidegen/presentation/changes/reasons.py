"""Why something changed, in words: what was recorded, prices, the policy, and who came or went."""

from datetime import date

from guidegen.evaluation import Because, Cause, Change, Changes, record_differences
from guidegen.presentation.formatting import NO_BREAK, day, listed, money, number, rounded, signed, with_unit
from guidegen.records import Library, Region, UnitRecord

TELLING_SHARE = 0.05
"""A cause with less than this share of an outcome is left out of the sentence; the document has it."""
CAUSE_TITLES: dict[Cause, str] = {
    "measure": "what was measured", "price": "prices", "policy": "the policy", "field": "units that came or went",
}
FACTS = "the record of the box"
"""What the cause ``measure`` is called where no session but the facts of a unit's box differ."""


def region_of(changes: Changes) -> Region:
    """The region compared, as the later guide has it."""
    regions = changes.guides.after.library.guide.regions
    return next(one for one in regions if one.id == changes.guides.region)


def other_home(changes: Changes) -> str:
    """The home region of the earlier guide by name, where that is not the region compared: its printed scores followed other prices."""
    guide = changes.guides.before.library.guide
    return "" if guide.home_region == changes.guides.region else guide.home.name


def unit_cause(changes: Changes, unit: str, cause: Cause) -> str:
    """What one cause stands for in one unit, such as a new session with its day, or a lower price with both prices."""
    if cause == "measure":
        return _records_words(changes, unit)
    if cause == "price":
        return _price_words(changes, unit)
    return "the changed policy" if cause == "policy" else CAUSE_TITLES["field"]


def _records_words(changes: Changes, unit: str) -> str:
    told = [_session_words(one) for one in changes.among("retested", unit=unit)]
    facts = changes.among("corrected", unit=unit)
    if facts:
        told.append(f"a corrected record of the box ({listed(tuple(one.what for one in facts))})")
    return listed(tuple(told)) or "other instruments"


def _session_words(change: Change) -> str:
    when = day(date.fromisoformat(f"{change.after or change.before}"))
    if change.before is None:
        return f"a new session ({when})"
    return f"a session put right ({when})" if change.after is not None else f"a session taken out ({when})"


def _price_words(changes: Changes, unit: str) -> str:
    found = next((one for one in changes.among("repriced", unit=unit) if one.what == "price"), None)
    if found is None:
        return "prices"
    old, new = amounts(found, region_of(changes))
    if not old:
        return f"a price that counts ({new})"
    if not new:
        return f"the want of a price that counts (it was {old})"
    lower = isinstance(found.before, float) and isinstance(found.after, float) and found.after < found.before
    return f"a {'lower' if lower else 'higher'} price ({old} to {new})"


def amounts(change: Change, region: Region) -> tuple[str, str]:
    """The two prices of a change, to the cent where they would else print alike; empty where there is none."""
    prices = [value if isinstance(value, float) else None for value in (change.before, change.after)]
    old, new = ("" if price is None else money(price, region) for price in prices)
    if old == new:
        old, new = ("" if price is None else money(price, region, decimals=2) for price in prices)
    return old, new


def cause_list(changes: Changes, unit: str, because: Because) -> str:
    """The causes of an outcome of one unit, the weightiest first."""
    weighed = sorted(because.moved, key=lambda cause: -abs(because.of(cause)))
    return listed(tuple(unit_cause(changes, unit, c) for c in weighed if abs(because.of(c)) >= TELLING_SHARE))


def cause_title(changes: Changes, cause: Cause, bracket: str) -> str:
    """What a cause is called that several units of a bracket bring about: what was measured, or the facts of their boxes, or both."""
    if cause != "measure":
        return CAUSE_TITLES[cause]
    guides = changes.guides
    there = {s.candidate.id for ranking in (guides.first(bracket), guides.last(bracket)) if ranking is not None for s in ranking.standings}
    sides = (guides.before.library, guides.after.library)
    staying = tuple(unit for unit in guides.staying if unit in there)
    facts = any(any(record_differences(_facts(sides[0], unit), _facts(sides[1], unit))) for unit in staying)
    measured = any(sides[0].sessions_of(unit) != sides[1].sessions_of(unit) for unit in staying)
    if facts and not measured:
        return FACTS
    return f"{CAUSE_TITLES[cause]} and {FACTS}" if facts else CAUSE_TITLES[cause]


def _facts(library: Library, unit: str) -> UnitRecord | None:
    found = library.unit(unit)
    return found.record if found is not None else None


def shared_causes(changes: Changes, because: Because, bracket: str) -> str:
    """The causes of an outcome that several units bring about, with their shares where there are several."""
    weighed = sorted(because.moved, key=lambda cause: -abs(because.of(cause)))
    telling = [cause for cause in weighed if abs(because.of(cause)) >= TELLING_SHARE]
    if len(telling) < 2:
        return "".join(cause_title(changes, cause, bracket) for cause in telling)
    return listed(tuple(f"{cause_title(changes, c, bracket)} ({with_unit(100 * because.of(c), '%', 0)})" for c in telling))


def score_words(changes: Changes, change: Change) -> str:
    """A score before and after, and by what; several causes with their points, which sum to the difference."""
    before, after = float(change.before or 0.0), float(change.after or 0.0)
    decimals = _decimals(before, after, change.because)
    told = [c for c in change.because.moved if rounded(change.because.of(c), decimals)]
    told.sort(key=lambda cause: -abs(change.because.of(cause)))
    way = f"from {number(before, decimals)} to {number(after, decimals)}"
    causes = tuple(unit_cause(changes, change.unit or "", cause) for cause in told)
    if len(told) < 2:
        return f"{way} by {''.join(causes)}"
    points = [signed(change.because.of(cause), decimals) for cause in told]
    points[0] += f"{NO_BREAK}points"
    return f"{way}: {listed(tuple(f'{step} by {cause}' for step, cause in zip(points, causes, strict=True)))}"


def _decimals(before: float, after: float, because: Because) -> int:
    """As few decimals as show that the score moved, and up to two more where several parts would not sum to the difference."""
    showing = next((d for d in (1, 2, 3, 4) if rounded(before, d) != rounded(after, d)), 6)
    parts = [because.of(cause) for cause in because.moved]
    fitting = (
        d for d in range(showing, showing + 3)
        if len(parts) == 1 or sum(rounded(part, d) for part in parts) == rounded(after, d) - rounded(before, d)
    )
    return next(fitting, showing)
