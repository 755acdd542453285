"""A unit: the product with its review, its numbers and its offers."""

from guidegen.evaluation import Candidate, Score, Standing
from guidegen.presentation.formatting import number
from guidegen.presentation.linked_data.nodes import (
    Node,
    Place,
    breadcrumbs,
    corrections,
    figure,
    graph,
    person,
    publisher,
)
from guidegen.presentation.linked_data.offers import offers
from guidegen.presentation.linked_data.quantities import measured, units
from guidegen.presentation.sheets import UnitSheet
from guidegen.records import GuideRecord, Library

LEAST_NOTES = 2
"""Fewer statements than this for and against are not worth a list."""
YES_OR_NO = ".acted"
"""End of the keys of findings that say whether something happened; they are no measured numbers."""


def unit_linked_data(sheet: UnitSheet, standing: Standing, library: Library) -> str:
    """Product, breadcrumbs and publisher. A unit without a place has no review with a rating and no offers."""
    guide, place = library.guide, Place(library.guide.public_address)
    one, record = standing.candidate, standing.candidate.result.unit.record
    product: Node = {
        "@type": "Product", "@id": f"{place.whole(sheet.address)}#product", "url": place.whole(sheet.address),
        "name": one.name, "description": sheet.verdict, "category": "Power supply for computers",
        "brand": {"@type": "Brand", "name": record.maker}, "model": record.model,
        "releaseDate": record.released.isoformat(),
        "image": _pictures(sheet, place),
        "additionalProperty": _properties(one),
    }
    if standing.place is None:
        product.update(_notes(sheet))
    else:
        product["review"] = _review(sheet, one, guide)
        product["offers"] = offers(one.prices)
    return graph(product, _page(sheet, place), breadcrumbs(sheet, place), publisher(library))


def _page(sheet: UnitSheet, place: Place) -> Node:
    """The page as a work of its own, where it had to be corrected: a product can't be."""
    if not sheet.corrections:
        return {}
    address = place.whole(sheet.address)
    return {
        "@type": "WebPage", "@id": f"{address}#page", "url": address, "mainEntity": {"@id": f"{address}#product"},
        "correction": corrections(sheet, place),
    }


def _pictures(sheet: UnitSheet, place: Place) -> str | list[str]:
    """The pictures of the unit before the card that stands for the page."""
    card = (sheet.picture,) if sheet.picture else ()
    found = [place.whole(address) for address in (*(one.address for one in sheet.pictures), *card)]
    return found[0] if len(found) == 1 else found


def _properties(one: Candidate) -> list[Node]:
    """The rating, and the measured numbers that the score rests on."""
    rated: Node = {
        "@type": "PropertyValue", "propertyID": "rated_power", "name": "Rated power",
        "value": figure(one.result.unit.record.rated_power_w, 0), **units("W"),
    }
    found = {part.found.key: part.found for part in one.score.parts if part.found and one.result.finding(part.found.key)}
    return [rated, *(measured(finding) for key, finding in found.items() if not key.endswith(YES_OR_NO))]


def _review(sheet: UnitSheet, one: Candidate, guide: GuideRecord) -> Node:
    """The guide's own review: one lab's score, never an average of opinions."""
    place = Place(guide.public_address)
    testers = dict.fromkeys(session.record.tested_by for session in one.result.used)
    return {
        "@type": "Review", "@id": f"{place.whole(sheet.address)}#review", "author": [person(name) for name in testers],
        "publisher": place.identity("publisher"), "datePublished": guide.edition.date.isoformat(),
        "reviewBody": sheet.verdict,
        "reviewRating": _rating(one.score),
        **_notes(sheet),
    }


def _rating(score: Score) -> Node:
    """The score; where it is a range on the page, its lower end with the higher one told."""
    rating: Node = {"@type": "Rating", "ratingValue": figure(score.low, 1), "bestRating": 100, "worstRating": 0}
    highest = number(score.high, 1)
    if number(score.low, 1) != highest:
        rating["ratingExplanation"] = f"What is not known counts at its worst; counted at its best, the score is {highest}."
    return rating


def _notes(sheet: UnitSheet) -> Node:
    """What speaks for it and against it, in the words on the page."""
    if len(sheet.pros) + len(sheet.cons) < LEAST_NOTES:
        return {}
    both = {"positiveNotes": sheet.pros, "negativeNotes": sheet.cons}
    return {name: _statements(notes) for name, notes in both.items() if notes}


def _statements(notes: tuple[str, ...]) -> Node:
    items = [{"@type": "ListItem", "position": position, "name": note} for position, note in enumerate(notes, 1)]
    return {"@type": "ItemList", "itemListElement": items}
