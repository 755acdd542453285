"""Corrections on the published demo: on their pages, and all of them on one."""

import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from guidegen.evaluation import Corrected, assess, corrections_of, evaluate_units
from guidegen.flow import publish
from guidegen.presentation import compose
from guidegen.presentation.corrections import effect_lines, record_words
from guidegen.presentation.formatting import day
from guidegen.presentation.sheets import BracketSheet
from guidegen.records import Correction
from guidegen.sources import read_library

SMALL_EDITION = Path(__file__).parents[1] / "small_edition" / "content"


def words(page: BeautifulSoup, selector: str) -> list[str]:
    """The words of some elements, with ordinary spaces."""
    return [" ".join(one.get_text().split()) for one in page.select(selector)]


def test_a_correction_stands_on_its_page_and_where_it_changed_a_choice(pages: dict[str, BeautifulSoup]) -> None:
    """With the field, before and now, and what that changed; the head of the page leads to it."""
    for path in ("unit/brevik-tarn-550/index.html", "watts/550/index.html"):
        found = words(pages[path], ".part .correction p")

        assert ["Corrected 16 November 2026"] == words(pages[path], ".corrected")
        assert "#corrections" == pages[path].select(".corrected a")[0]["href"]
        assert "Record units/brevik-tarn-550/2026-07-23.yaml, protections[0].trip_current_a: was 46.3, is 64.3." == found[1]
        assert "By today's records, prices and policy, with the wrong value and without it:" == found[2]
        assert found[3].startswith("First choice: the Brevik Tarn 550 instead of the Tallow & Pike Steady 550")


def test_one_page_has_them_all_the_latest_first(pages: dict[str, BeautifulSoup]) -> None:
    """Each under the page that it is about, with an anchor of its own; every page's foot leads there."""
    page = pages["corrections/index.html"]

    assert [("Brevik Tarn 550", "../unit/brevik-tarn-550/index.html"), ("How we test and rank", "../how-we-test/index.html")] == [
        (link.get_text(), link["href"]) for link in page.select(".correction .note a")]
    assert ["correction-2026-11-16-unit-brevik-tarn-550", "correction-2026-11-09-page-how-we-test"] == [
        one["id"] for one in page.select(".correction h2")]
    assert "No field of a record was wrong: no score, no place and no choice changed." == words(page, ".correction p")[-2]
    assert all("Corrections" in words(one, ".foot a") for one in pages.values())


def test_a_guide_without_corrections_has_no_such_page(tmp_path: Path) -> None:
    """And no link to one."""
    publish(Path(shutil.copytree(SMALL_EDITION, tmp_path / "content")), tmp_path / "output")

    assert not (tmp_path / "output" / "corrections").exists()
    assert "orrections/" not in (tmp_path / "output" / "index.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("start", ["watts/", "unit/"])
def test_who_pays_stands_beside_the_recommendation(pages: dict[str, BeautifulSoup], start: str) -> None:
    """Samples with the way to how units are tested, funding, conflicts, paid links, and how to cite the page."""
    found = {path: page for path, page in pages.items() if path.startswith(start)}

    assert found
    for path, page in found.items():
        told = words(page, ".disclosure p")
        assert told[0].startswith("Samples: ")
        assert told[0].endswith(" How we test")
        assert 4 == len(told), path
        assert words(page, ".cite")[0].endswith(f"18 November 2026. The Harrow Bench, https://harrow-bench.example/{path.removesuffix('index.html')}")


def test_a_price_put_right_is_told_by_its_day_and_shop() -> None:
    """A number of a row says nothing to a reader; whose row it is stands there where the entry is about something else."""
    library = read_library(SMALL_EDITION)
    row = library.prices[0].rows[0]
    unit = library.unit(row.unit)
    assert unit is not None

    for about, whose in (({"unit": row.unit}, ""), ({"bracket": "550"}, f" of the {unit.name}")):
        one = Correction(date=row.date, words="Wrong.", file="prices/ie.csv", field="[0].price", was=60.0, now=row.price, **about)
        told = record_words(Corrected(correction=one, id="a", effect="nothing"), library)

        assert f"Record prices/ie.csv, row{whose} of {day(row.date)}, {row.shop}, price: was 60, is 94.5." == told


def test_an_effect_in_several_brackets_names_them() -> None:
    """A sentence of a place says nothing where nobody knows in which bracket."""
    library = read_library(SMALL_EDITION)
    points = Correction(date=library.guide.edition.date, words="Wrong.", page="how-we-test", file="policy.yaml", field="criteria[4].points", was=300.0)
    (one,) = corrections_of(evaluate_units(replace(library, corrections=(points,))))
    told = effect_lines(one)[1:]

    assert {"500 to 600 W", "600 to 700 W"} == {line.partition(": ")[0].replace("\N{NO-BREAK SPACE}", " ") for line in told if ": " in line}


def test_a_bracket_without_units_has_no_samples_yet() -> None:
    """Said in words, since nothing stands behind the colon otherwise."""
    small = read_library(SMALL_EDITION)
    empty = replace(small.guide.brackets[-1], id="700", title="700 to 800 W", from_w=small.guide.brackets[-1].below_w, below_w=800.0)
    made = compose(assess(replace(small, guide=replace(small.guide, brackets=(*small.guide.brackets, empty)))))
    (page,) = (sheet for sheet in made.sheets if isinstance(sheet, BracketSheet) and sheet.address == "watts/700/")

    assert "Samples: none yet." == page.disclosure[0]
