"""A bracket: an article, and the units that have a place, in order."""

from guidegen.presentation.linked_data.nodes import Place, article, breadcrumbs, graph, link_list, publisher
from guidegen.presentation.sheets import BracketSheet
from guidegen.records import Library


def bracket_linked_data(sheet: BracketSheet, library: Library) -> str:
    """Article, ranked list, breadcrumbs and publisher; what is not advised stays out of the list."""
    place = Place(library.guide.public_address)
    ranked = (row.unit for row in sheet.rows if row.place)
    units = link_list(f"{place.whole(sheet.address)}#ranking", f"Ranking, {sheet.heading}", ranked, place)
    return graph(article(sheet, library.guide), units, breadcrumbs(sheet, place), publisher(library))
