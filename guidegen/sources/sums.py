"""The list of a frozen edition's files with their SHA-256: read, written, and held against what lies there.

A line is a hash in hexadecimal, two spaces and a path, as ``sha256sum`` writes and checks it (GNU coreutils).
"""

import os
import re
from bisect import bisect
from collections.abc import Iterable, Iterator
from hashlib import sha256
from pathlib import Path

from guidegen.errors import Fault
from guidegen.origins import Origin
from guidegen.records import SITE, SUMS, FrozenEdition, ListedFile
from guidegen.sources.documents import lines_of

_LINE = re.compile(r"([0-9a-f]{64})  ([^\s/\\][^\s\\]*)")
RULE = "frozen"
"""Rule of faults of what nobody may change."""
_KEPT = "the file as it was frozen; take it from a copy, an edition is never edited"


def sums_text(files: Iterable[ListedFile]) -> str:
    """The list as it stands in the file."""
    return "".join(f"{one.digest}  {one.path}\n" for one in sorted(files, key=lambda one: one.path))


def build_of(files: Iterable[ListedFile]) -> str:
    """SHA-256 over the lines of the site's files: equal for equal sites."""
    return sha256(sums_text(one for one in files if one.path.startswith(SITE)).encode()).hexdigest()


def read_sums(text: str, file: str) -> tuple[tuple[ListedFile, ...], tuple[Fault, ...]]:
    """The files that the list names, and a fault for every line that is none of its lines."""
    files: list[ListedFile] = []
    faults: list[Fault] = []
    for line, words in enumerate(lines_of(text.removesuffix("\n")), 1):
        found = _LINE.fullmatch(words)
        if found is None:
            faults.append(Fault(origin=Origin(file), line=line, came="a line that is none of the list", text=words, rule=RULE,
                                expected="a SHA-256, two spaces and a path, as it was frozen"))
        elif files and found[2] <= files[-1].path:
            faults.append(Fault(origin=Origin(file), line=line, came=f"{found[2]} behind {files[-1].path}", text=words, rule=RULE,
                                expected="each path once and in order, as it was frozen"))
        else:
            files.append(ListedFile(path=found[2], digest=found[1]))
    return tuple(files), tuple(faults)


def held_against(content: Path, edition: FrozenEdition) -> Iterator[Fault]:
    """What lies in an edition's folder otherwise than listed: changed, missing and additional files, each with its line."""
    folder, listed = (content / edition.file).parent, {one.path: one.digest for one in edition.files}
    found = dict(_below(folder))
    for line, (path, digest) in enumerate(listed.items(), 1):
        if path not in found:
            yield _fault(edition, line, path, f"no such file {path}", _KEPT)
        elif not found[path]:
            yield _fault(edition, line, path, f"a link in place of {path}", _KEPT)
        elif (came := _digest(folder / path)) != digest:
            yield _fault(edition, line, path, f"other bytes in {path}, SHA-256 {came[:12]}…", _KEPT)
    paths = list(listed)
    for path in sorted(found.keys() - listed.keys() - {SUMS}):
        line = min(bisect(paths, path) + 1, len(paths))
        yield _fault(edition, line, "", f"the file {path}, which stands in no line", "nothing in the folder but what was frozen")
    if build_of(edition.files) != edition.record.build:
        origin = Origin(edition.file, ("build",))
        yield Fault(origin=origin, came=edition.record.build, rule=RULE,
                    expected=f"{build_of(edition.files)}, the SHA-256 over the lines of {SUMS} that name the site")


def _fault(edition: FrozenEdition, line: int, path: str, came: str, expected: str) -> Fault:
    digests = {one.path: one.digest for one in edition.files}
    text = f"{digests[path]}  {path}" if path else ""
    return Fault(origin=Origin(edition.sums), line=line, came=came, expected=expected, text=text, rule=RULE)


def _below(folder: Path) -> Iterator[tuple[str, bool]]:
    """Path of every file below a folder, and whether it is a plain one; a link to a folder is a file that isn't plain."""
    for here, folders, names in os.walk(folder):
        linked = [name for name in folders if Path(here, name).is_symlink()]
        for name in (*names, *linked):
            path = Path(here, name)
            yield path.relative_to(folder).as_posix(), path.is_file() and not path.is_symlink()


def _digest(path: Path) -> str:
    try:
        return sha256(path.read_bytes()).hexdigest()
    except OSError as error:
        return (error.strerror or "no answer").lower()
