"""Themes: found in order, and their faults told with sheet and line."""

import shutil
from pathlib import Path

import pytest

from guidegen.errors import ThemeError
from guidegen.press import Press
from guidegen.publication import publish_edition, render_edition
from guidegen.publication.theme import find_theme
from tests.publication.fixtures.guide import small_guide

NOWHERE = Path("/nowhere")


def own_theme(folder: Path) -> Path:
    """A copy of the theme, to be spoilt."""
    shutil.copytree(find_theme("test-sheet", NOWHERE), folder / "own")
    return folder / "own"


def test_a_theme_beside_the_content_comes_first(tmp_path: Path) -> None:
    """A theme of one's own goes before the packaged one of the same name."""
    (tmp_path / "test-sheet" / "sheets").mkdir(parents=True)
    (tmp_path / "test-sheet" / "sheets" / "base.html").write_text("")

    assert tmp_path / "test-sheet" == find_theme("test-sheet", tmp_path)
    assert tmp_path / "test-sheet" != find_theme("test-sheet", NOWHERE)


@pytest.mark.parametrize("name", ["test-shet", "../test-sheet", ""])
def test_an_unknown_theme_is_said(name: str) -> None:
    """The error names what came and what there is."""
    with pytest.raises(ThemeError, match="expected one of plain-paper, test-sheet"):
        find_theme(name, NOWHERE)


@pytest.mark.parametrize(("spoilt", "line"), [
    ("{{ sheet.rowz }}", 3), ("{{ nothing_of_the_kind }}", 3), ("{{ sheet.heading|nonsense }}", 3), ("{% for %}", 3),
    ("{{ 1 / 0 }}", 3), ('{{ say("lost.nothing") }}', 3), ('{{ say("unit.numbers") }}', 3), ('{{ texts_of("nothing") }}', 3), ("{{ sheet.heading + 1 }}", 3),
])
def test_a_fault_in_a_sheet_is_told_with_its_line(tmp_path: Path, spoilt: str, line: int) -> None:
    """Unknown names, wrong syntax and sums that can't be done all name the sheet and the line."""
    sheet = own_theme(tmp_path) / "sheets" / "lost.html"
    sheet.write_text('{% extends "base.html" %}\n{% block main %}\n' + spoilt + "\n{% endblock %}\n")

    with pytest.raises(ThemeError, match=rf"^own/sheets/lost\.html:{line}: "):
        render_edition(small_guide(), tmp_path / "own")


def test_a_fault_in_a_borrowed_sheet_is_told_where_it_stands(tmp_path: Path) -> None:
    """The theme that lends the sheet is named, also where the fault is found before anything is rendered."""
    own_theme(tmp_path)
    lent = tmp_path / "test-sheet" / "sheets"
    shutil.copytree(find_theme("test-sheet", NOWHERE), lent.parent)
    (lent / "lost.html").write_text("<p>\n{% for %}\n")
    (tmp_path / "own" / "sheets" / "lost.html").write_text('{% extends "standard/lost.html" %}')

    with pytest.raises(ThemeError, match=r"^test-sheet/sheets/lost\.html:2: "):
        render_edition(small_guide(), tmp_path / "own")


def put(theme: Path, output: Path) -> None:
    """The small guide published by a theme."""
    press = Press.of(output)
    with press.held():
        publish_edition(small_guide(), theme, press=press, program="")


def test_a_fault_in_a_sheet_leaves_the_last_site(tmp_path: Path) -> None:
    """Nothing of a failed publication reaches the folder."""
    theme, output = own_theme(tmp_path), tmp_path / "output"
    put(tmp_path / "own", output)
    before = {path: path.read_bytes() for path in output.rglob("*") if path.is_file()}
    (theme / "style.css").write_text("p { color: red }")
    (theme / "sheets" / "lost.html").write_text("{{ gone }}")

    with pytest.raises(ThemeError):
        put(tmp_path / "own", output)

    assert before == {path: path.read_bytes() for path in output.rglob("*") if path.is_file()}


def test_a_theme_without_a_style_is_said(tmp_path: Path) -> None:
    """A missing file of the theme is named."""
    (own_theme(tmp_path) / "style.css").unlink()

    with pytest.raises(ThemeError, match=r"style\.css: came nothing"):
        render_edition(small_guide(), tmp_path / "own")
