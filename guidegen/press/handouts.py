"""Files handed to somebody in a folder of theirs: only what was put there before, and left alone since, is replaced."""

from collections.abc import Iterable
from hashlib import sha256
from pathlib import Path

from guidegen.errors import PublicationError
from guidegen.press.files import File, is_fit_path

SUMS = "SHA256SUMS"
"""The list of what was handed out, as ``sha256sum -c`` reads it."""


def hand_out(folder: Path, files: Iterable[File]) -> tuple[Path, ...]:
    """Put files into a folder and say where they stand; ``PublicationError`` where one would replace what isn't ours.

    Nothing is written before all of them are looked at. What was handed out before and is no longer made goes, unless
    somebody changed it.
    """
    made = {file.path: file for file in files}
    before = _listed(folder)
    foreign = [path for path, file in made.items() if _is_foreign(folder / path, file, before.get(path, ""))]
    if foreign:
        raise PublicationError(
            f"{folder / foreign[0]}: stands there already and was not written by guidegen, or was changed since"
            + (f"; so do {len(foreign) - 1} more" if len(foreign) > 1 else "") + "; nothing was written; name another folder"
        )
    try:
        for path, file in made.items():
            _write(folder / path, file.content)
        for path in sorted(before.keys() - made.keys()):
            if _digest(folder / path) == before[path]:
                (folder / path).unlink()
        _write(folder / SUMS, "".join(f"{made[path].digest}  {path}\n" for path in sorted(made)).encode())
    except OSError as error:
        raise PublicationError(f"{folder}: can't be written ({error.strerror})") from error
    return tuple(folder / path for path in made)


def _listed(folder: Path) -> dict[str, str]:
    """What was handed out before, SHA-256 by path; a list that isn't ours is a ``PublicationError``."""
    try:
        lines = (folder / SUMS).read_text(encoding="utf-8").splitlines()
    except FileNotFoundError:
        return {}
    except (OSError, UnicodeDecodeError) as error:
        raise PublicationError(f"{folder / SUMS}: can't be read as the list of what guidegen wrote; name another folder") from error
    listed: dict[str, str] = {}
    for number, line in enumerate(lines, start=1):
        digest, gap, path = line.partition("  ")
        if not gap or len(digest) != 64 or not is_fit_path(path):
            raise PublicationError(f"{folder / SUMS}:{number}: came {line[:80]!r}, expected the list that guidegen wrote; name another folder")
        listed[path] = digest
    return listed


def _is_foreign(path: Path, file: File, before: str) -> bool:
    if not path.exists() and not path.is_symlink():
        return False
    return path.is_symlink() or not path.is_file() or _digest(path) not in (file.digest, before)


def _digest(path: Path) -> str:
    """SHA-256 of a file; empty where there is none."""
    return sha256(path.read_bytes()).hexdigest() if path.is_file() and not path.is_symlink() else ""


def _write(path: Path, content: bytes) -> None:
    """Written whole under another name first; what stands there already stays as it is."""
    if path.is_file() and path.read_bytes() == content:
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    draft = path.with_name(f".{path.name}.draft")
    draft.write_bytes(content)
    draft.replace(path)
