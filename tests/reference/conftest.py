"""The small edition's records, as carriers of the made-up values."""

from pathlib import Path

import pytest

from guidegen.records import Library
from guidegen.sources import read_library


@pytest.fixture(scope="session")
def small_library() -> Library:
    """The tiny library that all tests share."""
    return read_library(Path(__file__).parent.parent / "small_edition" / "content")
