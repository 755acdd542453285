"""New prices behind those of a table: whole or not at all, and nothing that stands there is touched."""

import shutil
from pathlib import Path

import pytest

from guidegen.errors import ContentError, RequestError
from guidegen.sources import price_entry, read_library, store_prices

SMALL_EDITION = Path(__file__).parents[1] / "small_edition" / "content"
HEADING = "unit,date,price,currency,stock,shop,shop_kind,link,paid_link"
ROW = "tarnbeck-kiln-650,2026-04-14,101.5,EUR,in_stock,Harbour Parts,shop,,false"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """A copy of the small edition to write into."""
    return Path(shutil.copytree(SMALL_EDITION, tmp_path / "content"))


@pytest.fixture
def table(tmp_path: Path) -> Path:
    """A table with one new row, its columns in an order of its own."""
    path = tmp_path / "new.csv"
    path.write_text(f"{HEADING}\n{ROW}\n", encoding="utf-8")
    return path


def prices(content: Path) -> Path:
    """The table of Ireland."""
    return content / "prices" / "ie.csv"


def test_new_rows_stand_behind_the_others_in_their_order(content: Path, table: Path) -> None:
    """The bytes before are what they were, and what was added reads back."""
    before, known = prices(content).read_bytes(), read_library(content).prices[0].rows
    store_prices(content, entry := price_entry(content, table, "ie"))

    assert prices(content).read_bytes() == before + b"2026-04-14,tarnbeck-kiln-650,101.50,EUR,in_stock,Harbour Parts,shop,,false\n"
    assert (*known, *entry.rows) == read_library(content).prices[0].rows
    assert ["ie.csv"] == [path.name for path in prices(content).parent.iterdir()]


def test_what_is_known_is_counted_and_left_out(content: Path, table: Path) -> None:
    """A second import of the same table changes no byte; a row that comes twice enters once."""
    table.write_text(f"{HEADING}\n{ROW}\n{ROW}\n", encoding="utf-8")
    first = price_entry(content, table, "ie")
    store_prices(content, first)
    before = prices(content).read_bytes()
    again = price_entry(content, table, "ie")
    store_prices(content, again)

    assert (1, 1, 0, 2) == (len(first.rows), first.known, len(again.rows), again.known)
    assert before == prices(content).read_bytes()


def test_ends_of_lines_are_those_of_the_table(content: Path, table: Path) -> None:
    """Also where the last line has none."""
    prices(content).write_bytes(prices(content).read_bytes().rstrip(b"\n").replace(b"\n", b"\r\n"))
    store_prices(content, price_entry(content, table, "ie"))

    assert prices(content).read_bytes().endswith(b"false\r\n2026-04-14,tarnbeck-kiln-650,101.50,EUR,in_stock,Harbour Parts,shop,,false\r\n")


def test_a_region_without_a_table_gets_one(content: Path, table: Path) -> None:
    """With the usual heading."""
    prices(content).unlink()
    store_prices(content, price_entry(content, table, "ie"))

    assert "date,unit,price,currency,stock,shop,shop_kind,link,paid_link" == prices(content).read_text(encoding="utf-8").splitlines()[0]
    assert 1 == len(read_library(content).prices[0].rows)


def test_every_fault_is_told_with_its_line_in_the_table_that_came(content: Path, table: Path) -> None:
    """Shape, unit, currency, day and a contradiction at once; nothing is written."""
    rows = (
        ROW.replace("101.5", "101,5"), ROW.replace("EUR", "USD"), ROW.replace("2026-04-14", "2027-04-14"), ROW.replace("kiln", "klin"),
        ROW, ROW.replace("101.5", "99"), ROW.replace("101.5", "€ 12"),
    )
    table.write_text("\n".join((HEADING, *rows)) + "\n", encoding="utf-8")
    before = prices(content).read_bytes()
    with pytest.raises(ContentError) as refused:
        price_entry(content, table, "ie")
    name = table.as_posix()

    assert [
        f"{name}:2: came 10 cells, expected 9, as many as the heading has; for the price, a number with a point as decimal mark, 101.5",
        f"{name}:3, currency: came USD, expected EUR, the region's currency",
        f"{name}:4, date: came 2027-04-14, expected a day not after the edition's, 2026-04-15",
        f"{name}:5, unit: came tarnbeck-klin-650, expected the name of a unit; did you mean tarnbeck-kiln-650?",
        f"{name}:6: came another row, expected one row a day, unit and shop; there is one with 101.50, in_stock, already",
        f"{name}:7: came another row, expected one row a day, unit and shop; there is one with 101.50, in_stock, already",
        f"{name}:8, price: came € 12, expected the amount alone; the currency has a column of its own",
    ] == [fault.message for fault in refused.value.faults]
    assert before == prices(content).read_bytes()


def test_more_columns_than_there_are_refused(content: Path, table: Path) -> None:
    """None is dropped in silence."""
    table.write_text(f"{HEADING},colour\n{ROW},red\n", encoding="utf-8")
    with pytest.raises(ContentError) as refused:
        price_entry(content, table, "ie")

    assert [f"{table.as_posix()}:1, colour: came colour, expected a column of a price table"] == [f.message for f in refused.value.faults]


def test_a_table_that_changed_meanwhile_stays(content: Path, table: Path) -> None:
    """Whoever wrote in between loses nothing, and no half of a file is left."""
    entry = price_entry(content, table, "ie")
    prices(content).write_bytes(prices(content).read_bytes() + b"\n")
    before = prices(content).read_bytes()
    with pytest.raises(RequestError, match="changed in the meantime"):
        store_prices(content, entry)

    assert before == prices(content).read_bytes()
    assert ["ie.csv"] == [path.name for path in prices(content).parent.iterdir()]


def test_faults_of_the_table_there_come_first(content: Path, table: Path) -> None:
    """Nothing is put behind rows that can't be read."""
    prices(content).write_text("date,unit\n", encoding="utf-8")
    with pytest.raises(ContentError, match=r"^prices/ie\.csv:1"):
        price_entry(content, table, "ie")


def test_an_unknown_region_is_answered_with_the_nearest(content: Path, table: Path) -> None:
    """By name."""
    with pytest.raises(RequestError, match=r"no region iee; there are ie; did you mean ie\?"):
        price_entry(content, table, "iee")
