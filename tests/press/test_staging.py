"""Putting an edition in place."""

import json
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from guidegen.errors import PublicationError
from guidegen.press import MANIFEST, File, Manifest, Press, Staging, Written, step_back
from guidegen.press.memory import read_kept, write_kept


def edition(**texts: str) -> tuple[File, ...]:
    """An edition of small files; ``__`` in a name stands for a folder."""
    return tuple(File(path=name.replace("__", "/") + ".html", content=text.encode()) for name, text in texts.items())


def put_in_place(files: tuple[File, ...], output: Path) -> Written:
    """The files published into a folder."""
    press = Press.of(output)
    with press.held():
        staging = Staging(press)
        for file in files:
            staging.take(file)
        return staging.publish()


def undo(output: Path) -> Written:
    """One step back."""
    press = Press.of(output)
    with press.held():
        return step_back(press)


def standing(folder: Path) -> dict[str, str]:
    """Every file in the folder but the manifest, with its text."""
    return {path.relative_to(folder).as_posix(): path.read_text() for path in sorted(folder.rglob("*"))
            if path.is_file() and path.name != MANIFEST}


def test_a_new_edition_is_written_whole(tmp_path: Path) -> None:
    """Folders are made as needed, and the manifest lists each file with its hash."""
    written = put_in_place(edition(index="a", unit__one="b"), tmp_path / "output")

    listed = json.loads((tmp_path / "output" / MANIFEST).read_text())["files"]
    assert Written(pages_written=2, pages_unchanged=0, removed=0) == written
    assert {"index.html": "a", "unit/one.html": "b"} == standing(tmp_path / "output")
    # SHA-256 of "a", from FIPS 180 test programs in common use.
    assert "ca978112ca1bbdcafac231b39a23dc4da786eff8147c4e72b9807785afee48bb" == listed["index.html"]


def test_what_did_not_change_is_not_rewritten(tmp_path: Path) -> None:
    """A file of equal bytes keeps its time of change."""
    output = tmp_path / "output"
    put_in_place(edition(index="a", other="b"), output)
    os.utime(output / "index.html", (1, 1))

    written = put_in_place(edition(index="a", other="c"), output)

    assert Written(pages_written=1, pages_unchanged=1, removed=0) == written
    assert 1 == (output / "index.html").stat().st_mtime


def test_what_the_edition_has_no_more_is_removed(tmp_path: Path) -> None:
    """Stale pages go, with the folders that they leave empty."""
    put_in_place(edition(index="a", unit__old="b"), tmp_path / "output")

    written = put_in_place(edition(index="a"), tmp_path / "output")

    assert Written(pages_written=0, pages_unchanged=1, removed=1) == written
    assert not (tmp_path / "output" / "unit").exists()


def test_foreign_files_are_left_alone(tmp_path: Path) -> None:
    """What guidegen did not write stays, also beside its pages and where a folder of its own goes."""
    (tmp_path / "output").mkdir()
    (tmp_path / "output" / ".gitignore").write_text("*\n")
    put_in_place(edition(index="a", unit__old="b"), tmp_path / "output")
    (tmp_path / "output" / "unit" / "notes.txt").write_text("mine")

    put_in_place(edition(index="a2"), tmp_path / "output")

    assert {".gitignore": "*\n", "index.html": "a2", "unit/notes.txt": "mine"} == standing(tmp_path / "output")


def test_a_page_that_someone_changed_is_not_removed(tmp_path: Path) -> None:
    """A stale page with changes made by hand is no longer ours to remove."""
    put_in_place(edition(index="a", extra="b"), tmp_path / "output")
    (tmp_path / "output" / "extra.html").write_text("my own words")

    put_in_place(edition(index="a"), tmp_path / "output")

    assert "my own words" == (tmp_path / "output" / "extra.html").read_text()


def test_a_foreign_file_in_the_way_stops_everything(tmp_path: Path) -> None:
    """Where a page's place is taken by someone else's file, nothing at all is written."""
    (tmp_path / "output").mkdir()
    (tmp_path / "output" / "zz.html").write_text("mine")

    with pytest.raises(PublicationError, match=r"zz\.html: came a file that guidegen did not write"):
        put_in_place(edition(index="a", zz="b"), tmp_path / "output")

    assert {"zz.html": "mine"} == standing(tmp_path / "output")


