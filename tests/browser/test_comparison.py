"""Units of a bracket side by side in real Chromium: the page's figures, and differences in words that the doubt bears out."""

import math
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from guidegen.evaluation import Assessment, BracketAssessment, Finding, UnitResult
from guidegen.flow import evaluate_content
from guidegen.presentation.comparing import compare
from guidegen.publication.typography import units_kept
from guidegen.rounding import number
from tests.conftest import CONTENT

NO_BREAK = "\N{NO-BREAK SPACE}"
READ = """() => Object.fromEntries([...document.querySelectorAll('.compared tbody tr')].map(row => (
  [row.cells[0].textContent.replaceAll('\\u00a0', ' '), [...row.cells].slice(1).map(cell => cell.textContent)])))"""
"""The comparison by property: a text a unit, and the words."""
COMPARE = """ids => {
  for (const tick of document.querySelectorAll('.tick input:checked')) tick.click();
  for (const id of ids) document.getElementById(`tick-${id}`).click();
  return (""" + READ + """)();
}"""
MEASURED = {
    "Efficiency at half load, %": "efficiency.at_50", "Noise at full load, dB(A)": "acoustic_noise.at_100",
    "Noise at half load, dB(A)": "acoustic_noise.at_50", "Worst ripple on 12 V, mV": "ripple.12v.worst",
    "Hold-up of the rails at full load, ms": "hold_up.rails_at_100", "Standby power, nothing connected, W": "standby.no_load",
    "Depth, mm": "size.depth", "Warranty, years": "warranty.years", "8-pin graphics plugs": "cables.pcie_8",
}
"""Rows whose words are held to the findings."""


@pytest.fixture(scope="module")
def brackets() -> dict[str, BracketAssessment]:
    """The demo's brackets in the home region."""
    assessment: Assessment = evaluate_content(CONTENT)
    return {one.ranking.bracket.id: one for one in assessment.home}


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page of its own."""
    context = browser.new_context(viewport={"width": 1280, "height": 900}, reduced_motion="reduce")
    yield context.new_page()
    context.close()


def address(site: Path, bracket: str, *compared: str) -> str:
    """Where a bracket stands, with a comparison."""
    page = (site / "watts" / bracket / "index.html").as_uri()
    return f"{page}?compare={','.join(compared)}" if compared else page


def is_bound(found: Finding) -> bool:
    """Whether a level is an upper bound, by the note that the unit's own page prints."""
    return "an upper bound" in found.note


def are_level(first: Finding, second: Finding) -> bool:
    """Whether the doubt of the difference covers it with 95 %: own parts add in quadrature, what is shared falls out as far
    as it moves both alike (JCGM 100:2008, 5.2).
    """
    one, other = first.quantity, second.quantity
    doubt = math.sqrt(one.own**2 + other.own**2 + (one.shared - other.shared) ** 2)
    return abs(one.value - other.value) <= 1.96 * doubt


def expected_words(results: tuple[UnitResult, UnitResult], key: str) -> set[str]:
    """What may stand in the words of a row: one outcome, in the terms that belong to it."""
    first, second = (result.finding(key) for result in results)
    if first is None or second is None:
        return {"untested"}
    texts = [number(f.quantity.value, f.decimals) for f in (first, second)]
    best, worse = (first, second) if (first.quantity.value < second.quantity.value) == (first.better == "lower") else (second, first)
    if is_bound(worse):
        return {"not told apart: upper bounds"}
    if are_level(first, second) or texts[0] == texts[1]:
        return {"the same"} if first.quantity.uncertainty == 0 else {"level", "not told apart: upper bounds"}
    far = abs(float(texts[0].replace("−", "-")) - float(texts[1].replace("−", "-")))
    return {("at least " if is_bound(best) else "") + number(far, first.decimals)}


