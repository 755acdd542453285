"""The demo with its interface in German: every word of the interface is the catalogue's, and the records stay as they are."""

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from bs4 import BeautifulSoup, Comment
from playwright.sync_api import Browser, Page, expect

from guidegen.flow import publish
from guidegen.presentation.catalogues import words_in
from guidegen.sources import read_library
from tests.conftest import current

CONTENT = Path(__file__).parents[2] / "content"
GERMAN = words_in("de")
BRACKET = "watts/850/index.html"
FROM_RECORDS = ("data/*.csv", "data/*.json", "data/records/**/*.yaml", "data/records/**/*.csv", "feed.*")
"""Files that hold records and nothing of the interface."""


@pytest.fixture(scope="module")
def german(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo published with another language of the interface and nothing else changed."""
    folder = tmp_path_factory.mktemp("german")
    shutil.copytree(CONTENT, folder / "content")
    guide = folder / "content" / "guide.yaml"
    guide.write_text(guide.read_text(encoding="utf-8").replace("\nlanguage: en\n", "\nlanguage: de\n"), encoding="utf-8")
    publish(folder / "content", folder / "output")
    return folder / "output"


@pytest.fixture
def page(german: Path, browser: Browser) -> Iterator[Page]:
    """The page of a bracket."""
    context = browser.new_context(viewport={"width": 1280, "height": 900}, reduced_motion="reduce")
    page = context.new_page()
    page.goto((german / BRACKET).as_uri())
    yield page
    context.close()


def test_the_page_speaks_german(page: Page) -> None:
    """Language of the page, navigation, headings, headings of tables, search field; what is tested is in English as written."""
    navigation = page.locator("nav[aria-label=Hauptnavigation] a").all_inner_texts()
    headings = page.locator("h2").all_inner_texts()
    columns = page.locator("#ranking thead th").all_inner_texts()

    assert "de" == page.evaluate("document.documentElement.lang")
    assert ["Wie viel Watt", "Nach Leistung", "Alle Netzteile", "Wie wir prüfen", "Begriffe"] == navigation
    assert ["Was wir kaufen würden", "Alles Getestete", "Wie sicher ist diese Reihenfolge", "Im Vergleich", "Seit Ausgabe 2026, Druck 1"] == headings
    assert ["Rang", "Netzteil", "Von Leerlauf bis 110\N{NO-BREAK SPACE}% Last"] == columns[:3]
    assert page.get_by_role("searchbox", name="Suche").is_visible()
    assert "en" == page.locator("h1").get_attribute("lang")


def test_sorting_and_searching_are_told_in_german(page: Page) -> None:
    """The texts of the scripts come from the catalogue too."""
    page.get_by_role("button", name="Rang").first.click()
    told = page.locator("#ranking").evaluate("table => table.parentNode.nextElementSibling.textContent")
    page.get_by_role("searchbox").fill("Quill 850")
    expect(page.locator(".search [role=status]")).to_contain_text("Treffer")

    assert "Nach Rang sortiert, aufsteigend." == told


def test_sifting_weighing_and_comparing_are_offered_in_german(page: Page) -> None:
    """The controls that scripts make; what they tell of rows stays in the language of the rows."""
    page.get_by_label("Das Gehäuse fasst eine Tiefe von, mm").fill("145")
    expect(page.locator(".sieve [role=status]")).to_contain_text("Die Grenze für Tiefe verbirgt")
    page.get_by_role("button", name="Alle wieder zeigen").click()
    for place in (0, 1):
        page.locator("#ranking .tick input").nth(place).check()
    expect(page.locator("#comparison h3")).to_have_text("Nebeneinander, in Worten")

    assert "Ihre eigenen Gewichte" == page.locator(".weights legend").inner_text()
    assert "en" == page.locator("#comparison tbody").get_attribute("lang")
    assert "de" == page.locator("#ranking .tick").first.get_attribute("lang")


def test_the_worksheet_asks_in_german(page: Page, german: Path) -> None:
    """Labels and messages are the catalogue's; parts and reasons are marked as English."""
    page.goto((german / "how-many-watts" / "index.html").as_uri())
    page.get_by_label("Reserve für spätere Aufrüstung, %").fill("viel")
    message = page.locator("#ws-headroom-message").inner_text()
    page.get_by_label("Reserve für spätere Aufrüstung, %").fill("0")

    assert "Bitte eine Zahl; „viel“ ist keine." == message
    assert "Rechenblatt" == page.locator("#worksheet h3").inner_text()
    assert "en" == page.locator("#worksheet .sums").get_attribute("lang")


def foreign_texts(german: Path) -> Iterator[tuple[str, str]]:
    """Texts that are not marked as being in the records' language, with their page; names of units and addresses left out."""
    units = read_library(CONTENT).units
    names = {name for unit in units for name in (unit.name, unit.record.model)}
    for path in current(german, "*.html"):
        soup = BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser")
        assert soup.body is not None
        for text in soup.body.find_all(string=re.compile("[A-Za-z]")):
            holder = text.find_parent(lang=True)
            ours = holder is not None and holder["lang"] == "de" and text.find_parent("script") is None
            if ours and not isinstance(text, Comment) and text.strip() not in names:
                yield path.relative_to(german).as_posix(), text.strip().replace("\N{NO-BREAK SPACE}", " ")


def test_what_is_not_german_is_marked(german: Path) -> None:
    """Every text outside an element marked English is one of the catalogue (WCAG 2.2, 3.1.2), or a name or an address."""
    texts = [text.replace("\N{NO-BREAK SPACE}", " ") for text in GERMAN.texts.values()]
    known = re.compile("|".join(re.sub(r"\\\{[a-z]+\\\}", ".+", re.escape(text)) for text in texts))
    left = [(path, text) for path, text in foreign_texts(german) if not known.fullmatch(text) and "@" not in text]

    assert [] == left


def test_the_records_are_unchanged(german: Path, site: Path) -> None:
    """The data, the records and the feeds don't differ in a byte from those of the English guide."""
    files = [path for pattern in FROM_RECORDS for path in sorted(site.glob(pattern))]

    assert len(files) > 90
    assert [] == [path.name for path in files if path.read_bytes() != (german / path.relative_to(site)).read_bytes()]


@pytest.mark.parametrize("path", [BRACKET, "index.html", "how-many-watts/index.html", "unit/halmer-quill-850/index.html"])
@pytest.mark.parametrize("width", [1280, 320])
def test_axe_finds_nothing(browser: Browser, german: Path, path: str, width: int) -> None:
    """No violation that a program can find, languages of parts among them; nothing scrolls sideways."""
    context = browser.new_context(viewport={"width": width, "height": 800}, reduced_motion="reduce")
    page = context.new_page()
    page.goto((german / path).as_uri())
    found = Axe().run(page).response["violations"]
    beyond = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    context.close()

    assert [] == [(one["id"], [node["html"] for node in one["nodes"]]) for one in found]
    assert beyond <= 0