def test_a_full_disk_leaves_what_was_published(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A failure in the middle is a sentence, nothing half made stays behind, and the next run succeeds."""
    output = tmp_path / "output"
    put_in_place(edition(index="a", other="b"), output)

    def failing(self: Path, _content: bytes) -> int:
        raise OSError(28, "No space left on device", str(self))

    with monkeypatch.context() as patched:
        patched.setattr(Path, "write_bytes", failing)
        with pytest.raises(PublicationError, match="No space left on device, expected to write there; what was published"):
            put_in_place(edition(fresh="c"), output)
    interrupted = standing(output)
    left = {path.name for path in Press.of(output).room.iterdir()}
    put_in_place(edition(fresh="changed"), output)

    assert {"index.html": "a", "other.html": "b"} == interrupted
    assert {"lock"} == left
    assert {"fresh.html": "changed"} == standing(output)


def test_a_link_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    """A folder of the site that is a link to elsewhere is not written through."""
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "output").mkdir()
    (tmp_path / "output" / "unit").symlink_to(tmp_path / "elsewhere")

    with pytest.raises(PublicationError, match="came a link out of"):
        put_in_place(edition(unit__one="a"), tmp_path / "output")

    assert [] == list((tmp_path / "elsewhere").iterdir())


def test_a_forged_manifest_removes_nothing_outside(tmp_path: Path) -> None:
    """Paths of the manifest that climb out of the folder are ignored."""
    (tmp_path / "precious.txt").write_text("a")
    output = tmp_path / "output"
    put_in_place(edition(index="a"), output)
    digest = json.loads((output / MANIFEST).read_text())["files"]["index.html"]
    (output / MANIFEST).write_text(json.dumps({"files": {"../precious.txt": digest, "index.html": digest}}))

    put_in_place(edition(index="b"), output)

    assert "a" == (tmp_path / "precious.txt").read_text()


@pytest.mark.parametrize("text", ["", "[]", '{"files": 3}'])
def test_a_broken_manifest_is_said_and_nothing_done(tmp_path: Path, text: str) -> None:
    """Without knowing what is its own, guidegen touches nothing."""
    (tmp_path / "output").mkdir()
    (tmp_path / "output" / MANIFEST).write_text(text)

    with pytest.raises(PublicationError, match=r"manifest\.json: came"):
        put_in_place(edition(index="a"), tmp_path / "output")

    assert {} == standing(tmp_path / "output")


@pytest.mark.parametrize("path", ["../x.html", "/etc/x", ".gitignore", "a/.hidden", "a//b", "a\\b", "", "a/"])
def test_an_unfit_path_is_no_part_of_an_edition(tmp_path: Path, path: str) -> None:
    """Paths that climb, hide or end in nothing are refused."""
    with pytest.raises(PublicationError, match="expected plain names"):
        put_in_place((File(path=path, content=b""),), tmp_path / "output")


def test_two_files_of_one_name_are_refused(tmp_path: Path) -> None:
    """Names that differ by large and small letters alone would fall together on some file systems."""
    with pytest.raises(PublicationError, match=r"A\.html: came twice"):
        put_in_place((File(path="a.html", content=b""), File(path="A.html", content=b"")), tmp_path / "output")


def test_the_build_follows_from_the_content() -> None:
    """Equal files have an equal build id in whatever order; a changed byte changes it."""
    assert Manifest({"a": "1", "b": "2"}).build == Manifest({"b": "2", "a": "1"}).build
    assert Manifest({"a": "1", "b": "2"}).build != Manifest({"a": "1", "b": "3"}).build


def test_one_step_back_puts_the_edition_before_in_place(tmp_path: Path) -> None:
    """Twice undone is done again; what isn't ours stays throughout."""
    output = tmp_path / "output"
    put_in_place(edition(index="a", old="b"), output)
    put_in_place(edition(index="a2", new="c"), output)
    (output / "mine.txt").write_text("mine")
    back = undo(output)
    before = standing(output)
    undo(output)

    assert Written(pages_written=2, pages_unchanged=0, removed=1) == back
    assert {"index.html": "a", "old.html": "b", "mine.txt": "mine"} == before
    assert {"index.html": "a2", "new.html": "c", "mine.txt": "mine"} == standing(output)


def test_no_step_back_without_an_edition_before(tmp_path: Path) -> None:
    """A first edition has none."""
    put_in_place(edition(index="a"), tmp_path / "output")

    with pytest.raises(PublicationError, match="came no edition before this one"):
        undo(tmp_path / "output")


def test_an_edition_before_that_someone_changed_is_not_put_back(tmp_path: Path) -> None:
    """What comes back is what was published, or nothing."""
    output = tmp_path / "output"
    put_in_place(edition(index="a"), output)
    put_in_place(edition(index="b"), output)
    (Press.of(output).previous / "index.html").write_text("z")

    with pytest.raises(PublicationError, match="came changed"):
        undo(output)

    assert {"index.html": "b"} == standing(output)


def test_a_page_changed_by_hand_is_written_anew_and_kept_for_a_step_back(tmp_path: Path) -> None:
    """The editor is told, and the changed page stands in the edition before."""
    output = tmp_path / "output"
    put_in_place(edition(index="a"), output)
    (output / "index.html").write_text("by hand")
    written = put_in_place(edition(index="a"), output)

    assert ("index.html",) == written.replaced
    assert {"index.html": "a"} == standing(output)
    assert "by hand" == (Press.of(output).previous / "index.html").read_text()


def test_links_and_empty_folders_of_others_stay(tmp_path: Path) -> None:
    """Foreign links are taken over as links, also broken ones."""
    output = tmp_path / "output"
    put_in_place(edition(index="a"), output)
    (output / "here").symlink_to("nowhere")
    (output / "elsewhere").symlink_to(tmp_path, target_is_directory=True)
    (output / "empty").mkdir()
    put_in_place(edition(index="b"), output)

    assert ("nowhere", str(tmp_path)) == tuple(str((output / name).readlink()) for name in ("here", "elsewhere"))
    assert (output / "empty").is_dir()


def test_what_others_save_until_the_last_moment_comes_along(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A new file, and one saved anew under its name, while the edition is on its way into the folder."""
    output = tmp_path / "output"
    put_in_place(edition(index="a"), output)
    (output / "mine.txt").write_text("before")
    in_place = Press.put_in_place

    def at_the_last_moment(press: Press, stands: Callable[[], None]) -> None:
        (output / "late.txt").write_text("late")
        (output / "draft").write_text("anew")
        (output / "draft").replace(output / "mine.txt")
        in_place(press, stands)

    monkeypatch.setattr(Press, "put_in_place", at_the_last_moment)
    put_in_place(edition(index="b"), output)

    assert {"index.html": "b", "late.txt": "late", "mine.txt": "anew"} == standing(output)


def test_a_folder_of_others_keeps_its_rights(tmp_path: Path) -> None:
    """What only its owner may read stays so."""
    output = tmp_path / "output"
    put_in_place(edition(index="a"), output)
    (output / "secret").mkdir()
    (output / "secret" / "mine.txt").write_text("mine")
    (output / "secret").chmod(0o700)
    put_in_place(edition(index="b"), output)

    assert 0o700 == (output / "secret").stat().st_mode & 0o777


@pytest.mark.parametrize("put", ["link", "lost link"])
def test_what_someone_put_in_a_page_s_place_is_kept_for_a_step_back(tmp_path: Path, put: str) -> None:
    """Not followed, not opened: the page is written, and the editor told."""
    output = tmp_path / "output"
    put_in_place(edition(index="a"), output)
    (tmp_path / "elsewhere").write_text("elsewhere")
    (output / "index.html").unlink()
    (output / "index.html").symlink_to(tmp_path / ("elsewhere" if put == "link" else "nowhere"))
    written = put_in_place(edition(index="b"), output)

    assert ("index.html",) == written.replaced
    assert {"index.html": "b"} == standing(output)
    assert "elsewhere" == (tmp_path / "elsewhere").read_text()
    assert (Press.of(output).previous / "index.html").is_symlink()


def test_a_memory_that_finds_no_room_is_no_memory(tmp_path: Path) -> None:
    """The edition stands; the next run does without."""
    (tmp_path / "x.memory").write_text("old")
    (tmp_path / f"x.memory.{os.getpid()}.draft").mkdir()
    write_kept(tmp_path / "x.memory", "program", {"a": 1})

    assert {} == read_kept(tmp_path / "x.memory", "program")
    assert not (tmp_path / "x.memory").exists()
