"""The pieces that several kinds of page share: publisher, article, lists, breadcrumbs, quantities."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from guidegen.presentation.addresses import CORRECTIONS, DATA, PRINCIPLES_PAGE, page_address
from guidegen.presentation.pieces import Link
from guidegen.presentation.sheets import Sheet
from guidegen.records import GuideRecord, Library
from guidegen.rounding import rounded

Node = dict[str, object]
"""An object of JSON-LD."""
CONTEXT = "https://schema.org"


@dataclass(frozen=True, slots=True)
class Place:
    """Where the site stands, for ids and addresses."""

    root: str
    """Public address with a closing ``/``."""

    def whole(self, address: str) -> str:
        """The absolute address of a place on the site; an outside address stays as it is."""
        return address if address.startswith("https://") else f"{self.root}{address}"

    def identity(self, name: str) -> Node:
        """A reference to a thing of the whole site, such as ``publisher``."""
        return {"@id": f"{self.root}#{name}"}

    @property
    def dataset(self) -> str:
        """Id of the data set."""
        return f"{self.root}{DATA}#dataset"


def graph(*nodes: Node) -> str:
    """The nodes as one document; what is empty is left out, and a number that is none can't be written."""
    document = {"@context": CONTEXT, "@graph": [_filled(node) for node in nodes if node]}
    return json.dumps(document, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def _filled(node: Mapping[str, object]) -> Node:
    return {name: value for name, value in node.items() if value not in ("", None, [], {})}


def figure(value: float, decimals: int) -> float | int:
    """The number as published, for a machine.

    >>> figure(92.25, 1), figure(120.4, 0)
    (92.2, 120)
    """
    printed = rounded(value, decimals)
    return float(printed) if decimals else int(printed)


def publisher(library: Library) -> Node:
    """Who publishes, with the page on how they work."""
    guide, place = library.guide, Place(library.guide.public_address)
    pages = {manuscript.id for manuscript in library.manuscripts}
    return {
        "@type": "Organization", **place.identity("publisher"), "name": guide.publisher.name, "url": place.root,
        "email": guide.publisher.contact,
        "publishingPrinciples": place.whole(page_address(PRINCIPLES_PAGE)) if PRINCIPLES_PAGE in pages else "",
        "correctionsPolicy": place.whole(CORRECTIONS) if library.corrections else "",
    }


def article(sheet: Sheet, guide: GuideRecord) -> Node:
    """The page as an article of the edition, that rests on the data set."""
    place, day = Place(guide.public_address), guide.edition.date.isoformat()
    return {
        "@type": "Article", "@id": f"{place.whole(sheet.address)}#article", "url": place.whole(sheet.address),
        "headline": sheet.heading, "description": sheet.description, "inLanguage": guide.records_language,
        "datePublished": day, "dateModified": day, "version": version(guide),
        "image": place.whole(sheet.picture) if sheet.picture else "",
        "author": [person(one.name) for one in guide.publisher.people], "publisher": place.identity("publisher"),
        "isBasedOn": {"@id": place.dataset}, "correction": corrections(sheet, place),
    }


def corrections(sheet: Sheet, place: Place) -> list[Node]:
    """What was wrong on the page, in the words that stand on it."""
    return [
        {"@type": "CorrectionComment", "@id": f"{place.whole(sheet.address)}#{one.id}", "text": one.text, "datePublished": one.date}
        for one in sheet.corrections
    ]


def version(guide: GuideRecord) -> str:
    """Edition and printing in one word."""
    return f"{guide.edition.name}.{guide.edition.printing}"


def person(name: str) -> Node:
    """Somebody."""
    return {"@type": "Person", "name": name}


def link_list(identifier: str, name: str, links: Iterable[Link], place: Place) -> Node:
    """Pages in order, each with its position from 1."""
    items = [
        {"@type": "ListItem", "position": position, "name": link.text, "url": place.whole(link.address)}
        for position, link in enumerate(links, 1)
    ]
    return {
        "@type": "ItemList", "@id": identifier, "name": name, "numberOfItems": len(items),
        "itemListOrder": "https://schema.org/ItemListOrderAscending", "itemListElement": items,
    }


def breadcrumbs(sheet: Sheet, place: Place) -> Node:
    """The way from the first page, as the page shows it."""
    items = [
        {"@type": "ListItem", "position": position, "name": link.text, "item": place.whole(link.address)}
        for position, link in enumerate(sheet.breadcrumbs, 1)
    ]
    return {"@type": "BreadcrumbList", "itemListElement": items} if items else {}
