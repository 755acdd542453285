"""Mappings and protections: what is wrong in them, said with line and nearest name."""

from dataclasses import fields
from pathlib import Path
from typing import get_args

import pytest

from guidegen.errors import ContentError
from guidegen.records import LoadPoint, LogField
from guidegen.sources import read_library, read_mapping, read_protections
from tests.bench_logs import LOAD_MAPPING, NOISE_MAPPING, mapping_from

CONTENT = Path(__file__).parents[2] / "content"
SMALL = Path(__file__).parents[1] / "small_edition" / "content"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (LOAD_MAPPING.replace("kind: load_sweep", "kind: load_swep"), "bench.yaml:2, kind: came load_swep"),
        (LOAD_MAPPING.replace("settle_s", "setle_s"), "bench.yaml:7, setle_s: came setle_s, expected a field of this group; did you mean settle_s?"),
        (LOAD_MAPPING.replace("P_in: input_power_w", "P_in: input_powr_w"), "did you mean input_power_w?"),
        (LOAD_MAPPING.replace("P_in: input_power_w, ", ""), "bench.yaml:4, columns: came 6 columns, expected a column for input_power_w"),
        (LOAD_MAPPING.replace("PF: power_factor", "PF: power_factor, cos: power_factor"), "expected each field once; PF is power_factor already"),
        (LOAD_MAPPING.replace("factors: {U12:", "factors: {U_12:"), "factors.U_12: came U_12, expected a heading that stands in columns; did you mean U12?"),
        (LOAD_MAPPING.replace("P_out: ", "t: "), "columns.t: came t, expected another column than that of the time"),
        (LOAD_MAPPING + "decimal: comma\nseparator: comma\n", "separator: came comma, expected another separator than the decimal mark"),
        (LOAD_MAPPING.replace("min_rows: 10", "min_rows: 1"), "min_rows: came 1, expected a number of at least 2"),
        (NOISE_MAPPING.replace("quiet: background_dba, ", ""), "expected a column for background_dba, or the field background_dba"),
        ("", "came an empty file"),
        ("format: 1\nkind: [", "bench.yaml:2"),
    ],
)
def test_a_fault_in_a_mapping_is_said_with_its_place(tmp_path: Path, text: str, said: str) -> None:
    """Shape and sense, each with the field."""
    with pytest.raises(ContentError) as refused:
        mapping_from(tmp_path, text)

    assert said in str(refused.value)


def test_a_log_column_may_stand_for_every_number_of_a_load_point() -> None:
    """A field that is added to the load point has to be added to the mapping."""
    assert {field.name for field in fields(LoadPoint)} <= set(get_args(LogField))


def test_the_mappings_of_the_demo_are_read() -> None:
    """One of a load bench with millivolts, one of a quiet room with decimal commas."""
    kinds = {path.name: read_mapping(path, CONTENT).kind for path in (CONTENT / "mappings").iterdir()}

    assert {"bench-load.yaml": "load_sweep", "quiet-room.yaml": "noise_sweep"} == kinds


def test_a_faulty_mapping_of_the_content_is_a_fault_of_the_content(tmp_path: Path) -> None:
    """The library is read with its mappings, so that they are right when they are needed."""
    for path in SMALL.rglob("*"):
        if path.is_file():
            copied = tmp_path / path.relative_to(SMALL)
            copied.parent.mkdir(parents=True, exist_ok=True)
            copied.write_bytes(path.read_bytes())
    (tmp_path / "mappings").mkdir()
    (tmp_path / "mappings" / "bench.yaml").write_text(LOAD_MAPPING.replace("PF: power_factor, ", ""), encoding="utf-8")
    with pytest.raises(ContentError) as refused:
        read_library(tmp_path)

    assert "mappings/bench.yaml:4, columns: came 6 columns, expected a column for power_factor, which a load sweep needs" == str(refused.value)


def test_protections_are_a_list_as_in_a_session(tmp_path: Path) -> None:
    """Read as written, refused as in a session."""
    path = tmp_path / "protections.yaml"
    path.write_text("- {protection: opp, outcome: acted, trip_power_w: 810}\n", encoding="utf-8")
    tests = read_protections(path, tmp_path)
    path.write_text("- {protection: opp, outcom: acted}\n", encoding="utf-8")
    with pytest.raises(ContentError) as refused:
        read_protections(path, tmp_path)

    assert [("opp", 810.0)] == [(test.protection, test.trip_power_w) for test in tests]
    assert "protections.yaml:1, [0].outcom: came outcom, expected a field of this group; did you mean outcome?" in str(refused.value)


def test_the_mapping_of_the_readme_is_one(tmp_path: Path) -> None:
    """What people copy first has to work."""
    blocks = (CONTENT.parent / "README.md").read_text(encoding="utf-8").split("```yaml\n")[1:]
    (text,) = (block.split("```")[0] for block in blocks if "kind: load_sweep" in block)

    assert {"U_12V": 0.001} == mapping_from(tmp_path, text).factors
