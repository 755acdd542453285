"""Facts of a unit that contradict each other, or the bench."""

import re
from collections.abc import Iterator

from guidegen.evaluation.sense_checks.magnitude import NOMINAL_V
from guidegen.evaluation.sense_checks.shapes import Clash, Occasion, SenseRecords
from guidegen.origins import Origin
from guidegen.records import Unit

LIGHT_PCT = 10.0
"""At this load and below it a fan that ever stands still does; such fans start between 20 and 50 % (common practice, no source)."""
BEFORE_ATX_3 = ("atx12v_2.4", "atx_2.52")
"""Standards older than the 12V-2x6 plug."""
UNPLUGS = re.compile(r"(?<!non-)(?<!not )(?<!semi-)\bmodular\b|\bdetachable\b|\bunplug", re.IGNORECASE)
"""Words that say of cables that they come off."""
RATING_PCT = 2.0
"""How far the rails together may stay below the rating, %."""
RAIL_FACTOR = 1.25
"""How far one rail may go beyond the rating of the whole (common practice, no source)."""


def semi_passive(occasion: Occasion) -> Iterator[Clash]:
    """A fan that is said to stand at low load and turns at the lightest, where that is light, or that stands though it never should."""
    says, record = occasion.unit.record.fan.semi_passive, occasion.session.record
    first = record.load_points[0]
    if says and first.load_pct <= LIGHT_PCT and first.fan_rpm is not None and first.fan_rpm > 0:
        came = f"{first.fan_rpm:g} 1/min at {first.load_pct:g} % load, although unit.yaml says semi_passive: true"
        expected = f"a fan that stands at the lightest load, where that is {LIGHT_PCT:g} % or less"
        yield Clash(occasion.at("load_points", 0, "fan_rpm"), came, expected)
    sweep = record.noise_sweep.points if record.noise_sweep else ()
    rows = (
        *((("load_points", place), point.fan_rpm) for place, point in enumerate(record.load_points)),
        *((("noise_sweep", "points", place), point.fan_rpm) for place, point in enumerate(sweep)),
    )
    standing = next((row for row, rpm in rows if rpm == 0), None)
    if not says and standing is not None:
        came = "0 1/min, although unit.yaml says semi_passive: false"
        yield Clash(occasion.at(*standing, "fan_rpm"), came, "a fan that turns at every load")


def plug_before_standard(unit: Unit, records: SenseRecords) -> Iterator[Clash]:
    """A 12V-2x6 plug on a supply that claims a standard older than ATX 3.x."""
    del records
    standard = unit.record.claims.standard
    for place, cable in enumerate(unit.record.cables):
        if cable.connector == "pcie_16_12v_2x6" and standard in BEFORE_ATX_3:
            expected = "a plug of that time, or a standard of ATX 3.x"
            yield Clash(Origin(unit.file, ("cables", place, "connector")), f"{cable.connector} with {standard}", expected)


def cables(unit: Unit, records: SenseRecords) -> Iterator[Clash]:
    """More cables than plugs, or a note that cables come off where all are fixed."""
    del records
    record, top = unit.record, Origin(unit.file)
    for place, cable in enumerate(record.cables):
        if cable.cables > cable.count:
            expected = "no more cables than plugs"
            yield Clash(top.at("cables", place, "cables"), f"{cable.cables} cables for {cable.count} plugs", expected)
    if not all(cable.fixed for cable in record.cables):
        return
    for path, text in ((("editor_note",), record.editor_note), (("construction", "remarks"), record.construction.remarks)):
        found = UNPLUGS.search(text or "")
        if found:
            came = f"the word {found[0]}, although every cable is fixed: true"
            yield Clash(top.at(*path), came, "words and cables that agree")


def cables_twice(unit: Unit, records: SenseRecords) -> Iterator[Clash]:
    """The very same cable in two rows; every plug of them would be counted twice."""
    del records
    rows = unit.record.cables
    for place, cable in enumerate(rows):
        if cable in rows[:place]:
            at = Origin(unit.file, ("cables", place))
            expected = "each kind of cable in one row; count and cables say how many there are"
            yield Clash(at, f"the row of {cable.connector} a second time", expected)


def rail_ratings(unit: Unit, records: SenseRecords) -> Iterator[Clash]:
    """Rails that together may not give what the supply is rated for, or one that alone may give more."""
    del records
    record = unit.record
    for place, rail in enumerate(record.rails):
        alone = NOMINAL_V[rail.rail] * rail.rated_current_a
        if alone > RAIL_FACTOR * record.rated_power_w:
            came = f"{rail.rated_current_a:g} A, {alone:.0f} W on one rail of a supply rated {record.rated_power_w:g} W"
            expected = f"no more than {RAIL_FACTOR:g} times the rated power"
            yield Clash(Origin(unit.file, ("rails", place, "rated_current_a")), came, expected)
    powers = {rail.rail: NOMINAL_V[rail.rail] * rail.rated_current_a for rail in record.rails}
    minor = min(record.minor_rails_power_w, sum(powers.get(rail, 0.0) for rail in ("5v", "3v3")))
    total = minor + sum(power for rail, power in powers.items() if rail not in ("5v", "3v3"))
    if total < (1.0 - RATING_PCT / 100.0) * record.rated_power_w:
        came = f"{record.rated_power_w:g} W, but the rails may give no more than {total:.0f} W together"
        yield Clash(Origin(unit.file, ("rated_power_w",)), came, "rails that can give the rated power")


def claims_twice(unit: Unit, records: SenseRecords) -> Iterator[Clash]:
    """A protection that the box's list has twice."""
    del records
    listed = unit.record.claims.protections
    for place, protection in enumerate(listed):
        if protection in listed[:place]:
            at = Origin(unit.file, ("claims", "protections", place))
            yield Clash(at, f"{protection} a second time", "each protection once")


def predecessor(unit: Unit, records: SenseRecords) -> Iterator[Clash]:
    """A predecessor that came out later."""
    before = records.unit(unit.record.predecessor)
    if before is not None and before.record.released > unit.record.released:
        came = f"{before.id}, released {before.record.released.isoformat()}"
        expected = f"a unit released before this one, {unit.record.released.isoformat()}"
        yield Clash(Origin(unit.file, ("predecessor",)), came, expected)


def revision_behind(unit: Unit, records: SenseRecords) -> Iterator[Clash]:
    """A unit record whose revision is another than that of the newest sample on the bench."""
    own = [session.record for session in records.sessions if session.unit == unit.id]
    newest = max(own, key=lambda record: record.date, default=None)
    if newest is not None and newest.sample.hardware_revision != unit.record.revision:
        came = f"{unit.record.revision}, but sample {newest.sample.id} of {newest.date.isoformat()} is of revision {newest.sample.hardware_revision}"
        yield Clash(Origin(unit.file, ("revision",)), came, "the revision of the newest sample, with the facts of its box")


def units_twice(records: SenseRecords) -> Iterator[tuple[str, Clash]]:
    """Two units of the guide that are the same on their labels; one that is withdrawn stands beside its successor in name."""
    seen: dict[tuple[str | float, ...], Unit] = {}
    for unit in records.units:
        record = unit.record
        label = tuple(" ".join(words.split()).casefold() for words in (record.maker, record.model, record.revision))
        first = unit if record.withdrawn is not None else seen.setdefault((*label, record.rated_power_w), unit)
        if first is not unit:
            came = f"{unit.name}, revision {record.revision}, {record.rated_power_w:g} W"
            expected = f"another unit than that of {first.file}; sessions of one unit lie in one folder"
            yield unit.file, Clash(Origin(unit.file, ("model",)), came, expected)
