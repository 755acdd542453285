"""The data page: the data set and the files it can be had as."""

from guidegen.presentation.linked_data.nodes import Node, Place, breadcrumbs, graph, publisher, version
from guidegen.presentation.linked_data.quantities import units
from guidegen.presentation.sheets import DataFile, ProseSheet
from guidegen.presentation.tables_of_data import DataTable
from guidegen.records import Library

ENCODINGS = {"csv": "text/csv", "json": "application/json"}
"""Media types by the ending of a file."""


def dataset_linked_data(
    sheet: ProseSheet, library: Library, *, tables: tuple[DataTable, ...], files: tuple[DataFile, ...]
) -> str:
    """Data set with its downloads and what was measured; breadcrumbs and publisher."""
    guide, place = library.guide, Place(library.guide.public_address)
    day = guide.edition.date.isoformat()
    dataset: Node = {
        "@type": "Dataset", "@id": place.dataset, "url": place.whole(sheet.address), "name": f"{guide.title}: measurements",
        "description": sheet.description, "license": guide.data_licence, "creator": place.identity("publisher"),
        "publisher": place.identity("publisher"), "version": version(guide), "datePublished": day, "dateModified": day,
        "isAccessibleForFree": True, "inLanguage": guide.records_language,
        "variableMeasured": [
            {"@type": "PropertyValue", "name": column.title, "propertyID": column.name, **units(column.unit)}
            for table in tables for column in table.columns if column.measured
        ],
        "distribution": [_download(file, place) for file in files],
    }
    return graph(dataset, breadcrumbs(sheet, place), publisher(library))


def _download(file: DataFile, place: Place) -> Node:
    return {
        "@type": "DataDownload", "contentUrl": place.whole(file.address), "name": file.address.rpartition("/")[2],
        "encodingFormat": ENCODINGS[file.address.rpartition(".")[2]], "contentSize": f"{len(file.text.encode())} B",
        "sha256": file.digest,
    }
