"""What a correction names held against the records: pages, files, fields, and the values before and now."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import Any

from guidegen.errors import Fault, nearest_name
from guidegen.origins import Origin, Step
from guidegen.records import (
    CORRECTIONS,
    Correction,
    PriceRow,
    inside,
    record_at,
    steps_of,
    value_at,
)
from guidegen.sources.documents import MOST_FAULTS
from guidegen.sources.draft import Draft, unknown
from guidegen.sources.folders import SINGLE_FILES
from guidegen.sources.shaping import adapter, shape, shown, unechoed
from guidegen.sources.strict_yaml import read_yaml

PAGES = ("unit", "bracket", "page")
"""What a correction may be about; one of them."""


def read_corrections(text: str) -> tuple[dict[int, Correction], tuple[Fault, ...]]:
    """The corrections that have the right shape, by their place in the file, and every fault of the others."""
    reading = read_yaml(CORRECTIONS, text)
    if not reading.parsed:
        return {}, reading.faults
    if not isinstance(reading.value, list):
        expected = "a list of corrections, each behind a dash; or no such file"
        came = "an empty file" if reading.value is None else shown(reading.value)
        return {}, reading.faults or (Fault(origin=Origin(CORRECTIONS), line=1, came=came, expected=expected, rule="file"),)
    made: dict[int, Correction] = {}
    faults: list[Fault] = []
    for place, value in enumerate(reading.value):
        one, found = shape(Correction, value, file=CORRECTIONS, above=(place,))
        faults += found
        if one is not None:
            made[place] = one
        if len(faults) >= MOST_FAULTS:
            break
    return made, (*reading.faults, *unechoed(tuple(faults), reading.faults))


def check_corrections(draft: Draft) -> Iterator[Fault]:
    """Every fault of the corrections that the records themselves show."""
    for place, one in draft.corrections.items():
        top = Origin(CORRECTIONS, (place,))
        yield from _page(one, draft, top)
        if draft.guide is not None and one.date > draft.guide.edition.date:
            expected = f"a day not after the edition's, {draft.guide.edition.date.isoformat()}"
            yield Fault(origin=top.at("date"), came=one.date.isoformat(), expected=expected, rule="date")
        yield from _record(one, draft, top)


def _page(one: Correction, draft: Draft, top: Origin) -> Iterator[Fault]:
    """The page that was wrong: exactly one, and there."""
    named = [kind for kind in PAGES if getattr(one, kind) is not None]
    if len(named) != 1:
        came = " and ".join(named) or "nothing"
        yield Fault(origin=top, came=came, expected="one of the fields unit, bracket and page", rule="reference")
    pages = {manuscript.id for manuscript in draft.manuscripts}
    pages |= {file.removeprefix("pages/").removesuffix(".md") for file in draft.faulty if file.startswith("pages/")}
    brackets = tuple(bracket.id for bracket in draft.guide.brackets) if draft.guide is not None else None
    known = {"unit": draft.unit_names, "bracket": brackets, "page": tuple(sorted(pages))}
    for kind in named:
        names, name = known[kind], str(getattr(one, kind))
        if names is not None and name not in names:
            yield unknown(top.at(kind), name, kind, names)


def _record(one: Correction, draft: Draft, top: Origin) -> Iterator[Fault]:
    """The field that was wrong: named whole or not at all."""
    if one.field is None:
        for name, value in (("file", one.file), ("was", one.was), ("is", one.now)):
            if value is not None:
                yield Fault(origin=top.at(name), came=shown(value), expected="the name of the field beside it, field", rule="missing")
        return
    if not one.record_file:
        yield Fault(origin=top, came="nothing", expected="the field file: the record that holds the field", rule="missing")
        return
    held = record_at(draft, one.record_file)
    if held is not None:
        yield from _folder(one, top)
        strange = tuple(_row(one, held, top))
        yield from strange or _field(one, held, top)
    elif one.record_file not in draft.faulty and (one.file is not None or one.unit in draft.unit_names):
        yield unknown(top.at("file"), one.record_file, "record's file", _files(draft))


def _files(draft: Draft) -> tuple[str, ...]:
    units, sessions, prices = ((one.file for one in some) for some in (draft.units, draft.sessions, draft.prices))
    return (*SINGLE_FILES, *units, *sessions, *prices)


def _folder(one: Correction, top: Origin) -> Iterator[Fault]:
    """A correction of a unit's page speaks of no other unit's record."""
    file = one.record_file
    if one.unit is not None and file.startswith("units/") and not file.startswith(f"units/{one.unit}/"):
        yield Fault(origin=top.at("file"), came=file, expected=f"a record of the unit, below units/{one.unit}/", rule="reference")


def _row(one: Correction, held: object, top: Origin) -> Iterator[Fault]:
    """Nor of another unit's price."""
    path = steps_of(one.field or "")
    if one.unit is None or not isinstance(held, tuple) or not path or path[0] not in inside(held):
        return
    row = held[int(path[0])]
    if isinstance(row, PriceRow) and row.unit != one.unit:
        own = tuple(f"[{place}]" for place, other in enumerate(held) if other.unit == one.unit)
        known = f", such as {own[-1]}, its last" if own else f"; {one.record_file} has none"
        yield Fault(
            origin=top.at("field"), came=f"{one.field}, a row of {row.unit}", expected=f"a row of {one.unit}{known}", rule="reference",
        )


