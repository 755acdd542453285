"""Style sheets and scripts of a theme, with a hash of their content in the name: a browser may keep them for ever.

A script may be a folder of scripts: they are joined in the order of their names, so that a page asks for one small
file. What a page loads is written as short as it can be: without comments, spaces and long names of local variables.
"""

from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Self

import minify

from guidegen.errors import ThemeError
from guidegen.press import File

NAMES = ("style.css",)
"""What every theme has; other ``.css`` and ``.js`` files and folders of scripts beside them are for the
sheets that ask for them.
"""

KINDS = {".css": "text/css", ".js": "application/javascript"}
"""Media types by the ends of names."""


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
        files = (*(_short(folder / name, _read(folder / name)) for name in NAMES), *(_short(one, _read(one)) for one in others))
        joined = tuple(_short(one.with_suffix(".js"), _joined(one)) for one in folders)
        names = (*NAMES, *(one.name for one in others), *(f"{one.name}.js" for one in folders))
        return cls((*files, *joined), names)

    def addresses(self) -> dict[str, str]:
        """Address of each asset from the root of the site, by its name in the theme."""
        return {name: file.path for name, file in zip(self.names, self.files, strict=True)}


def _joined(folder: Path) -> str:
    return "".join(_read(path) for path in sorted(folder.glob("*.js")))


def _short(path: Path, text: str) -> File:
    """The file with everything left out that only its authors need."""
    try:
        return _file(path, minify.string(KINDS[path.suffix], text).encode())
    except minify.MinifyError as error:
        raise ThemeError(f"{path}: came what can't be read ({error}), expected {KINDS[path.suffix]}") from error


def _read(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        raise ThemeError(f"{path}: came bytes that are no UTF-8, expected text") from error
    except OSError as error:
        raise ThemeError(f"{path}: came nothing ({error.strerror}), expected the theme's {path.name}") from error


def _file(path: Path, content: bytes) -> File:
    return File(path=f"assets/{path.stem}.{sha256(content).hexdigest()[:10]}{path.suffix}", content=content)
