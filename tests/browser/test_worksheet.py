"""The sizing worksheet in real Chromium: the same answers as the command, and fit for keyboard, reader and paper."""

import gzip
import math
import random
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page
from scipy.interpolate import PchipInterpolator

from guidegen.evaluation import (
    Advice,
    Assessment,
    Question,
    RatingOnOffer,
    UnitFit,
    Wishes,
    advise,
    recommend_for,
)
from guidegen.evaluation.sizing import Load, Peak
from guidegen.flow import evaluate_content
from guidegen.presentation import score_range
from guidegen.presentation.charts import LoadStrip, strip_of
from guidegen.presentation.strips import described_strip
from guidegen.records import SizingRules
from guidegen.rounding import number
from tests.conftest import CONTENT, current

CASES = 600
"""Random questions that both answer."""
RULES = SizingRules(
    target_low_pct=40, target_high_pct=60, never_above_pct=80, ageing_pct=5, assumed_efficiency_pct=88
)
"""The rules of the demo."""
ANSWER = """questions => questions.map(question => {
  const { number } = guidegenSizing, printed = (v, d) => v === null ? null : number(v, d);
  const one = guidegenSizing.answer(question);
  return {
    rating: one.rating, share: printed(one.share === null ? null : 100 * one.share, 0), rule: one.rule,
    reasons: one.reasons, fits: one.fits, circuit: one.circuit, steps: one.steps,
    units: one.units.map(u => [u.id, u.score, u.absent ?? "", printed(100 * u.share, 0), printed(u.efficiency, 1),
      printed(u.noise, 1), u.bound, printed(u.heat, 1), u.price, printed(u.energy, 0), printed(u.cost, 2)]),
  };
})"""


@dataclass(frozen=True, slots=True)
class Case:
    """One question, for both."""

    for_python: Question
    """As the evaluation takes it."""
    for_browser: dict[str, Any]
    """As the script takes it."""


@pytest.fixture(scope="module")
def assessment() -> Assessment:
    """The demo, evaluated."""
    return evaluate_content(CONTENT)


@pytest.fixture(scope="module")
def address(site: Path) -> str:
    """Where the worksheet stands."""
    return (site / "how-many-watts" / "index.html").as_uri()


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    """The page with the worksheet, opened from the file system."""
    context = browser.new_context(viewport={"width": 1280, "height": 900}, reduced_motion="reduce")
    page = context.new_page()
    page.goto(address)
    yield page
    context.close()


def cases(assessment: Assessment) -> list[Case]:
    """Random questions from a fixed seed: parts, plug meters and delivered watts with all kinds of wishes."""
    rolled = random.Random(20261118)
    guide = assessment.library.guide
    found = []
    for _ in range(CASES):
        place: dict[str, Any] = {
            "region": rolled.choice(guide.regions).id, "profile": rolled.choice(guide.profiles).id,
        }
        wishes: dict[str, Any] = {
            "headroom": rolled.choice((0.0, 0.0, 10.0, 25.0, round(rolled.uniform(0, 80), 1))),
            "depth": rolled.choice((None, None, 100.0, 140.0, 150.0, 165.0)),
            "budget": rolled.choice((None, None, None, 80.0, 120.0, 150.5, 250.0)),
        }
        load = asked_load(rolled, assessment)
        found.append(Case(
            for_python=Question(
                **load, **place, wishes=Wishes(headroom_pct=wishes["headroom"], depth_mm=wishes["depth"], budget=wishes["budget"])),
            for_browser={
                **{{"parts": "parts", "wall_w": "wall", "delivered_w": "delivered"}[name]: value for name, value in load.items()},
                **place, **wishes},
        ))
    return found


