"""A guide to begin with: the packaged one, put into a folder of the editor's as a whole or not at all."""

import shutil
from pathlib import Path
from tempfile import mkdtemp

import guidegen
from guidegen.errors import RequestError

FIRST_GUIDE = Path(guidegen.__file__).parent / "first_guide"
"""The guide as it is packaged: content, a bench's log, and a word on both."""


def begin(folder: Path) -> tuple[str, ...]:
    """The files of a new guide in ``folder``, by their paths below it.

    Raises ``RequestError`` where there is anything in it already, or where it can't be written.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise RequestError(f"{folder}: came something that is there already, expected an empty folder or none; nothing was written")
    if folder.resolve() == Path.cwd():
        raise RequestError(f"{folder}: came the folder you are in, expected the name of one to make; nothing was written")
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        draft = Path(mkdtemp(prefix=f".{folder.name}.", dir=folder.parent))
        try:
            shutil.copytree(FIRST_GUIDE, draft, dirs_exist_ok=True, copy_function=shutil.copyfile)
            draft.chmod(0o755)
            draft.rename(folder)
        finally:
            shutil.rmtree(draft, ignore_errors=True)
    except OSError as error:
        raise RequestError(f"{folder}: came {error.strerror}, expected to write there; nothing was written") from error
    return tuple(sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()))
