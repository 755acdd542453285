"""XLSX logs: read like CSV, formulas and floods refused, damage answered."""

import zipfile
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl import Workbook

from guidegen.errors import ContentError
from guidegen.sources.logs import read_log
from tests.bench_logs import LOAD_MAPPING, csv_text, load_rows, mapping_from
from tests.damage import watched
from tests.examples import examples
from tests.tally import Tally

Rows = list[list[Any]]


def table() -> Rows:
    """The load sweep with numbers as numbers."""
    rows = load_rows()
    return [list(rows[0]), *([float(cell) for cell in row] for row in rows[1:])]


def workbook(folder: Path, rows: Rows, *, sheets: int = 1) -> Path:
    """A workbook of these rows."""
    book = Workbook()
    sheet = book.worksheets[0]
    for row in rows:
        sheet.append(row)
    for number in range(1, sheets):
        book.create_sheet(f"notes {number}")
    path = folder / "log.xlsx"
    book.save(path)
    return path


def refused(folder: Path, path: Path, mapping: str = LOAD_MAPPING) -> list[str]:
    """What is said against a log."""
    with pytest.raises(ContentError) as error:
        read_log(path, mapping_from(folder, mapping), folder)
    return [fault.message for fault in error.value.faults]


def test_a_workbook_says_the_same_as_the_csv(tmp_path: Path) -> None:
    """Time and every column, number for number."""
    (tmp_path / "log.csv").write_text(csv_text(load_rows()), encoding="utf-8")
    mapping = mapping_from(tmp_path)
    text = read_log(tmp_path / "log.csv", mapping, tmp_path)
    book = read_log(workbook(tmp_path, table()), mapping, tmp_path)

    assert text.seconds == book.seconds
    assert all(one.values.tolist() == pytest.approx(other.values.tolist(), rel=1e-15)
               for one, other in zip(text.columns, book.columns, strict=True))


def test_days_and_times_of_a_workbook_become_seconds(tmp_path: Path) -> None:
    """Cells that are days, as a workbook keeps them."""
    rows = table()
    start = datetime(2026, 3, 2, 23, 59, 0, tzinfo=UTC).replace(tzinfo=None)
    for second, row in enumerate(rows[1:]):
        row[0] = start + timedelta(seconds=second)
    mapping = mapping_from(tmp_path, LOAD_MAPPING.replace("format: s}", "format: iso}"))
    readings = read_log(workbook(tmp_path, rows), mapping, tmp_path)

    assert date(2026, 3, 2) == readings.day
    assert list(range(120)) == [round(second - readings.seconds[0], 3) for second in readings.seconds]


@pytest.mark.parametrize(
    ("row", "column", "cell", "said"),
    [
        (4, 2, "=C4*0.9", "log.xlsx:4, P_in: came a formula, expected a number; paste the values alone"),
        (4, 2, "over", "log.xlsx:4, P_in: came over, expected a number"),
        (4, 2, None, "log.xlsx:4, P_in: came an empty cell, expected a number"),
        (4, 2, True, "log.xlsx:4, P_in: came True, expected a number"),
        (4, 0, 0, "log.xlsx:4, t: came 0, expected a time after that of the row before"),
        (4, 8, 1, "log.xlsx:4: came a cell beside the table, expected cells below the headings"),
        (1, 2, "P_on", "log.xlsx:1, P_in: came P_on, expected the column P_in, as the mapping has it; or P_on in the mapping"),
        (1, 2, "=A1", "expected the column P_in, as the mapping has it"),
    ],
)
def test_a_cell_that_is_no_reading_is_named(tmp_path: Path, row: int, column: int, cell: object, said: str) -> None:
    """Row, heading, what came."""
    rows = table()
    rows[row - 1].append(None)
    rows[row - 1][column] = cell

    assert said in "\n".join(refused(tmp_path, workbook(tmp_path, rows)))


def test_several_sheets_need_a_name(tmp_path: Path) -> None:
    """The mapping says which, and a name that is not there is answered with the nearest."""
    path = workbook(tmp_path, table(), sheets=3)
    readings = read_log(path, mapping_from(tmp_path, LOAD_MAPPING + "sheet: Sheet\n"), tmp_path)

    assert ["log.xlsx: came 3 sheets, expected sheet: one of Sheet, notes 1, notes 2 in the mapping"] == refused(tmp_path, path)
    assert "did you mean notes 1?" in refused(tmp_path, path, LOAD_MAPPING + "sheet: note 1\n")[0]
    assert 120 == len(readings.seconds)


def test_an_empty_workbook_and_one_without_rows_are_refused(tmp_path: Path) -> None:
    """As with CSV."""
    assert "came an empty log" in refused(tmp_path, workbook(tmp_path, []))[0]
    assert "came a log without a row" in refused(tmp_path, workbook(tmp_path, table()[:1]))[0]


def test_a_file_that_unpacks_to_a_flood_is_refused_unread(tmp_path: Path) -> None:
    """Fifty megabytes of blanks in fifty kilobytes."""
    path = workbook(tmp_path, table())
    with zipfile.ZipFile(path, "a", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/blank.xml", b" " * 50_000_000)

    assert "came a workbook that unpacks to 500" in refused(tmp_path, path)[0]


def test_a_workbook_with_entities_is_refused_unread(tmp_path: Path) -> None:
    """Definitions that grow when they are put in have no place in a table."""
    path = workbook(tmp_path, table())
    with zipfile.ZipFile(path, "a", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/more.xml", '<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b "c">]><a>&b;</a>')

    assert "came a workbook that defines its own words for XML" in refused(tmp_path, path)[0]


def test_a_workbook_of_the_old_kind_is_refused(tmp_path: Path) -> None:
    """By its first bytes, whatever it is called."""
    path = tmp_path / "log.xlsx"
    path.write_bytes(b"\xd0\xcf\x11\xe0" + bytes(600))

    assert "came a workbook of an old kind" in refused(tmp_path, path)[0]


@settings(max_examples=examples(500), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(share=st.floats(0, 1), taken=st.integers(0, 50), put=st.binary(max_size=20))
def test_a_damaged_workbook_is_read_or_answered(tmp_path: Path, tally: Tally, share: float, taken: int, put: bytes) -> None:
    """Some bytes taken or put anywhere: readings, or faults with a sentence, never a traceback."""
    tally.tried("damaged files: workbooks")
    path = workbook(tmp_path, table()[:30])
    raw = path.read_bytes()
    place = 4 + int(share * (len(raw) - 4))
    path.write_bytes(raw[:place] + put + raw[place + taken :])
    lengths, sentences = {0}, ["read"]
    try:
        with watched():
            readings = read_log(path, mapping_from(tmp_path), tmp_path)
        lengths = {len(readings.seconds)} | {len(column.values) for column in readings.columns}
    except ContentError as error:
        sentences = [fault.expected for fault in error.faults]

    assert 1 == len(lengths)
    assert all(sentences)