def asked_load(rolled: random.Random, assessment: Assessment) -> dict[str, Any]:
    """What is asked about: mostly parts, now and then watts, some of them far too many."""
    kind = rolled.choice(("parts", "parts", "parts", "wall_w", "delivered_w"))
    if kind != "parts":
        return {kind: round(rolled.choice((rolled.uniform(40, 1200), rolled.uniform(40, 2500))), rolled.choice((0, 1, 3)))}
    classes = assessment.library.parts.classes
    parts = {rolled.choice([p.id for p in classes if p.kind == "processor"]): rolled.choice((1, 1, 1, 2))}
    if rolled.random() < 0.8:
        parts[rolled.choice([p.id for p in classes if p.kind == "graphics"])] = rolled.choice((1, 1, 1, 1, 2, 3))
    for part in classes:
        if part.kind not in ("processor", "graphics") and rolled.random() < 0.6:
            parts[part.id] = rolled.choice((1, 2, 3, 4)) if part.kind not in ("board", "pump") else 1
    return {"parts": parts}


def as_printed(advice: Advice) -> dict[str, Any]:
    """What the script should have answered; the sentences that it leaves out are left out."""
    found = advice.found
    costs = {one.unit: one for one in advice.costs}
    extra = ("At idle the computer takes", "There the advised units of", "An uninterruptible")
    told = [sentence for sentence in advice.sentences if not sentence.startswith(extra)]
    return {
        "rating": found.rating_w, "share": printed(None if found.share is None else 100.0 * found.share, 0),
        "rule": advice.rule, "sentences": told, "units": [unit_row(unit, costs.get(unit.unit)) for unit in advice.units],
    }


def unit_row(unit: UnitFit, cost: Any) -> list[Any]:
    """A unit's row, as printed."""
    return [
        unit.unit, score_range(unit.score, unit.score_high), unit.absent, number(100.0 * unit.share, 0), printed(unit.efficiency_pct, 1),
        printed(unit.noise_dba, 1), unit.noise_bound, printed(unit.heat_w, 1), unit.price, printed(cost.energy.energy.value if cost else None, 0),
        printed(cost.cost.value if cost else None, 2),
    ]


def printed(value: float | None, decimals: int) -> str | None:
    """A number as printed, or nothing."""
    return None if value is None else number(value, decimals)


def test_the_browser_answers_as_the_command(page: Page, assessment: Assessment) -> None:
    """Rating, share, rule, every sentence, the units that fit and each of their numbers, to the last printed digit."""
    asked = cases(assessment)
    answers = page.evaluate(ANSWER, [case.for_browser for case in asked])
    for case, answer in zip(asked, answers, strict=True):
        advice = advise(case.for_python, assessment)
        expected = as_printed(advice)
        came = {**{key: answer[key] for key in ("rating", "share", "rule", "units")},
                "sentences": [*answer["reasons"], *answer["fits"], answer["circuit"]]}

        assert expected == came, case.for_browser
        assert set(answer["steps"]) <= set(advice.steps)


def test_the_random_questions_reach_every_answer(assessment: Assessment) -> None:
    """All rules decide somewhere, some builds find no unit and some no rating: the comparison is not of one kind."""
    advices = [advise(case.for_python, assessment) for case in cases(assessment)]

    assert {"middle", "headroom", "ceiling", "largest"} <= {one.found.rule for one in advices}
    assert any(one.give_up for one in advices)
    assert {"depth", "budget", "plugs", "headroom"} == {wish for one in advices for given in one.give_up for wish in given.wishes}
    assert {"within_warranty", "never_within_warranty"} <= {one.saving.payback.outcome for one in advices if one.saving}
    assert 500 <= len(advices)
    assert {"", "no_price"} < {unit.absent for one in advices for unit in one.units}
    assert {True, False} == {unit.partly_unknown for one in advices for unit in one.units}
    told = " ".join(sentence for one in advices for sentence in one.sentences)
    assert all(words in told for words in ("has the best score of those with", "is the only one with", "Not to be had at present: "))


def test_numbers_are_rounded_as_in_print(page: Page) -> None:
    """Half to even on the shortest decimal (ISO 80000-1, annex B, rule A; from memory), for small, large and random."""
    rolled = random.Random(7)
    values = [0.0, 0.5, 1.5, 2.5, 2.675, 91.25, 0.05, -0.04, -2.5, 1e-7, 123456789.125, 1e21, 99.95]
    values += [round(rolled.uniform(-500, 500), rolled.choice((1, 2, 3))) for _ in range(300)]
    pairs = [(value, decimals) for value in values for decimals in (0, 1, 2)]

    assert [number(value, decimals) for value, decimals in pairs] == page.evaluate(
        "pairs => pairs.map(([v, d]) => guidegenSizing.number(v, d))", [list(pair) for pair in pairs])


