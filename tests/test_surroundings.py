"""What is published does not depend on where, when, by whom and on what machine."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import ROOT

SMALL = ROOT / "tests" / "small_edition" / "content"
SURROUNDINGS: dict[str, dict[str, str]] = {
    "language": {"LC_ALL": "de_DE.UTF-8", "LANG": "de_DE.UTF-8"}, "plain C": {"LC_ALL": "C", "PYTHONUTF8": "0"},
    "time zone": {"TZ": "Pacific/Kiritimati"}, "hash seed": {"PYTHONHASHSEED": "4711"}, "home": {"HOME": "/nonexistent"},
    "no colour": {"NO_COLOR": "1", "TERM": "dumb", "COLUMNS": "20"},
}
"""Settings of an environment, by what they change."""


def published(folder: Path, environment: dict[str, str], umask: int = 0o022) -> dict[str, bytes]:
    """The small edition published by a process of its own."""
    command = [sys.executable, "-m", "guidegen", "publish", "--quiet", "--content", str(SMALL), "--output", str(folder / "output")]
    done = subprocess.run(command, cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT), **environment}, umask=umask, capture_output=True, text=True, check=False)
    assert 0 == done.returncode, done.stderr
    output = folder / "output"
    return {path.relative_to(output).as_posix(): path.read_bytes() for path in sorted(output.rglob("*")) if path.is_file()}


@pytest.fixture(scope="module")
def usual(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The bytes as this process would publish them."""
    return published(tmp_path_factory.mktemp("usual"), {"PYTHONHASHSEED": "0", "TZ": "UTC"})


@pytest.mark.parametrize("name", SURROUNDINGS)
def test_the_bytes_are_the_same_in_other_surroundings(usual: dict[str, bytes], tmp_path: Path, name: str) -> None:
    """Locale, time zone, hash seed, home folder and terminal leave no trace."""
    assert usual == published(tmp_path, SURROUNDINGS[name])


def test_the_bytes_are_the_same_under_another_umask(usual: dict[str, bytes], tmp_path: Path) -> None:
    """Who may read a file is the system's business, what stands in it is not."""
    assert usual == published(tmp_path, {}, umask=0o077)


def test_the_bytes_are_the_same_on_one_core(usual: dict[str, bytes], tmp_path: Path) -> None:
    """Pages made by one process are those made by several."""
    if not hasattr(os, "sched_setaffinity") or shutil.which("taskset") is None:
        pytest.fail("needs taskset of util-linux")
    command = ["taskset", "-c", "0", sys.executable, "-m", "guidegen", "publish", "--quiet", "--content", str(SMALL), "--output", str(tmp_path / "output")]
    done = subprocess.run(command, cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT), "OMP_NUM_THREADS": "1"}, capture_output=True, text=True, check=False)
    assert 0 == done.returncode, done.stderr
    output = tmp_path / "output"

    assert usual == {path.relative_to(output).as_posix(): path.read_bytes() for path in sorted(output.rglob("*")) if path.is_file()}
