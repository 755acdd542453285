"""The data page: every file with its hash, every column with its unit, the licence, and how to cite."""

from dataclasses import replace
from html import escape

from guidegen.presentation.addresses import DATA, HOME
from guidegen.presentation.citing import citation
from guidegen.presentation.formatting import counted, listed, number
from guidegen.presentation.linked_data import dataset_linked_data
from guidegen.presentation.pages.context import Context, short_description, short_title
from guidegen.presentation.pieces import Cell, Column, Link, Section, Table
from guidegen.presentation.sheets import DataFile, ProseSheet
from guidegen.presentation.tables_of_data import DataTable
from guidegen.records import GuideRecord

KINDS = {"string": "text", "integer": "whole number", "number": "number", "date": "day", "boolean": "true or false"}
"""Types in plain words."""


def data_sheet(context: Context, tables: tuple[DataTable, ...], files: tuple[DataFile, ...]) -> ProseSheet:
    """The page at ``data/``; ``files`` are the tables as published, without what describes them."""
    library = context.assessment.library
    guide, title = library.guide, context.words.say("data.heading")
    counts = listed(tuple(f"{number(len(t.rows), 0)} {t.name}" for t in tables))
    sheet = ProseSheet(
        kind="prose",
        address=DATA,
        title=short_title(title, guide.title),
        heading=title,
        worded=True,
        description=short_description(f"All published numbers to download as CSV and JSON: {counts}, each column with its unit."),
        breadcrumbs=(Link(text=guide.title, address=HOME), Link(text=title, address=DATA, worded=True)),
        lead=f"<p>Every number on these pages, to download: {escape(counts)}. The same rounding as on the pages; a cell "
        "is empty where nothing was tested.</p>",
        sections=(
            Section(id="files", title="Files", html=_files_words(), tables=(_files_table(files),)),
            Section(id="licence", title="Licence", html=_licence(guide)),
            Section(id="cite", title="How to cite", html=_cite(guide, files[0])),
            *(_columns(table) for table in tables),
        ),
    )
    return replace(sheet, linked_data=dataset_linked_data(sheet, library, tables=tables, files=files))


def _files_words() -> str:
    return (
        "<p>CSV is UTF-8 with a heading line and a point as decimal mark. Types, units and rules of every column stand "
        'for machines in <a href="datapackage.json">datapackage.json</a> (data package) and beside each table in a '
        "<code>.csv-metadata.json</code> (CSV on the Web).</p>"
    )


def _files_table(files: tuple[DataFile, ...]) -> Table:
    return Table(
        id="data-files", caption="Files of this printing",
        columns=(Column(key="file", title="File"), Column(key="bytes", title="Bytes", numeric=True),
                 Column(key="hash", title="SHA-256", verbatim=True)),
        rows=tuple(
            (
                Cell(text=file.address.removeprefix(DATA), address=file.address),
                Cell(text=number(len(file.text.encode()), 0)), Cell(text=file.digest),
            )
            for file in files
        ),
    )


def _licence(guide: GuideRecord) -> str:
    address = escape(guide.data_licence)
    return f'<p>The data may be used under this licence: <a href="{address}">{address}</a>.</p>'


def _cite(guide: GuideRecord, units: DataFile) -> str:
    """Author, title, edition, day, permanent address and hash."""
    words = escape(citation(guide, "measurements", DATA))
    return (
        f"<p>{words}</p><p>The hash tells later readers which numbers you had: {units.address.removeprefix(DATA)}, SHA-256 "
        f"<code>{units.digest}</code>.</p>"
    )


def _columns(table: DataTable) -> Section:
    rows = tuple(
        (
            Cell(text=column.name), Cell(text=column.title), Cell(text=column.unit), Cell(text=KINDS[column.kind]),
            Cell(text="no" if column.required else "yes"),
        )
        for column in table.columns
    )
    headings = ("Column", "What it is", "Unit", "Kind", "May be empty")
    described = Table(
        id=f"columns-{table.name}", caption=f"Columns of {table.name}.csv",
        columns=tuple(Column(key=f"c{i}", title=title) for i, title in enumerate(headings)), rows=rows,
    )
    words = f"<p>{escape(table.title)}: {counted(len(table.rows), 'row')}, {counted(len(table.columns), 'column')}.</p>"
    return Section(id=f"table-{table.name}", title=f"Table of {table.name}", html=words, tables=(described,))
