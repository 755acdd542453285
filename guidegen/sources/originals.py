"""Record files as they were written, byte by byte: what the pages hand out for checking."""

from pathlib import Path

from guidegen.errors import ContentError, Fault
from guidegen.origins import Origin
from guidegen.records import Library, Original


def read_originals(content: Path, library: Library) -> tuple[Original, ...]:
    """The files of the library's units and sessions, by unit; raises ``ContentError`` where one has gone since."""
    files = [(unit.id, file) for unit in library.units
             for file in (unit.file, *(session.file for session in library.sessions_of(unit.id)))]
    return tuple(_original(content, unit, file) for unit, file in files)


def _original(content: Path, unit: str, file: str) -> Original:
    try:
        return Original(unit=unit, file=file, content=(content / file).read_bytes())
    except OSError as error:
        reason = (error.strerror or "no answer").lower()
        fault = Fault(origin=Origin(file), came=f"a file that can't be read ({reason})", expected="a readable file", rule="file")
        raise ContentError((fault,)) from error
