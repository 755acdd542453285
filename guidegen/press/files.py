"""A file of an edition: its path from the root of the site, its bytes, its hash."""

import re
from dataclasses import dataclass, field
from hashlib import sha256

_PATH = re.compile(r"[A-Za-z0-9_-][A-Za-z0-9._-]*(/[A-Za-z0-9_-][A-Za-z0-9._-]*)*")
"""Plain file names below one another: nothing hidden, nothing that climbs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class File:
    """A file of the edition."""

    path: str
    """Path from the root of the site, with ``/``."""
    content: bytes = field(repr=False)
    """Content."""

    @property
    def digest(self) -> str:
        """SHA-256 of the content, in hexadecimal."""
        return sha256(self.content).hexdigest()


def is_fit_path(path: str) -> bool:
    r"""Whether a path may name a file of an edition.

    >>> [is_fit_path(path) for path in ("unit/one/index.html", "../x", ".gitignore", "a//b", "a\\\\b")]
    [True, False, False, False, False]
    """
    return _PATH.fullmatch(path) is not None
