"""Logs read strictly: what is wrong is said with its line and column, and what is right arrives as it was written."""

import io
from datetime import date
from hashlib import sha256
from pathlib import Path

import pandas as pd
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guidegen.errors import ContentError, Fault
from guidegen.sources.logs import read_log
from tests.bench_logs import HEADING, LOAD_MAPPING, csv_text, load_rows, mapping_from
from tests.damage import watched
from tests.examples import examples
from tests.tally import Tally

COMMA = csv_text([[cell.replace(".", ",") for cell in row] for row in load_rows()], ";")
GOOD = csv_text(load_rows())


def faults_of(folder: Path, raw: bytes, mapping: str = LOAD_MAPPING) -> tuple[Fault, ...]:
    """The faults of a log of these bytes."""
    log = folder / "log.csv"
    log.write_bytes(raw)
    with pytest.raises(ContentError) as refused:
        read_log(log, mapping_from(folder, mapping), folder)
    return refused.value.faults


def with_cell(line: int, column: int, cell: str) -> bytes:
    """The good log with another cell; lines and columns from 1."""
    rows = load_rows()
    rows[line - 1][column - 1] = cell
    return csv_text(rows).encode()


def test_a_log_arrives_as_pandas_reads_it(tmp_path: Path) -> None:
    """Every column of the mapping, in its order, with the hash of the file."""
    (tmp_path / "log.csv").write_text(GOOD, encoding="utf-8")
    readings = read_log(tmp_path / "log.csv", mapping_from(tmp_path), tmp_path)
    table = pd.read_csv(io.StringIO(GOOD))

    assert list(HEADING[1:]) == [column.name for column in readings.columns]
    assert all(table[column.name].tolist() == pytest.approx(list(column.values), rel=1e-15) for column in readings.columns)
    assert table["t"].tolist() == list(readings.seconds)
    assert (sha256(GOOD.encode()).hexdigest(), 2, None) == (readings.sha256, readings.first_line, readings.day)


@pytest.mark.parametrize(
    ("raw", "line", "column", "said"),
    [
        (GOOD[:2000].encode(), GOOD[:2000].count("\n") + 1, 1, "a last line that breaks off"),
        (csv_text([load_rows()[0], ["s", "W", "W", "", "mV", "V", "V", "V"], *load_rows()[1:]]).encode(), 2, 1,
         "came a second row of headings, expected readings; the mapping says header_rows: 1"),
        (b"\xef\xbb\xbf" + GOOD.encode(), 1, 1, "came a byte order mark"),
        (GOOD.encode("utf-16"), 1, 1, "came a file in UTF-16, expected UTF-8"),
        (with_cell(1, 2, "P_aut"), 1, 3, "came P_aut, expected the column P_out, as the mapping has it; or P_aut in the mapping"),
        (with_cell(1, 3, "P_out"), 1, 0, "came P_out a second time, expected the column P_out once"),
        (with_cell(7, 3, "over"), 7, 10, "P_in: came over, expected a number"),
        (with_cell(7, 3, ""), 7, 10, "P_in: came an empty cell, expected a number"),
        (with_cell(7, 3, "nan"), 7, 10, "came nan, expected a number"),
        (with_cell(7, 3, "1e400"), 7, 10, "came 1e400, expected a number"),
        (with_cell(9, 2, "65,1"), 9, 1, "came 9 cells, expected 8, as many as the heading has; decimal commas need another separator"),
        (with_cell(5, 1, "1"), 5, 1, "t: came 1, expected a time after that of the row before, 2"),
        (b"", 1, 1, "came an empty log, expected a heading on line 1"),
        (csv_text(load_rows()[:1]).encode(), 2, 1, "came a log without a row"),
        (GOOD.replace("\n", "\n\n", 3).encode(), 2, 1, "came an empty line"),
        (GOOD.replace("5.010", '5"01', 1).encode(), 0, 0, ""),
        (GOOD.encode().replace(b"5.030\n", b"5.030,1\n", 1), 2, 1, "came 9 cells"),
        (GOOD.encode().replace(b",5.030\n", b"\n", 1), 2, 1, "came 7 cells, expected 8"),
        (GOOD.encode().replace(b"5.030", b"5.0\xff0", 1), 2, 48, "came the byte ff"),
        (GOOD.encode().replace(b"5.030", b"5.\x00030", 1), 2, 47, "U+0000"),
    ],
)
def test_a_fault_is_said_with_its_place(tmp_path: Path, raw: bytes, line: int, column: int, said: str) -> None:
    """What came, what was expected, where; a zero stands for any place."""
    faults = faults_of(tmp_path, raw)
    fitting = [fault for fault in faults if said in fault.message]

    assert fitting
    assert line in (0, fitting[0].line)
    assert column in (0, fitting[0].column)


