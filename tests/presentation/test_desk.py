"""What the editor's desk shows, on small cases."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from guidegen.evaluation import assess
from guidegen.origins import Origin
from guidegen.presentation import desk_sheet
from guidegen.records import Library
from guidegen.sources import read_library

SMALL = Path(__file__).parents[1] / "small_edition" / "content"
CAIRN, EMBER = "ostrevant-cairn-550", "wexcombe-ember-550"


@pytest.fixture(scope="module")
def library() -> Library:
    """The small edition."""
    return read_library(SMALL)


def told(library: Library, section: str) -> list[str]:
    """What a section of the desk says, each row as one text."""
    sheet = desk_sheet(assess(library), None, where=lambda origin: f"{origin.file}:{len(origin.path)}")
    (found,) = (one for one in sheet.sections if one.id == section)
    return [" | ".join(cell.text for cell in row).replace("\N{NO-BREAK SPACE}", " ") for table in found.tables for row in table.rows]


def on_day(library: Library, day: date) -> Library:
    """The library with its edition on another day."""
    return replace(library, guide=replace(library.guide, edition=replace(library.guide.edition, date=day)))


def priced(library: Library, keep: Callable[[str], bool]) -> Library:
    """The library with the price rows of some units alone."""
    return replace(library, prices=tuple(replace(one, rows=tuple(row for row in one.rows if keep(row.unit))) for one in library.prices))


def test_a_stale_price_is_told_with_its_age_and_its_row(library: Library) -> None:
    """On the last good day nothing, a year later every unit with a price, in every region that has one."""
    later = date(library.guide.edition.date.year + 1, library.guide.edition.date.month, 1)
    found = told(on_day(library, later), "stale")

    assert [] == told(library, "stale")
    assert any(row.startswith("Ostrevant Cairn 550 | Ireland: last seen on ") for row in found)
    assert all("days before the edition | prices/" in row for row in found)


def test_a_unit_without_a_price_is_told_for_each_region(library: Library) -> None:
    """With its rows left out it is told where it is sold nowhere."""
    before, after = told(library, "unpriced"), told(priced(library, lambda unit: unit != CAIRN), "unpriced")

    assert {row for row in after if row.startswith("Ostrevant Cairn 550 | Ireland: no price")} - set(before)
    assert {row for row in before if "Cairn" not in row} == {row for row in after if "Cairn" not in row}


def test_a_calibration_that_has_ended_is_told_with_its_field(library: Library) -> None:
    """Two years on, all of them have."""
    found = told(on_day(library, date(library.guide.edition.date.year + 2, 1, 1)), "calibrations")

    assert len(library.guide.instruments) == len(found)
    assert all("ended on" in row and "guide.yaml:3 instruments[" in row for row in found)


def test_a_protection_that_only_the_box_names_is_told(library: Library) -> None:
    """With the file and the field of the claim."""
    units = tuple(replace(one, record=replace(one.record, claims=replace(one.record.claims, protections=("ocp", "surge"))))
                  if one.id == CAIRN else one for one in library.units)
    sessions = tuple(replace(s, record=replace(s.record, protections=tuple(t for t in s.record.protections if t.protection != "surge")))
                     for s in library.sessions)
    found = told(replace(library, units=units, sessions=sessions), "untested")

    assert (f"Ostrevant Cairn 550 | surge: the box names it, no session has it | units/{CAIRN}/unit.yaml:3 claims.protections[1]") in found


def test_a_close_race_is_told_with_both_units_and_whom_to_test(library: Library) -> None:
    """Two units with the same readings can't be told apart, and each would decide the choice."""
    sessions = tuple(s for s in library.sessions if s.unit != EMBER)
    twins = tuple(replace(s, unit=EMBER) for s in library.sessions if s.unit == CAIRN)
    paid = tuple(replace(one, rows=(*(r for r in one.rows if r.unit != EMBER), *(replace(r, unit=EMBER) for r in one.rows if r.unit == CAIRN)))
                 for one in library.prices)
    close = replace(library, sessions=(*sessions, *twins), prices=paid)
    near, following = told(close, "near"), told(close, "next")

    assert any("first choice" in row and "can't be told apart" in row for row in near)
    assert {"Ostrevant Cairn 550", "Wexcombe Ember 550"} == {row.split(" | ")[0] for row in following if "first choice" in row}
    assert all("% likely to change if this unit were known, by " in row for row in following)


def test_words_come_from_the_catalogue(library: Library) -> None:
    """In German, too; what is computed from records stays as it is."""
    german = replace(library, guide=replace(library.guide, language="de"))
    sheet = desk_sheet(assess(german), None, where=lambda origin: Origin(origin.file).file)

    assert "Der Schreibtisch" == sheet.heading
    assert "Veraltete Preise" in [one.title for one in sheet.sections]
    assert (False, ()) == (sheet.frozen, sheet.waiting)
