"""What people wrote: units that came or went, sessions, facts, prices and rules that differ."""

from collections.abc import Iterator

from guidegen.evaluation.changes.causes import Because
from guidegen.evaluation.changes.change import Change, Kind
from guidegen.evaluation.changes.differences import record_differences
from guidegen.evaluation.changes.mixtures import Mixtures
from guidegen.evaluation.prices import PriceView
from guidegen.records import Session


def rules_changed(guides: Mixtures) -> Iterator[Change]:
    """The home region, the fields of the policy, and the brackets, that differ."""
    before, after = guides.before.library, guides.after.library
    if before.guide.home_region != after.guide.home_region:
        names = before.guide.home.name, after.guide.home.name
        yield Change(kind="policy", what="home_region", before=names[0], after=names[1], because=Because(policy=1.0))
    found = (
        *record_differences(before.policy, after.policy),
        *record_differences(before.guide.brackets, after.guide.brackets, "brackets"),
    )
    for one in found:
        yield Change(kind="policy", what=one.field, before=one.before, after=one.after, because=Because(policy=1.0))


def came_and_went(guides: Mixtures, bracket: str) -> Iterator[Change]:
    """The units that only one of the two guides has, with the place that they have or had."""
    staying = frozenset(guides.staying)
    for ranking, new in ((guides.last(bracket), True), (guides.first(bracket), False)):
        for standing in ranking.standings if ranking is not None else ():
            unit, place = standing.candidate.id, standing.place
            if unit not in staying:
                yield Change(
                    kind="new" if new else _gone(guides, unit), unit=unit, bracket=bracket, before=None if new else place,
                    after=place if new else None, because=Because(field=1.0),
                )


def _gone(guides: Mixtures, unit: str) -> Kind:
    left = guides.after.library.unit(unit)
    return "withdrawn" if left is not None and left.record.withdrawn is not None else "removed"


def sessions_changed(guides: Mixtures, bracket: str) -> Iterator[Change]:
    """The session records of units that both guides have: new, rewritten, or taken out."""
    for unit in _of_bracket(guides, bracket):
        before, after = (
            {one.file: one for one in side.library.sessions_of(unit)} for side in (guides.before, guides.after)
        )
        for file in sorted({*before, *after}):
            old, new = before.get(file), after.get(file)
            if old != new:
                yield Change(
                    kind="retested", unit=unit, bracket=bracket, what=file, before=_day(old), after=_day(new),
                    because=Because(measure=1.0),
                )


def _day(session: Session | None) -> str | None:
    return session.record.date.isoformat() if session is not None else None


def facts_changed(guides: Mixtures, bracket: str) -> Iterator[Change]:
    """The facts of the box that were put right, for units that both guides have."""
    for unit in _of_bracket(guides, bracket):
        old, new = guides.before.library.unit(unit), guides.after.library.unit(unit)
        if old is None or new is None:
            continue
        for one in record_differences(old.record, new.record):
            yield Change(
                kind="corrected", unit=unit, bracket=bracket, what=one.field, before=one.before, after=one.after,
                because=Because(measure=1.0),
            )


def prices_changed(guides: Mixtures, bracket: str) -> Iterator[Change]:
    """The prices that count, and the stock where only that differs, for units that both guides have."""
    first, last = guides.first(bracket), guides.last(bracket)
    for unit in _of_bracket(guides, bracket):
        old, new = (ranking.standing(unit) if ranking is not None else None for ranking in (first, last))
        if old is None or new is None:
            continue
        before, after = old.candidate.prices, new.candidate.prices
        if _price(before) != _price(after):
            yield Change(
                kind="repriced", unit=unit, bracket=bracket, what="price", before=_price(before), after=_price(after),
                because=Because(price=1.0),
            )
        elif before.availability != after.availability:
            yield Change(
                kind="repriced", unit=unit, bracket=bracket, what="stock", before=before.availability,
                after=after.availability, because=Because(price=1.0),
            )


def _price(view: PriceView) -> float | None:
    return view.best.row.price if view.best is not None else None


def _of_bracket(guides: Mixtures, bracket: str) -> Iterator[str]:
    """The units that both guides have and that stand in this bracket now, by name of the record."""
    last = guides.last(bracket)
    there = {standing.candidate.id for standing in last.standings} if last is not None else set()
    yield from (unit for unit in guides.staying if unit in there)
