"""Frozen editions read back: every line of their lists, and every way in which a folder can differ from its list."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from guidegen.errors import ContentError
from guidegen.records import ListedFile
from guidegen.sources import read_library, records_of, survey, tampered, verified
from guidegen.sources.sums import build_of, read_sums, sums_text
from tests.frozen import NAME, frozen_content, replaced

LIST = f"editions/{NAME}/SHA256SUMS"


@pytest.fixture(scope="module")
def frozen(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Content with one frozen edition; not to be written to."""
    return frozen_content(tmp_path_factory.mktemp("frozen"))


@pytest.fixture
def content(frozen: Path, tmp_path: Path) -> Path:
    """A copy of it."""
    return Path(shutil.copytree(frozen, tmp_path / "content"))


def faults_of(content: Path) -> list[str]:
    """What verifying says, a sentence a fault."""
    with pytest.raises(ContentError) as caught:
        verified(content)
    return str(caught.value).splitlines()


def test_a_list_is_read_as_it_was_written() -> None:
    """Sorted by path, two spaces between (GNU coreutils, sha256sum)."""
    files = (ListedFile(path="site/b.html", digest="b" * 64), ListedFile(path="edition.json", digest="a" * 64))
    text = sums_text(files)

    assert f"{'a' * 64}  edition.json\n{'b' * 64}  site/b.html\n" == text
    assert ((files[1], files[0]), ()) == read_sums(text, LIST)
    assert build_of(files) == build_of(files[:1])


@pytest.mark.parametrize(("line", "said"), [
    ("abc  site/a", "a line that is none of the list"), (f"{'A' * 64}  site/a", "a line that is none of the list"),
    (f"{'a' * 64} site/a", "a line that is none of the list"), (f"{'a' * 64}  /etc/x", "a line that is none of the list"),
    ("", "a line that is none of the list"), (f"{'a' * 64}  edition.json", "edition.json behind edition.json"),
    (f"{'a' * 64}  content/a", "content/a behind edition.json"),
])
def test_a_line_that_is_none_is_told_with_its_number(line: str, said: str) -> None:
    """Hash, spaces, path; each path once and in order."""
    files, faults = read_sums(f"{'a' * 64}  edition.json\n{line}\n{'b' * 64}  site/b\n", LIST)

    assert [(2, said)] == [(fault.line, fault.came) for fault in faults]
    assert ["edition.json", "site/b"] == [one.path for one in files]


def test_a_frozen_edition_is_part_of_the_library(frozen: Path) -> None:
    """With its pages, its files and its units; the records that it kept can be read by themselves."""
    edition = read_library(frozen).editions[0]
    unit = edition.record.unit("ostrevant-cairn-550")

    assert {"", "unit/ostrevant-cairn-550/", "watts/650/", "units/", "data/"} <= set(edition.pages)
    assert unit is not None
    assert ("Ostrevant Cairn 550", "550", "1", False) == (unit.name, unit.bracket, unit.place, unit.withdrawn)
    assert edition.record.unit("nobody") is None
    assert () == read_library(records_of(frozen, NAME)).editions
    assert () == tampered(frozen, (edition,))


def edited(edition: Path) -> None:
    """Somebody changes a page."""
    replaced(edition / "site" / "index.html", "The small bench", "The best bench")


def linked(edition: Path) -> None:
    """Somebody puts a link in place of a file."""
    (edition / "site" / "index.html").rename(edition.parent / ".kept")
    (edition / "site" / "index.html").symlink_to(edition.parent / ".kept")


def cut(edition: Path) -> None:
    """Somebody takes the last line out of the list."""
    lines = (edition / "SHA256SUMS").read_text(encoding="utf-8").splitlines(keepends=True)
    (edition / "SHA256SUMS").write_text("".join(lines[:-1]), encoding="utf-8")


def unlisted_folder(edition: Path) -> None:
    """Somebody links a whole folder into the edition."""
    (edition / "more").symlink_to(edition / "site")


def forged(edition: Path) -> None:
    """Somebody writes another hash into the list, but not into the description."""
    lines = (edition / "SHA256SUMS").read_text(encoding="utf-8")
    (edition / "SHA256SUMS").write_text(f"{lines[:-90]}{'f' if lines[-90] != 'f' else '0'}{lines[-89:]}", encoding="utf-8")


@pytest.mark.parametrize(("spoil", "count", "said"), [
    (edited, 1, "came other bytes in site/index.html"), (linked, 1, "came a link in place of site/index.html"),
    (cut, 2, "came the file site/watts/650/index.html, which stands in no line"),
    (unlisted_folder, 1, "came the file more, which stands in no line"), (forged, 2, f"editions/{NAME}/edition.json:"),
])
def test_whatever_differs_is_told(content: Path, spoil: Callable[[Path], None], count: int, said: str) -> None:
    """Each in a sentence with a file and a line."""
    spoil(content / "editions" / NAME)
    faults = faults_of(content)

    assert count == len(faults)
    assert 1 == sum(said in fault for fault in faults)
    assert all(fault.split(":")[1].split(",")[0].isdigit() for fault in faults)


def test_a_description_that_fits_no_more_is_told(content: Path) -> None:
    """Another name than the folder's, a field too many, no JSON at all, no file at all."""
    description = content / "editions" / NAME / "edition.json"
    whole = json.loads(description.read_text(encoding="utf-8"))
    told = []
    for text in (json.dumps({**whole, "name": "2025"}), json.dumps({**whole, "more": 1}), "{\n ,}", json.dumps({**whole, "date": "2026-13-01"})):
        description.write_text(text, encoding="utf-8")
        told.append(" ".join(fault.message for fault in survey(content).faults))
    description.unlink()
    told.append(" ".join(fault.message for fault in survey(content).faults))

    assert "name: came 2025, expected 2026, the name of its folder" in told[0]
    assert "more: came more" in told[1]
    assert f"editions/{NAME}/edition.json:2: came Expecting property name enclosed in double quotes" in told[2]
    assert 'date: came "2026-13-01", expected a day of the calendar' in told[3]
    assert f"editions/{NAME}/edition.json: came a file that can't be read (no such file or directory)" in told[4]


@pytest.mark.parametrize("text", ["9" * 5000, "[" * 100_000], ids=["digits", "brackets"])
def test_a_description_beyond_all_measure_is_told(content: Path, text: str) -> None:
    """What Python's own reader gives up on (numbers of more than 4300 digits, nesting without end)."""
    (content / "editions" / NAME / "edition.json").write_text(text, encoding="utf-8")

    (told,) = faults_of(content)
    assert told.startswith(f"editions/{NAME}/edition.json")
    assert told.endswith(": came a number or a nesting beyond all measure, expected the description that guidegen wrote when it froze the edition")


def test_nothing_else_lies_among_the_editions(content: Path) -> None:
    """A file, and a folder with a name that no edition can have."""
    (content / "editions" / "notes.txt").write_text("x", encoding="utf-8")
    (content / "editions" / "Summer 26").mkdir()

    assert ["editions/Summer 26: came Summer 26/, expected nothing but the editions that guidegen freeze wrote",
            "editions/notes.txt: came notes.txt, expected nothing but the editions that guidegen freeze wrote"] == faults_of(content)
