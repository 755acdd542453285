"""JSON-LD as published: the rules of rich results, and the same numbers and words as the page and the CSV.

The lists of required properties are those of search engines' documentation on products, reviews, offers, lists and data
sets (from memory); names of types are those of schema.org; the rule on lists is that a rating speaks of one thing.
"""

import csv
import json
import re
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup, Tag

Node = dict[str, Any]
Nodes = dict[str, list[Node]]
ROOT = "https://harrow-bench.example/"
REQUIRED: dict[str, set[str]] = {
    "Product": {"name", "description", "brand", "image", "additionalProperty"},
    "Review": {"author", "datePublished", "reviewRating", "reviewBody"},
    "Rating": {"ratingValue", "bestRating", "worstRating"},
    "Offer": {"price", "priceCurrency", "availability", "seller", "validFrom"},
    "AggregateOffer": {"lowPrice", "highPrice", "priceCurrency", "offerCount", "offers"},
    "PropertyValue": {"name", "propertyID"},
    "BreadcrumbList": {"itemListElement"},
    "ItemList": {"itemListElement"},
    "ListItem": {"position", "name"},
    "Article": {"headline", "datePublished", "dateModified", "author", "publisher", "image", "isBasedOn"},
    "Dataset": {"name", "description", "license", "creator", "version", "variableMeasured", "distribution"},
    "DataDownload": {"contentUrl", "encodingFormat"},
    "Organization": {"name"}, "Person": {"name"}, "Brand": {"name"}, "WebSite": {"name", "url"},
    "CorrectionComment": {"text", "datePublished"}, "WebPage": {"url", "mainEntity", "correction"},
}
KINDS = {
    "index.html": {"Article", "ItemList", "WebSite", "Organization"},
    "watts/": {"Article", "ItemList", "BreadcrumbList", "Organization"},
    "unit/": {"Product", "BreadcrumbList", "Organization"},
    "units/": {"ItemList", "BreadcrumbList", "Organization"},
    "data/": {"Dataset", "BreadcrumbList", "Organization"},
    "how-we-test/": {"Article", "BreadcrumbList", "Organization"},
}


@pytest.fixture(scope="module")
def graphs(pages: dict[str, BeautifulSoup]) -> Nodes:
    """The top nodes of every page that has any, by path."""
    return {path: _graph(page) for path, page in pages.items() if path != "404.html"}


@pytest.fixture(scope="module")
def rows(site: Path) -> dict[str, dict[str, str]]:
    """The units of the CSV, by identifier."""
    with (site / "data/units.csv").open(encoding="utf-8", newline="") as file:
        return {row["unit"]: row for row in csv.DictReader(file)}


def _graph(page: BeautifulSoup) -> list[Node]:
    scripts = page.find_all("script", type="application/ld+json")
    assert len(scripts) == 1
    document = json.loads(scripts[0].get_text())
    assert document["@context"] == "https://schema.org"
    graph: list[Node] = document["@graph"]
    return graph


def every_node(value: object) -> list[Node]:
    """All typed nodes inside a value, itself included."""
    if isinstance(value, list):
        return [node for one in value for node in every_node(one)]
    if not isinstance(value, dict):
        return []
    inner = [node for one in value.values() for node in every_node(one)]
    return [value, *inner] if "@type" in value else inner


def of_type(value: object, kind: str) -> list[Node]:
    """The nodes of one type."""
    return [node for node in every_node(value) if node["@type"] == kind]


def units(graphs: Nodes) -> dict[str, Node]:
    """The product of every unit page, by identifier."""
    return {path.split("/")[1]: of_type(graph, "Product")[0] for path, graph in graphs.items() if path.startswith("unit/")}


def addresses(node: Node, name: str) -> list[str]:
    """One address, several, or none."""
    found = node.get(name, [])
    return found if isinstance(found, list) else [str(found)]


def unspaced(text: str) -> str:
    """The text with ordinary spaces."""
    return " ".join(text.split())


@pytest.mark.parametrize(("start", "kinds"), KINDS.items())
def test_each_kind_of_page_has_its_types(graphs: Nodes, start: str, kinds: set[str]) -> None:
    """No more and no fewer."""
    found = [{node["@type"] for node in graph} for path, graph in graphs.items() if path.startswith(start)]

    assert found
    assert all(one - {"WebPage"} == kinds for one in found)


