"""A unit beside its predecessor, as its pages say it."""

from bs4 import BeautifulSoup

UNIT, BENCH = "unit/halmer-quill-650/index.html", "bench/halmer-quill-650/index.html"


def rows(page: BeautifulSoup, table: str) -> list[list[str]]:
    """The cells of a table, with ordinary spaces."""
    return [[" ".join(cell.get_text().split()) for cell in row.select("th, td")] for row in page.select(f"#{table} tbody tr")]


def test_every_number_stands_beside_the_predecessors(pages: dict[str, BeautifulSoup]) -> None:
    """On the bench record all of them, on the report the surest of those that are better or worse."""
    whole, told = rows(pages[BENCH], "predecessor-whole"), rows(pages[UNIT], "predecessor")
    beyond = [row for row in whole if row[4] != "within the doubt"]

    outcomes = [row[4].removesuffix(", by more than its uncertainty") for row in beyond]

    assert 24 == len(told) < len(beyond) < len(whole)
    assert told == [row for row in ([*row[:4], word] for row, word in zip(beyond, outcomes, strict=True)) if row in told]
    assert {"better", "worse"} >= {row[4] for row in told}
    assert all(row[4].endswith(", by more than its uncertainty") for row in beyond)


def test_a_difference_is_printed_with_its_uncertainty(pages: dict[str, BeautifulSoup]) -> None:
    """Ripple, and efficiency in points."""
    told = {row[0]: row[3] for row in rows(pages[UNIT], "predecessor")}

    assert "−18 ± 2 mV" == told["Worst ripple on 12 V"]
    assert "+0.6 ± 0.1 points" == told["Efficiency at half load"]


def test_what_changed_inside_is_listed_field_by_field(pages: dict[str, BeautifulSoup]) -> None:
    """Only what differs."""
    told = rows(pages[UNIT], "predecessor-inside")

    assert told
    assert all(then != now for _, then, now in told)


def test_a_unit_without_predecessor_has_none_of_this(pages: dict[str, BeautifulSoup]) -> None:
    """Neither table."""
    for path in ("unit/brevik-tarn-550/index.html", "bench/brevik-tarn-550/index.html"):
        assert [] == pages[path].select("#predecessor, #predecessor-whole, #predecessor-inside")


def test_a_unit_that_was_replaced_leads_to_its_successor(pages: dict[str, BeautifulSoup]) -> None:
    """The successor's record names it; a unit that nobody replaced says nothing of it."""
    old, new = ("halmer-quill-650-2022", "halmer-quill-650")
    rows = {name: {row.dt.get_text(): row.dd for row in pages[f"unit/{name}/index.html"].select(".facts > div") if row.dt} for name in (old, new)}
    told = rows[old]["Replaced by"]

    assert told is not None
    assert [f"../../unit/{new}/index.html"] == [link["href"] for link in told.select("a")]
    assert "Replaced by" not in rows[new]
