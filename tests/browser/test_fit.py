"""Text made larger or set wider: nothing scrolls sideways, nothing is cut, nothing lies over anything else."""

from typing import Any

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import Reader
from tests.browser.serving import KINDS

LARGE = "document.documentElement.style.fontSize = '200%'"
"""WCAG 2.2, 1.4.4: text at twice its size."""
WIDE = """() => { const sheet = new CSSStyleSheet();
  sheet.replaceSync("* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important; }"
    + "p { margin-bottom: 2em !important; }");
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet]; }"""
"""WCAG 2.2, 1.4.12: line height 1.5, space after paragraphs 2 em, between letters 0.12 em, between words 0.16 em."""
SIDEWAYS = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
CUT = """() => [...document.querySelectorAll("body *")].filter((one) => {
    const style = getComputedStyle(one);
    const hides = [style.overflowX, style.overflowY].some((way) => way === "hidden" || way === "clip");
    return hides && !one.closest("svg, .unseen") && one.getClientRects().length
      && (one.scrollHeight > one.clientHeight + 1 || one.scrollWidth > one.clientWidth + 1);
  }).map((one) => `${one.tagName}.${one.className} ${one.textContent.trim().slice(0, 40)}`)"""
"""Boxes that hide a part of what they hold."""
OVERLAPPING = """() => {
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), lines = [];
  while (walk.nextNode()) {
    const text = walk.currentNode, holder = text.parentElement;
    if (!text.data.trim() || holder.closest("script, style, .unseen, .skip, option, datalist") || !holder.checkVisibility()) continue;
    if (holder.closest("thead") && getComputedStyle(holder.closest("thead")).clipPath !== "none") continue;
    if (getComputedStyle(holder).clipPath !== "none" || holder.closest("title, desc")) continue;
    const range = document.createRange();
    range.selectNodeContents(text);
    for (const box of range.getClientRects()) {
      if (box.width > 1 && box.height > 1) lines.push({ text: text.data.trim(), box, holder, drawn: Boolean(holder.closest("svg")) });
    }
  }
  lines.sort((a, b) => a.box.top - b.box.top);
  const over = [];
  lines.forEach((one, i) => {
    for (const two of lines.slice(i + 1)) {
      if (two.box.top >= one.box.bottom) break;
      const high = Math.min(one.box.bottom, two.box.bottom) - two.box.top;
      const wide = Math.min(one.box.right, two.box.right) - Math.max(one.box.left, two.box.left);
      if (wide > 2 && high > 0.4 * Math.min(one.box.height, two.box.height)) over.push(`${one.text.slice(0, 40)} / ${two.text.slice(0, 40)}`);
    }
  });
  return over; }"""
"""Lines of text that lie over others."""


def faults(page: Page, *, changed: str) -> list[Any]:
    """What is wrong with the page after a change."""
    page.evaluate(changed)
    sideways = page.evaluate(SIDEWAYS)
    return [*([f"{sideways} px sideways"] if sideways > 0 else []), *page.evaluate(CUT), *page.evaluate(OVERLAPPING)]


@pytest.mark.parametrize(("changed", "width"), [(LARGE, 1280), (WIDE, 1280), (WIDE, 320)], ids=["large", "wide", "wide and narrow"])
def test_text_may_be_set_larger_and_wider(reader: Reader, changed: str, width: int) -> None:
    """On a page of every kind."""
    one, found = reader(viewport={"width": width, "height": 900}, reduced_motion="reduce"), []
    for kind, address in KINDS.items():
        page = one.open(address)
        found += [(kind, fault) for fault in faults(page, changed=changed)]
        page.close()

    assert [] == found


@pytest.mark.parametrize("zoom", [2, 4])
def test_a_reader_who_zooms_sees_a_narrower_page(reader: Reader, zoom: int) -> None:
    """In a window of 1280 px; at 400 % a page has 320 px (WCAG 2.2, 1.4.10)."""
    one, found = reader(viewport={"width": 1280 // zoom, "height": 1024 // zoom}, device_scale_factor=zoom, reduced_motion="reduce"), []
    for kind, address in KINDS.items():
        page = one.open(address)
        found += [(kind, fault) for fault in faults(page, changed="() => {}")]
        page.close()

    assert [] == found