def test_another_separator_than_the_one_set_is_one_fault(tmp_path: Path) -> None:
    """Not one for each column that can't be found."""
    faults = faults_of(tmp_path, COMMA.encode(), LOAD_MAPPING + "separator: comma\n")

    expected = "log.csv:1: came cells between semicolons, expected cells between commas, or separator: semicolon in the mapping"
    assert [expected] == [fault.message for fault in faults]


def test_what_is_no_file_is_refused_unread(tmp_path: Path) -> None:
    """A folder, or a device that never ends."""
    mapping = mapping_from(tmp_path)
    for path in (tmp_path, Path("/dev/zero")):
        with pytest.raises(ContentError, match="came a folder or device, expected a file"):
            read_log(path, mapping, tmp_path)


def test_a_decimal_comma_where_a_point_is_set_is_answered_with_the_setting(tmp_path: Path) -> None:
    """The cell as it should be, or the line of the mapping to change."""
    faults = faults_of(tmp_path, COMMA.encode(), LOAD_MAPPING + "decimal: point\nseparator: semicolon\n")

    assert (2, "P_out") == (faults[0].line, faults[0].origin.field)
    assert faults[0].expected.startswith("a number with a point as decimal mark, 65.")
    assert faults[0].expected.endswith("or decimal: comma in the mapping")


@pytest.mark.parametrize("said", ["", "decimal: comma\nseparator: semicolon\n"])
def test_decimal_commas_are_read_when_said_and_when_seen(tmp_path: Path, said: str) -> None:
    """The same numbers as with points."""
    (tmp_path / "comma.csv").write_text(COMMA, encoding="utf-8")
    (tmp_path / "point.csv").write_text(GOOD, encoding="utf-8")
    comma = read_log(tmp_path / "comma.csv", mapping_from(tmp_path, LOAD_MAPPING + said), tmp_path)
    point = read_log(tmp_path / "point.csv", mapping_from(tmp_path), tmp_path)

    assert point.columns == comma.columns


def test_rows_above_units_below_and_a_mark_can_be_told(tmp_path: Path) -> None:
    """A preamble, a row of units and a byte order mark, each said in the mapping."""
    rows = load_rows()
    text = csv_text([["# bench 2"], rows[0], ["s", "W", "W", "", "mV", "V", "V", "V"], *rows[1:]])
    (tmp_path / "log.csv").write_text(text, encoding="utf-8-sig")
    told = LOAD_MAPPING + "rows_above: 1\nheader_rows: 2\nencoding: utf-8-with-mark\n"
    readings = read_log(tmp_path / "log.csv", mapping_from(tmp_path, told), tmp_path)

    assert (4, 120) == (readings.first_line, len(readings.seconds))


def test_days_and_times_become_seconds(tmp_path: Path) -> None:
    """ISO 8601, with the day of the session from the first row as written; other zones do not disturb the order."""
    rows = load_rows()
    for second, row in enumerate(rows[1:]):
        row[0] = f"2026-03-02T23:{59 if second < 60 else 58}:{second % 60:02d}.5+0{1 if second < 60 else 0}:00"
    rows = [rows[0], *rows[1:61], *rows[61:]]
    (tmp_path / "log.csv").write_text(csv_text(rows[:61]), encoding="utf-8")
    mapping = mapping_from(tmp_path, LOAD_MAPPING.replace("format: s}", "format: iso}"))
    readings = read_log(tmp_path / "log.csv", mapping, tmp_path)

    assert date(2026, 3, 2) == readings.day
    assert list(range(60)) == [round(second - readings.seconds[0], 6) for second in readings.seconds]


@settings(max_examples=examples(500), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    place=st.integers(0, len(GOOD)), taken=st.integers(0, 40),
    put=st.one_of(st.binary(max_size=6), st.sampled_from([b'"', b"\n", b"\r", b",", b";", b"\x00", b"1e999", b"\xff\xfe", b"-", b"."])),
)
def test_a_damaged_log_is_read_or_answered(tmp_path: Path, tally: Tally, place: int, taken: int, put: bytes) -> None:
    """Whatever happens to some bytes: readings of equal length, or faults with a sentence, never a traceback."""
    tally.tried("damaged files: logs")
    log = tmp_path / "log.csv"
    log.write_bytes(GOOD.encode()[:place] + put + GOOD.encode()[place + taken :])
    faults: tuple[Fault, ...] = ()
    try:
        with watched():
            read = read_log(log, mapping_from(tmp_path), tmp_path)
        rows = zip(read.seconds, *(column.values for column in read.columns), strict=True)  # noqa: PD011
    except ContentError as refused:
        faults, rows = refused.faults, zip()

    assert all(fault.expected and fault.message for fault in faults)
    assert all(abs(value) <= 1e12 for row in rows for value in row)
