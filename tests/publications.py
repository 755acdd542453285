"""The small edition in two states, and whether a published folder holds one of them whole."""

import shutil
import time
from dataclasses import dataclass
from pathlib import Path

from guidegen.flow import publish
from guidegen.press import MANIFEST, Manifest
from guidegen.press.manifests import digest_of
from tests.conftest import ROOT

SMALL = ROOT / "tests" / "small_edition" / "content"


@dataclass(frozen=True, slots=True)
class TwoStates:
    """The small edition in two states, and what each is published as."""

    states: tuple[Path, Path]
    """Content folders."""
    editions: frozenset[str]
    """Build of each."""
    seconds: float
    """How long a publication took."""


def two_states(folder: Path) -> TwoStates:
    """Both states published once."""
    states = (folder / "one" / "content", folder / "other" / "content")
    for state in states:
        shutil.copytree(SMALL, state)
    table = states[1] / "prices" / "ie.csv"
    table.write_text(table.read_text(encoding="utf-8").replace("94.50", "91.50"), encoding="utf-8")
    began = time.monotonic()
    for i, state in enumerate(states):
        publish(state, folder / f"output-{i}")
    seconds = (time.monotonic() - began) / 2
    return TwoStates(states, frozenset(Manifest.read(folder / f"output-{i}").build for i in (0, 1)), seconds)


def stands(output: Path, foreign: frozenset[str] = frozenset()) -> str:
    """The edition that stands, whole and with these files of others alone; empty where there is none."""
    if not (output / MANIFEST).exists():
        assert not output.exists() or foreign >= {path.name for path in output.iterdir()}
        return ""
    manifest = Manifest.read(output)
    assert dict(manifest.files) == {path: digest_of(output / path) for path in manifest.files}
    there = {path.relative_to(output).as_posix() for path in output.rglob("*") if path.is_file()}
    assert {*manifest.files, MANIFEST, *foreign} == there
    return manifest.build
