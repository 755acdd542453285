"""``guidegen prices``: what an import says."""

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from guidegen.cli import main

SMALL_EDITION = Path(__file__).parents[1] / "small_edition" / "content"
HEADING = "date,unit,price,currency,stock,shop,shop_kind,link,paid_link"
ROW = "2026-04-14,tarnbeck-kiln-650,101.50,EUR,in_stock,Harbour Parts,shop,,false"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """A copy of the small edition to write into."""
    return Path(shutil.copytree(SMALL_EDITION, tmp_path / "content"))


def asked(content: Path, rows: str, *options: str) -> tuple[int, str, str]:
    """Exit code and what was said after an import of some rows."""
    table = content.parent / "new.csv"
    table.write_text(f"{HEADING}\n{rows}\n", encoding="utf-8")
    result = CliRunner().invoke(main, ["prices", str(table), "--region", "ie", "--content", str(content), *options])
    return result.exit_code, result.stdout, result.stderr


def test_rows_are_added_and_told(content: Path) -> None:
    """Once; a second time none is."""
    assert (0, "prices/ie.csv: 1 row added.\n", "") == asked(content, ROW)
    assert (0, "prices/ie.csv: 0 rows added; 1 row left out that stand there already or came twice.\n", "") == asked(content, ROW)


def test_quietly_nothing_is_said_of_what_went_well(content: Path) -> None:
    """The rows enter all the same."""
    assert (0, "", "") == asked(content, ROW, "--quiet")
    assert ROW in (content / "prices" / "ie.csv").read_text(encoding="utf-8")


def test_a_dry_run_shows_and_writes_nothing(content: Path) -> None:
    """The rows as they would stand."""
    before = (content / "prices" / "ie.csv").read_bytes()

    assert (0, f"prices/ie.csv would get:\n\n{ROW}\nprices/ie.csv: 1 row would be added.\n", "") == asked(content, ROW, "--dry-run")
    assert before == (content / "prices" / "ie.csv").read_bytes()


def test_a_price_out_of_line_is_told_where_it_came(content: Path) -> None:
    """It enters, and the sense checks will ask again."""
    code, said, told = asked(content, f"{ROW}\n{ROW.replace('101.50', '1015.00').replace('04-14', '04-12')}", "--json")
    document = json.loads(said)

    assert (0, True, 2, "") == (code, document["written"], document["rows"], told)
    assert [(3, "price-outlier", "1015.00 EUR")] == [(one["line"], one["rule"], one["came"]) for one in document["warnings"]]


def test_faults_as_a_document(content: Path) -> None:
    """With line and column, nothing written."""
    code, said, _ = asked(content, ROW.replace("EUR", "USD"), "--json")
    document = json.loads(said)

    assert (1, False, None) == (code, document["written"], document["file"])
    assert [(2, "[0].currency", "currency")] == [(one["line"], one["field"], one["rule"]) for one in document["faults"]]
