"""Record files handed out as they were written."""

import shutil
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from guidegen.errors import ContentError
from guidegen.sources import read_library, read_originals
from tests.conftest import CONTENT


def test_every_record_is_published_byte_by_byte(site: Path) -> None:
    """Unit and session files of all units, and nothing else in that folder."""
    published = {path.relative_to(site / "data/records").as_posix(): path.read_bytes() for path in (site / "data/records").rglob("*.yaml")}
    written = {path.relative_to(CONTENT / "units").as_posix(): path.read_bytes() for path in (CONTENT / "units").glob("*/*.yaml")}

    assert written == published


def test_a_unit_page_links_its_own_records(pages: dict[str, BeautifulSoup]) -> None:
    """The box and each session."""
    for path, page in pages.items():
        if path.startswith("unit/"):
            unit = path.split("/")[1]
            linked = [str(a["href"]) for a in page.select('a[href*="data/records/"]')]
            files = sorted(file.name for file in (CONTENT / "units" / unit).glob("*.yaml"))
            assert sorted(linked) == [f"../../data/records/{unit}/{name}" for name in files]


def test_a_record_that_has_gone_meanwhile_is_a_fault(tmp_path: Path) -> None:
    """With the file's name, as every fault of the content."""
    content = tmp_path / "content"
    shutil.copytree(CONTENT, content, ignore=shutil.ignore_patterns("logs"))
    library = read_library(content)
    (content / library.units[0].file).unlink()

    with pytest.raises(ContentError) as caught:
        read_originals(content, library)
    assert [fault.origin.file for fault in caught.value.faults] == [library.units[0].file]
