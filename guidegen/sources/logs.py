"""A bench's log read whole: CSV or XLSX, checked cell by cell, with the hash that its session names."""

from hashlib import sha256
from pathlib import Path

from guidegen.records import LogColumn, LogMapping, LogReadings
from guidegen.sources.log_forms import refuse
from guidegen.sources.log_tables import read_table
from guidegen.sources.mappings import name_of
from guidegen.sources.workbooks import read_workbook

LARGEST_LOG = 500_000_000
"""Bytes that a log may have; a million rows of ten columns have about 80 million."""
_ZIP, _OLD_WORKBOOK = b"PK\x03\x04", b"\xd0\xcf\x11\xe0"


def read_log(path: Path, mapping: LogMapping, content: Path) -> LogReadings:
    """The readings of a log; raises a ``ContentError`` with the first faults in it."""
    file = name_of(path, content)
    if path.exists() and not path.is_file():
        raise refuse(file, "a folder or device", "a file")
    try:
        size = path.stat().st_size
        with path.open("rb") as stream:
            start = stream.read(4)
            if size > LARGEST_LOG:
                raise refuse(file, f"{size} bytes", f"at most {LARGEST_LOG} bytes; split the log")
            stream.seek(0)
            digest = sha256()
            while block := stream.read(1 << 20):
                digest.update(block)
    except OSError as error:
        raise refuse(file, f"a log that can't be read ({(error.strerror or 'no answer').lower()})", "a readable file") from error
    if start.startswith(_OLD_WORKBOOK):
        raise refuse(file, "a workbook of an old kind, or one with a password", "CSV, or a workbook saved as XLSX")
    filling = (read_workbook if start.startswith(_ZIP) else read_table)(path, mapping, file)
    return LogReadings(
        name=file, sha256=digest.hexdigest(), first_line=filling.form.first_line, day=filling.day, seconds=filling.seconds,
        columns=tuple(
            LogColumn(name=used.name, field=used.field, values=values)
            for used, values in zip(filling.form.used, filling.values, strict=True)
        ),
    )
