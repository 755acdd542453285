"""The list of files that an edition owns, kept in the published folder, and how these files lay on the disk."""

import json
import os
from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from stat import S_ISREG
from typing import Self

from guidegen.errors import PublicationError
from guidegen.press.files import is_fit_path

MANIFEST = ".guidegen-manifest.json"
"""Name of the list in the published folder."""


@dataclass(frozen=True, slots=True)
class Manifest:
    """Files of an edition by path, with their SHA-256."""

    files: Mapping[str, str] = field(default_factory=dict)
    """SHA-256 by path."""

    @classmethod
    def read(cls, folder: Path) -> Self:
        """The manifest of a published folder, empty where it has none; a broken one is a ``PublicationError``.

        A path that isn't fit to be part of an edition is left out, so that a forged list names nothing outside.
        """
        try:
            listed = json.loads((folder / MANIFEST).read_bytes())["files"]
        except (FileNotFoundError, NotADirectoryError):
            return cls()
        except OSError as error:
            raise PublicationError(f"{folder / MANIFEST}: came {error.strerror or error}, expected the list that guidegen wrote") from error
        except RecursionError as error:
            raise PublicationError(f"{folder / MANIFEST}: came lists inside each other, expected the list that guidegen wrote") from error
        except (ValueError, KeyError, TypeError) as error:
            raise PublicationError(f"{folder / MANIFEST}: came {error}, expected the list that guidegen wrote; "
                                   "empty the folder and publish again") from error
        if not isinstance(listed, dict):
            raise PublicationError(f"{folder / MANIFEST}: came {type(listed).__name__}, expected files by path")
        return cls({path: digest for path, digest in listed.items() if is_fit_path(path) and isinstance(digest, str)})

    @property
    def build(self) -> str:
        """Build id: equal for equal editions."""
        listed = "\n".join(f"{path} {digest}" for path, digest in sorted(self.files.items()))
        return sha256(listed.encode()).hexdigest()[:16]

    def text(self) -> bytes:
        """The manifest as it is written."""
        return (json.dumps({"build": self.build, "files": dict(self.files)}, indent=1, sort_keys=True) + "\n").encode()


@dataclass(frozen=True, slots=True)
class Mark:
    """How a file lay on the disk when guidegen last saw it whole: as long as this holds, it need not be read again."""

    size: int
    """Bytes."""
    changed_ns: int
    """Time of its last change, in nanoseconds, as the file system tells it."""

    @classmethod
    def of(cls, path: Path | str) -> Self | None:
        """The mark of a plain file, or nothing where there is none; a link is no plain file."""
        try:
            found = os.lstat(path)
        except (FileNotFoundError, NotADirectoryError):
            return None
        return cls(found.st_size, found.st_mtime_ns) if S_ISREG(found.st_mode) else None


def digest_of(path: Path) -> str:
    """SHA-256 of a file on the disk, in hexadecimal."""
    return sha256(path.read_bytes()).hexdigest()
