"""The tab key: every stop can be seen, nothing lies over it, and it is large enough to be hit."""

from typing import Any

from tests.browser.conftest import Reader
from tests.browser.serving import KINDS

STOPS = """() => {
  for (const drawer of document.querySelectorAll("details")) drawer.open = true;
  const wanted = "a[href], button, input, select, textarea, summary, [tabindex='0']";
  return [...document.querySelectorAll(wanted)].filter((one) => one.checkVisibility({ visibilityProperty: true }) && one.tabIndex >= 0).map((one) => {
    const look = () => { const s = getComputedStyle(one);
      return [s.outlineStyle, s.outlineWidth, s.outlineColor, s.borderBottomColor, s.backgroundColor, s.textDecorationThickness].join(); };
    const before = look();
    one.focus({ focusVisible: true });
    const style = getComputedStyle(one), box = one.getClientRects()[0];
    const outlined = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
    const [x, y] = [Math.min(Math.max(box.left + box.width / 2, 1), innerWidth - 1), Math.min(Math.max(box.top + box.height / 2, 1), innerHeight - 1)];
    const hit = document.elementFromPoint(x, y);
    const covered = !(hit && (one.contains(hit) || hit.contains(one) && !getComputedStyle(hit).position.match("fixed|sticky")));
    return { name: `${one.tagName} ${(one.getAttribute("href") || one.className || one.id).slice(0, 50)} ${one.textContent.trim().slice(0, 30)}`,
      focused: document.activeElement === one, changed: outlined && before !== look(), covered };
  }).filter(({ focused, changed, covered }) => !focused || !changed || covered); }"""
"""Stops that can't be focused, don't look different by an outline of 2 px, or are covered at their middle (WCAG 2.2, 2.4.7, 2.4.11)."""
SMALL = """() => {
  const inSentence = (one) => {
    const holder = one.closest("p, li, dd, td, th, figcaption, small");
    return one.tagName === "A" && getComputedStyle(one).display === "inline" && holder
      && holder.textContent.trim().length > one.textContent.trim().length + 2;
  };
  const all = [...document.querySelectorAll("a[href], button, input, select, summary")].filter((one) => one.checkVisibility()
    && !one.matches(".skip") && !inSentence(one));
  return all.map((one) => [one, one.matches("input[type=radio]") && one.labels[0]
      ? [one, one.labels[0]].map((part) => part.getBoundingClientRect()).sort((a, b) => b.height - a.height)[0] : one.getBoundingClientRect()])
    .filter(([, box]) => box.width && (box.width < 23.5 || box.height < 23.5))
    .map(([one, box]) => `${one.tagName} ${one.textContent.trim().slice(0, 30)} ${box.width.toFixed(1)} × ${box.height.toFixed(1)}`); }"""
"""Targets below 24 px that are no links in a sentence (WCAG 2.2, 2.5.8)."""


def gathered(reader: Reader, script: str, **settings: Any) -> list[tuple[str, Any]]:
    """What the script finds on a page of every kind."""
    one, found = reader(reduced_motion="reduce", **settings), []
    for kind, address in KINDS.items():
        page = one.open(address)
        found += [(kind, fault) for fault in page.evaluate(script)]
        page.close()
    return found


def test_every_stop_of_the_tab_key_is_seen_and_uncovered(reader: Reader) -> None:
    """On a page of every kind, closed drawers opened."""
    assert [] == gathered(reader, STOPS)


def test_every_target_can_be_hit(reader: Reader) -> None:
    """At least 24 px, in a wide window and on a telephone."""
    assert [] == gathered(reader, SMALL)
    assert [] == gathered(reader, SMALL, viewport={"width": 320, "height": 640})
