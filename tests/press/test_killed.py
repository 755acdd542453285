"""A publication killed at any moment: one whole edition stands, and the next run needs no help."""

import os
import random
import shutil
import signal
import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import pytest

from guidegen.flow import publish
from guidegen.press import MANIFEST, Manifest
from guidegen.press.manifests import digest_of

SMALL = Path(__file__).parents[1] / "small_edition" / "content"
KILLS = 200 if os.environ.get("GUIDEGEN_LONG") else 8
"""Runs that are killed, half of them from nothing."""


@dataclass(frozen=True, slots=True)
class Guide:
    """The small edition in two states, and what each is published as."""

    states: tuple[Path, Path]
    editions: frozenset[str]
    seconds: float


@pytest.fixture(scope="module")
def guide(tmp_path_factory: pytest.TempPathFactory) -> Guide:
    """Both states published once; how long that takes."""
    folder = tmp_path_factory.mktemp("killed")
    states = (folder / "one" / "content", folder / "other" / "content")
    for state in states:
        shutil.copytree(SMALL, state)
    table = states[1] / "prices" / "ie.csv"
    table.write_text(table.read_text(encoding="utf-8").replace("94.50", "91.50"), encoding="utf-8")
    began = time.monotonic()
    for i, state in enumerate(states):
        publish(state, folder / f"output-{i}")
    seconds = (time.monotonic() - began) / 2
    return Guide(states, frozenset(Manifest.read(folder / f"output-{i}").build for i in (0, 1)), seconds)


def killed(work: Callable[[], object], after_s: float) -> bool:
    """The work begun in a process of its own that is killed after so long; whether it was still at it."""
    process = os.fork()
    if process == 0:
        try:
            work()
        finally:
            os._exit(0)
    time.sleep(after_s)
    os.kill(process, signal.SIGKILL)
    _, status = os.waitpid(process, 0)
    return os.WIFSIGNALED(status)


def stands(output: Path) -> str:
    """The edition that stands, whole; empty where there is none."""
    if not (output / MANIFEST).exists():
        assert not output.exists() or not list(output.iterdir())
        return ""
    manifest = Manifest.read(output)
    assert dict(manifest.files) == {path: digest_of(output / path) for path in manifest.files}
    there = {path.relative_to(output).as_posix() for path in output.rglob("*") if path.is_file()}
    assert {*manifest.files, MANIFEST} == there
    return manifest.build


@pytest.mark.parametrize("cold", [True, False], ids=["from nothing", "over another"])
def test_one_whole_edition_stands_whenever_the_process_is_killed(guide: Guide, tmp_path: Path, cold: bool) -> None:
    """Every file as its list says, none too many; and then a run succeeds."""
    rng, output, met = random.Random(20261125), tmp_path / "output", 0
    if not cold:
        publish(guide.states[1], output)
    for i in range(KILLS // 2):
        if cold:
            shutil.rmtree(output, ignore_errors=True)
            shutil.rmtree(output.with_name(".output.press"), ignore_errors=True)
        state = guide.states[i % 2]
        met += killed(partial(publish, state, output), rng.uniform(0, 1.15 * guide.seconds))
        found = stands(output)
        assert found in guide.editions | ({""} if cold else set())
    publish(guide.states[0], output)

    assert met > 0
    assert stands(output) in guide.editions
