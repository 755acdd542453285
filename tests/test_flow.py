"""The run as a whole: what a fault leaves behind, and what a second run writes."""

import shutil
from pathlib import Path

import pytest

from guidegen.errors import ContentError
from guidegen.flow import proof, publish

SMALL = Path(__file__).parent / "small_edition" / "content"


def snapshot(folder: Path) -> dict[str, bytes]:
    """Every file of a folder with its bytes."""
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """A copy of the small edition's content that a test may break."""
    copy = tmp_path / "content"
    shutil.copytree(SMALL, copy)
    return copy


def test_publishing_twice_writes_nothing_the_second_time(content: Path, tmp_path: Path) -> None:
    """Only what changed is written."""
    publish(content, tmp_path / "output")
    before = snapshot(tmp_path / "output")
    again = publish(content, tmp_path / "output").written

    assert (0, 0) == (again.pages_written, again.removed)
    assert before == snapshot(tmp_path / "output")


def test_a_fault_leaves_the_last_good_site_as_it_was(content: Path, tmp_path: Path) -> None:
    """A comma as decimal mark in one record: a sentence, and not one byte of the site changes."""
    publish(content, tmp_path / "output")
    before = snapshot(tmp_path / "output")
    record = next(content.glob("units/*/2026*.yaml"))
    text = record.read_text(encoding="utf-8")
    record.write_text(text.replace("ambient_c: ", "ambient_c: 2,", 1), encoding="utf-8")
    with pytest.raises(ContentError, match="ambient_c"):
        publish(content, tmp_path / "output")

    assert before == snapshot(tmp_path / "output")


def test_an_unknown_name_in_prose_stops_publication_with_its_line(content: Path) -> None:
    """Nothing in the prose goes stale in silence."""
    page = content / "pages" / "how-we-test.md"
    page.write_text(page.read_text(encoding="utf-8") + "\nWe tested {{ guide.unitz }} units.\n", encoding="utf-8")
    lines = page.read_text(encoding="utf-8").splitlines()
    with pytest.raises(ContentError) as caught:
        proof(content)
    fault = caught.value.faults[0]

    assert ("pages/how-we-test.md", len(lines), "guide.unitz", "guide.units") == (
        fault.origin.file, fault.line, fault.came, fault.nearest)


@pytest.mark.parametrize(("right", "wrong", "expected"), [
    ("language: en", "language: eng", "language: came eng, expected a language of the interface, one of de, en; did you mean en?"),
    ("theme: test-sheet", "theme: testsheet", "theme: came testsheet, expected a theme, one of plain-paper, test-sheet; did you mean test-sheet?"),
])
def test_a_language_or_theme_that_is_nowhere_is_told_once_in_its_place(content: Path, right: str, wrong: str, expected: str) -> None:
    """By the proof, before anything is made: file, line, what came, what there is, the nearest."""
    guide = content / "guide.yaml"
    text = guide.read_text(encoding="utf-8").replace(f"\n{right}\n", f"\n{wrong}\n")
    guide.write_text(text, encoding="utf-8")

    with pytest.raises(ContentError) as caught:
        proof(content)

    assert f"guide.yaml:{1 + text.splitlines().index(wrong)}, {expected}" == str(caught.value)


def test_foreign_files_in_the_output_are_never_touched(content: Path, tmp_path: Path) -> None:
    """A file that somebody put there stays, byte for byte."""
    output = tmp_path / "output"
    output.mkdir()
    (output / "mine.txt").write_text("keep", encoding="utf-8")
    publish(content, output)

    assert "keep" == (output / "mine.txt").read_text(encoding="utf-8")


def test_a_unit_that_leaves_the_content_takes_its_page_along(content: Path, tmp_path: Path) -> None:
    """Files of an earlier edition that this one lacks are removed, and only those."""
    output = tmp_path / "output"
    publish(content, output)
    gone = min((content / "units").iterdir())
    shutil.rmtree(gone)
    prices = content / "prices" / "ie.csv"
    kept = [line for line in prices.read_text(encoding="utf-8").splitlines() if gone.name not in line]
    prices.write_text("\n".join(kept) + "\n", encoding="utf-8")
    publish(content, output)

    assert not (output / "unit" / gone.name / "index.html").exists()


def test_a_guide_without_a_fresh_price_is_published_all_the_same(content: Path, tmp_path: Path) -> None:
    """What the prose calls for and can't be had yet says so."""
    for table in (content / "prices").glob("*.csv"):
        table.unlink()
    with (content / "pages" / "how-we-test.md").open("a", encoding="utf-8") as prose:
        prose.write("\n## One score\n\n{{ insert.worked_score }}\n\n{{ insert.stability }}\n")
    publish(content, tmp_path / "output")
    page = (tmp_path / "output" / "how-we-test" / "index.html").read_text(encoding="utf-8")

    assert "No choice of this edition has a score whose every part is known" in page


@pytest.mark.parametrize(("link", "meant"), [
    ("unit:ostrevant-carn-550", "unit:ostrevant-cairn-550"), ("watts:5500", "watts:550"), ("page:how-we-tst", "page:how-we-test"),
])
def test_a_dead_link_in_the_prose_is_told_in_its_place(content: Path, link: str, meant: str) -> None:
    """By the proof, with file, line and the nearest right name."""
    page = content / "pages" / "how-we-test.md"
    page.write_text(page.read_text(encoding="utf-8") + f"\nSee [there]({link}).\n", encoding="utf-8")
    with pytest.raises(ContentError) as caught:
        proof(content)
    fault = caught.value.faults[0]

    assert (page.read_text(encoding="utf-8").count("\n"), f"the link {link}", meant) == (fault.line, fault.came, fault.nearest)
