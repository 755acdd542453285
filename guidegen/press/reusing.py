"""The edition before the previous one used again as the folder in which the next is made.

Most files of an edition are those of the one before: links to the same bytes at the same paths. What lies in the old
folder as it lies in the published one needs no second name and no folder made anew, which takes longer than anything else
that is done for a page that stands.
"""

import os
import shutil
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from stat import S_ISREG


def begin(building: Path, spare: Path, output: Path, files: Mapping[str, str]) -> set[str]:
    """The folder ``building`` begun, out of ``spare`` where that is there; the paths of what lies in it.

    Whatever ``spare`` held, only those of ``files`` are left that are the very files of ``output``, and the folders that
    hold one; so nobody's file is taken for ours, and writing anew is never writing into what is published.
    """
    lying: set[str] = set()
    try:
        spare.rename(building)
        _strip(str(building), "", str(output), files, lying)
    except OSError:
        for left in (spare, building):
            shutil.rmtree(left, ignore_errors=True)
        building.mkdir(parents=True)
        return set()
    return lying


def _strip(folder: str, within: str, output: str, files: Mapping[str, str], lying: set[str]) -> bool:
    """A folder rid of everything that isn't published; whether anything is left in it."""
    before = len(lying)
    with os.scandir(folder) as found:
        entries = list(found)
    for entry in entries:
        path = f"{within}{entry.name}"
        if entry.is_dir(follow_symlinks=False):
            if not _strip(entry.path, f"{path}/", output, files, lying):
                Path(entry.path).rmdir()
        elif path in files and _is_same(entry.path, f"{output}/{path}"):
            lying.add(path)
        else:
            Path(entry.path).unlink()
    return len(lying) > before


def _is_same(one: str, other: str) -> bool:
    """Whether two paths name the same plain file."""
    with suppress(OSError):
        found = os.lstat(one)
        return S_ISREG(found.st_mode) and os.path.samestat(found, os.lstat(other))
    return False
