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
from stat import S_ISDIR

from guidegen.errors import PublicationError
from guidegen.press.files import File, is_fit_path
from guidegen.press.manifests import MANIFEST, Manifest, Mark, digest_of
from guidegen.press.reusing import begin
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
        self._seen: dict[str, Mark] = {}
        self._folded: set[str] = set()
        self._folders: set[str] = set()
        self._written = 0
        self._replaced: list[str] = []
        self._lying = begin(press.building, press.spare, press.output, self._before.files)

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
            with Path(self._fresh(file.path)).open("xb") as written:
                written.write(file.content)

    def copy(self, path: str, source: Path, digest: str) -> None:
        """A file of the edition with the bytes of another file, whose SHA-256 is known; a false one is refused."""
        if not self.keep(path, digest):
            self.take(File(path=path, content=source.read_bytes()))
            if self._files[path] != digest:
                raise PublicationError(f"{source}: came other bytes than its list says, expected SHA-256 {digest}")

    def holds(self, path: str, digest: str) -> bool:
        """Whether the published folder holds this very file."""
        return self._before.files.get(path) == digest and self._stands(path)

    def marks(self) -> dict[str, Mark]:
        """How the files of the edition lie: as they were seen before they were taken over, and, once it is in place, as they were written."""
        return {path: mark for path in self._files
                if (mark := self._seen.get(path) or Mark.of(f"{self._press.output}/{path}")) is not None}

    def keep(self, path: str, digest: str) -> bool:
        """Whether the published folder holds this very file, so that it was taken over."""
        if not self.holds(path, digest):
            return False
        self._register(path, digest)
        place = self._place(path)
        if path not in self._lying:
            _link(f"{self._press.output}/{path}", place)
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
            self._press.building.rename(self._press.spare)
        return written

    def _put_in_place(self, leave: set[str], stands: Callable[[], None]) -> None:
        """The edition on the disk, then in the published folder; what others put there until the last moment comes along."""
        self._clear_away(self._lying - self._files.keys())
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
        self._seen.pop(path, None)
        if path in self._lying:
            self._clear_away({path})
        return self._place(path)

    def _clear_away(self, paths: set[str]) -> None:
        """Files that lie in the new folder already leave it, with the folders that become empty; what is published stays."""
        for path in paths:
            Path(f"{self._press.building}/{path}").unlink()
            for folder in _parents(path):
                with suppress(OSError):
                    Path(f"{self._press.building}/{folder}").rmdir()
                    self._folders.discard(folder)
        self._lying -= paths

    def _place(self, path: str) -> str:
        self._make_folder(path.rpartition("/")[0])
        return f"{self._press.building}/{path}"

    def _make_folder(self, folder: str) -> None:
        """The folder and those above it, once; where the published one is a link, it must lead to a folder inside."""
        if not folder or folder in self._folders:
            return
        self._make_folder(folder.rpartition("/")[0])
        standing = f"{self._press.output}/{folder}"
        if os.path.islink(standing) and not Path(standing).resolve().is_relative_to(self._press.output):  # noqa: PTH114 - see above
            raise PublicationError(f"{standing}: came a link out of {self._press.output}, expected a folder inside it")
        if folder in self._lying:
            self._clear_away({folder})
        with suppress(FileExistsError):
            os.mkdir(f"{self._press.building}/{folder}")  # noqa: PTH102 - see above
        self._folders.add(folder)

    def _stands(self, path: str) -> bool:
        """Whether a file of the last edition lies there as guidegen wrote it; how it lies is kept in mind."""
        mark = Mark.of(f"{self._press.output}/{path}")
        if mark is None or (self._marks.get(path) != mark and digest_of(self._press.output / path) != self._before.files[path]):
            return False
        self._seen[path] = mark
        return True

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
        for folder, _ in _walk(str(self._press.building)):
            _as_it_stood(f"{self._press.output}/{folder}", f"{self._press.building}/{folder}")
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
        for here, entries in _walk(str(top)):
            within = f"{here}/" if here else ""
            things = [entry.name for entry in entries if not entry.is_dir(follow_symlinks=False)]
            yield from (path for path in (f"{within}{name}" for name in things) if path not in leave)
            if not entries and here and here not in ours:
                yield here


def _walk(top: str, within: str = "") -> Iterator[tuple[str, list[os.DirEntry[str]]]]:
    """A folder and those below it, each by its path below the first, with what lies in it; links are not followed."""
    with os.scandir(f"{top}/{within}") as found:
        entries = list(found)
    yield within, entries
    for entry in entries:
        if entry.is_dir(follow_symlinks=False):
            yield from _walk(top, f"{within}/{entry.name}" if within else entry.name)


def _link(source: Path | str, target: Path | str) -> None:
    """The file under one more name; a copy where the file system knows no second names."""
    try:
        os.link(source, target, follow_symlinks=False)
    except OSError:
        shutil.copy2(source, target, follow_symlinks=False)


def _as_it_stood(source: str, target: str) -> None:
    """A folder's rights and owner passed on, where it stood; an owner that only the system's own user may give stays as it is."""
    try:
        stood, made = os.lstat(source), os.lstat(target)
    except (FileNotFoundError, NotADirectoryError):
        return
    if not S_ISDIR(stood.st_mode):
        return
    if stood.st_mode != made.st_mode:
        Path(target).chmod(stood.st_mode & 0o7777)
    if (stood.st_uid, stood.st_gid) != (made.st_uid, made.st_gid):
        with suppress(PermissionError):
            os.chown(target, stood.st_uid, stood.st_gid)


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


def build_of(files: tuple[File, ...]) -> str:
    """Build id of files in memory: equal for equal editions."""
    return Manifest({file.path: sha256(file.content).hexdigest() for file in files}).build
