"""Tables of facts on a unit page."""

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Literal

from guidegen.evaluation import UnitResult, assess, evaluate
from guidegen.presentation.catalogues import words_in
from guidegen.presentation.choosing import row_note
from guidegen.presentation.sizing_tables import classes_table
from guidegen.presentation.tables import protections_table, samples_table
from guidegen.presentation.unit_words import badge_sentence
from guidegen.records import Session
from guidegen.sources import read_library

CONTENT = Path(__file__).parents[2] / "content"
SMALL = Path(__file__).parents[1] / "small_edition" / "content"


def note_of(name: str) -> str:
    """What stands below the samples of a unit of the demo."""
    library = read_library(CONTENT)
    unit = library.unit(name)
    assert unit is not None
    return samples_table(evaluate(unit, library.sessions_of(name), library.guide, library.policy), words_in("en")).note


def test_a_session_made_from_logs_names_them() -> None:
    """File, the start of its hash, and how much of it entered the numbers, as the record says."""
    library = read_library(CONTENT)
    logs = next(session.record.provenance for session in library.sessions if session.record.provenance)
    note = note_of("ostrand-level-850-ii")

    assert all(f"{log.log.rpartition('/')[2]} (SHA-256 {log.sha256[:12]}…)" in note for log in logs)
    assert f"{sum(log.rows_used for log in logs)} of {sum(log.rows_read for log in logs)} readings" in note


def test_a_session_written_by_hand_names_no_log() -> None:
    """Nothing is said where there is nothing to say."""
    assert "SHA-256" not in note_of("brevik-tarn-550")


def revised(name: str, *, volts: float, reference_v: Literal[115, 230] = 230) -> UnitResult:
    """A unit of the demo with one more session, of sample c in revision 1.1, at this mains; the guide compares at the reference."""
    library = read_library(CONTENT)
    unit, own = library.unit(name), library.sessions_of(name)
    assert unit is not None
    record = replace(own[-1].record, date=date(2026, 10, 25), mains=replace(own[-1].record.mains, voltage_v=volts),
                     sample=replace(own[-1].record.sample, id="c", hardware_revision="1.1"))
    sessions = (*own, replace(own[-1], file=f"units/{name}/2026-10-25.yaml", record=record))
    return evaluate(unit, sessions, library.guide, replace(library.policy, reference_mains_v=reference_v))


def plain(words: str) -> str:
    """The words with common spaces."""
    return words.replace("\N{NO-BREAK SPACE}", " ")


def test_a_newer_revision_alone_is_compared_and_the_table_says_so() -> None:
    """Neither a mean over both, nor a badge of the older one; older sessions are told as such."""
    made = revised("brevik-tarn-550", volts=230.0)
    table = samples_table(made, words_in("en"))

    assert ["no, other revision", "yes"] == [row[-1].text for row in table.rows]
    assert "means over the samples" not in table.note
    assert "All numbers are of hardware revision 1.1; what was measured of revision 1.0" in table.note


def test_a_badge_measured_on_the_older_revision_alone_is_not_tested() -> None:
    """The sentence names both revisions; where the newer one was measured at that mains, it holds as ever."""
    said = badge_sentence(revised("brevik-tarn-550", volts=115.0, reference_v=115))

    assert ("The Gold badge was not tested in hardware revision 1.1 at its own mains voltage; "
            "what was measured there is of revision 1.0.") == said
    assert "holds at every load tested" in badge_sentence(revised("brevik-tarn-550", volts=230.0))


def test_a_unit_without_a_session_at_the_guides_mains_says_so() -> None:
    """In the table's column and below it; a session that serves neither comparison nor badge is not called one for the badge."""
    library = read_library(CONTENT)
    unit = library.unit("brevik-tarn-550")
    assert unit is not None
    missed = evaluate(unit, library.sessions_of(unit.id), library.guide, replace(library.policy, reference_mains_v=115))
    table = samples_table(missed, words_in("en"))
    both = samples_table(evaluate(unit, (*library.sessions_of(unit.id), *of_115(unit.id)), library.guide, library.policy), words_in("en"))

    assert ["yes, for want of 115 V"] == [plain(row[-1].text) for row in table.rows]
    assert "The guide compares at 115 V, where this unit was not measured: its numbers are those at 230 V." in plain(table.note)
    assert ["yes", "no, other mains"] == [row[-1].text for row in both.rows]


def of_115(name: str) -> tuple[Session, ...]:
    """The unit's sessions, at 115 V."""
    return tuple(replace(one, file=one.file.replace(".yaml", "-us.yaml"), record=replace(one.record, mains=replace(one.record.mains, voltage_v=115.0)))
                 for one in read_library(CONTENT).sessions_of(name))


def test_the_row_of_a_unit_names_the_mains_that_stands_in() -> None:
    """In ``rank`` and in the bracket's table; without a word where nothing is missed."""
    small = read_library(SMALL)
    for reference, said in ((230, False), (115, True)):
        guide = assess(replace(small, policy=replace(small.policy, reference_mains_v=reference)))  # type: ignore[arg-type]
        notes = [plain(row_note(s, None)[0]) for one in guide.brackets for s in one.ranking.standings]

        assert notes
        assert {said} == {"measured at 230 V" in note for note in notes}


def test_each_source_stands_once_beneath_its_table() -> None:
    """Rows name it by its number, which is that of the note."""
    library = read_library(CONTENT)
    unit = library.units[0]
    result = evaluate(unit, library.sessions_of(unit.id), library.guide, library.policy)
    tables = (protections_table(result, words_in("en")), classes_table(library))
    for table in tables:
        assert table.note
        marks = [row[-1].text for row in table.rows]

        assert all(mark.isdigit() and f"{mark}: " in table.note for mark in marks)
        assert len(set(marks)) == max(map(int, marks)) < len(marks)
