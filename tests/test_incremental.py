"""What stands already is taken over, and nobody can tell: an incremental publication is a cold one, byte for byte."""

import os
import random
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from guidegen import sharing
from guidegen.evaluation import Ranking, UnitResult, assessment, evaluate, rank
from guidegen.flow import publish, show
from guidegen.presentation.sheets import Sheet
from guidegen.press import Press, program_digest, still_standing
from guidegen.press.memory import LAY, PAGES
from guidegen.records import Bracket, Unit
from tests.edits import EDITS, Edit, change_a_price, change_a_weight, edit
from tests.frozen import frozen_content, move_on

ALONE = """
import sys
from pathlib import Path
from guidegen import sharing
from guidegen.flow import publish
sharing.cores = lambda: 1
publish(Path(sys.argv[1]), Path(sys.argv[2]))
print("matplotlib" in sys.modules)
"""
SMALL = Path(__file__).parent / "small_edition" / "content"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """A copy of the small edition's content."""
    return Path(shutil.copytree(SMALL, tmp_path / "content"))


def snapshot(folder: Path) -> dict[str, bytes]:
    """Every file of a folder."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def cold(content: Path, tmp_path: Path) -> dict[str, bytes]:
    """The content published into a new folder."""
    shutil.rmtree(tmp_path / "cold", ignore_errors=True)
    shutil.rmtree(tmp_path / ".cold.press", ignore_errors=True)
    publish(content, tmp_path / "cold")
    return snapshot(tmp_path / "cold")


@pytest.mark.parametrize("seed", range(3))
def test_edits_published_one_by_one_end_as_one_cold_publication(content: Path, tmp_path: Path, seed: int) -> None:
    """A random sequence of edits, published after each, gives the bytes of a publication from nothing."""
    rng, made = random.Random(seed), []
    publish(content, tmp_path / "output")
    for _ in range(4):
        made.append(edit(content, rng))
        publish(content, tmp_path / "output")

    assert cold(content, tmp_path) == snapshot(tmp_path / "output"), made


@pytest.mark.parametrize("seed", range(2))
def test_what_changed_since_an_edition_is_told_as_from_nothing(tmp_path: Path, seed: int) -> None:
    """A frozen edition, then edits published after each: the sentences that are recalled are those of a cold publication."""
    content, rng, made = frozen_content(tmp_path), random.Random(100 + seed), []
    move_on(content)
    publish(content, tmp_path / "output")
    for _ in range(3):
        made.append(edit(content, rng))
        publish(content, tmp_path / "output")

    assert cold(content, tmp_path) == snapshot(tmp_path / "output"), made
    assert (tmp_path / "output" / "changes" / "index.html").is_file()


@pytest.fixture
def in_this_process(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is shared out, so that what is made can be watched."""
    monkeypatch.setattr(sharing, "cores", lambda: 1)


