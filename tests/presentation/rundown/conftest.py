"""The demo assessed, and its rundown."""

import pytest

from guidegen.evaluation import Assessment, assess
from guidegen.presentation.rundown import Rundown, rundown_of
from guidegen.sources import read_library
from tests.conftest import CONTENT


@pytest.fixture(scope="package")
def demo() -> Assessment:
    """The demo, assessed."""
    return assess(read_library(CONTENT))


@pytest.fixture(scope="package")
def rundown(demo: Assessment) -> Rundown:
    """Its rundown in the home region."""
    return rundown_of(demo, tuple(demo.home))
