"""Tables of facts on a unit page."""

from pathlib import Path

from guidegen.evaluation import evaluate
from guidegen.presentation.catalogues import words_in
from guidegen.presentation.sizing_tables import classes_table
from guidegen.presentation.tables import protections_table, samples_table
from guidegen.sources import read_library

CONTENT = Path(__file__).parents[2] / "content"


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
