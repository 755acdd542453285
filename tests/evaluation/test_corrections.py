"""What corrections did, computed from the demo with the wrong values in their places."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from guidegen.evaluation import Evaluated, changes_between, corrections_of, evaluate_units
from guidegen.records import Correction, Withdrawn, record_at, steps_of, with_record, with_value
from guidegen.sources import read_library

CONTENT = Path(__file__).parents[2] / "content"
DAY = date(2026, 11, 12)


@pytest.fixture(scope="module")
def demo() -> Evaluated:
    """The demo, measured."""
    return evaluate_units(read_library(CONTENT))


def given(demo: Evaluated, *corrections: Correction) -> Evaluated:
    """The demo with other corrections."""
    return replace(demo, library=replace(demo.library, corrections=corrections))


def of_field(file: str, field: str, was: object, *, unit: str | None = None) -> Correction:
    """A correction of a field."""
    return Correction(date=DAY, words="Wrong.", unit=unit, bracket=None if unit else "550", file=file, field=field, was=was)


def test_the_demos_own_correction_moves_the_first_choice(demo: Evaluated) -> None:
    """Evaluated whole from records with the wrong value, the guide differs by the very same changes."""
    latest = corrections_of(demo)[0]
    said = latest.correction
    old = with_value(record_at(demo.library, said.record_file), steps_of(said.field or ""), said.was)
    whole = changes_between(evaluate_units(with_record(demo.library, said.record_file, old)), demo, region="ie")

    assert "place" == latest.effect
    assert latest.changes is not None
    assert [(one.kind, one.unit, one.before, one.after) for one in whole.all] == [
        (one.kind, one.unit, one.before, one.after) for one in latest.changes.all]
    assert {("choice", "550"), ("place", "550")} <= {(one.kind, one.bracket) for one in latest.outcomes}


def test_the_effect_is_no_more_than_what_the_field_did(demo: Evaluated) -> None:
    """Words alone; a field that nothing rests on; one that moves a score a little; one that takes a place away."""
    unit, session = "brevik-tarn-550", "units/brevik-tarn-550/2026-07-23.yaml"
    corrections = (
        Correction(date=DAY, words="Wrong.", unit=unit),
        of_field(f"units/{unit}/unit.yaml", "warranty_years", 7, unit=unit),
        of_field(session, "load_points[10].ripple_12v_mv", 33, unit=unit),
        of_field(session, "protections[0].outcome", "did_not_act", unit=unit),
    )
    found = {one.id: one.effect for one in corrections_of(given(demo, *corrections))}

    assert {
        f"2026-11-12-unit-{unit}": "words", f"2026-11-12-unit-{unit}-2": "nothing", f"2026-11-12-unit-{unit}-3": "score",
        f"2026-11-12-unit-{unit}-4": "place",
    } == found


def test_what_a_correction_did_stays_when_its_unit_is_withdrawn(demo: Evaluated) -> None:
    """A published correction keeps its words: the unit is compared as if it were still there."""
    said = corrections_of(demo)[0]
    record = next(unit for unit in demo.library.units if unit.id == said.correction.unit)
    gone = Withdrawn(on=DAY, reason="Recalled by its maker.")
    library = with_record(demo.library, record.file, replace(record.record, withdrawn=gone))
    later = next(one for one in corrections_of(evaluate_units(library)) if one.id == said.id)

    assert said.effect == later.effect == "place"
    assert said.changes is not None
    assert later.changes is not None
    assert [(one.kind, one.unit, one.before, one.after) for one in said.outcomes] == [
        (one.kind, one.unit, one.before, one.after) for one in later.outcomes]


def test_policy_and_prices_can_be_corrected(demo: Evaluated) -> None:
    """A weight moves scores everywhere; an old row of a price table moves none."""
    one, other = corrections_of(given(demo, of_field("policy.yaml", "criteria[4].points", 10), of_field("prices/ie.csv", "[0].price", 90)))[::-1]

    assert len({change.unit for change in one.outcomes}) > 20
    assert "nothing" == other.effect


def test_the_latest_stands_first_and_names_stay(demo: Evaluated) -> None:
    """A correction that is added behind changes no other's name."""
    first, second = (Correction(date=DAY, words=words, unit="brevik-tarn-550") for words in ("One.", "Two."))
    later = Correction(date=date(2026, 11, 14), words="Three.", page="words")
    before, after = (corrections_of(given(demo, *some)) for some in ((first, second), (first, second, later)))

    assert ["Three.", "Two.", "One."] == [one.correction.words for one in after]
    assert {one.correction.words: one.id for one in before}.items() <= {one.correction.words: one.id for one in after}.items()
