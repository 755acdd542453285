"""Putting an edition in place."""

import json
import os
from pathlib import Path

import pytest

from guidegen.errors import PublicationError
from guidegen.publication.edition import Edition, File
from guidegen.publication.output_folder import MANIFEST, Written, put_in_place


def edition(**texts: str) -> Edition:
    """An edition of small files; ``__`` in a name stands for a folder."""
    return Edition(files=tuple(File(path=name.replace("__", "/") + ".html", content=text.encode())
                               for name, text in texts.items()))


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
    put_in_place(edition(index="a", other="b"), tmp_path)
    os.utime(tmp_path / "index.html", (1, 1))

    written = put_in_place(edition(index="a", other="c"), tmp_path)

    assert Written(pages_written=1, pages_unchanged=1, removed=0) == written
    assert 1 == (tmp_path / "index.html").stat().st_mtime


def test_what_the_edition_has_no_more_is_removed(tmp_path: Path) -> None:
    """Stale pages go, with the folders that they leave empty."""
    put_in_place(edition(index="a", unit__old="b"), tmp_path)

    written = put_in_place(edition(index="a"), tmp_path)

    assert Written(pages_written=0, pages_unchanged=1, removed=1) == written
    assert not (tmp_path / "unit").exists()


def test_foreign_files_are_left_alone(tmp_path: Path) -> None:
    """What guidegen did not write stays, also beside its pages and where a folder of its own goes."""
    (tmp_path / ".gitignore").write_text("*\n")
    put_in_place(edition(index="a", unit__old="b"), tmp_path)
    (tmp_path / "unit" / "notes.txt").write_text("mine")

    put_in_place(edition(index="a2"), tmp_path)

    assert {".gitignore": "*\n", "index.html": "a2", "unit/notes.txt": "mine"} == standing(tmp_path)


def test_a_page_that_someone_changed_is_not_removed(tmp_path: Path) -> None:
    """A stale page with changes made by hand is no longer ours to remove."""
    put_in_place(edition(index="a", extra="b"), tmp_path)
    (tmp_path / "extra.html").write_text("my own words")

    put_in_place(edition(index="a"), tmp_path)

    assert "my own words" == (tmp_path / "extra.html").read_text()


def test_a_foreign_file_in_the_way_stops_everything(tmp_path: Path) -> None:
    """Where a page's place is taken by someone else's file, nothing at all is written."""
    (tmp_path / "zz.html").write_text("mine")

    with pytest.raises(PublicationError, match=r"zz\.html: came a file that guidegen did not write"):
        put_in_place(edition(index="a", zz="b"), tmp_path)

    assert {"zz.html": "mine"} == standing(tmp_path)


def test_a_publication_cut_short_can_be_repeated(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """After a failure in the middle the files already written are known as our own."""
    put_in_place(edition(index="a", other="b"), tmp_path)
    replace, moved = os.replace, []

    def failing(source: Path, target: Path) -> None:
        moved.append(target)
        if len(moved) == 3:
            raise OSError(28, "No space left on device", str(target))
        replace(source, target)

    monkeypatch.setattr(os, "replace", failing)
    with pytest.raises(PublicationError, match="No space left on device"):
        put_in_place(edition(fresh="c", second="d"), tmp_path)
    monkeypatch.undo()
    interrupted = standing(tmp_path)
    put_in_place(edition(fresh="changed"), tmp_path)

    assert {"index.html": "a", "other.html": "b", "fresh.html": "c"} == interrupted
    assert {"fresh.html": "changed"} == standing(tmp_path)


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
    (tmp_path / MANIFEST).write_text(text)

    with pytest.raises(PublicationError, match=r"manifest\.json: came"):
        put_in_place(edition(index="a"), tmp_path)

    assert {} == standing(tmp_path)