def test_without_script_there_is_no_form(site: Path, browser: Browser) -> None:
    """The page is what it was: the table, no control, nothing of the worksheet in sight."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / "how-many-watts" / "index.html").as_uri())
    controls = page.locator("main").locator("form, input, select, button, fieldset").count()
    seen = page.locator("#worksheet").is_visible()
    table = page.locator("#sizing-table").is_visible()
    context.close()

    assert (0, False, True) == (controls, seen, table)


def test_the_form_is_there_before_what_follows_is_painted(page: Page) -> None:
    """Nothing below the heads moves while the page comes in; what moves the masthead is no matter of the worksheet."""
    shifts = page.evaluate(
        """new Promise(done => {
          const seen = [];
          new PerformanceObserver(list => seen.push(...list.getEntries())).observe({ type: "layout-shift", buffered: true });
          setTimeout(() => done(seen.filter(one => !one.sources.some(({ node }) => node?.parentElement?.closest(".masthead")))
            .map(one => one.value)), 300);
        })"""
    )

    assert [] == shifts


def test_a_change_is_answered_at_once_and_from_the_keyboard(page: Page) -> None:
    """Tab to the processor, choose by arrow and letters, type a count: the answer and its status follow each key."""
    before = page.locator("#worksheet .rating").inner_text()
    page.focus("#ws-way-parts")
    page.keyboard.press("Tab")
    focused = page.evaluate("document.activeElement.id")
    page.keyboard.type("Workstation")
    page.keyboard.press("Tab")
    page.keyboard.type("Largest")
    after = page.locator("#worksheet .rating").inner_text()
    told = page.locator("#worksheet [role=status]").inner_text()

    assert "ws-processor" == focused
    assert before != after
    assert f"Look for {after}." in told
    assert "../watts/1600/index.html" == page.locator("#worksheet .rating a").get_attribute("href")


def test_units_of_every_rating_within_the_rule_are_offered_with_their_rating(page: Page) -> None:
    """195 W delivered are 49 % of 400 W and 43 % of 450 W: units of both stand in the table, the smaller rating first, in it the best score."""
    page.get_by_label("What a plug meter shows").check()
    page.get_by_label("Reading at full load").fill("221.6")
    cells = page.evaluate("[...document.querySelectorAll('#worksheet-units tbody tr')].map(row => [...row.cells].slice(1, 4).map(one => Number(one.textContent)))")
    told = page.locator("#worksheet .why-this").inner_text()

    assert {400, 450} == {rating for rating, _, _ in cells}
    assert [(rating, -score) for rating, score, _ in cells] == sorted((rating, -score) for rating, score, _ in cells)
    assert all(40 <= share <= 60 for _, _, share in cells)
    assert "450\N{NO-BREAK SPACE}W keeps full load within the rule as well" in told


def test_arrows_turn_to_the_plug_meter(page: Page) -> None:
    """600 W delivered leads to 1000 W at 60 %: 681.8 W at the plug at 88 % are 600 W; nothing but the strips is loaded."""
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.focus("#ws-way-parts")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Tab")
    page.keyboard.type("681.81")

    assert "1000\N{NO-BREAK SPACE}W" == page.locator("#worksheet .rating").inner_text()
    assert "60\N{NO-BREAK SPACE}%" in page.locator("#worksheet [role=status]").inner_text()
    assert not page.locator("#ws-processor").is_visible()
    assert [] == [url for url in asked if "/assets/sizing-strip." not in url]


@pytest.mark.parametrize("entered", [
    {"ws-memory-module": "4", "ws-headroom": "25", "ws-depth": "165", "ws-budget": "150"}, {"ws-headroom": "12.5", "ws-fan-case": "7"},
])
def test_the_address_holds_what_was_entered(page: Page, entered: dict[str, str]) -> None:
    """Opened elsewhere, the address shows the same entries and the same answer."""
    for field, text in entered.items():
        page.fill(f"[id='{field.replace('-', '.').replace('ws.', 'ws-')}']", text)
    page.select_option("#ws-region", "us")
    answer = page.locator("#worksheet").inner_text()
    values = "[...document.querySelectorAll('#worksheet :is(input, select)')].map(one => one.value)"
    entries = page.evaluate(values)
    address = page.url
    page.goto("about:blank")
    page.goto(address)

    assert "region=us" in address
    assert (answer, entries) == (page.locator("#worksheet").inner_text(), page.evaluate(values))


@pytest.mark.parametrize(("field", "text", "message"), [
    ("ws-depth", "deep", "A number, please; “deep” is none."),
    ("ws-headroom", "500", "From 0 to 200\N{NO-BREAK SPACE}%, please."),
    ("ws-memory.module", "1.5", "A whole number from 0 to 64, please."),
    ("ws-fan.case", "65", "A whole number from 0 to 64, please."),
    ("ws-budget", "0", "More than 0, please."),
    ("ws-depth", "0", "More than 0\N{NO-BREAK SPACE}mm, please."),
])
def test_bad_input_is_answered_beside_its_field(page: Page, field: str, text: str, message: str) -> None:
    """The message belongs to the field by its description; no stale answer stands beside it; put right, it goes."""
    control = page.locator(f"[id='{field}']")
    kept = control.input_value()
    control.fill(text)
    told = page.locator(f"[id='{control.get_attribute('aria-describedby')}']")
    marked = (control.get_attribute("aria-invalid"), told.inner_text(), page.locator("#worksheet .rating").inner_text())
    control.fill(kept)

    assert ("true", message, "") == marked
    assert (None, "") == (control.get_attribute("aria-invalid"), told.inner_text())


def test_start_again_forgets(page: Page) -> None:
    """Entries and address are as at first."""
    strips_drawn(page)
    first = (page.url, page.locator("#worksheet").inner_text())
    page.fill("#ws-headroom", "50")
    page.get_by_role("button", name="Start again").click()

    assert first == (page.url, page.locator("#worksheet").inner_text())


def test_nothing_is_drawn_of_a_half_typed_number(page: Page) -> None:
    """Of 9 on the way to 999 nothing is left when the script that draws has come; put right, the strips stand there again."""
    page.evaluate("""() => {
      const field = document.getElementById("ws-memory.module");
      for (const typed of ["9", "99", "999"]) { field.value = typed; field.dispatchEvent(new Event("input", { bubbles: true })); }
    }""")
    page.wait_for_function("typeof guidegenSizing.strip === 'function'")
    half = (page.locator("#worksheet [role=status]").inner_text(), page.locator("#worksheet .strips > *").count())
    page.fill("[id='ws-memory.module']", "4")

    assert ("No answer yet: please put right what is marked.", 0) == half
    assert page.locator("#worksheet .strips svg").count() > 0


def test_an_empty_field_is_no_fault(page: Page) -> None:
    """Turned to the plug meter, the worksheet waits and says for what: nothing is marked, nothing is left of the parts' answer."""
    strips_drawn(page)
    page.get_by_label("What a plug meter shows").check()
    left = page.locator("#worksheet :is(.strips > *, tbody tr, .fits > *)").count()

    assert "No answer yet: it takes the reading in watts." == page.locator("#worksheet [role=status]").inner_text()
    assert 0 == page.locator("#worksheet [aria-invalid]").count()
    assert "" == "".join(page.locator("#worksheet .message").all_inner_texts())
    assert 0 == left

    page.get_by_label("Reading at full load").fill("x")
    assert "true" == page.locator("#ws-wall").get_attribute("aria-invalid")
    page.get_by_label("Reading at full load").fill("420")
    assert page.locator("#worksheet .strips svg").count() > 0


