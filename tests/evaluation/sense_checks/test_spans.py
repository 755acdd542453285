"""Spans name fields that exist, and catch a slip by 1000 in whatever unit."""

import pytest

from guidegen.evaluation import SenseRecords, check_sense
from guidegen.evaluation.sense_checks.spans import SESSION_SPANS, UNIT_SPANS, Span, numbers
from guidegen.records import HoldUp, Library, SessionRecord, UnitRecord
from tests.evaluation.sense_checks.planted import records


def reached(span: Span, where: tuple[UnitRecord | SessionRecord, ...]) -> int:
    """How many numbers of some records a span looks at."""
    return sum(1 for record in where for _ in numbers(record, span.field.split(".")))


@pytest.mark.parametrize("span", UNIT_SPANS, ids=lambda span: span.field)
def test_a_span_of_a_unit_looks_at_numbers(span: Span, demo_library: Library, small_library: Library) -> None:
    """A field that was renamed would leave its span without a number."""
    assert reached(span, tuple(unit.record for one in (demo_library, small_library) for unit in one.units)) > 0


@pytest.mark.parametrize("span", SESSION_SPANS, ids=lambda span: span.field)
def test_a_span_of_a_session_looks_at_numbers(span: Span, demo_library: Library, small_library: Library) -> None:
    """The demo and the small edition have every field between them."""
    assert reached(span, tuple(s.record for one in (demo_library, small_library) for s in one.sessions)) > 0


@pytest.mark.parametrize("span", [*UNIT_SPANS, *SESSION_SPANS], ids=lambda span: span.field)
def test_a_span_runs_upwards(span: Span) -> None:
    """From low to high."""
    assert span.low < span.high


def test_an_objection_guesses_the_slip() -> None:
    """Seconds for milliseconds: the number in the field's own unit is told."""
    wrong = records(hold_up=(HoldUp(load_pct=100.0, power_good_ms=17.0, rails_ms=0.0185),))
    (one,) = check_sense(wrong).objections

    assert "0.5 to 1000 ms; 18.5 ms if it slipped by 1000" == one.expected


def test_fields_that_were_left_out_have_no_numbers() -> None:
    """No noise sweep, no levels; no points of it either."""
    empty: SenseRecords = records(noise_sweep=None)

    assert [] == list(numbers(empty.sessions[0].record, ["noise_sweep", "points", "levels_dba"]))
