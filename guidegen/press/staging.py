"""An edition made ready beside the published folder: what changed is written, what stands already is taken over.

A file that the manifest of the published folder doesn't list, or that someone changed since, belongs to someone else:
it is taken over into the new edition's folder as it is, and never opened.

Every file of the edition passes here at every run; their paths are joined as plain text, which takes a fifth of the time.
"""

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from guidegen.errors import PublicationError
from guidegen.press.files import File, is_fit_path
from guidegen.press.manifests import MANIFEST, Manifest, Mark, digest_of
from guidegen.press.rooms import Press


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What putting an edition in place came to; pages and other files are counted alike."""

    pages_written: int
    """Files written because they are new or changed."""
    pages_unchanged: int
    """Files left as they were."""
    removed: int
    """Files of the last edition that this one has no more."""
    replaced: tuple[str, ...] = ()
    """Files of the last edition that someone had changed by hand and that were written anew; the changed ones stand in ``previous``."""


class Staging:
    """An edition on its way; use it inside ``Press.held``."""

    def __init__(self, press: Press, marks: dict[str, Mark] | None = None) -> None:
        """An empty edition; ``marks`` tell how the files of the last one lay when they were last seen whole."""
        self._press = press
        self._marks = marks or {}
        self._before = Manifest.read(press.output)
        self._files: dict[str, str] = {}
        self._folded: set[str] = set()
        self._folders: set[str] = set()
        self._written = 0
        self._replaced: list[str] = []
        press.building.mkdir(parents=True)

    @property
    def files(self) -> dict[str, str]:
        """SHA-256 of every file taken so far, by path."""
        return self._files

    @property
    def gone(self) -> bool:
        """Whether a file of the last edition is not among those taken so far."""
        return not self._before.files.keys() <= self._files.keys()

    def take(self, file: File) -> None:
        """A file of the edition; raises ``PublicationError`` where its path is unfit, taken, or someone else's."""
        if not self.keep(file.path, file.digest):
            self._register(file.path, file.digest)
            Path(self._fresh(file.path)).write_bytes(file.content)

    def copy(self, path: str, source: Path, digest: str) -> None:
        """A file of the edition with the bytes of another file, whose SHA-256 is known; a false one is refused."""
        if not self.keep(path, digest):
            self.take(File(path=path, content=source.read_bytes()))
            if self._files[path] != digest:
                raise PublicationError(f"{source}: came other bytes than its list says, expected SHA-256 {digest}")

    def holds(self, path: str, digest: str) -> bool:
        """Whether the published folder holds this very file."""
        return self._before.files.get(path) == digest and self._stands(path)

    def keep(self, path: str, digest: str) -> bool:
        """Whether the published folder holds this very file, so that it was taken over."""
        if not self.holds(path, digest):
            return False
        self._register(path, digest)
        _link(f"{self._press.output}/{path}", self._place(path))
        return True

    def publish(self, stands: Callable[[], None] = lambda: None) -> Written:
        """The edition in the published folder, whole; where nothing changed, nothing is touched. ``stands`` is called when it is there."""
        stale = self._before.files.keys() - self._files.keys()
        removed = [path for path in sorted(stale) if self._stands(path)]
        written = Written(pages_written=self._written, pages_unchanged=len(self._files) - self._written,
                          removed=len(removed), replaced=tuple(sorted(self._replaced)))
        if self._written or removed or stale or not (self._press.output / MANIFEST).is_file():
            self._put_in_place({*self._files, *removed, MANIFEST}, stands)
        else:
            stands()
            shutil.rmtree(self._press.building)
        return written

    def _put_in_place(self, leave: set[str], stands: Callable[[], None]) -> None:
        """The edition on the disk, then in the published folder; what others put there until the last moment comes along."""
        (self._press.building / MANIFEST).write_bytes(Manifest(self._files).text())
        os.sync()
        standing = self._press.output.is_dir()
        taken = self._take_over(leave) if standing else {}
        self._press.building.rename(self._press.ready)
        self._press.put_in_place(stands)
        if standing:
            self._take_late(leave, taken)

    def _register(self, path: str, digest: str) -> None:
        if not is_fit_path(path):
            raise PublicationError(f"{path!r}: came an unfit path, expected plain names joined by /")
        if path.casefold() in self._folded:
            raise PublicationError(f"{path}: came twice (large and small letters count alike), expected once")
        self._folded.add(path.casefold())
        self._files[path] = digest

    def _fresh(self, path: str) -> str:
        """Room for a file that has to be written; refused where someone else's file stands in its place."""
        standing = self._press.output / path
        if os.path.lexists(standing):
            if path not in self._before.files:
                raise PublicationError(f"{standing}: came a file that guidegen did not write, expected room for "
                                       "a page; move it away or publish into another folder")
            if standing.is_symlink() or not standing.is_file() or digest_of(standing) != self._before.files[path]:
                self._replaced.append(path)
        self._written += 1
        return self._place(path)

    def _place(self, path: str) -> str:
        self._make_folder(path.rpartition("/")[0])
        return f"{self._press.building}/{path}"

    def _make_folder(self, folder: str) -> None:
        """The folder and those above it, once; where the published one is a link, it must lead to a folder inside."""
        if not folder or folder in self._folders:
            return
        self._make_folder(folder.rpartition("/")[0])
        standing = self._press.output / folder
        if standing.is_symlink() and not standing.resolve().is_relative_to(self._press.output):
            raise PublicationError(f"{standing}: came a link out of {self._press.output}, expected a folder inside it")
        Path(self._press.building, folder).mkdir(exist_ok=True)
        self._folders.add(folder)

    def _stands(self, path: str) -> bool:
        """Whether a file of the last edition lies there as guidegen wrote it."""
        mark = Mark.of(f"{self._press.output}/{path}")
        return mark is not None and (self._marks.get(path) == mark or digest_of(self._press.output / path) == self._before.files[path])

    def _take_over(self, leave: set[str]) -> dict[str, int]:
        """Everything in the published folder that isn't ours, at its place in the new one; its number on the disk by path."""
        taken: dict[str, int] = {}
        for path in self._foreign(self._press.output, leave):
            source, target = self._press.output / path, self._press.building / path
            if os.path.lexists(target):
                raise PublicationError(f"{source}: came a file that guidegen did not write, expected room for "
                                       "a page; move it away or publish into another folder")
            taken[path] = source.lstat().st_ino
            self._bring(source, target)
        for folder, _, _ in os.walk(self._press.output):
            made = Path(f"{self._press.building}{folder.removeprefix(str(self._press.output))}")
            if made.is_dir():
                _as_it_stood(Path(folder), made)
        return taken

    def _take_late(self, leave: set[str], taken: dict[str, int]) -> None:
        """What others put into the folder, or saved anew, while the edition was on its way there."""
        for path in self._foreign(self._press.previous, leave):
            source, target = self._press.previous / path, self._press.output / path
            if taken.get(path) != source.lstat().st_ino and not target.is_dir():
                target.unlink(missing_ok=True)
                self._bring(source, target)

    def _bring(self, source: Path, target: Path) -> None:
        """A file, link or empty folder of somebody else's, as it is."""
        target.parent.mkdir(parents=True, exist_ok=True)
        if source.is_symlink():
            target.symlink_to(source.readlink())
        elif source.is_dir():
            target.mkdir()
        else:
            _link(source, target)

    def _foreign(self, top: Path, leave: set[str]) -> Iterator[str]:
        """Paths of files, links and empty folders that aren't ours; folders of ours that became empty are none.

        A folder that can't be looked into stops the run: what lies in it would be left behind.
        """
        ours = {parent for path in self._before.files for parent in _parents(path)}
        for folder, folders, names in os.walk(top, onerror=_stop):
            here = folder.removeprefix(str(top)).replace(os.sep, "/").removeprefix("/")
            within = f"{here}/" if here else ""
            links = [name for name in folders if Path(folder, name).is_symlink()]
            yield from (path for path in (f"{within}{name}" for name in (*names, *links)) if path not in leave)
            if not folders and not names and here and here not in ours:
                yield here


