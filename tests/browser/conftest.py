"""The demo under its public address, as one reader after another has it."""

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.browser.serving import Served, served

PUBLIC = "https://harrow-bench.example/"
"""Public address of the demo."""
Reader = Callable[..., Served]
"""Gives a browser with settings such as ``viewport`` or ``color_scheme`` that can reach the demo and nothing else."""


@pytest.fixture
def reader(site: Path, browser: Browser) -> Iterator[Reader]:
    """Somebody who reads the demo."""
    with ExitStack() as stack:

        def made(**settings: Any) -> Served:
            return stack.enter_context(served(browser, site, PUBLIC, **settings))

        yield made