def test_what_cannot_be_bought_stands_last_and_is_marked(page: Page) -> None:
    """The fast processor with the largest card: the only unit of 1500 W has no fresh price, and its score is a range."""
    page.goto(page.url + "#processor.high=1&graphics.top=1&board.plain=1&memory.module=2&drive.nvme=1&fan.case=3&usb.devices=1")
    page.reload()
    last = page.locator("#worksheet-units tbody tr").last
    told = page.locator("#worksheet .fits").inner_text()

    assert "Marlowe & Fenn Highway 1500" == last.locator("th").inner_text()
    assert re.fullmatch(r"\d\d\.\d–\d\d\.\d", last.locator("td").nth(1).inner_text())
    assert "no fresh price" == last.locator("td").last.inner_text()
    assert "Not to be had at present: Marlowe & Fenn Highway 1500 (no fresh price)." in told
    assert "Marlowe" not in told.replace("Marlowe & Fenn Highway 1500 (no fresh price)", "")
    assert "1600" in page.locator("#worksheet-units tbody tr").first.inner_text()


def test_a_price_at_which_nobody_finds_it_says_so(page: Page) -> None:
    """A unit that is hard to find or out of stock though its price is fresh has both in its cell."""
    cells = page.evaluate("""() => ["hard_to_find", "out_of_stock"].map(absent => {
      const { data } = guidegenSizing, unit = data.units.find(({ rating }) => rating === 750);
      data.regions.find(({ id }) => id === data.home).advised[unit.id] = [90, 99, absent];
      document.getElementById("ws-headroom").dispatchEvent(new Event("input", { bubbles: true }));
      return [...document.querySelectorAll("#worksheet-units tr.absent td:last-child")].map(one => one.textContent);
    })""")

    assert "€\N{NO-BREAK SPACE}99, hard to find" in cells[0]
    assert "€\N{NO-BREAK SPACE}99, out of stock" in cells[1]


