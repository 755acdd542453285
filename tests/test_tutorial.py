"""The README's way from nothing to a published page, walked command by command; and its words for servers."""

import re
import subprocess
import sys
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tests.conftest import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")
FENCE = re.compile(r"(?:^`([^`\n]+)`\n\n)?^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
FAILS = {"guidegen proof": ["came 24,1"]}
"""Commands that are meant to find a fault, by a word of their answer."""


def section(title: str) -> str:
    """The text below a heading of the second level."""
    return README.split(f"\n## {title}\n", 1)[1].split("\n## ", 1)[0]


def run(command: str, folder: Path) -> tuple[int, str]:
    """A command of the tutorial, as a shell runs it; its exit code and all that it said."""
    words = command.replace("guidegen ", f"{sys.executable} -m guidegen ", 1) if command.startswith("guidegen ") else command
    done = subprocess.run(["/bin/sh", "-c", words], cwd=folder, capture_output=True, text=True, check=False)
    return done.returncode, " ".join((done.stdout + done.stderr).split())


@pytest.fixture(scope="module")
def walked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The tutorial walked to its end; the folder of the guide."""
    folder = tmp_path_factory.mktemp("tutorial")
    for path, kind, text in FENCE.findall(section("From nothing to your first page")):
        if path:
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            (folder / path).write_text(text, encoding="utf-8")
            continue
        assert kind == "console"
        for step in re.split(r"^\$ ", text, flags=re.MULTILINE)[1:]:
            command, *shown = step.rstrip("\n").split("\n")
            if command.startswith("cd "):
                folder = folder / command[3:]
                continue
            code, said = run(command, folder)
            fault = any(word in line for word in FAILS.get(command, ()) for line in shown)
            assert (command, 1 if fault else 0) == (command, code), said
            for line in shown:
                assert " ".join(line.split()) in said
    return folder


def test_the_tutorial_ends_in_a_page_of_one_s_own(walked: Path) -> None:
    """The new unit's page stands, and says that noise was not measured."""
    page = BeautifulSoup((walked / "output" / "unit" / "corvane-mantel-650" / "index.html").read_text(encoding="utf-8"), "html.parser")

    assert page.h1 is not None
    assert "Corvane Mantel 650" == page.h1.get_text(strip=True)
    assert "65.8" in page.get_text(" ")
    assert (walked / "output" / "archive" / "spring" / "index.html").is_file()


def test_a_folder_that_is_not_empty_is_left_alone(walked: Path) -> None:
    """A sentence, and not one file more."""
    before = sorted(walked.rglob("*"))
    code, said = run("guidegen start .", walked)

    assert (1, True) == (code, "something that is there already" in said)
    assert before == sorted(walked.rglob("*"))


def test_servers_say_the_policy_of_the_pages(pages: dict[str, BeautifulSoup]) -> None:
    """Every sample of headers states the pages' own policy, and beside it who may frame them: nobody."""
    meta = pages["index.html"].find("meta", attrs={"http-equiv": "Content-Security-Policy"})
    assert meta is not None
    told = re.findall(r'Content-Security-Policy:? "?(default[^"\n]+)', section("Putting it on the web"))

    assert [f"{meta['content']}; frame-ancestors 'none'"] * 4 == told


def test_a_guide_begins_in_a_folder_of_its_own(tmp_path: Path) -> None:
    """An empty folder is filled, the one that a shell stands in is not; either way nothing else lies about."""
    (tmp_path / "empty").mkdir()
    code, _ = run("guidegen start empty", tmp_path)
    here, said = run("guidegen start .", tmp_path / "empty" / "logs")
    (tmp_path / "other").mkdir()
    there, told = run("guidegen start .", tmp_path / "other")

    assert (0, 1, 1) == (code, here, there)
    assert "came something that is there already" in said
    assert "came the folder you are in" in told
    assert ["empty", "other"] == sorted(path.name for path in tmp_path.iterdir())
    assert [] == list((tmp_path / "other").iterdir())
