"""Frozen editions on the published site: unchanged for ever, by themselves, and one banner away from the current guide."""

import json
import shutil
from pathlib import Path
from typing import Literal
from urllib.parse import urldefrag, urljoin

import pytest
from axe_playwright_python.sync_playwright import Axe
from bs4 import BeautifulSoup, Tag
from click.testing import CliRunner, Result
from playwright.sync_api import Browser

from guidegen.cli import main
from guidegen.flow import publish
from guidegen.rounding import NO_BREAK
from tests.frozen import NAME, frozen_content, move_on, replaced, snapshot

ADDRESS = "https://guide.small-bench.example/"


@pytest.fixture(scope="module")
def frozen(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Content with one frozen edition and nothing else changed; not to be written to."""
    return frozen_content(tmp_path_factory.mktemp("frozen"))


@pytest.fixture(scope="module")
def later(frozen: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with content published when it was frozen, moved on, and published again over the first."""
    folder = tmp_path_factory.mktemp("later")
    content = Path(shutil.copytree(frozen, folder / "content"))
    publish(content, folder / "output")
    move_on(content)
    publish(content, folder / "output")
    return folder


@pytest.fixture
def content(frozen: Path, tmp_path: Path) -> Path:
    """A copy of the frozen content."""
    return Path(shutil.copytree(frozen, tmp_path / "content"))


def run(command: str, content: Path) -> Result:
    """A command on a content, publishing beside it."""
    more = ("--output", str(content.parent / "output")) if command == "publish" else ()
    return CliRunner().invoke(main, [command, "--content", str(content), *more])


def page(site: Path, path: str) -> BeautifulSoup:
    """A page of a published site."""
    return BeautifulSoup((site / path).read_text(encoding="utf-8"), "html.parser")


def listed(content: Path) -> list[str]:
    """The paths of the edition's list, line by line."""
    return [line[66:] for line in (content / "editions" / NAME / "SHA256SUMS").read_text(encoding="utf-8").splitlines()]


def words(tag: Tag | None) -> str:
    """What a tag says, with ordinary spaces."""
    assert tag is not None
    return tag.get_text(" ", strip=True).replace(NO_BREAK, " ")


def links(found: BeautifulSoup) -> list[str]:
    """Everything that a page points at, but for its banner, whole addresses and what it carries itself."""
    banner = found.find("aside", class_="archived")
    if banner is not None:
        banner.extract()
    pointing = (str(tag[name]) for name in ("href", "src", "data-index", "data-sheet") for tag in found.select(f"[{name}]"))
    return [link for link in pointing if not link.startswith(("https://", "mailto:", "data:"))]


def test_the_archive_keeps_the_bytes_that_were_frozen(later: Path) -> None:
    """After a withdrawal, a redirect and another price the archived files are those in the content, byte for byte."""
    archived = snapshot(later / "output" / "archive" / NAME)

    assert {"index.html", "unit/wexcombe-ember-550/index.html", "data/units.csv"} <= set(archived)
    assert snapshot(later / "content" / "editions" / NAME / "site") == archived


def test_publishing_over_the_last_site_gives_what_publishing_anew_gives(later: Path, tmp_path: Path) -> None:
    """The archive, the withdrawn page and the redirect among the rest."""
    publish(later / "content", tmp_path / "cold")

    assert snapshot(tmp_path / "cold") == snapshot(later / "output")


def test_each_archived_page_has_one_banner_that_leads_to_its_current_page(later: Path) -> None:
    """Also where the current page only leads on, or tells of a withdrawal; the current pages have none."""
    site = later / "output"
    pages = sorted(path.relative_to(site).as_posix() for path in (site / "archive" / NAME).rglob("*.html"))
    for path in pages:
        banner = page(site, path).find_all("aside", class_="archived")
        ways = [urljoin(f"/{path}", str(a["href"])) for one in banner for a in one.find_all("a")]
        assert [f"/{path.removeprefix(f'archive/{NAME}/')}"] == ways
        assert (site / ways[0][1:]).is_file()

    assert len(pages) > 8
    assert not page(site, "index.html").find_all("aside", class_="archived")
    assert not page(site, "archive/index.html").find_all("aside", class_="archived")


def test_an_archived_page_is_followed_but_not_listed_and_stands_for_itself(later: Path) -> None:
    """Robots (robots meta tag: noindex, follow) and the canonical address; the sitemap has none of them, feeds neither."""
    found = page(later / "output", f"archive/{NAME}/unit/tarnbeck-kiln-650/index.html")
    sitemap = (later / "output" / "sitemap.xml").read_text(encoding="utf-8")

    assert ["noindex, follow"] == [meta["content"] for meta in found.select("meta[name=robots]")]
    assert [f"{ADDRESS}archive/{NAME}/unit/tarnbeck-kiln-650/"] == [link["href"] for link in found.select("link[rel=canonical]")]
    assert f"{ADDRESS}archive/{NAME}/" not in sitemap
    assert f"<loc>{ADDRESS}archive/</loc>" in sitemap
    assert "unit/wexcombe-ember-550/<" not in sitemap
    assert not {"robots.txt", "sitemap.xml", "feed.atom", "feed.json", "404.html"} & set(snapshot(later / "output" / "archive" / NAME))


def test_links_of_a_frozen_edition_stay_within_it(frozen: Path) -> None:
    """But for the banner every link of every page leads to a file of the edition itself."""
    site = frozen / "editions" / NAME / "site"
    there = set(snapshot(site))
    lost = [(path, link) for path in there if path.endswith(".html") for link in links(page(site, path))
            if urldefrag(urljoin(f"/{path}", link))[0][1:] not in there]

    assert lost == []


@pytest.mark.parametrize("path", ["index.html", "watts/550/index.html", "unit/tarnbeck-kiln-650/index.html", "data/index.html"])
def test_a_frozen_edition_opens_from_the_disk_in_silence(frozen: Path, browser: Browser, path: str) -> None:
    """No console message, and no request but for files of the edition."""
    site, told, asked = frozen / "editions" / NAME / "site", list[str](), list[str]()
    context = browser.new_context(viewport={"width": 320, "height": 640})
    tab = context.new_page()
    tab.on("console", lambda message: told.append(message.text))
    tab.on("pageerror", lambda error: told.append(str(error)))
    tab.on("request", lambda request: asked.append(request.url))
    tab.goto((site / path).as_uri())
    width = tab.evaluate("document.documentElement.scrollWidth")
    context.close()

    assert [] == told
    assert [] == [url for url in asked if not url.startswith((site.as_uri(), "data:"))]
    assert width <= 320


@pytest.mark.parametrize("path", ["archive/index.html", f"archive/{NAME}/index.html", "unit/tarnbeck-hearth-650/index.html"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_pages_of_editions(later: Path, browser: Browser, path: str, scheme: Literal["light", "dark"]) -> None:
    """The list, a page with its banner and the page of a withdrawn unit, on a telephone (axe-core, WCAG 2.2 AA)."""
    context = browser.new_context(viewport={"width": 320, "height": 640}, color_scheme=scheme)
    tab = context.new_page()
    tab.goto((later / "output" / path).as_uri())
    violations = Axe().run(tab, options={"resultTypes": ["violations"]}).response["violations"]
    context.close()

    assert [] == [(one["id"], [node["html"] for node in one["nodes"]]) for one in violations]


def test_the_page_of_editions_says_what_came_first(later: Path) -> None:
    """Name, date, units and the first choice of each bracket, with links into the archive; the foot of pages leads there."""
    found = page(later / "output", "archive/index.html")
    cells = [[words(cell) for cell in row.select("th, td")] for row in found.select("tbody tr")]
    build = json.loads((later / "content" / "editions" / NAME / "edition.json").read_text(encoding="utf-8"))["build"]
    home = page(later / "output", "index.html")

    assert ["Edition 2026, printing 1"] == [words(h2) for h2 in found.select("main h2")]
    assert ["15 April 2026", "4", "4"] == [words(dd) for dd in found.select("dd")][:3]
    assert len(build) == 64
    assert f"begins with {build[:16]}" == words(found.select("dd")[3])
    assert [["500 to 600 W", "Ostrevant Cairn 550"], ["600 to 700 W", "Tarnbeck Kiln 650"]] == cells
    assert "../archive/2026/unit/ostrevant-cairn-550/index.html" in [a["href"] for a in found.select("td a")]
    assert ["archive/index.html"] == [a["href"] for a in home.select(".foot a") if words(a) == "Editions"]


def test_a_guide_without_editions_has_no_page_of_them(tmp_path: Path, frozen: Path) -> None:
    """Neither the page nor the link at the foot; a frozen edition knows of no other."""
    content = Path(shutil.copytree(frozen, tmp_path / "content", ignore=shutil.ignore_patterns("editions")))
    publish(content, tmp_path / "output")

    assert not (tmp_path / "output" / "archive").exists()
    assert "Editions" not in words(page(tmp_path / "output", "index.html").select_one(".foot"))
    assert "Editions" not in words(page(frozen / "editions" / NAME / "site", "index.html").select_one(".foot"))


def test_a_unit_withdrawn_leaves_a_page_that_says_so(later: Path) -> None:
    """When, why as text, how it stood, the report in the edition; no score for machines, and the archive keeps its own page."""
    found = page(later / "output", "unit/tarnbeck-hearth-650/index.html")
    said = words(found.select_one("main"))

    assert "The Tarnbeck Hearth 650 was withdrawn from the guide on 10 April 2026." in said
    assert "The maker recalled it: <no> protection acted." in said
    assert "In edition 2026, printing 1, it was tested among 600 to 700 W and not advised." in said
    assert ["../../archive/2026/unit/tarnbeck-hearth-650/index.html", "../../watts/650/index.html"] == [
        a["href"] for a in found.select("main .ways a")]
    assert [] == found.select("script[type='application/ld+json']")
    assert "Tarnbeck Hearth 650" not in page(later / "output", "units/index.html").get_text()


def test_an_address_given_up_leads_on(later: Path, browser: Browser) -> None:
    """By a refresh without delay, a canonical address and a link; the browser arrives."""
    found = page(later / "output", "unit/wexcombe-ember-550/index.html")
    refresh = [str(meta["content"]) for meta in found.select("meta[http-equiv=refresh]")]
    tab = browser.new_page()
    tab.goto((later / "output" / "unit" / "wexcombe-ember-550" / "index.html").as_uri())
    tab.wait_for_url("**/unit/wexcombe-ember-550-a/index.html")
    heading = tab.inner_text("h1")
    tab.close()

    assert ["0; url=../../unit/wexcombe-ember-550-a/index.html"] == refresh
    assert [f"{ADDRESS}unit/wexcombe-ember-550-a/"] == [link["href"] for link in found.select("link[rel=canonical]")]
    assert ["../../unit/wexcombe-ember-550-a/index.html"] == [a["href"] for a in found.select("main a")]
    assert "Wexcombe Ember 550" == heading
    for former, now in (("bench/wexcombe-ember-550", "bench/wexcombe-ember-550-a"), ("bench/tarnbeck-hearth-650", "unit/tarnbeck-hearth-650")):
        beside = page(later / "output", f"{former}/index.html")
        assert [f"../../{now}/index.html"] == [a["href"] for a in beside.select("main a")]


@pytest.mark.parametrize("command", ["publish", "proof"])
def test_an_edition_edited_by_hand_stops_publication(content: Path, command: str) -> None:
    """File and line of the list of hashes, and nothing written."""
    replaced(content / "editions" / NAME / "site" / "index.html", "The small bench", "The big bench")
    line = listed(content).index("site/index.html") + 1
    result = run(command, content)

    assert (1, "") == (result.exit_code, result.stdout)
    assert f"editions/{NAME}/SHA256SUMS:{line}: came other bytes in site/index.html, SHA-256 " in result.stderr
    assert not (content.parent / "output").exists()


def test_a_unit_folder_taken_away_is_a_fault_that_names_the_edition(content: Path) -> None:
    """Its address was published: it may be withdrawn or led on, not dropped."""
    shutil.rmtree(content / "units" / "wexcombe-ember-550")
    line = listed(content).index("site/unit/wexcombe-ember-550/index.html") + 1
    table = content / "prices" / "ie.csv"
    rows = table.read_text(encoding="utf-8").splitlines(keepends=True)
    table.write_text("".join(row for row in rows if ",wexcombe-ember-550," not in row), encoding="utf-8")
    result = run("publish", content)

    assert 1 == result.exit_code
    assert ("units/wexcombe-ember-550/unit.yaml: came no such unit, expected the unit Wexcombe Ember 550, whose address was "
            f"published in edition {NAME} (editions/{NAME}/SHA256SUMS:{line}): keep it with withdrawn") in result.stderr
    assert result.stderr.endswith("1 fault; nothing was written\n")
    assert not (content.parent / "output").exists()


def test_an_identifier_is_never_used_for_another_unit(content: Path) -> None:
    """Another model under a published identifier is a fault on the model's line."""
    record = content / "units" / "wexcombe-ember-550" / "unit.yaml"
    replaced(record, "model: Ember 550", "model: Cinder 550")
    line = 1 + record.read_text(encoding="utf-8").splitlines().index("model: Cinder 550")
    result = run("proof", content)

    assert (f"units/wexcombe-ember-550/unit.yaml:{line}, model: came Wexcombe Cinder 550, expected Wexcombe Ember 550, as edition "
            f"{NAME} published it under this identifier") in result.stderr