def test_the_first_five_stand_there_and_the_others_behind_a_drawer(page: Page) -> None:
    """Opened from the keyboard, it stays open while the reader goes on; where five or fewer fit there is none."""
    drawer = page.locator("#worksheet-units details")
    all_of_them = page.evaluate("guidegenSizing.answer({ parts: guidegenSizing.data.usual }).units.map(({ name }) => name)")
    seen = "[...document.querySelectorAll('#worksheet-units tbody tr')].filter(row => row.checkVisibility({ contentVisibilityAuto: true })).length"
    closed = page.evaluate(seen)
    page.locator("#worksheet-units summary").focus()
    page.keyboard.press("Enter")
    opened = page.evaluate(seen)
    page.fill("#ws-headroom", "1")
    stays = drawer.evaluate("one => one.open")
    names = page.locator("#worksheet-units tbody th").all_inner_texts()
    page.goto(page.url.split("#")[0] + "#processor.top=1&graphics.top=1&board.rich=1")
    page.reload()

    assert len(all_of_them) > 6
    assert (5, len(all_of_them)) == (closed, opened)
    assert stays
    assert all_of_them == names
    assert 0 < page.locator("#worksheet-units tbody tr").count() <= 5
    assert not drawer.is_visible()


def test_all_that_fit_are_printed(page: Page) -> None:
    """The drawer is open on paper, and nothing asks to open it."""
    page.fill("#ws-headroom", "0")
    page.emulate_media(media="print")
    rows = page.locator("#worksheet-units details tbody tr")

    assert rows.count() > 1
    assert all(box is not None and box["height"] > 10 for box in (rows.nth(i).bounding_box() for i in range(rows.count())))
    assert not page.locator("#worksheet-units summary").is_visible()


def test_the_watts_at_the_plug_say_by_which_efficiency(page: Page) -> None:
    """Measured on the unit that stands first, or assumed where none fits; the examples, which name no unit, say theirs."""
    measured = page.locator("#worksheet .why-this").inner_text()
    first = page.locator("#worksheet-units tbody th").first.inner_text()
    share = page.locator("#worksheet-units tbody tr").first.locator("td").nth(3).inner_text()
    page.fill("#ws-depth", "10")
    assumed = page.locator("#worksheet .why-this").inner_text()

    assert re.search(rf"At the plug about \d+\sW, by the efficiency of {share}\s% measured on {first}\.", measured)
    assert re.search(r"At the plug about \d+\sW, by an assumed efficiency of 88\s%\.", assumed)
    assert "At the plug, at 88\N{NO-BREAK SPACE}%" in page.locator("#examples thead").inner_text()


