"""The sizing worksheet in real Chromium: the same answers as the command, and fit for keyboard, reader and paper."""

import random
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from guidegen.evaluation import Advice, Assessment, Question, UnitFit, Wishes, advise
from guidegen.flow import evaluate_content
from guidegen.rounding import number
from tests.conftest import CONTENT

CASES = 600
"""Random questions that both answer."""
ANSWER = """questions => questions.map(question => {
  const { number } = guidegenSizing, printed = (v, d) => v === null ? null : number(v, d);
  const one = guidegenSizing.answer(question);
  return {
    rating: one.rating, share: printed(one.share === null ? null : 100 * one.share, 0), rule: one.rule,
    reasons: one.reasons, fits: one.fits, circuit: one.circuit, steps: one.steps,
    units: one.units.map(u => [u.id, printed(u.score, 1), printed(100 * u.share, 0), printed(u.efficiency, 1),
      printed(u.noise, 1), printed(u.heat, 1), u.price, printed(u.energy, 0), printed(u.cost, 2)]),
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
        }
        load = asked_load(rolled, assessment)
        found.append(Case(
            for_python=Question(
                **load, **place, wishes=Wishes(headroom_pct=wishes["headroom"], depth_mm=wishes["depth"])),
            for_browser={
                **{{"parts": "parts", "wall_w": "wall", "delivered_w": "delivered"}[name]: value for name, value in load.items()},
                **place, **wishes},
        ))
    return found


def asked_load(rolled: random.Random, assessment: Assessment) -> dict[str, Any]:
    """What is asked about: mostly parts, now and then watts, some of them far too many."""
    kind = rolled.choice(("parts", "parts", "parts", "wall_w", "delivered_w"))
    if kind != "parts":
        return {kind: round(rolled.choice((rolled.uniform(20, 1200), rolled.uniform(1, 2500))), rolled.choice((0, 1, 3)))}
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
    extra = ("At idle the computer takes", "There the advised units of", "The cheapest advised unit of", "An uninterruptible")
    told = [sentence for sentence in advice.sentences if not sentence.startswith(extra)]
    return {
        "rating": found.rating_w, "share": printed(None if found.share is None else 100.0 * found.share, 0),
        "rule": advice.rule, "sentences": told, "units": [unit_row(unit, costs.get(unit.unit)) for unit in advice.units],
    }


def unit_row(unit: UnitFit, cost: Any) -> list[Any]:
    """A unit's row, as printed."""
    return [
        unit.unit, number(unit.score, 1), number(100.0 * unit.share, 0), printed(unit.efficiency_pct, 1),
        printed(unit.noise_dba, 1), printed(unit.heat_w, 1), unit.price, printed(cost.energy.energy.value if cost else None, 0),
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
    assert 500 <= len(advices)


def test_numbers_are_rounded_as_in_print(page: Page) -> None:
    """Half to even on the shortest decimal (ISO 80000-1, annex B, rule A; from memory), for small, large and random."""
    rolled = random.Random(7)
    values = [0.0, 0.5, 1.5, 2.5, 2.675, 91.25, 0.05, -0.04, -2.5, 1e-7, 123456789.125, 1e21, 99.95]
    values += [round(rolled.uniform(-500, 500), rolled.choice((1, 2, 3))) for _ in range(300)]
    pairs = [(value, decimals) for value in values for decimals in (0, 1, 2)]

    assert [number(value, decimals) for value, decimals in pairs] == page.evaluate(
        "pairs => pairs.map(([v, d]) => guidegenSizing.number(v, d))", [list(pair) for pair in pairs])