@pytest.mark.usefixtures("in_this_process")
def test_a_bracket_that_stays_is_not_evaluated(content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """After a price of one bracket, only units of this bracket are measured and ranked again."""
    publish(content, tmp_path / "output")
    change_a_price(content, random.Random(3))
    measured: list[float] = []
    ranked: list[str] = []

    def watched_evaluate(unit: Unit, *rest: Any) -> UnitResult:
        measured.append(unit.record.rated_power_w)
        return evaluate(unit, *rest)

    def watched_rank(*given: Any, bracket: Bracket, **more: Any) -> Ranking:
        ranked.append(bracket.id)
        return rank(*given, bracket=bracket, **more)

    monkeypatch.setattr(assessment, "_evaluated", watched_evaluate)
    monkeypatch.setattr(assessment, "rank", watched_rank)
    assessment._ranked.cache_clear()
    publish(content, tmp_path / "output")

    assert {"550"} == set(ranked)
    assert measured
    assert all(500 <= rated < 600 for rated in measured)


@pytest.mark.usefixtures("in_this_process")
def test_only_reports_that_show_something_new_are_composed(content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """After a number that no report but its own shows, only its unit's report and bench record are composed."""
    name = "ostrevant-cairn-550"
    session = next((content / "units" / name).glob("2*.yaml"))
    publish(content, tmp_path / "output")
    text = session.read_text(encoding="utf-8")
    session.write_text(text.replace("ambient_c: 24.1", "ambient_c: 24.2"), encoding="utf-8")
    made: list[str] = []
    compose = import_module("guidegen.presentation.compose")
    for kind in ("unit_sheet", "bench_sheet"):
        monkeypatch.setattr(compose, kind, watched(getattr(compose, kind), made))
    publish(content, tmp_path / "output")

    assert {f"unit/{name}/", f"bench/{name}/"} == set(made)


@pytest.mark.usefixtures("in_this_process")
def test_other_weights_touch_nothing_that_was_measured(content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """After a change of weights reports are composed anew; no bench record is, and a unit measured in this process isn't measured again."""
    publish(content, tmp_path / "output")
    change_a_weight(content, random.Random(7))
    made: list[str] = []
    measured: list[str] = []

    def watched_evaluate(unit: Unit, *rest: Any) -> UnitResult:
        measured.append(unit.id)
        return evaluate(unit, *rest)

    compose = import_module("guidegen.presentation.compose")
    for kind in ("unit_sheet", "bench_sheet"):
        monkeypatch.setattr(compose, kind, watched(getattr(compose, kind), made))
    monkeypatch.setattr(assessment, "evaluate", watched_evaluate)
    publish(content, tmp_path / "output")

    assert made
    assert all(address.startswith("unit/") for address in made)
    assert not measured
    assert cold(content, tmp_path) == snapshot(tmp_path / "output")


def watched(page: Callable[..., Sheet], made: list[str]) -> Callable[..., Sheet]:
    """What composes a page, with its address noted."""
    def composed(*given: Any, **more: Any) -> Sheet:
        sheet = page(*given, **more)
        made.append(sheet.address)
        return sheet

    return composed


@pytest.mark.parametrize("one", EDITS, ids=lambda one: one.__name__)
def test_each_kind_of_edit_alone_is_published_as_from_nothing(content: Path, tmp_path: Path, one: Edit) -> None:
    """One edit of each kind."""
    publish(content, tmp_path / "output")
    one(content, random.Random(7))
    publish(content, tmp_path / "output")

    assert cold(content, tmp_path) == snapshot(tmp_path / "output")


def test_a_price_makes_no_page_of_another_bracket_anew(content: Path, tmp_path: Path) -> None:
    """Pages of units in the other bracket keep their time of change."""
    output = tmp_path / "output"
    publish(content, output)
    before = {path: path.stat().st_mtime_ns for path in output.glob("unit/*/index.html")}
    table = content / "prices" / "ie.csv"
    table.write_text(table.read_text(encoding="utf-8").replace("94.50", "91.50"), encoding="utf-8")
    publish(content, output)
    changed = {path.parent.name for path, moment in before.items() if path.stat().st_mtime_ns != moment}

    assert changed
    assert {name[-3:] for name in changed} == {"550"}


def test_a_preview_leaves_picture_cards_as_they_stand_and_a_publication_does_not(content: Path, tmp_path: Path) -> None:
    """Pages follow every save; a card is drawn when it is missing. Published into the same folder, everything is as from nothing."""
    output, told = tmp_path / "output", list[str]()
    session = next((content / "units" / "ostrevant-cairn-550").glob("2*.yaml"))
    show(content, output, shown=lambda: told.append("first"))
    before = snapshot(output)
    text = session.read_text(encoding="utf-8")
    session.write_text(re.sub(r"(ripple_12v_mv: )[0-9.]+", r"\g<1>31.5", text), encoding="utf-8")
    show(content, output, shown=lambda: told.append("second"))
    after = snapshot(output)
    publish(content, output)
    changed = {path for path, digest in after.items() if before.get(path) != digest}

    assert ["first", "second"] == told
    assert any(path.startswith("unit/ostrevant-cairn-550/") for path in changed)
    assert not any(path.startswith("cards/") for path in changed)
    assert any(path.startswith("cards/") for path, digest in snapshot(output).items() if after[path] != digest)
    assert cold(content, tmp_path) == snapshot(output)


def test_frames_of_charts_are_drawn_once(content: Path, tmp_path: Path) -> None:
    """After a number that changes no scale, reports are drawn anew without matplotlib; without its frames, with it."""
    output = tmp_path / "output"
    loaded = [_loads_matplotlib(content, output)]
    for ambient, frames_stay in (("24.2", True), ("24.3", False)):
        session = next((content / "units" / "ostrevant-cairn-550").glob("2*.yaml"))
        session.write_text(re.sub(r"ambient_c: 24.[0-9]", f"ambient_c: {ambient}", session.read_text(encoding="utf-8")), encoding="utf-8")
        if not frames_stay:
            for frame in Press.of(output).room.glob("apart-*/*"):
                frame.write_bytes(frame.read_bytes()[:-1])
        loaded.append(_loads_matplotlib(content, output))

    assert [True, False, True] == loaded
    assert cold(content, tmp_path) == snapshot(output)


def _loads_matplotlib(content: Path, output: Path) -> bool:
    """Whether a publication in a process of its own, which does all itself, loads it."""
    told = subprocess.run([sys.executable, "-c", ALONE, str(content), str(output)], capture_output=True, text=True, check=True)
    return {"True": True, "False": False}[told.stdout.strip()]


@pytest.mark.parametrize("name", [PAGES, LAY, "records.shelf", "prices.shelf", "data.shelf", "watts-650.shelf"])
@pytest.mark.parametrize("damage", [b"", b"{}", b"\xff\xfe", None], ids=["empty", "other", "bytes", "cut"])
def test_a_damaged_memory_is_noticed(content: Path, tmp_path: Path, name: str, damage: bytes | None) -> None:
    """A memory that is empty, something else or half written changes nothing that is published."""
    output = tmp_path / "output"
    publish(content, output)
    memory = Press.of(output).room / name
    whole = memory.read_bytes()
    memory.write_bytes(whole[:len(whole) // 2] if damage is None else damage)
    change_a_price(content, random.Random(1))
    publish(content, output)

    assert cold(content, tmp_path) == snapshot(output)


def test_nothing_changed_is_known_without_reading_a_record(content: Path, tmp_path: Path) -> None:
    """Content that has lain still stands; a page touched, a record saved, a file more: it no longer does."""
    output, themes = tmp_path / "output", content.parent / "themes"
    _age(content)
    publish(content, output)
    found = still_standing(content, themes, output, program_digest())
    assert found is not None
    assert (4, 4) == (found.units, found.sessions)
    assert still_standing(content, themes, output, "0" * 64) is None  # another version of the program believes nothing
    (output / "index.html").touch()
    assert still_standing(content, themes, output, program_digest()) is None
    publish(content, output)
    assert still_standing(content, themes, output, program_digest()) is not None
    (content / "units" / "more").mkdir()
    (content / "units" / "more" / "unit.yaml").write_text("format: 1\n", encoding="utf-8")
    assert still_standing(content, themes, output, program_digest()) is None


def _age(content: Path) -> None:
    """Make every file look as if it had lain for a day."""
    for path in content.rglob("*"):
        if path.is_file():
            before = path.stat().st_mtime_ns - 86_400_000_000_000
            os.utime(path, ns=(before, before))
