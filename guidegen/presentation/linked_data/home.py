"""The first page: an article, and the list of the wattages."""

from guidegen.presentation.linked_data.nodes import Place, article, graph, link_list, publisher
from guidegen.presentation.sheets import HomeSheet
from guidegen.records import Library


def home_linked_data(sheet: HomeSheet, library: Library) -> str:
    """Article, list of brackets, site and publisher."""
    guide, place = library.guide, Place(library.guide.public_address)
    brackets = link_list(f"{place.root}#brackets", "By wattage", (one.link for one in sheet.brackets), place)
    site = {
        "@type": "WebSite", **place.identity("site"), "name": guide.title, "url": place.root,
        "description": guide.tagline, "inLanguage": guide.records_language, "publisher": place.identity("publisher"),
    }
    return graph(article(sheet, guide), brackets, site, publisher(library))
