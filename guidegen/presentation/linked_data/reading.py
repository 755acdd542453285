"""Pages of prose and the list of all units."""

from guidegen.presentation.linked_data.nodes import Place, article, breadcrumbs, graph, link_list, publisher
from guidegen.presentation.pieces import Link
from guidegen.presentation.sheets import CorrectionsSheet, EditionsSheet, ListSheet, ProseSheet
from guidegen.records import Library


def prose_linked_data(sheet: ProseSheet | CorrectionsSheet | EditionsSheet, library: Library) -> str:
    """Article, breadcrumbs and publisher."""
    place = Place(library.guide.public_address)
    return graph(article(sheet, library.guide), breadcrumbs(sheet, place), publisher(library))


def list_linked_data(sheet: ListSheet, library: Library) -> str:
    """The list as it stands, without a word on which is better; breadcrumbs and publisher."""
    place = Place(library.guide.public_address)
    links = (Link(text=row[0].text, address=row[0].address) for row in sheet.table.rows)
    units = link_list(f"{place.whole(sheet.address)}#units", sheet.heading, links, place)
    return graph(units, breadcrumbs(sheet, place), publisher(library))
