"""Style sheets and scripts of a theme, with a hash of their content in the name: a browser may keep them for ever.

A script may be a folder of scripts: they are joined in the order of their names, without indentation and lines of
comment, so that a page asks for one small file.
"""

from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Self

from guidegen.errors import ThemeError
from guidegen.press import File

NAMES = ("style.css", "script.js")
"""Files that every theme has; other ``.css`` and ``.js`` files and folders of scripts beside them are for the
sheets that ask for them.
"""


@dataclass(frozen=True, slots=True)
class Assets:
    """The files that pages share."""

    files: tuple[File, ...]
    """Files, in the order of ``names``."""
    names: tuple[str, ...]
    """What they are called in the theme: those of ``NAMES`` first."""

    @classmethod
    def read(cls, folder: Path) -> Self:
        """The assets of the theme in a folder; a missing one of ``NAMES`` is a ``ThemeError``."""
        others = sorted(path for kind in ("*.css", "*.js") for path in folder.glob(kind) if path.name not in NAMES)
        folders = sorted({path.parent for path in folder.glob("*/*.js")})
        files = (*(_file(folder / name, _read(folder / name)) for name in NAMES), *(_file(one, _read(one)) for one in others))
        joined = tuple(_file(one.with_suffix(".js"), _joined(one)) for one in folders)
        names = (*NAMES, *(one.name for one in others), *(f"{one.name}.js" for one in folders))
        return cls((*files, *joined), names)

    def addresses(self) -> dict[str, str]:
        """Address of each asset from the root of the site, by its name in the theme."""
        return {name: file.path for name, file in zip(self.names, self.files, strict=True)}


def _joined(folder: Path) -> bytes:
    """The scripts of a folder as one; none of them may hold a text of several lines."""
    lines = (line.strip() for path in sorted(folder.glob("*.js")) for line in _read(path).decode().splitlines())
    return "".join(f"{line}\n" for line in lines if line and not line.startswith("//")).encode()


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise ThemeError(f"{path}: came nothing ({error.strerror}), expected the theme's {path.name}") from error


def _file(path: Path, content: bytes) -> File:
    return File(path=f"assets/{path.stem}.{sha256(content).hexdigest()[:10]}{path.suffix}", content=content)
