"""The program that invents: same seed, same bytes; any size; and a loss that runs where it was told to."""

import random
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.records import Library
from tests.invention.__main__ import write_library
from tests.invention.bench import Specimen
from tests.invention.cast import DEMO
from tests.invention.conftest import CONTENT
from tests.invention.past import write_past
from tests.invention.writing import scalar


def files(folder: Path) -> dict[str, bytes]:
    """Units, prices and pictures below a folder, by path."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for part in ("units", "prices", "pictures") for path in sorted((folder / part).rglob("*")) if path.is_file()
    }


def test_the_demo_is_what_the_program_writes(tmp_path: Path) -> None:
    """``content/units``, ``content/prices`` and ``content/pictures`` are the program's, byte for byte; nobody touched them by hand."""
    write_library(tmp_path)
    assert files(CONTENT) == files(tmp_path)


def test_the_edition_of_june_holds_what_the_demo_knew_in_june(tmp_path: Path) -> None:
    """The records that ``content/editions/2026-june`` kept are the invention's up to that day, byte for byte; logs are no records."""
    write_past(tmp_path / "content")
    kept = CONTENT / "editions" / "2026-june" / "content"

    assert files(kept) == {path: text for path, text in files(tmp_path / "content").items() if "/logs/" not in path}
    assert 27 == len(list((kept / "units").iterdir()))


def test_same_seed_same_bytes(tmp_path: Path) -> None:
    """Two runs of one seed agree; another seed does not."""
    for name, seed in (("one", 7), ("again", 7), ("other", 8)):
        write_library(tmp_path / name, count=5, seed=seed)
    assert files(tmp_path / "one") == files(tmp_path / "again")
    assert files(tmp_path / "one") != files(tmp_path / "other")


def test_a_library_has_as_many_units_as_asked(sixty: Library) -> None:
    """Sixty units, none named twice, in every bracket of the guide."""
    brackets = {bracket.id for u in sixty.units if (bracket := sixty.guide.bracket_of(u.record.rated_power_w))}
    assert 60 == len(sixty.units)
    assert {bracket.id for bracket in sixty.guide.brackets} == brackets


@settings(max_examples=50)
@given(
    at_20=st.floats(80, 94), rise=st.floats(0.5, 2.5), fall=st.floats(0.2, 3.0),
)
def test_the_loss_runs_through_the_three_efficiencies(at_20: float, rise: float, fall: float) -> None:
    """At 20, 50 and 100 % load the model gives back the planned efficiency; the light-load mode takes at most 0.2 points."""
    plan = replace(DEMO[0], efficiency_pct=(at_20, at_20 + rise, at_20 + rise - fall))
    specimen = Specimen(plan, 230, random.Random(1))
    found = [100 * p / (p + specimen.loss_w(p) / plan.rated_w) for p in (0.2, 0.5, 1.0)]
    assert list(plan.efficiency_pct) == pytest.approx(found, abs=0.2)


@pytest.mark.parametrize(
    ("value", "written"),
    [("gold", "gold"), ("1.0", '"1.0"'), ("12v", '"12v"'), ("no", '"no"'), ("On", '"On"'), (True, "true"), (2.5, "2.5"), ([1, 2], "[1, 2]")],
)
def test_text_that_could_be_misread_is_quoted(value: object, written: str) -> None:
    """What YAML 1.1 would take for a number or a truth value stands in quotation marks (YAML 1.1, types bool and float)."""
    assert written == scalar(value)


def test_load_points_stay_narrow_enough_to_read() -> None:
    """No line of a row of readings is wider than 116 columns."""
    wide = [
        f"{path.name}:{number}" for path in CONTENT.glob("units/*/2*.yaml")
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1) if line.startswith("  ") and len(line) > 116
    ]
    assert [] == wide
