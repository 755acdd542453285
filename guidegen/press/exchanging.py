"""Two folders exchanged in one step, so that whoever looks sees one or the other, whole."""

import ctypes
import errno
import os
from pathlib import Path

_HERE = -100
"""``AT_FDCWD`` of Linux: paths count from the working folder."""
_EXCHANGE = 2
"""``RENAME_EXCHANGE`` of ``renameat2`` (Linux man-pages, rename(2))."""
_UNABLE = (errno.ENOSYS, errno.EINVAL, errno.ENOTSUP)
"""What a system or a file system answers that can't exchange."""
ASIDE = ".aside"
"""Ending of the folder that stands aside where the exchange takes three steps."""


def exchange(first: Path, second: Path) -> None:
    """Give each of two folders the other's name; raises ``OSError``.

    Linux does it in one step. Where the system or the file system can't, the first stands aside for a moment: a run
    that ends in just that moment leaves no first folder, and ``recovered`` puts it back.
    """
    if not _in_one_step(first, second):
        aside = second.with_name(second.name + ASIDE)
        first.rename(aside)
        second.rename(first)
        aside.rename(second)


def _in_one_step(first: Path, second: Path) -> bool:
    """Whether the system exchanged the two."""
    system = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None) if os.name == "posix" else None
    if system is None:
        return False
    if system(_HERE, os.fsencode(first), _HERE, os.fsencode(second), _EXCHANGE) == 0:
        return True
    number = ctypes.get_errno()
    if number in _UNABLE:
        return False
    raise OSError(number, os.strerror(number), str(first))
