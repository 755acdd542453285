"""The demo's records, and a library of sixty units, made and read once."""

import shutil
from pathlib import Path

import pytest

from guidegen.records import Library
from guidegen.sources import read_library
from tests.invention.__main__ import write_library

CONTENT = Path(__file__).parent.parent.parent / "content"


@pytest.fixture(scope="session")
def demo() -> Library:
    """The demo as it stands in ``content/``."""
    return read_library(CONTENT)


@pytest.fixture(scope="session")
def sixty(tmp_path_factory: pytest.TempPathFactory) -> Library:
    """Sixty units varied from the demo, below the demo's own guide, policy and parts."""
    folder = tmp_path_factory.mktemp("sixty")
    for name in ("guide.yaml", "policy.yaml", "parts.yaml"):
        shutil.copy(CONTENT / name, folder / name)
    write_library(folder, count=60)
    return read_library(folder)


@pytest.fixture(params=["demo", "sixty"])
def library(request: pytest.FixtureRequest) -> Library:
    """Either of the two libraries."""
    found: Library = request.getfixturevalue(request.param)
    return found