def test_every_two_units_are_told_apart_or_level_by_their_doubt(
    site: Path, page: Page, brackets: dict[str, BracketAssessment]
) -> None:
    """All pairs of two brackets, nine figures each: printed as in the findings; the difference is that of the printed
    figures and stands there only where the doubt does not cover it; the better unit is the subject.
    """
    seen = set()
    for bracket in ("550", "850"):
        results = [s.candidate.result for s in brackets[bracket].ranking.standings]
        page.goto(address(site, bracket, *(result.unit.id for result in results[:2])))
        for pair in combinations(results, 2):
            rows = page.evaluate(COMPARE, [result.unit.id for result in pair])
            for title, key in MEASURED.items():
                *texts, words = rows[title]
                found = [result.finding(key) for result in pair]
                expected = expected_words(pair, key)
                plain = [number(f.quantity.value, f.decimals) if f else "not tested" for f in found]

                assert plain == [text.removeprefix("at most ") for text in texts]
                if expected == {"untested"}:
                    assert words == "" or words.startswith("not known of the ")
                elif any(text.replace(".", "").replace("at least ", "").isdigit() for text in expected):
                    f, s = (one for one in found if one)
                    better = pair[0 if (f.quantity.value < s.quantity.value) == (f.better == "lower") else 1]
                    assert words.startswith(f"The {better.unit.name} ")
                    assert f" {expected.copy().pop()}{NO_BREAK if f.quantity.unit else ' '}" in words
                    seen.add("apart, bound" if "at least" in words else "apart")
                else:
                    assert words in expected
                    seen.add(words)

    assert {"apart", "apart, bound", "level", "the same", "not told apart: upper bounds"} == seen


def test_scores_are_level_where_the_ranking_says_so(site: Path, page: Page, brackets: dict[str, BracketAssessment]) -> None:
    """Every pair of placed units of a bracket: level exactly as in ``level_with``."""
    placed = brackets["850"].ranking.placed
    page.goto(address(site, "850", placed[0].candidate.id, placed[1].candidate.id))
    outcomes = set()
    for one, other in combinations(placed, 2):
        words = page.evaluate(COMPARE, [one.candidate.id, other.candidate.id])["Score of 100, our weights"][-1]
        level = other.candidate.id in one.level_with
        outcomes.add(level)

        assert ("level" if level else f"The {one.candidate.name} scores ") == (words if level else words[: len(one.candidate.name) + 12])

    assert {True, False} == outcomes


def test_two_units_are_compared_in_the_editors_words(site: Path, page: Page, brackets: dict[str, BracketAssessment]) -> None:
    """The paragraph is that of the command ``compare``; with a third unit it goes."""
    one = brackets["850"]
    pair = ("halmer-quill-850", "norvane-mesa-850")
    page.goto(address(site, "850", *pair))
    told = page.locator("#comparison .why").inner_text()
    page.check("#tick-brevik-tarn-850")

    assert units_kept(" ".join(compare(one.ranking, pair, one.robustness))) == told
    assert 0 == page.locator("#comparison .why").count()


def test_prices_are_compared_as_printed(site: Path, page: Page) -> None:
    """The same texts as in the table, in whichever region; the difference is that of what is printed."""
    units = ("halmer-quill-850", "norvane-mesa-850")
    page.goto(f"{address(site, '850', *units)}&region=us")
    table = [page.locator(f"#ranking tr:has(#tick-{unit}) td.number").last.inner_text() for unit in units]
    *texts, words = page.evaluate(READ)["Price, $"]
    dear, cheap = (int(text.removeprefix(f"${NO_BREAK}")) for text in texts)

    assert table == texts
    assert f"The Norvane Mesa 850 costs ${NO_BREAK}{dear - cheap} less than the Halmer Quill 850." == words


def test_who_fails_a_gate_is_said_to(site: Path, page: Page) -> None:
    """Its verdict stands in the comparison as a warning, and it has no score to compare."""
    page.goto(address(site, "850", "halmer-quill-850", "kestrin-bolt-850"))
    rows = page.evaluate(READ)

    assert "not advised" in rows["Verdict"][1]
    assert ["1–3", "no place"] == rows["Place, our ranking"][:2]
    assert "not known of the Kestrin Bolt 850 (not advised)" == rows["Score of 100, our weights"][2]
    assert rows["Verdict"][1] == page.locator(".compared td.warn").inner_text()


def test_a_fifth_unit_is_refused_with_a_sentence(site: Path, page: Page) -> None:
    """The tick goes out again, the four stay; with one taken away it may come in."""
    page.goto(address(site, "850"))
    ticks = page.locator(".tick input")
    for i in range(4):
        ticks.nth(i).check()
    page.locator(".compared").wait_for()
    ticks.nth(4).click()
    refused = page.locator(".tick .warn").nth(4).inner_text()
    spoken = page.locator("p.unseen[role=status]", has_text="Four at most").count()
    four = page.locator(".compared thead th").count() - 2
    ticks.nth(0).uncheck()
    ticks.nth(4).check()

    assert "Four at most: take one away before you add the Quennel Belfry 850." == refused
    assert (1, 4) == (spoken, four)
    assert "" == "".join(page.locator(".tick .warn").all_inner_texts())
    assert 4 == page.locator(".compared thead th").count() - 2


