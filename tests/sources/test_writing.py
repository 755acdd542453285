"""Records written as YAML that reads back equal, and files that are never overwritten."""

from dataclasses import fields, replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.errors import RequestError
from guidegen.records import Session, SessionRecord
from guidegen.sources import read_library
from guidegen.sources.documents import control_in
from guidegen.sources.shaping import shape
from guidegen.sources.strict_yaml import read_yaml
from guidegen.sources.writing import WIDTH, record_text, scalar, write_new

CONTENT = Path(__file__).parents[2] / "content"
SMALL = Path(__file__).parents[1] / "small_edition" / "content"


def read_back(text: str) -> object:
    """What the strict reader makes of a session's text: the record, or its faults."""
    reading = read_yaml("session.yaml", text)
    made, faults = shape(SessionRecord, reading.value, file="session.yaml")
    return made if not (reading.faults or faults) else (reading.faults, faults)


@pytest.fixture(scope="module")
def sessions() -> tuple[Session, ...]:
    """All sessions of the demo and of the small edition."""
    return (*read_library(CONTENT).sessions, *read_library(SMALL).sessions)


def test_every_session_there_is_reads_back_equal(sessions: tuple[Session, ...]) -> None:
    """Also those with transients, cross loads, remarks and everything else."""
    different = [one.file for one in sessions if read_back(record_text(one.record, head=one.file)) != one.record]

    assert [] == different


def test_the_writing_is_that_of_the_demo(sessions: tuple[Session, ...]) -> None:
    """A row a load point, wrapped under itself; no line longer than it has to be; nothing that says nothing."""
    one = sessions[0]
    text = record_text(one.record)

    assert len(one.record.load_points) == text.count("  - {load_pct: ") - len(one.record.hold_up)
    assert all(len(line) <= WIDTH + 1 for line in text.splitlines())
    assert "null" not in text
    assert "provenance" not in text


@settings(max_examples=150, deadline=None)
@given(words=st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=40).filter(lambda words: not control_in(words)), number=st.floats(1e-4, 1e12))
def test_any_text_and_any_number_read_back_equal(words: str, number: float) -> None:
    """Quotes, colons, braces, line ends, things that look like numbers or days, marks that can't be seen."""
    reading = read_yaml("a.yaml", f"row: {{word: {scalar(words)}, number: {scalar(number)}, list: {scalar((words, 1.5))}}}\n")

    assert () == reading.faults
    assert {"row": {"word": words, "number": number, "list": [words, 1.5]}} == reading.value


@pytest.mark.parametrize(
    "word", ["yes", "No", "null", "~", "12:30", "1e3", "0x1f", "3v3", "12v", "2026-03-02", "a: b", "a #b", "- a", "{a}", "", " a", "a,b", "é"]
)
def test_what_could_be_misread_stands_in_quotation_marks(word: str) -> None:
    """Plain are only words of letters that mean nothing else."""
    assert f'"{word}"' == scalar(word)


def test_a_head_is_one_line_whatever_it_says(sessions: tuple[Session, ...]) -> None:
    """A unit may be called anything."""
    text = record_text(sessions[0].record, head="a\nformat: 2\x00\u2028b")

    assert "# a format: 2 b" == text.split("\n")[0]
    assert sessions[0].record == read_back(text)


def test_fields_that_are_usual_are_left_out(sessions: tuple[Session, ...]) -> None:
    """A field that has its default says nothing; one that differs from it is there."""
    record = sessions[0].record
    usual, other = record_text(record), record_text(replace(record, noise_distance_m=0.5))

    assert ("noise_distance_m" in usual, "noise_distance_m: 0.5" in other) == (False, True)
    assert {"format", "date"} <= {field.name for field in fields(record) if f"\n{field.name}:" in f"\n{usual}"}


def test_a_file_that_is_there_is_never_touched(tmp_path: Path) -> None:
    """The second writing is refused, the first stays, and nothing is left beside it."""
    path = tmp_path / "2026-03-02.yaml"
    write_new(path, "first\n")
    with pytest.raises(RequestError, match="is there already and was not touched"):
        write_new(path, "second\n")

    assert "first\n" == path.read_text(encoding="utf-8")
    assert ["2026-03-02.yaml"] == [path.name for path in tmp_path.iterdir()]


def test_a_folder_that_is_not_there_is_a_sentence(tmp_path: Path) -> None:
    """And no traceback."""
    with pytest.raises(RequestError, match="can't be written"):
        write_new(tmp_path / "nowhere" / "a.yaml", "text\n")
