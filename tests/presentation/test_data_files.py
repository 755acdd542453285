"""The data set as published: tables that agree with each other and with what describes them."""

import csv
import json
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup, Tag
from hypothesis import given
from hypothesis import strategies as st

from guidegen.presentation.data_files import FORMULA_STARTS, data_files, descriptions
from guidegen.presentation.tables_of_data import DataColumn, DataTable
from guidegen.records import GuideRecord
from guidegen.sources import read_library
from tests.conftest import CONTENT

TABLES = ("units", "sessions", "prices")


@pytest.fixture(scope="module")
def package(site: Path) -> dict[str, Any]:
    """The published data package."""
    document: dict[str, Any] = json.loads((site / "data/datapackage.json").read_text(encoding="utf-8"))
    return document


@pytest.fixture(scope="module")
def guide() -> GuideRecord:
    """The demo's guide."""
    return read_library(CONTENT).guide


def rows(site: Path, name: str) -> list[dict[str, str]]:
    """A published table."""
    with (site / f"data/{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def resource(package: dict[str, Any], name: str) -> dict[str, Any]:
    """A table's description."""
    return next(one for one in package["resources"] if one["name"] == name)


def fits(text: str, field: dict[str, Any]) -> bool:
    """Whether a cell is of its field's type and keeps its rules (Table Schema, version 1: types and constraints)."""
    rules = field.get("constraints", {})
    if text == "":
        return not rules.get("required", False)
    if field["type"] in ("number", "integer"):
        value = float(text) if field["type"] == "number" else int(text)
        return bool(value >= rules.get("minimum", value))
    if field["type"] == "date":
        return len(text) == 10 and [len(part) for part in text.split("-")] == [4, 2, 2]
    return field["type"] == "string" or text in ("true", "false")


def test_bytes_and_hash_are_those_of_the_files(site: Path, package: dict[str, Any]) -> None:
    """Data Resource: ``bytes``, and ``hash`` with the name of its algorithm before a colon."""
    for one in package["resources"]:
        content = (site / "data" / one["path"]).read_bytes()
        assert (one["bytes"], one["hash"]) == (len(content), f"sha256:{sha256(content).hexdigest()}")


@pytest.mark.parametrize("name", TABLES)
def test_every_cell_is_what_its_column_promises(site: Path, package: dict[str, Any], name: str) -> None:
    """Type, least value and presence of each cell; fields in the order of the columns."""
    fields = resource(package, name)["schema"]["fields"]
    table = rows(site, name)

    assert [field["name"] for field in fields] == list(table[0])
    assert [] == [(row, field["name"]) for row in table for field in fields if not fits(row[field["name"]], field)]


def test_scores_and_bounds_are_those_of_the_pages(site: Path) -> None:
    """A range has its two ends, a unit without a place no score, and a number printed as "at most" its name among the bounds."""
    table = {row["unit"]: row for row in rows(site, "units")}
    pages = {unit: BeautifulSoup((site / f"unit/{unit}/index.html").read_text(encoding="utf-8"), "html.parser") for unit in table}
    for unit, row in table.items():
        shown = element(pages[unit], ".scored .figure").get_text(strip=True)
        expected = "–".join(dict.fromkeys((row["score"], row["score_highest"])))
        assert expected == (shown if row["place"] else "")
        assert (row["place"] == "") == (row["technical_score"] == "")
        bounded = "acoustic_noise_at_50_dba" in row["upper_bounds"].split()
        text = pages[unit].get_text(" ", strip=True).replace("\N{NO-BREAK SPACE}", " ")
        assert bounded == (f"at most {row['acoustic_noise_at_50_dba']} dB(A)" in text)
    assert 0 < sum(" " in row["upper_bounds"] for row in table.values()) < len(table)


def element(page: BeautifulSoup, selector: str) -> Tag:
    """The first match, which must exist."""
    found = page.select_one(selector)
    assert found is not None, selector
    return found


@pytest.mark.parametrize("name", TABLES)
def test_keys_tell_rows_apart_and_lead_to_units(site: Path, package: dict[str, Any], name: str) -> None:
    """The primary key, where there is one, and the reference to the units."""
    schema, table = resource(package, name)["schema"], rows(site, name)
    key = schema.get("primaryKey", [])
    units = {row["unit"] for row in rows(site, "units")}

    assert not key or len({tuple(row[column] for column in key) for row in table}) == len(table)
    assert {row["unit"] for row in table} <= units


@pytest.mark.parametrize("name", TABLES)
def test_the_description_for_the_web_names_the_same_columns(site: Path, package: dict[str, Any], name: str) -> None:
    """CSV on the Web: titles match the header, datatypes are those of the package (W3C, Metadata Vocabulary, 5.6)."""
    document = json.loads((site / f"data/{name}.csv-metadata.json").read_text(encoding="utf-8"))
    columns = document["tableSchema"]["columns"]
    types = [c["datatype"]["base"] if isinstance(c["datatype"], dict) else c["datatype"] for c in columns]

    assert (site / "data" / document["url"]).is_file()
    assert list(rows(site, name)[0]) == [column["titles"] for column in columns]
    assert [field["type"] for field in resource(package, name)["schema"]["fields"]] == types


def test_the_page_documents_every_column_and_every_hash(pages: dict[str, BeautifulSoup], package: dict[str, Any]) -> None:
    """Name, unit and kind; licence and how to cite."""
    page = pages["data/index.html"]
    text = page.get_text(" ")
    for name in TABLES:
        table = page.find("table", id=f"columns-{name}")
        assert isinstance(table, Tag)
        shown = [(row.find_all(["th", "td"])[0].get_text(), row.find_all(["th", "td"])[2].get_text()) for row in table.select("tbody tr")]
        assert [(field["name"], field.get("unit", "")) for field in resource(package, name)["schema"]["fields"]] == shown
    for one in package["resources"]:
        assert one["hash"].removeprefix("sha256:") in text
    assert package["licenses"][0]["path"] in text
    assert "https://harrow-bench.example/data/" in text


def test_every_page_leads_to_the_data(pages: dict[str, BeautifulSoup]) -> None:
    """From the foot of the page."""
    assert [] == [path for path, page in pages.items() if not page.select('footer a[href$="data/index.html"], footer a[href$="/data/"]')]


def test_json_and_csv_hold_the_same(site: Path) -> None:
    """Every value of every unit."""
    document = json.loads((site / "data/units.json").read_text(encoding="utf-8"))
    for row, one in zip(rows(site, "units"), document["units"], strict=True):
        assert {name: text for name, text in row.items() if text} == {n: f"{v}" for n, v in one.items() if v not in (None, "")}


@given(text=st.text(min_size=1, max_size=20))
def test_no_cell_can_be_run_as_a_formula(text: str, guide: GuideRecord) -> None:
    """Whatever a maker is called, a spreadsheet shows it and does not compute it."""
    table = DataTable(name="units", title="Units", key=("unit",), columns=(DataColumn(name="unit", title="Unit"),), rows=((text,),))
    made = data_files((table,), guide)[0].text
    cell = list(csv.reader(made.split("\r\n", 1)[1].splitlines(keepends=True)))

    assert not cell or not cell[0] or not cell[0][0].startswith(FORMULA_STARTS)


def test_a_table_without_rows_is_still_described(guide: GuideRecord) -> None:
    """Only the heading line."""
    table = DataTable(name="units", title="Units", key=("unit",), columns=(DataColumn(name="unit", title="Unit"),), rows=())
    files = data_files((table,), guide)

    assert files[0].text == "unit\r\n"
    assert [file.address for file in descriptions((table,), files, guide)] == ["data/datapackage.json", "data/units.csv-metadata.json"]