@pytest.mark.parametrize(("width", "state"), [
    (320, ""), (320, "#wall=900&depth=x"), (480, ""), (1000, ""), (1160, "#processor.top=1&graphics.top=3"),
])
def test_the_worksheet_fits_every_window(page: Page, width: int, state: str) -> None:
    """Neither the page nor anything of the worksheet scrolls sideways (WCAG 2.2, 1.4.10)."""
    page.set_viewport_size({"width": width, "height": 800})
    page.goto(page.url + state)
    page.reload()
    beyond = page.evaluate(
        "[document.documentElement, ...document.querySelectorAll('#worksheet, #worksheet .scroll')]"
        ".map(box => box.scrollWidth - box.clientWidth)"
    )

    assert {0} == set(beyond)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("state", ["", "#wall=620&depth=x", "#processor.top=1&graphics.top=3"])
def test_axe_finds_nothing(browser: Browser, address: str, scheme: str, state: str) -> None:
    """No violation of WCAG 2.2 A and AA nor of good practice that a program can find, with an answer and without."""
    context = browser.new_context(color_scheme=scheme, reduced_motion="reduce")  # type: ignore[arg-type]
    page = context.new_page()
    page.goto(address + state)
    found = Axe().run(page).response["violations"]
    context.close()

    assert [] == [(one["id"], [node["html"] for node in one["nodes"]]) for one in found]


@pytest.mark.parametrize("script", [True, False])
def test_the_sum_on_paper_is_printed(site: Path, browser: Browser, script: bool) -> None:
    """With the watts of every class, as the page promises; an untouched worksheet, with nothing to read, is not."""
    context = browser.new_context(java_script_enabled=script)
    page = context.new_page()
    page.goto((site / "how-many-watts" / "index.html").as_uri())
    paper = page.locator("#paper-worksheet")
    on_screen = paper.is_visible()
    page.emulate_media(media="print")
    printed = (page.locator("#worksheet").is_visible(), paper.is_visible(), page.get_by_text("Print this page and fill in").is_visible())
    watts = [cells.nth(2).inner_text() for cells in (row.locator("th, td") for row in paper.locator("tbody tr").all()[:-4])]
    context.close()

    assert (True, (False, True, True)) == (on_screen, printed)
    assert len(watts) > 10
    assert all(re.fullmatch(r"× \d+\sW", one) for one in watts)


def test_what_was_entered_is_printed_and_the_sum_on_paper_beside_it(page: Page) -> None:
    """Nothing of the worksheet is on paper until somebody has entered something; then its entries and its answer are."""
    page.emulate_media(media="print")
    shown = [page.locator(one) for one in ("#ws-processor", "#worksheet .rating", "#worksheet .strips", "#paper-worksheet")]
    untouched = [one.is_visible() for one in shown]
    page.emulate_media(media="screen")
    page.fill("#ws-headroom", "10")
    page.locator("#worksheet .strips svg").first.wait_for()
    page.emulate_media(media="print")

    assert [False, False, False, True] == untouched
    assert [True] * 4 == [one.is_visible() for one in shown]


def test_page_and_scripts_stay_small(site: Path) -> None:
    """At most 60 kB for page, styles and scripts as sent with gzip, 12 kB of that for the scripts that are loaded at
    once, and no other page asks for the worksheet.
    """
    page = site / "how-many-watts" / "index.html"
    text = page.read_text(encoding="utf-8")
    assets = {re.sub(r"\.[0-9a-f]{10}", "", path.name): len(gzip.compress(path.read_bytes()))
              for path in (site / "assets").iterdir() if path.name in text}
    scripts = assets["script.js"] + assets["sizing.js"]
    others = sum(size for name, size in assets.items() if name not in ("script.js", "sizing.js")) + len(gzip.compress(page.read_bytes()))

    assert scripts <= 12_000
    assert scripts + others <= 60_000
    assert [page] == [path for path in current(site, "*.html") if "assets/sizing." in path.read_text(encoding="utf-8")]


