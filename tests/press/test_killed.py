"""A publication killed at any moment: one whole edition stands, and the next run needs no help."""

import random
import shutil
import time
from functools import partial
from pathlib import Path

import pytest

from guidegen.flow import publish
from guidegen.press import Press
from tests.children import answer_to, begun
from tests.examples import LONG
from tests.publications import TwoStates, stands
from tests.tally import Tally

KILLS = 200 if LONG else 8
"""Runs that are killed, half of them from nothing."""


def seconds_of(content: Path, output: Path, said: Path) -> float:
    """How long a child takes to publish."""
    began = time.monotonic()
    assert 0 == answer_to(partial(publish, content, output), said).code, said.read_text()
    return time.monotonic() - began


def remains(press: Press) -> str:
    """How far a killed run had come, by what it left beside the published folder."""
    names = {path.name for path in press.room.iterdir()} if press.room.is_dir() else set()
    return ("put in place" if {"ready", "exchange.json"} & names else "building" if "building" in names
            else "holding" if "holder" in names else "before or after")


@pytest.mark.parametrize("cold", [True, False], ids=["from nothing", "over another"])
def test_one_whole_edition_stands_whenever_the_process_is_killed(guide: TwoStates, tmp_path: Path, cold: bool, tally: Tally) -> None:
    """Every file as its list says, none too many; and then a run succeeds."""
    rng, output, said, met = random.Random(20261125), tmp_path / "output", tmp_path / "said", set[str]()
    press = Press.of(output)
    seconds_of(guide.states[0], output, said)  # the server of children is up now
    whole = seconds_of(guide.states[1], output, said)
    for i in range(KILLS // 2):
        if cold:
            shutil.rmtree(output, ignore_errors=True)
            shutil.rmtree(press.room, ignore_errors=True)
        tally.tried("runs killed at random moments")
        killed = begun(partial(publish, guide.states[i % 2], output), said).kill_after(rng.uniform(0.2, 1.05) * whole)
        tally.tried(f"… killed while {remains(press)}" if killed else "… done before they were killed")
        met.add(remains(press))
        assert stands(output) in guide.editions | ({""} if cold else set())
    answer = answer_to(partial(publish, guide.states[0], output), said)

    assert 0 == answer.code, answer.said
    assert {"holding", "building"} & met
    assert stands(output) in guide.editions
