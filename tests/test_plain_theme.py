"""The plainer theme: the same guide by other sheets, and no line of the program for it."""

import shutil
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from bs4 import BeautifulSoup
from playwright.sync_api import Browser

from guidegen.errors import ThemeError
from guidegen.flow import publish
from guidegen.publication import find_theme, render_edition
from tests.browser.serving import KINDS, RULES, SETTINGS, served
from tests.conftest import CONTENT, ROOT, current
from tests.publication.fixtures.guide import small_guide
from tests.theme_guide import GUIDE, text

ADDRESS = "https://harrow-bench.example/"
ALIKE = ("not advised", "how we test", "frozen")
"""Kinds of page that are laid out by the sheet of another, or were made by the other theme."""


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo published in the plainer theme."""
    folder = tmp_path_factory.mktemp("plain")
    shutil.copytree(CONTENT, folder / "content")
    guide = folder / "content" / "guide.yaml"
    guide.write_text(guide.read_text(encoding="utf-8").replace("theme: test-sheet", "theme: plain-paper"), encoding="utf-8")
    publish(folder / "content", folder / "output")
    return folder / "output"


def cells(page: BeautifulSoup) -> list[str]:
    """What every cell of a page's tables says, in order."""
    return [" ".join(cell.get_text(" ").split()) for cell in page.select("td, th")]


def test_the_guide_says_what_a_sheet_receives() -> None:
    """``python3 -m tests.theme_guide`` writes it anew."""
    assert text() == GUIDE.read_text(encoding="utf-8")


def test_the_plainer_theme_has_the_same_pages_and_tables(plain: Path, pages: dict[str, BeautifulSoup]) -> None:
    """Every page is there, and every table says the same in every cell, in the same order."""
    for path, page in pages.items():
        other = BeautifulSoup((plain / path).read_text(encoding="utf-8"), "html.parser")
        assert (path, cells(page)) == (path, cells(other))


def test_the_plainer_theme_asks_for_no_script(plain: Path) -> None:
    """Its pages load a style sheet, and nothing else."""
    asked = {script.get("src") for path in current(plain, "*.html")
             for script in BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser").find_all("script")}

    assert {None} == asked


@pytest.mark.parametrize("setting", SETTINGS)
def test_axe_finds_nothing_and_nothing_goes_sideways(plain: Path, browser: Browser, setting: str) -> None:
    """On a page of every sheet."""
    found: list[object] = []
    with served(browser, plain, ADDRESS, **SETTINGS[setting]) as one:
        for kind in (kind for kind in KINDS if kind not in ALIKE):
            page = one.open(KINDS[kind])
            faults = Axe().run(page, options={"resultTypes": ["violations"], **RULES.get(setting, {})}).response["violations"]
            found += [(kind, fault["id"], [node["html"][:120] for node in fault["nodes"]][:3]) for fault in faults]
            if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
                found.append((kind, "goes sideways"))
            page.close()
        found += [*one.noted.messages, *one.noted.asked, *one.noted.reported]

    assert [] == found


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A theme of one's own that begins as a copy of the plainer one."""
    folder = tmp_path / "mine"
    (folder / "sheets").mkdir(parents=True)
    shutil.copy(ROOT / "themes" / "plain-paper" / "style.css", folder / "style.css")
    for name in ("base.html", "bracket.html", "prose.html"):
        shutil.copy(ROOT / "themes" / "plain-paper" / "sheets" / name, folder / "sheets" / name)
    return folder


def test_a_sheet_that_a_theme_lacks_is_borrowed(own: Path) -> None:
    """Units, lists and the rest come from the standard theme."""
    assert any(page.path.startswith("unit/") for page in render_edition(small_guide(), own).pages)


@pytest.mark.parametrize("sheet", ["bracket.html", "prose.html"])
def test_an_unknown_name_stops_with_sheet_and_line(own: Path, sheet: str) -> None:
    """As in the standard theme."""
    path = own / "sheets" / sheet
    path.write_text(path.read_text(encoding="utf-8") + "{% block main %}{{ sheet.headin }}{% endblock %}", encoding="utf-8")
    with pytest.raises(ThemeError, match=rf"mine/sheets/{sheet}:[0-9]+: .*headin"):
        render_edition(small_guide(), own)


def test_a_fault_in_a_borrowed_sheet_names_whose_it_is(own: Path) -> None:
    """A borrowed sheet that asks for a script which the theme lacks is named with its own theme."""
    (own / "sheets" / "bracket.html").unlink()
    with pytest.raises(ThemeError, match=r"test-sheet/sheets/bracket\.html:[0-9]+: "):
        render_edition(small_guide(), own)


def test_both_themes_are_found() -> None:
    """By their names."""
    assert {"plain-paper", "test-sheet"} == {find_theme(name, ROOT / "themes").name for name in ("plain-paper", "test-sheet")}
