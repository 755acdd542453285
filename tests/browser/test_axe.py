"""Pages of every kind against what a program can find of WCAG 2.2, levels A and AA, and of good practice."""

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser.conftest import Reader
from tests.browser.serving import KINDS, RULES, SETTINGS


@pytest.mark.parametrize("setting", SETTINGS)
def test_axe_finds_nothing(reader: Reader, setting: str) -> None:
    """No violation on any kind of page."""
    one, axe, found = reader(reduced_motion="reduce", **SETTINGS[setting]), Axe(), []
    for kind, address in KINDS.items():
        page = one.open(address)
        options = {"resultTypes": ["violations"], **RULES.get(setting, {})}
        faults = axe.run(page, options=options).response["violations"]
        found += [(kind, fault["id"], [node["html"] for node in fault["nodes"]]) for fault in faults]
        page.close()

    assert [] == found


def test_every_kind_of_page_is_among_those_looked_at(site: Path) -> None:
    """The sheets that the theme has, and each page of prose that is no unit and no bracket."""
    kept = set(KINDS.values()) | {f"{address}index.html" for address in KINDS.values()}
    pages = {path.relative_to(site).as_posix() for path in site.rglob("*.html")}
    alone = {path for path in pages if not path.startswith(("unit/", "watts/", "bench/", "archive/2026-june/"))}

    assert alone <= kept