def _link(source: Path | str, target: Path | str) -> None:
    """The file under one more name; a copy where the file system knows no second names."""
    try:
        os.link(source, target, follow_symlinks=False)
    except OSError:
        shutil.copy2(source, target, follow_symlinks=False)


def _stop(error: OSError) -> None:
    raise error


def _as_it_stood(source: Path, target: Path) -> None:
    """A folder's rights and owner passed on; an owner that only the system's own user may give stays as it is."""
    found = source.stat()
    target.chmod(found.st_mode & 0o7777)
    with suppress(PermissionError):
        os.chown(target, found.st_uid, found.st_gid)


def _parents(path: str) -> Iterator[str]:
    while (path := path.rpartition("/")[0]):
        yield path


def step_back(press: Press) -> Written:
    """The edition before put in place again, and the one that stood kept in its stead; what isn't ours stays.

    Raises ``PublicationError`` where there is none, or where its files aren't as they were published.
    """
    before = Manifest.read(press.previous)
    if not before.files:
        raise PublicationError(f"{press.output}: came no edition before this one, expected one to go back to")
    wrong = [path for path, digest in before.files.items()
             if not (press.previous / path).is_file() or digest_of(press.previous / path) != digest]
    if wrong:
        raise PublicationError(f"{press.previous / wrong[0]}: came changed, expected it as it was published; nothing was done")
    staging = Staging(press)
    for path, digest in before.files.items():
        staging.copy(path, press.previous / path, digest)
    return staging.publish()


def marks_of(folder: Path, files: dict[str, str]) -> dict[str, Mark]:
    """How the files of an edition lie on the disk now."""
    return {path: mark for path in files if (mark := Mark.of(folder / path)) is not None}


def build_of(files: tuple[File, ...]) -> str:
    """Build id of files in memory: equal for equal editions."""
    return Manifest({file.path: sha256(file.content).hexdigest() for file in files}).build