def test_every_rule_decides_alike(page: Page) -> None:
    """Ratings of random rails and excursions against random loads with peaks: the same rating by the same rule."""
    rolled = random.Random(11)
    asked, expected = [], []
    for _ in range(400):
        offers = tuple(
            RatingOnOffer(rating_w=watts, rail_12v_a=rolled.choice((None, watts / 12, watts / 30)),
                          excursions=rolled.choice(((), ((120.0, 100.0),), ((200.0, 0.1), (160.0, 5.0)))))
            for watts in (400.0, 550.0, 750.0, 1000.0)
        )
        full = rolled.uniform(50, 900)
        peaks = tuple(Peak(power_w=full * rolled.uniform(1, 2.5), duration_ms=rolled.choice((0.1, 1.0, 100.0)))
                      for _ in range(rolled.randint(0, 2)))
        load = Load(full_w=full, rail_12v_w=full * rolled.random(), peaks=peaks, headroom_pct=rolled.choice((0.0, 20.0)))
        found = recommend_for(load, offers, RULES)
        expected.append([found.rating_w, found.rule, found.next_smaller_w, found.next_larger_w])
        asked.append({
            "offers": [{"rating": o.rating_w, "rail_12v": o.rail_12v_a, "excursions": o.excursions} for o in offers],
            "load": {"full": full, "rail": load.rail_12v_w, "peaks": [{"power": p.power_w, "ms": p.duration_ms} for p in peaks]},
            "headroom": load.headroom_pct,
        })
    came = page.evaluate(
        """asked => asked.map(({ offers, load, headroom }) => {
          guidegenSizing.data.offers = offers;
          const one = guidegenSizing.recommend(guidegenSizing.loadOf(load, headroom));
          return [one.rating, one.rule, one.smaller, one.larger];
        })""", asked)

    assert {"middle", "headroom", "peaks", "rail_12v", "ceiling", "largest"} == {rule for _, rule, _, _ in expected}
    assert expected == came


def test_losses_between_points_follow_the_same_cubic(page: Page) -> None:
    """Random courses, also falling and level ones, against SciPy's shape-preserving cubic, at, between and beyond points."""
    rolled = random.Random(13)
    asked, expected = [], []
    for _ in range(200):
        loads = sorted(rolled.sample(range(10, 1000), rolled.choice((2, 3, 6, 10))))
        losses = [rolled.choice((rolled.uniform(5, 80), 20.0)) for _ in loads]
        at = [rolled.uniform(loads[0], loads[-1]) for _ in range(5)] + [float(loads[0]), float(loads[-1]), loads[-1] + 1.0]
        asked.append([list(zip(loads, losses, strict=True)), at])
        course = PchipInterpolator(loads, losses, extrapolate=False)
        expected.append([float(course(load)) if load <= loads[-1] else None for load in at])
    came = page.evaluate("asked => asked.map(([points, at]) => at.map(load => guidegenSizing.lossAt(points, load)))", asked)

    assert [row[-1] for row in expected] == [row[-1] for row in came]
    assert [pytest.approx(row[:-1], rel=1e-13) for row in expected] == [row[:-1] for row in came]


def test_sums_are_rounded_once(page: Page) -> None:
    """As ``math.fsum``: Shewchuk's exact sum, with terms that cancel and halves that tie."""
    rolled = random.Random(17)
    asked = [[0.1] * 10, [1e16, 1.0, 1e-16], [1.0, 2.0**-53, 2.0**-106], [1e100, 1.0, -1e100], []]
    asked += [[rolled.choice((1, 2, 7)) * round(rolled.uniform(-300, 300), 1) for _ in range(12)] for _ in range(200)]

    assert [math.fsum(terms) for terms in asked] == page.evaluate("asked => asked.map(guidegenSizing.sum)", asked)


def to_three_decimals(strip: LoadStrip) -> LoadStrip:
    """The strip of the courses as the page carries them."""
    return replace(strip, bands=tuple(
        replace(band, shares=tuple((round(load, 3), round(share, 3)) for load, share in band.shares)) for band in strip.bands))


