"""``guidegen rundown`` as a presenter meets it: text, document, folder, sheet of paper, and what it refuses."""

import json
import struct
from pathlib import Path

import html5lib
import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner, Result
from playwright.sync_api import Browser

from guidegen.cli import main
from tests.conftest import ROOT

SMALL = ROOT / "tests" / "small_edition" / "content"


def rundown(*arguments: str) -> Result:
    """The command, run as from a shell without a terminal."""
    return CliRunner().invoke(main, ["rundown", *arguments, "--content", str(SMALL)])


@pytest.fixture(scope="module")
def handed_out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small edition's rundown in a folder."""
    folder = tmp_path_factory.mktemp("presenter") / "desk"
    result = rundown("--to", str(folder))
    assert 0 == result.exit_code, result.stderr
    return folder


def spoken() -> list[str]:
    """Every line, from the document."""
    told = json.loads(rundown("--json").stdout)
    parts = [told["opening"], *(one["lines"] for one in told["brackets"]), told["closing"]]
    return [line["text"] for part in parts for line in part]


def test_markdown_is_printed_with_the_time() -> None:
    """A heading a bracket, and the pace that was asked for."""
    result = rundown("550", "--words-per-minute", "120")

    assert 0 == result.exit_code
    assert "at 120 words a minute." in result.stdout
    assert 1 == result.stdout.count("\n## 5")
    assert result.stdout == rundown("550", "--words-per-minute", "120").stdout


def test_the_document_counts_what_it_says() -> None:
    """Words of the brackets, opening and closing add up; seconds follow from them at 100 a minute."""
    told = json.loads(rundown("--json", "--words-per-minute", "100").stdout)

    assert told["words"] > sum(one["words"] for one in told["brackets"]) > 0
    assert -(-told["words"] * 60 // 100) == told["seconds"]
    assert [] == told["files"]


@pytest.mark.parametrize(("arguments", "sentence"), [
    (("555",), "no bracket 555; there are"), (("--region", "moon"), "no region moon; there are"),
])
def test_a_wrong_name_is_answered_with_the_right_ones(arguments: tuple[str, ...], sentence: str) -> None:
    """Exit code 1 and a sentence."""
    result = rundown(*arguments)

    assert 1 == result.exit_code
    assert result.stderr.startswith(sentence)


def test_the_folder_has_text_sheet_and_both_pictures_of_each_choice(handed_out: Path) -> None:
    """What the document names as a cue is there, in the size of its name (ISO/IEC 15948, 11.2.2)."""
    told = json.loads(rundown("--json").stdout)
    cues = [line["cue"] for one in told["brackets"] for line in one["lines"] if line["cue"]]
    wanted = {f"{cue}-{width}x{height}.png": (width, height) for cue in cues for width, height in ((1920, 1080), (1080, 1920))}
    there = {path.name: struct.unpack(">II", path.read_bytes()[16:24]) for path in (handed_out / "cards").iterdir()}

    assert cues
    assert wanted == there
    assert {"SHA256SUMS", "cards", "rundown.html", "rundown.md"} == {path.name for path in handed_out.iterdir()}
    assert rundown().stdout == (handed_out / "rundown.md").read_text(encoding="utf-8")


def test_the_sheet_is_html_without_an_error(handed_out: Path) -> None:
    """Parsed by the standard's algorithm, every parse error raised; it asks for nothing outside the folder."""
    text = (handed_out / "rundown.html").read_text(encoding="utf-8")
    html5lib.HTMLParser(strict=True).parse(text)
    page = BeautifulSoup(text, "html.parser")
    pictures = [str(image["src"]) for image in page.find_all("img")]

    assert [] == page.find_all(["script", "link", "iframe"])
    assert [] == [one for one in pictures if not (handed_out / one).is_file()]
    assert [] == [line for line in spoken() if line not in page.get_text()]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_paper_has_every_line(handed_out: Path, browser: Browser, paper: str) -> None:
    """Laid out for print, no line is hidden, wider than the paper or cut; and the paper comes out as a PDF."""
    page = browser.new_page(viewport={"width": 700 if paper == "A4" else 720, "height": 1000})
    page.goto((handed_out / "rundown.html").as_uri())
    page.emulate_media(media="print")
    seen = page.locator(".line > p").evaluate_all(
        "ps => ps.filter(p => { const b = p.getBoundingClientRect(); return b.height > 0 && b.left >= 0 && b.right <= innerWidth;"
        " }).map(p => p.textContent)"
    )
    pdf = page.pdf(format=paper)
    page.close()

    assert spoken() == seen
    assert pdf.startswith(b"%PDF-")


def test_a_second_run_replaces_only_what_the_first_wrote(tmp_path: Path) -> None:
    """The same again is silent; one bracket alone takes the other's pictures away; a changed file is left alone."""
    folder = tmp_path / "desk"
    assert 0 == rundown("--to", str(folder)).exit_code
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    assert 0 == rundown("--to", str(folder)).exit_code
    assert before == {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    assert 0 == rundown("550", "--to", str(folder)).exit_code
    assert {"550"} == {path.name.split("-")[0] for path in (folder / "cards").iterdir()}

    (folder / "rundown.md").write_text("My own words.", encoding="utf-8")
    result = rundown("--to", str(folder))
    assert 1 == result.exit_code
    assert "rundown.md: stands there already and was not written by guidegen" in result.stderr
    assert "My own words." == (folder / "rundown.md").read_text(encoding="utf-8")
    assert {"550"} == {path.name.split("-")[0] for path in (folder / "cards").iterdir()}


def test_files_of_somebody_else_are_never_replaced(tmp_path: Path) -> None:
    """Nothing at all is written where one name is taken, or where the list is not ours."""
    (tmp_path / "rundown.html").write_text("mine", encoding="utf-8")
    first = rundown("550", "--to", str(tmp_path))
    (tmp_path / "rundown.html").unlink()
    (tmp_path / "SHA256SUMS").write_text("mine", encoding="utf-8")
    second = rundown("550", "--to", str(tmp_path))

    assert (1, 1) == (first.exit_code, second.exit_code)
    assert "SHA256SUMS:1: came 'mine', expected the list that guidegen wrote" in second.stderr
    assert ["SHA256SUMS"] == [path.name for path in tmp_path.iterdir()]
