"""The demo, published once for all tests that read it back, and the browser that looks at it."""

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from filelock import FileLock
from hypothesis import settings
from playwright.sync_api import Browser, sync_playwright

from guidegen.flow import publish
from tests.examples import LONG
from tests.tally import Tally, lines_of, measured_in, tried_in

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")

ROOT = Path(__file__).parent.parent
CONTENT = ROOT / "content"


@pytest.fixture
def tally(record_property: Callable[[str, object], None]) -> Tally:
    """Counts what a test tries against the program."""
    return Tally(record_property)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """A run ends with what was measured, a long one also with what was tried and how much of it got through."""
    figures = measured_in(terminalreporter.stats)
    if figures:
        terminalreporter.section("measured beside the tests")
        for line in figures:
            terminalreporter.line(line)
    tried, through = tried_in(terminalreporter.stats)
    if LONG and tried:
        terminalreporter.section("tried against the program")
        for line in lines_of(tried, through):
            terminalreporter.line(line)


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo as a published folder; made once, whichever worker comes first."""
    shared = tmp_path_factory.getbasetemp()
    shared = shared.parent if os.environ.get("PYTEST_XDIST_WORKER") else shared
    output = shared / "published-demo"
    with FileLock(str(shared / "published-demo.lock")):
        if not (output / "index.html").is_file():
            publish(CONTENT, output)
    return output


def current(site: Path, pattern: str) -> list[Path]:
    """Files of the current edition, without those of frozen ones, which stay as the program made them then."""
    archives = {path.parent for path in (site / "archive").glob("*/index.html")}
    return sorted(path for path in site.rglob(pattern) if not archives & set(path.parents))


@pytest.fixture(scope="session")
def pages(site: Path) -> dict[str, BeautifulSoup]:
    """Every page of the demo's current edition, read back, by its path."""
    return {
        path.relative_to(site).as_posix(): BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser")
        for path in current(site, "*.html")
    }


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Debian's Chromium, best the one without windows; where there is none the test fails and says what to install."""
    found = shutil.which("chromium-headless-shell") or shutil.which("chromium")
    if found is None:
        pytest.fail("the browser tests need Debian's chromium: apt-get install chromium-headless-shell")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=found, args=["--no-sandbox", "--disable-background-networking"])
        yield started
        started.close()