def test_a_comparison_can_be_sent(site: Path, page: Page) -> None:
    """The address shows the same again; units unknown to the page are passed over, a fifth as well."""
    page.goto(address(site, "850"))
    page.check("#tick-brevik-tarn-850")
    alone = page.locator("#comparison").is_visible()
    page.check("#tick-halmer-quill-850")
    page.wait_for_url(lambda url: "compare=halmer-quill-850,brevik-tarn-850" in url)
    page.locator(".compared").wait_for()
    seen, url = page.evaluate(READ), page.url
    page.goto("about:blank")
    page.goto(url)
    again = page.evaluate(READ)
    page.goto(address(site, "850", "nobody", "brevik-tarn-850"))
    unknown = page.locator("#comparison").is_visible()
    page.goto(address(site, "850", "kestrin-bolt-850", "norvane-mesa-850", "brevik-tarn-850", "halmer-quill-850", "quennel-belfry-850"))
    five = page.locator(".tick input:checked").count()

    assert seen == again
    assert 4 == five
    assert (False, False) == (alone, unknown)


def test_names_lead_to_the_units_and_back_to_none(site: Path, page: Page) -> None:
    """Each heading is a link to a page that is there; "Take all away" clears ticks, table and address."""
    page.goto(address(site, "850", "halmer-quill-850", "brevik-tarn-850"))
    links = page.evaluate("[...document.querySelectorAll('.compared thead a')].map(link => link.href)")
    there = [Path(link.removeprefix("file://")).is_file() for link in links]
    page.get_by_role("button", name="Take all away").click()
    page.wait_for_url(lambda url: "compare" not in url)

    assert [True, True] == there
    assert not page.locator("#comparison").is_visible()
    assert 0 == page.locator(".tick input:checked").count()


def test_the_comparison_is_loaded_with_the_second_tick(site: Path, page: Page) -> None:
    """Not before; where it does not come a sentence says so, and a further tick tries again."""
    asked: list[str] = []
    page.on("request", lambda request: asked.append(Path(request.url).name.split(".")[0]))
    page.route("**/comparison.*.js", lambda route: route.abort())
    page.goto(address(site, "850"))
    page.check("#tick-halmer-quill-850")
    before = asked.count("comparison")
    page.check("#tick-brevik-tarn-850")
    page.locator("#comparison .warn").wait_for()
    told = page.locator("#comparison .warn").inner_text()
    page.unroute("**/comparison.*.js")
    page.check("#tick-norvane-mesa-850")
    page.locator(".compared").wait_for()

    assert 0 == before
    assert "The comparison could not be loaded: tick once more to try again." == told
    assert 0 == page.locator("#comparison > div .warn").count()


def test_a_limit_may_hide_what_is_compared(site: Path, page: Page) -> None:
    """The comparison stays and says which of its units the list above leaves out."""
    page.goto(f"{address(site, '850', 'halmer-quill-850', 'brevik-tarn-850')}&depth=160")

    assert "Left out of the list above by your limits: the Brevik Tarn 850." == page.locator("#comparison .note").inner_text()


def test_a_comparison_too_wide_for_the_window_scrolls_by_key(site: Path, page: Page) -> None:
    """Ticked at 700 px, the box scrolls, not the page, and the tab key stops at it; at 1280 px there is no such stop."""
    page.set_viewport_size({"width": 700, "height": 800})
    page.goto(address(site, "850"))
    for i in range(4):
        page.locator(".tick input").nth(i).check()
    page.locator("#comparison .scroll[tabindex='0']").wait_for()
    sideways = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    page.set_viewport_size({"width": 1280, "height": 800})
    page.locator("#comparison .scroll:not([tabindex])").wait_for()

    assert 0 == sideways


def test_at_320_px_each_property_is_a_block(site: Path, page: Page) -> None:
    """Figures bear the unit's name, nothing scrolls sideways, and the links are there without the headings."""
    page.set_viewport_size({"width": 320, "height": 700})
    page.goto(address(site, "850", "halmer-quill-850", "brevik-tarn-850", "norvane-mesa-850", "quennel-belfry-850"))
    beyond = page.evaluate("[document.documentElement, document.querySelector('#comparison .scroll')].map(box => box.scrollWidth - box.clientWidth)")
    label = page.evaluate("getComputedStyle(document.querySelector('.compared tbody td'), '::before').content")

    assert [0, 0] == beyond
    assert '"Halmer Quill 850"' == label
    assert 4 == page.locator("#comparison .links a:visible").count()
