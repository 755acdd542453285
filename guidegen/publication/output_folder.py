"""The folder that an edition is put into: what changed is written, what is no longer part of it removed, the rest left.

A manifest in the folder lists the files of the last edition. A file that isn't in it belongs to someone else and is
never touched. Each file is written beside its place and then moved there, so that a reader never meets half a page.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from guidegen.errors import PublicationError
from guidegen.publication.edition import Edition, File, is_fit_path

MANIFEST = ".guidegen-manifest.json"
"""Name of the manifest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What putting an edition in place came to; pages and other files are counted alike."""

    pages_written: int
    """Files written because they are new or changed."""
    pages_unchanged: int
    """Files left as they were."""
    removed: int
    """Files of the last edition that this one has no more."""


def put_in_place(edition: Edition, folder: Path) -> Written:
    """The edition in its folder; raises ``PublicationError`` before the first change where a foreign file is in the way."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        before = _manifest(folder)
        changed = tuple(file for file in edition.files if not _stands(file, folder))
        _refuse_foreign(changed, before, folder)
        # Until the last file stands the folder may hold files of either edition, so the manifest first lists both.
        _replace(folder / MANIFEST, _both(before, edition))
        for file in changed:
            _inside(folder, file.path).parent.mkdir(parents=True, exist_ok=True)
            _replace(folder / file.path, file.content)
        removed = _remove_stale(edition, before, folder)
        _replace(folder / MANIFEST, edition.manifest())
    except OSError as error:
        raise PublicationError(f"{error.filename or folder}: came {error.strerror}, expected to write there") from error
    return Written(pages_written=len(changed), pages_unchanged=len(edition.files) - len(changed), removed=removed)


def _manifest(folder: Path) -> dict[str, str]:
    """Paths and hashes of the last edition; what isn't fit to be a path of an edition is left out."""
    try:
        listed = json.loads((folder / MANIFEST).read_bytes())["files"]
    except FileNotFoundError:
        return {}
    except (ValueError, KeyError, TypeError) as error:
        raise PublicationError(f"{folder / MANIFEST}: came {error}, expected the list that guidegen wrote; "
                               "empty the folder and publish again") from error
    if not isinstance(listed, dict):
        raise PublicationError(f"{folder / MANIFEST}: came {type(listed).__name__}, expected files by path")
    return {path: digest for path, digest in listed.items() if is_fit_path(path) and isinstance(digest, str)}


def _both(before: Mapping[str, str], edition: Edition) -> bytes:
    """A manifest of the last edition and this one together."""
    files = {**before, **{file.path: file.digest for file in edition.files}}
    return (json.dumps({"build": "unfinished", "files": files}, indent=1, sort_keys=True) + "\n").encode()


def _stands(file: File, folder: Path) -> bool:
    """Whether the file stands there already, byte for byte."""
    path = folder / file.path
    return path.is_file() and path.stat().st_size == len(file.content) and path.read_bytes() == file.content


def _refuse_foreign(changed: tuple[File, ...], before: Mapping[str, str], folder: Path) -> None:
    for file in changed:
        if file.path not in before and _inside(folder, file.path).exists():
            raise PublicationError(f"{folder / file.path}: came a file that guidegen did not write, expected room for "
                                   "a page; move it away or publish into another folder")


def _inside(folder: Path, path: str) -> Path:
    """The file's place; a link that leads out of the folder is refused."""
    place = folder / path
    if not place.parent.resolve().is_relative_to(folder.resolve()):
        raise PublicationError(f"{place}: came a link out of {folder}, expected a folder inside it")
    return place


def _replace(path: Path, content: bytes) -> None:
    """The file written as a whole or not at all."""
    draft = path.with_name(f".{path.name}.guidegen-draft")
    try:
        draft.write_bytes(content)
        draft.replace(path)
    finally:
        draft.unlink(missing_ok=True)


def _remove_stale(edition: Edition, before: Mapping[str, str], folder: Path) -> int:
    """Remove what only the last edition had, unless someone has changed it since; then folders left empty by that."""
    kept = {file.path for file in edition.files}
    removed = 0
    for name, digest in sorted(before.items()):
        path = _inside(folder, name)
        if name not in kept and path.is_file() and sha256(path.read_bytes()).hexdigest() == digest:
            path.unlink()
            removed += 1
            _remove_empty(path.parent, folder)
    return removed


def _remove_empty(place: Path, folder: Path) -> None:
    while place != folder and not any(place.iterdir()):
        place.rmdir()
        place = place.parent