def test_what_was_corrected_says_so(graphs: Nodes, pages: dict[str, BeautifulSoup]) -> None:
    """On each page as many corrections for machines as for readers, in the same words; a unit's page is a work of its own for that."""
    told = {path: [unspaced(str(node["text"])) for node in of_type(graph, "CorrectionComment")] for path, graph in graphs.items()}
    shown = {path: [unspaced(one.get_text()) for one in page.select(".part .correction > p:first-child")] for path, page in pages.items()}

    assert {"how-we-test/index.html", "unit/brevik-tarn-550/index.html", "watts/550/index.html"} == {p for p, found in told.items() if found}
    for path, words in told.items():
        assert len(words) == len(shown[path])
        assert all(seen.endswith(word) for word, seen in zip(words, shown[path], strict=True)), path
        assert bool(of_type(graphs[path], "WebPage")) == (path.startswith("unit/") and bool(words))


def test_every_node_has_what_its_type_requires(graphs: Nodes) -> None:
    """And no type without a rule is used."""
    lacking = [(path, node["@type"], REQUIRED[node["@type"]] - set(node)) for path, graph in graphs.items()
               for node in every_node(graph) if not REQUIRED[node["@type"]] <= set(node)]

    assert lacking == []


def test_lists_carry_no_product_and_no_rating(graphs: Nodes) -> None:
    """A rating speaks of one thing; and nowhere is one lab's score called an average."""
    for path, graph in graphs.items():
        assert "aggregateRating" not in json.dumps(graph)
        if not path.startswith("unit/"):
            assert of_type(graph, "Product") + of_type(graph, "Review") + of_type(graph, "Rating") == []


def test_ids_and_addresses_are_absolute_and_https(graphs: Nodes) -> None:
    """Every @id, url, item, image and contentUrl; those of the site lead to files that exist."""
    for graph in graphs.values():
        for node in every_node(graph):
            for name in ("@id", "url", "item", "image", "contentUrl"):
                assert all(address.startswith("https://") for address in addresses(node, name))


def test_addresses_of_lists_lead_to_pages(site: Path, graphs: Nodes) -> None:
    """List items, breadcrumbs, pictures and downloads."""
    for graph in graphs.values():
        for node in every_node(graph):
            for name in ("item", "image", "contentUrl") + (("url",) if node["@type"] == "ListItem" else ()):
                for address in addresses(node, name):
                    path = address.removeprefix(ROOT)
                    assert (site / path / "index.html" if path == "" or path.endswith("/") else site / path).is_file()


def test_positions_count_from_one(graphs: Nodes) -> None:
    """In every list, and the number of items is told rightly."""
    for graph in graphs.values():
        for node in (*of_type(graph, "ItemList"), *of_type(graph, "BreadcrumbList")):
            items = node["itemListElement"]
            assert [item["position"] for item in items] == list(range(1, len(items) + 1))
            assert node.get("numberOfItems", len(items)) == len(items)


def test_a_ranking_lists_the_units_that_have_a_place(graphs: Nodes, rows: dict[str, dict[str, str]]) -> None:
    """In the order of their places; what is not advised is not on it."""
    for path, graph in graphs.items():
        if path.startswith("watts/"):
            listed = [item["url"].split("/")[-2] for item in of_type(graph, "ItemList")[0]["itemListElement"]]
            placed = [unit for unit, row in rows.items() if row["bracket"] == path.split("/")[1] and row["place"]]
            assert listed == sorted(placed, key=lambda unit: int(rows[unit]["place"]))


def test_ratings_are_the_scores_of_the_csv(graphs: Nodes, rows: dict[str, dict[str, str]]) -> None:
    """Out of 100, and only where there is a place; the higher end of a range is told, since a rating has one value."""
    placed = ranges = 0
    for unit, product in units(graphs).items():
        ratings = of_type(product, "Rating")
        if rows[unit]["place"] == "":
            assert (ratings, of_type(product, "Review"), "offers" in product) == ([], [], False)
            continue
        placed += 1
        low, high = rows[unit]["score"], rows[unit]["score_highest"]
        ranges += low != high
        told = {"ratingExplanation": f"What is not known counts at its worst; counted at its best, the score is {high}."} if low != high else {}
        assert [{"@type": "Rating", "ratingValue": float(low), "bestRating": 100, "worstRating": 0, **told}] == ratings
    assert 0 < ranges < placed < len(rows)


