"""What readers have set: forced colours, less motion, no script; and what loading moves or tells."""

import io
from typing import Any

from PIL import Image
from playwright.sync_api import Locator

from tests.browser.conftest import Reader
from tests.browser.serving import KINDS

DARK = [{"color_scheme": "dark"}, {"color_scheme": "light"}]
DRAWINGS = ("table.ranking svg >> nth=0", "table.ranking svg >> nth=1", ".drawn > svg >> nth=0", ".legend svg >> nth=0")
"""A strip, the parts of a score, a chart, and the legend of the strips on a bracket's page."""
SHIFT = """() => new Promise((done) => {
  let sum = 0;
  new PerformanceObserver((list) => { for (const one of list.getEntries()) sum += one.value; }).observe({ type: "layout-shift", buffered: true });
  requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(() => done(sum), 100)));
})"""
MOVING = """() => [...document.querySelectorAll("*")].filter((one) => {
  const style = getComputedStyle(one);
  return parseFloat(style.transitionDuration) > 0 || style.animationName !== "none" || style.scrollBehavior === "smooth";
}).map(({ tagName }) => tagName)"""
SMALLEST = """() => Math.min(...[...document.querySelectorAll("svg text")].filter((one) => one.checkVisibility()).map((one) => {
  const svg = one.ownerSVGElement;
  return parseFloat(getComputedStyle(one).fontSize) * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
}))"""
"""Size of the smallest letters in drawings, px."""
CONTENT = """() => {
  for (const made of document.querySelectorAll(".worksheet, .sieve, .weights, .tick, .comparison, .note[hidden], [role=status], .search > *")) made.remove();
  return { text: document.body.textContent.replace(/\\s+/g, " "), links: [...document.links].map(({ href }) => href),
    drawings: [...document.querySelectorAll("svg")].map((one) => one.outerHTML.length), rows: document.querySelectorAll("tr").length };
}"""


def lightness(drawing: Locator) -> list[int]:
    """The grey values of a drawing as it is seen."""
    drawing.scroll_into_view_if_needed()
    return list(Image.open(io.BytesIO(drawing.screenshot())).convert("L").tobytes())


def test_drawings_and_text_stand_out_in_forced_colours(reader: Reader) -> None:
    """On a light and on a dark canvas each drawing has ink that differs from it by more than half of all greys."""
    for scheme in DARK:
        one = reader(forced_colors="active", reduced_motion="reduce", **scheme)
        page = one.open(KINDS["bracket"])
        canvas = lightness(page.locator(".neighbours"))[-1]
        seen = {where: max(abs(grey - canvas) for grey in lightness(page.locator(where))) for where in (*DRAWINGS, "h1", ".why >> nth=0")}

        assert {} == {where: difference for where, difference in seen.items() if difference < 128}
        assert (canvas < 128) == (scheme["color_scheme"] == "dark")


def test_nothing_moves_for_those_who_asked_for_less(reader: Reader) -> None:
    """No transition, no animation, no gliding."""
    one = reader(reduced_motion="reduce")

    assert [] == [(kind, found) for kind, address in KINDS.items() if (found := one.open(address).evaluate(MOVING))]


def test_letters_of_drawings_can_be_read_on_a_telephone(reader: Reader) -> None:
    """At least 9 px in a window of 320 px; drawings that a drawer hides are left out."""
    one = reader(viewport={"width": 320, "height": 640})
    sizes = {kind: one.open(KINDS[kind]).evaluate(SMALLEST) for kind in ("bracket", "unit", "not advised", "how we test")}

    assert {} == {kind: size for kind, size in sizes.items() if size < 9}


def test_loading_moves_nothing(reader: Reader) -> None:
    """Layout shift below 0.02 in a wide window and on a telephone."""
    moved: dict[Any, float] = {}
    for width in (1280, 320):
        one = reader(viewport={"width": width, "height": 800})
        moved |= {(kind, width): one.open(KINDS[kind]).evaluate(SHIFT) for kind in ("home", "bracket", "unit", "sizing")}

    assert {} == {kind: shift for kind, shift in moved.items() if shift >= 0.02}


def test_every_kind_of_page_is_silent_and_alone_under_its_policy(reader: Reader) -> None:
    """No breach of the security policy, which allows nothing inline, no console message, no other host."""
    one = reader()
    for address in KINDS.values():
        page = one.open(address)
        policy = page.locator("meta[http-equiv=Content-Security-Policy]").get_attribute("content") or ""

        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        page.close()
    assert ([], [], []) == (one.noted.reported, one.noted.messages, one.noted.asked)


def test_without_script_nothing_is_missing_and_nothing_is_dead(reader: Reader) -> None:
    """The same text, links, drawings and rows on every kind of page; no control that would do nothing."""
    with_script, without = reader(), reader(java_script_enabled=False)
    for kind, address in KINDS.items():
        plain = without.open(address)
        controls = plain.locator("button, input, select, textarea, form").filter(visible=True)

        assert (kind, 0) == (kind, controls.count())
        assert (kind, with_script.open(address).evaluate(CONTENT)) == (kind, plain.evaluate(CONTENT))
