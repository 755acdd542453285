"""The edition before the previous one, used again for the next: never an old byte, and never one written into what is published."""

import random
import shutil
from pathlib import Path

import pytest

from guidegen.press import MANIFEST, Manifest, Press
from tests.press.editions import put

PATHS = ("index.html", "a", "a/index.html", "a/b", "a/b/c.html", "data.csv", "z/index.html")
"""Some of them may be a file in one edition and a folder in the next."""


def standing(folder: Path) -> dict[str, str]:
    """Every file in the folder but the manifest, with its text."""
    return {path.relative_to(folder).as_posix(): path.read_text() for path in folder.rglob("*") if path.is_file() and path.name != MANIFEST}


def numbers(folder: Path) -> dict[str, int]:
    """Where the files and folders lie on the disk."""
    return {path.relative_to(folder).as_posix(): path.stat().st_ino for path in folder.rglob("*") if path.name != MANIFEST}


def three(output: Path) -> Path:
    """Three editions published, so that there is a spare one; the folder that holds it."""
    for text in "abc":
        put(output, {"index.html": text, "same/one.html": "one", "same/two.html": "two"})
    return Press.of(output).spare


def test_what_stands_already_lies_in_the_next_edition_as_it_is(tmp_path: Path) -> None:
    """The folder of the fourth edition is that of the first, with the same files in it."""
    output = tmp_path / "output"
    spare = numbers(three(output))
    put(output, {"index.html": "d", "same/one.html": "one", "same/two.html": "two"})

    assert {path: spare[path] for path in ("same", "same/one.html", "same/two.html")} == {
        path: number for path, number in numbers(output).items() if path != "index.html"}
    assert {"index.html": "d", "same/one.html": "one", "same/two.html": "two"} == standing(output)


def test_a_run_that_changes_nothing_leaves_the_spare_edition(tmp_path: Path) -> None:
    """It serves the next run, which finds more in it."""
    output = tmp_path / "output"
    three(output)
    put(output, {"index.html": "c", "same/one.html": "one", "same/two.html": "two"})

    found, spare = numbers(output), numbers(Press.of(output).spare)
    assert {path: found[path] for path in standing(output)} == {path: spare[path] for path in standing(output)}


@pytest.mark.parametrize("damage", ["changed", "linked", "a link for a folder", "more", "a folder for a file", "half gone"])
def test_whatever_the_spare_edition_holds_the_next_one_is_whole(tmp_path: Path, damage: str) -> None:
    """What isn't the very file that is published is put away, and nothing outside is touched."""
    output, elsewhere = tmp_path / "output", tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "one.html").write_text("elsewhere")
    spare = three(output)
    if damage == "changed":
        (spare / "same/one.html").unlink()
        (spare / "same/one.html").write_text("old")
    elif damage == "linked":
        (spare / "same/one.html").unlink()
        (spare / "same/one.html").symlink_to(elsewhere / "one.html")
    elif damage == "a link for a folder":
        shutil.rmtree(spare / "same")
        (spare / "same").symlink_to(elsewhere, target_is_directory=True)
    elif damage == "more":
        (spare / "more/deep").mkdir(parents=True)
        (spare / "more/deep/one.html").write_text("more")
    elif damage == "a folder for a file":
        (spare / "same/one.html").unlink()
        (spare / "same/one.html").mkdir()
    else:
        shutil.rmtree(spare / "same")
    put(output, {"index.html": "d", "same/one.html": "1", "same/two.html": "two"})

    assert {"index.html": "d", "same/one.html": "1", "same/two.html": "two"} == standing(output)
    assert {"one.html": "elsewhere"} == standing(elsewhere)
    assert not (output / "more").exists()


def test_writing_anew_is_not_writing_into_what_is_published(tmp_path: Path) -> None:
    """The edition that stood keeps its bytes, also one that somebody changed in its place."""
    output = tmp_path / "output"
    three(output)
    (output / "same/one.html").write_text("by hand")
    put(output, {"index.html": "c", "same/one.html": "one", "same/two.html": "2"})

    assert {"index.html": "c", "same/one.html": "by hand", "same/two.html": "two"} == standing(Press.of(output).previous)
    assert {"index.html": "c", "same/one.html": "one", "same/two.html": "2"} == standing(output)


@pytest.mark.parametrize("seed", range(12))
def test_any_row_of_editions_is_whole(tmp_path: Path, seed: int) -> None:
    """Pages come, go, change, and stand in a folder where a file was; the one before stands as it was."""
    rng, output, before = random.Random(seed), tmp_path / "output", dict[str, str]()  # noqa: S311 - editions, no secrets
    for _ in range(40):
        chosen = [path for path in PATHS if rng.random() < 0.6]
        folders = {path for path in PATHS if any(other.startswith(f"{path}/") for other in (*chosen, *before))}
        pages = {path: rng.choice("xy") for path in chosen if path not in folders}
        if pages in ({}, before):
            continue
        put(output, pages)

        assert pages == standing(output)
        assert before in ({}, standing(Press.of(output).previous))
        assert pages.keys() == Manifest.read(output).files.keys()
        assert {path.name for path in output.rglob("*") if path.is_dir()} == {part for path in pages for part in path.split("/")[:-1]}
        before = pages