def strips_drawn(page: Page) -> None:
    """Come near the strips, as a reader does, and wait for the script that draws them."""
    page.locator("#worksheet .fits").scroll_into_view_if_needed()
    page.locator("#worksheet .strips svg").first.wait_for()


def test_strips_are_loaded_when_they_are_near(page: Page) -> None:
    """Nothing draws them before; whoever scrolls to the units or enters anything has them, and nothing shown moves."""
    before = page.evaluate("[typeof guidegenSizing.strip, document.querySelectorAll('#worksheet .strips svg').length]")
    strips_drawn(page)

    assert before == ["undefined", 0]
    assert page.locator("#worksheet .strips svg").count() == min(5, page.locator("#worksheet-units tbody tr").count())


def test_strips_are_loaded_with_the_first_entry(page: Page) -> None:
    """Also where the reader never scrolls down, so that they stand on paper."""
    page.get_by_label("Memory module").fill("4")
    page.locator("#worksheet .strips svg").first.wait_for()

    assert page.locator("#worksheet .strips svg").count() == min(5, page.locator("#worksheet-units tbody tr").count())


def test_strips_lie_where_the_guide_draws_them(page: Page, assessment: Assessment) -> None:
    """Every unit of the worksheet: bands, outlines and stretches beyond the limit are the guide's own to the tenth of a
    unit; marks stand at idle, usual and full load; the title says the bands at each.
    """
    strips_drawn(page)
    ids = page.evaluate("guidegenSizing.data.units.map(({ id }) => id)")
    came = page.evaluate("""() => guidegenSizing.data.units.map((made) => {
      const marks = [["idle", 0.05 * made.rating], ["full", 0.5 * made.rating]];
      const svg = guidegenSizing.strip({ ...made, made }, marks, true);
      const of = (wanted) => [...svg.querySelectorAll(":scope > path")].filter((one) => (one.getAttribute("class") === "s-mark") === wanted);
      return { bands: of(false).map((one) => one.getAttribute("d")), marks: of(true).map((one) => one.getAttribute("d")),
        ends: [...svg.querySelectorAll("linearGradient")].map((one) => [one.getAttribute("x1"), one.getAttribute("x2")]),
        title: svg.querySelector("title").textContent, styled: svg.outerHTML.includes("style=") };
    })""")
    for unit, one in zip(ids, came, strict=True):
        result = assessment.result(unit)
        assert result is not None
        drawn = strip_of(to_three_decimals(described_strip(result, assessment.library.policy, mark_w=0.0))).svg
        inside = re.sub(r"<pattern.*?</pattern>", "", drawn)
        paths = [re.search(r' d="([^"]*)"', path) for path in re.findall(r"<path[^>]*>", inside) if "s-mark" not in path]

        assert [found[1] for found in paths if found] == one["bands"], unit
        assert re.findall(r'x1="([^"]*)" x2="([^"]*)"', inside) == [tuple(ends) for ends in one["ends"]]
        assert ["M13.2 0V30", "M131.8 0V30"] == one["marks"]
        assert "full load" in one["title"]
        assert "heat lost" in one["title"]
        assert not one["styled"]


@pytest.mark.parametrize(("wall", "some"), [("420", True), ("1200", False)])
def test_the_units_of_the_open_list_have_their_strips(page: Page, wall: str, some: bool) -> None:
    """In the order of the rows, with one mark for each load that the note names; where more fit, the note says so."""
    page.get_by_label("What a plug meter shows").check()
    page.get_by_label("Reading at full load").fill(wall)
    strips_drawn(page)
    names = page.locator("#worksheet-units tbody th").all_text_contents()
    rows = min(5, len(names))
    drawings = page.locator("#worksheet .strips svg[role=img]")

    assert rows == drawings.count() > 0
    assert names[:5] == page.locator("#worksheet .strips figcaption").all_inner_texts()
    assert some == (len(names) > 5) == ("Drawn: the first 5" in page.locator("#worksheet .strips .note").inner_text())
    assert {3} == {drawings.nth(i).locator("path.s-mark").count() for i in range(rows)}
    assert all(f"{name} (" in page.locator("#worksheet .strips .note").inner_text() for name in ("idle", "usual", "full load"))