def test_measured_numbers_are_those_of_the_csv(graphs: Nodes, rows: dict[str, dict[str, str]]) -> None:
    """Each property's value stands in the column of its key, and lies inside its own interval."""
    for unit, product in units(graphs).items():
        assert len(product["additionalProperty"]) > 5
        for one in product["additionalProperty"]:
            start = one["propertyID"].replace(".", "_")
            columns = [name for name in rows[unit] if name == start or name.startswith(f"{start}_")]
            assert one.get("value", one.get("maxValue")) in [float(rows[unit][name]) for name in columns if rows[unit][name]]
            if "value" in one:  # an upper bound has none
                assert one.get("minValue", one["value"]) <= one["value"] <= one.get("maxValue", one["value"])
            assert one["unitCode"]


def test_measured_numbers_stand_on_the_page(graphs: Nodes, pages: dict[str, BeautifulSoup]) -> None:
    """As whole numbers with all their digits, not as a part of others."""
    for unit, product in units(graphs).items():
        text = unspaced(pages[f"unit/{unit}/index.html"].get_text(" ")).replace("\N{MINUS SIGN}", "-")
        values = {one["name"]: re.escape(f"{one.get('value', one.get('maxValue'))}") for one in product["additionalProperty"]}
        assert [] == [name for name, value in values.items() if not re.search(rf"(?<![\d.]){value}(?!\.?\d)", text)]


def test_statements_for_and_against_stand_on_the_page(graphs: Nodes, pages: dict[str, BeautifulSoup]) -> None:
    """Word by word; at least two in all, and every one that the page makes under these headings."""
    for unit, product in units(graphs).items():
        page = pages[f"unit/{unit}/index.html"]
        notes = [item["name"] for holder in (product, product.get("review", {})) for name in ("positiveNotes", "negativeNotes")
                 for item in holder.get(name, {"itemListElement": []})["itemListElement"]]
        said = {unspaced(li.get_text()) for li in page.select(".said li")}
        assert len(notes) != 1
        assert {unspaced(note) for note in notes} <= said


def test_a_range_of_offers_has_at_least_two_and_its_ends_are_right(graphs: Nodes, pages: dict[str, BeautifulSoup]) -> None:
    """Lowest and highest of the offers, in one currency; the shops are named on the page."""
    seen = 0
    for unit, product in units(graphs).items():
        for node in of_type(product, "AggregateOffer"):
            prices = [offer["price"] for offer in node["offers"]]
            assert (min(prices), max(prices), len(prices)) == (node["lowPrice"], node["highPrice"], node["offerCount"])
            assert len(prices) > 1
            assert {offer["priceCurrency"] for offer in node["offers"]} == {node["priceCurrency"]}
        for offer in of_type(product, "Offer"):
            seen += 1
            assert offer["seller"]["name"] in pages[f"unit/{unit}/index.html"].get_text()
    assert seen


def test_the_cheapest_offer_is_not_dearer_than_the_price_of_the_csv(graphs: Nodes, rows: dict[str, dict[str, str]]) -> None:
    """The price of the CSV is that of an offer that can be bought; where there is no offer, or none in stock, it has no price."""
    for unit, product in units(graphs).items():
        offers = of_type(product, "Offer")
        buyable = [offer["price"] for offer in offers if not offer["availability"].endswith("OutOfStock")]
        if rows[unit]["place"]:
            assert bool(buyable) == bool(rows[unit]["price"])
        if buyable:
            assert float(rows[unit]["price"]) == min(buyable)


def test_breadcrumbs_are_those_of_the_page(graphs: Nodes, pages: dict[str, BeautifulSoup]) -> None:
    """The same words in the same order."""
    for path, graph in graphs.items():
        crumbs = pages[path].find("nav", class_="crumbs")
        if isinstance(crumbs, Tag):
            told = [item["name"] for item in of_type(graph, "BreadcrumbList")[0]["itemListElement"]]
            assert [unspaced(li.get_text()) for li in crumbs.find_all("li")] == [unspaced(name) for name in told]


def test_the_data_set_tells_its_files_and_licence(site: Path, graphs: Nodes) -> None:
    """With as many bytes as they have."""
    dataset = of_type(graphs["data/index.html"], "Dataset")[0]
    sizes = {one["contentUrl"]: one["contentSize"] for one in dataset["distribution"]}

    assert dataset["license"] == "https://creativecommons.org/licenses/by/4.0/"
    assert 50 <= len(dataset["description"]) <= 5000
    assert sizes == {f"{ROOT}data/{name}": f"{(site / 'data' / name).stat().st_size} B"
                     for name in ("units.csv", "sessions.csv", "prices.csv", "units.json")}
