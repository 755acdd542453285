"""Files for machines: the tables of the data set as CSV, the units as JSON, and what describes them."""

import csv
import io
import json
from collections.abc import Mapping
from functools import partial
from types import MappingProxyType

from guidegen.presentation.addresses import DATA
from guidegen.presentation.data_package import package_file, web_description
from guidegen.presentation.sheets import DataFile
from guidegen.presentation.tables_of_data import DataTable, Value
from guidegen.recalling import Recall, anew
from guidegen.records import GuideRecord

SHELF = "data"
"""Where tables are kept from one run to the next."""
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""Beginnings of a text cell that one spreadsheet or another would run as a formula; some take the wide forms, too."""


def data_files(
    tables: tuple[DataTable, ...], guide: GuideRecord, *, keys: Mapping[str, str] = MappingProxyType({}), recall: Recall = anew
) -> tuple[DataFile, ...]:
    """A CSV for each table, the first table as JSON, too; a table whose name has a key is recalled by it."""
    made = ((table, partial(_csv, table)) for table in tables)
    written = (recall(SHELF, f"{table.name} {keys[table.name]}", csv) if table.name in keys else csv() for table, csv in made)
    return (*written, _json(tables[0], guide))


def descriptions(tables: tuple[DataTable, ...], files: tuple[DataFile, ...], guide: GuideRecord) -> tuple[DataFile, ...]:
    """What tells machines how to read the files: one description of all, and one beside each CSV."""
    return (package_file(tables, files, guide), *(web_description(table, guide) for table in tables))


def _csv(table: DataTable) -> DataFile:
    """The table by RFC 4180: header, CRLF, empty where there is nothing."""
    written = io.StringIO(newline="")
    writer = csv.writer(written, lineterminator="\r\n")
    writer.writerow([column.name for column in table.columns])
    writer.writerows([_cell(value) for value in row] for row in table.rows)
    return DataFile(address=f"{DATA}{table.name}.csv", text=written.getvalue())


def _json(table: DataTable, guide: GuideRecord) -> DataFile:
    """The table as objects, a row each; what there is not, is ``null`` in a fixed column and left out in a measured one."""
    objects = [
        {c.name: value for c, value in zip(table.columns, row, strict=True) if value is not None or not c.measured}
        for row in table.rows
    ]
    rows = ",\n".join(_plain(one) for one in objects)
    text = f'{{"edition": {_plain(guide.edition.name)},\n"{table.name}": [\n{rows}\n]}}\n'
    return DataFile(address=f"{DATA}{table.name}.json", text=text)


def _plain(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def _cell(value: Value) -> Value:
    """Truth as a word, and a text that a spreadsheet would run made harmless by a leading apostrophe."""
    if isinstance(value, bool):
        return "true" if value else "false"
    return f"'{value}" if isinstance(value, str) and value.startswith(FORMULA_STARTS) else value
