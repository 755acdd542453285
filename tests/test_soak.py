"""Many edits in a row, among them ones that break the content and are mended: what stands is what a publication from nothing gives."""

import gc
import random
import shutil
from pathlib import Path

import pytest

from guidegen.errors import ContentError
from guidegen.flow import publish
from guidegen.press import Press
from guidegen.press.memory import APART
from tests.edits import edit
from tests.examples import examples
from tests.publications import SMALL
from tests.tally import Tally
from tests.test_incremental import snapshot

BREAKS = ("units/*/unit.yaml", "units/*/2*.yaml", "prices/*.csv", "guide.yaml", "policy.yaml", "pages/*.md", "parts.yaml")
SPOILS = (b"", b"format: 9\n", b"\xff", b"title: [\n", b"date;unit\n")
WARM = 100
"""Edits after which memory should have stopped growing."""
MOST_GROWTH = 1.25
"""How much more memory the process may take at the end than when it was warm; the guide itself grows a little on its way."""


def broken_and_mended(content: Path, output: Path, rng: random.Random) -> None:
    """A file spoilt, which must be refused and change nothing, and put right again."""
    path = rng.choice(sorted(content.glob(rng.choice(BREAKS))))
    whole, before = path.read_bytes(), snapshot(output)
    path.write_bytes(rng.choice(SPOILS))
    with pytest.raises(ContentError):
        publish(content, output)
    path.write_bytes(whole)
    assert before == snapshot(output)


def resident_kb() -> int:
    """Memory that the process holds now, kB."""
    gc.collect()
    status = Path("/proc/self/status").read_text(encoding="ascii")
    return int(next(line.split()[1] for line in status.splitlines() if line.startswith("VmRSS")))


def kept_small(content: Path) -> None:
    """Units, prices, notes and corrections that edits added are thinned out, so that the guide stays the size it had."""
    added = sorted(unit for unit in (content / "units").iterdir() if unit.name.startswith("added-"))
    for unit in added[3:]:
        shutil.rmtree(unit)
    gone = {unit.name for unit in added[3:]}
    for file, first in (("prices/ie.csv", 14), ("pages/how-we-test.md", 40), ("corrections.yaml", 0)):
        path = content / file
        lines = path.read_text(encoding="utf-8").splitlines() if path.exists() else []
        kept = [line for line in lines[:first] + lines[first:][-12:] if not any(f",{name}," in line for name in gone)]
        if lines:
            path.write_text("\n".join(kept) + "\n", encoding="utf-8")


def left_in(output: Path) -> set[str]:
    """What stands in the press, but for the frames of charts, which a process that drew them before doesn't ask for."""
    return {path.name for path in Press.of(output).room.iterdir() if not path.name.startswith(APART)}


def test_a_thousand_edits_end_as_one_publication_from_nothing(tmp_path: Path, tally: Tally) -> None:
    """Same bytes, memory flat, no file left over."""
    content = Path(shutil.copytree(SMALL, tmp_path / "content"))
    output, rng, made = tmp_path / "output", random.Random(20261125), list[str]()
    publish(content, output)
    edits, warm = examples(6, 1000), 0
    for number in range(edits):
        tally.tried("edits published one by one")
        if number % 5 == 4:
            broken_and_mended(content, output, rng)
        made.append(edit(content, rng))
        if number % 20 == 19:
            kept_small(content)
        publish(content, output)
        warm = resident_kb() if number == min(WARM, edits - 1) else warm
    grown = resident_kb()
    publish(content, tmp_path / "cold")

    assert snapshot(tmp_path / "cold") == snapshot(output), made[-10:]
    assert grown <= MOST_GROWTH * warm
    fresh, soaked = left_in(tmp_path / "cold"), left_in(output)
    assert {"lock", "lay.memory", "pages.memory", "standing.memory"} <= fresh
    assert fresh | {"previous", "spare"} == soaked
    assert {"content", "output", "cold", ".output.press", ".cold.press"} == {path.name for path in tmp_path.iterdir()}
