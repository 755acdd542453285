"""The small edition, read and assessed once."""

from pathlib import Path

import pytest

from guidegen.evaluation import Assessment, assess
from guidegen.records import Library
from guidegen.sources import read_library

SMALL = Path(__file__).parent.parent / "small_edition" / "content"
DEMO = Path(__file__).parent.parent.parent / "content"


@pytest.fixture(scope="session")
def small_library() -> Library:
    """The tiny library that all tests share."""
    return read_library(SMALL)


@pytest.fixture(scope="session")
def small(small_library: Library) -> Assessment:
    """The tiny library, assessed."""
    return assess(small_library)


@pytest.fixture(scope="session")
def demo_library() -> Library:
    """The demo's records."""
    return read_library(DEMO)


@pytest.fixture(scope="session")
def demo(demo_library: Library) -> Assessment:
    """The demo, assessed."""
    return assess(demo_library)
