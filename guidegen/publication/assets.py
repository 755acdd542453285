"""Style sheets and scripts of a theme, with a hash of their content in the name: a browser may keep them for ever."""

from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Self

from guidegen.errors import ThemeError
from guidegen.publication.edition import File

NAMES = ("style.css", "script.js")
"""Files that every theme has; other ``.css`` and ``.js`` files beside them are for the sheets that ask for them."""


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
        others = sorted(path.name for kind in ("*.css", "*.js") for path in folder.glob(kind) if path.name not in NAMES)
        names = (*NAMES, *others)
        return cls(tuple(_read(folder / name) for name in names), names)

    def addresses(self) -> dict[str, str]:
        """Address of each asset from the root of the site, by its name in the theme."""
        return {name: file.path for name, file in zip(self.names, self.files, strict=True)}


def _read(path: Path) -> File:
    try:
        content = path.read_bytes()
    except OSError as error:
        raise ThemeError(f"{path}: came nothing ({error.strerror}), expected the theme's {path.name}") from error
    return File(path=f"assets/{path.stem}.{sha256(content).hexdigest()[:10]}{path.suffix}", content=content)