def _field(one: Correction, held: object, top: Origin) -> Iterator[Fault]:
    path = steps_of(one.field or "")
    nowhere = _nowhere(held, path)
    if nowhere is not None:
        at, known = nowhere
        nearest = nearest_name(str(at), tuple(str(step) for step in known)) if isinstance(at, str) else ""
        expected = f"a field of {one.record_file}, as its faults are told, such as load_points[0].input_power_w"
        yield Fault(origin=top.at("field"), came=one.field or "", expected=expected, nearest=nearest, rule="reference")
        return
    value = value_at(held, path)
    if inside(value) or isinstance(value, tuple | dict):
        expected = "a field that holds one value, not a group or list"
        yield Fault(origin=top.at("field"), came=one.field or "", expected=expected, rule="reference")
    elif not _same(one.now, value):
        expected = f"{shown(_plain(value))}, what stands in {one.record_file}"
        expected = f"no value, since nothing stands in {one.record_file}" if value is None else expected
        yield Fault(origin=top.at("is"), came=shown(_plain(one.now)), expected=expected, rule="correction")
    elif _same(one.was, value):
        yield Fault(origin=top.at("was"), came=shown(_plain(one.was)), expected="another value than the one that is right", rule="correction")
    else:
        yield from _unfit(one, held, path, top.at("was"))


def _nowhere(held: object, path: tuple[Step, ...]) -> tuple[Step, tuple[Step, ...]] | None:
    """The first step that leads nowhere, with those that would lead on; nothing where the whole path leads somewhere."""
    if not path:
        return "", ()
    for end in range(len(path)):
        known = inside(value_at(held, path[:end]))
        if path[end] not in known:
            return path[end], known
    return None


def _unfit(one: Correction, held: object, path: tuple[Step, ...], place: Origin) -> Iterator[Fault]:
    """What no record could ever have held."""
    kind = PriceRow if isinstance(held, tuple) else type(held)
    record, way = (held[int(path[0])], path[1:]) if isinstance(held, tuple) else (held, path)
    value = adapter(kind).dump_python(record)
    _put(value, way, one.was)
    for fault in shape(kind, value, file=CORRECTIONS)[1]:
        yield replace(fault, origin=place, rule="correction")


def _put(group: Any, path: tuple[Step, ...], value: object) -> None:
    """Another value into plain groups and lists, taken out where it is nothing; tuples on the way become lists."""
    for step in path[:-1]:
        if isinstance(group[step], tuple):
            group[step] = list(group[step])
        group = group[step]
    if value is None and isinstance(group, dict):
        del group[path[-1]]
    else:
        group[path[-1]] = value


def _same(first: object, second: object) -> bool:
    """Whether two values are the same in a file; ``true`` is no 1."""
    return isinstance(first, bool) == isinstance(second, bool) and first == second


def _plain(value: object) -> object:
    """A value as it stands in a file."""
    if isinstance(value, date):
        return value.isoformat()
    return int(value) if isinstance(value, float) and value.is_integer() else value
