"""What tells machines how to read the data set: a data package (Frictionless, version 1) and CSV on the Web (W3C)."""

import json
import re

from guidegen.presentation.addresses import DATA
from guidegen.presentation.linked_data.quantities import UNIT_CODES
from guidegen.presentation.sheets import DataFile
from guidegen.presentation.tables_of_data import DataColumn, DataTable
from guidegen.records import GuideRecord

Node = dict[str, object]
"""An object of JSON."""
LINE_END = "\r\n"


def package_file(tables: tuple[DataTable, ...], files: tuple[DataFile, ...], guide: GuideRecord) -> DataFile:
    """``data/datapackage.json``: every file with its bytes and SHA-256, every column with type, unit and rule."""
    by_address = {file.address: file for file in files}
    csv = [_table_resource(table, by_address[f"{DATA}{table.name}.csv"]) for table in tables]
    described = {f"{DATA}{table.name}.csv" for table in tables}
    others = [_resource(file) for file in files if file.address not in described]
    document: Node = {
        "profile": "data-package",
        "name": re.sub(r"[^a-z0-9]+", "-", guide.title.lower()).strip("-"),
        "title": f"{guide.title}: measurements",
        "description": guide.tagline,
        "homepage": f"{guide.public_address}{DATA}",
        "version": f"{guide.edition.name}.{guide.edition.printing}",
        "created": f"{guide.edition.date.isoformat()}T00:00:00Z",
        "licenses": [{"path": guide.data_licence}],
        "contributors": [{"title": guide.publisher.name, "role": "publisher"},
                         *({"title": person.name, "role": "author"} for person in guide.publisher.people)],
        "resources": [*csv, *others],
    }
    return _written("datapackage.json", document)


def _resource(file: DataFile) -> Node:
    name = file.address.removeprefix(DATA)
    ending = name.rpartition(".")[2]
    return {
        "name": name.replace(".", "-"), "path": name, "format": ending, "mediatype": f"{'text' if ending == 'csv' else 'application'}/{ending}",
        "encoding": "utf-8", "bytes": len(file.text.encode()), "hash": f"sha256:{file.digest}",
    }


def _table_resource(table: DataTable, file: DataFile) -> Node:
    schema: Node = {"fields": [_field(column, table) for column in table.columns], "missingValues": [""]}
    if table.key:
        schema["primaryKey"] = list(table.key)
    if table.name != "units":
        schema["foreignKeys"] = [{"fields": ["unit"], "reference": {"resource": "units", "fields": ["unit"]}}]
    return {
        **_resource(file), "name": table.name, "title": table.title, "profile": "tabular-data-resource",
        "dialect": {"delimiter": ",", "lineTerminator": LINE_END, "quoteChar": '"', "doubleQuote": True, "header": True},
        "schema": schema,
    }


def _field(column: DataColumn, table: DataTable) -> Node:
    """A field; ``unit`` and ``unitCode`` (UNECE Recommendation 20) are this package's own words."""
    rules: Node = {}
    if column.required:
        rules["required"] = True
    if table.key == (column.name,):
        rules["unique"] = True
    if column.least is not None:
        rules["minimum"] = column.least
    field: Node = {"name": column.name, "title": column.title, "type": column.kind}
    if column.unit:
        field["unit"] = column.unit
        field |= {"unitCode": UNIT_CODES[column.unit]} if column.unit in UNIT_CODES else {}
    return {**field, "constraints": rules} if rules else field


def web_description(table: DataTable, guide: GuideRecord) -> DataFile:
    """``data/<table>.csv-metadata.json``: the same for readers of CSV on the Web (W3C, 2015)."""
    schema: Node = {"columns": [_web_column(column) for column in table.columns]}
    if table.key:
        schema["primaryKey"] = list(table.key)
    document: Node = {
        "@context": ["http://www.w3.org/ns/csvw", {"@language": guide.records_language}],
        "url": f"{table.name}.csv",
        "dc:title": table.title,
        "dc:license": {"@id": guide.data_licence},
        "dc:publisher": guide.publisher.name,
        "dc:modified": guide.edition.date.isoformat(),
        "tableSchema": schema,
    }
    return _written(f"{table.name}.csv-metadata.json", document)


def _web_column(column: DataColumn) -> Node:
    datatype: str | Node = column.kind
    if column.least is not None:
        datatype = {"base": column.kind, "minimum": column.least}
    node: Node = {
        "name": column.name, "titles": column.name, "dc:description": column.title, "datatype": datatype,
        "required": column.required,
    }
    return {**node, "schema:unitText": column.unit} if column.unit else node


def _written(name: str, document: Node) -> DataFile:
    return DataFile(address=f"{DATA}{name}", text=json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False) + "\n")
