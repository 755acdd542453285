"""``guidegen intake`` as the bench meets it: a log in, a session out that proof accepts, and nothing on any fault."""

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guidegen.cli import main
from guidegen.sources import read_library
from tests.bench_logs import LOAD_MAPPING, NOISE_MAPPING, UNIT, csv_text, load_rows, noise_rows
from tests.examples import examples
from tests.tally import Tally

ROOT = Path(__file__).parents[2]
SMALL = ROOT / "tests" / "small_edition" / "content"
NEW = f"units/{UNIT}/2026-03-04.yaml"


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    """The small content, two logs of a new session, and their mappings."""
    content = tmp_path / "content"
    shutil.copytree(SMALL, content)
    for folder in (content / "mappings", content / "units" / UNIT / "logs"):
        folder.mkdir()
    (content / "mappings" / "bench.yaml").write_text(LOAD_MAPPING, encoding="utf-8")
    (content / "mappings" / "quiet.yaml").write_text(NOISE_MAPPING, encoding="utf-8")
    (tmp_path / "load.csv").write_text(csv_text(load_rows()), encoding="utf-8")
    (tmp_path / "noise.csv").write_text(csv_text(noise_rows()), encoding="utf-8")
    return tmp_path


def intake(bench: Path, *more: str, log: str = "load.csv", unit: str = UNIT) -> Result:
    """The intake of the load sweep."""
    content = bench / "content"
    return CliRunner().invoke(main, [
        "intake", str(bench / log), "--mapping", str(content / "mappings" / "bench.yaml"), "--unit", unit, "--date", "2026-03-04",
        "--content", str(content), *more,
    ])


def files_of(bench: Path) -> dict[str, bytes]:
    """Every file of the content, also hidden ones."""
    return {path.relative_to(bench / "content").as_posix(): path.read_bytes() for path in (bench / "content").rglob("*") if path.is_file()}


def test_a_log_becomes_a_session_that_proof_accepts(bench: Path) -> None:
    """Load and noise, each with its mapping; the library reads it, proof accepts it, nothing else has changed."""
    before = files_of(bench)
    more = (str(bench / "noise.csv"), "--mapping", str(bench / "content" / "mappings" / "quiet.yaml"))
    result = intake(bench, *more, "--sample", "b", "--json")
    document = json.loads(result.stdout)
    session = next(one for one in read_library(bench / "content").sessions if one.file == NEW)
    proof = CliRunner().invoke(main, ["proof", "--content", str(bench / "content"), "--json"])

    assert (0, NEW, True) == (result.exit_code, document["file"], document["written"])
    assert {"file", "written", "faults", "logs"} == set(document)
    assert ("b", 4, 4) == (session.record.sample.id, len(session.record.load_points), len(session.record.noise_sweep.points))  # type: ignore[union-attr]
    assert document["logs"][0]["sha256"] == session.record.provenance[0].sha256
    assert before == {file: raw for file, raw in files_of(bench).items() if file != NEW}
    assert [] == json.loads(proof.stdout)["faults"]


def faults_of(result: Result) -> list[str]:
    """What the command said of the new session, as a document."""
    return [fault["message"] for fault in json.loads(result.stdout)["faults"]]


def test_numbers_that_cannot_be_are_refused_as_proof_would(bench: Path) -> None:
    """A factor slipped in the mapping and a wrong mains: nothing written, and the faults of a record put there by hand."""
    mapping = bench / "content" / "mappings" / "bench.yaml"
    mapping.write_text(LOAD_MAPPING.replace("U12: 0.001", "U12: 0.002"), encoding="utf-8")
    before = files_of(bench)
    refused, dry = intake(bench, "--mains", "200", "--json"), intake(bench, "--mains", "200", "--dry-run")
    after = files_of(bench)
    letting = [part for place in range(4) for part in ("--accept", "rail-voltage", f"load_points[{place}].voltage_12v_v", "Let it.")]
    intake(bench, "--mains", "200", *letting, "--accept", "mains", "mains.voltage_v", "Let it.")
    record = bench / "content" / NEW
    record.write_text(record.read_text(encoding="utf-8").partition("accepted:")[0], encoding="utf-8")
    proof = CliRunner().invoke(main, ["proof", "--content", str(bench / "content"), "--json"])

    assert (1, 1, before) == (refused.exit_code, dry.exit_code, after)
    assert 5 == len(faults_of(refused))
    assert faults_of(refused) == faults_of(proof)
    assert "mains.voltage_v: came 200 V, expected 115 to 120 V or 230 V, within 5 %" in dry.stderr


def test_a_log_that_was_taken_in_already_is_refused(bench: Path) -> None:
    """Under a day before the first: the new one is the copy all the same."""
    first = intake(bench)
    again = intake(bench, "--date", "2026-03-03", "--json")

    assert (0, 1) == (first.exit_code, again.exit_code)
    assert [f"{NEW.replace('04', '03')}:9, load_points: came every reading of {NEW} again, expected readings of its own; was a file copied?"] == faults_of(again)


def test_an_objection_may_be_let_stand_with_a_reason(bench: Path) -> None:
    """Written into the record, where proof lists it; a reason for nothing is a fault."""
    letting = ("--mains", "200", "--accept", "mains", "mains.voltage_v", "The town's net is old.")
    refused, idle = intake(bench, "--mains", "200"), intake(bench, *letting, "--accept", "calibration", "instruments[0]", "None.")
    let = intake(bench, *letting)
    proof = CliRunner().invoke(main, ["proof", "--content", str(bench / "content"), "--json"])

    assert (1, 1, 0) == (refused.exit_code, idle.exit_code, let.exit_code)
    assert "came calibration on instruments[0], expected a finding of the sense checks" in idle.stderr
    assert [("mains", "The town's net is old.")] == [(one["rule"], one["reason"]) for one in json.loads(proof.stdout)["accepted"]]


def test_the_table_tells_every_segment(bench: Path) -> None:
    """Segment, seconds, rows, load, steady or not."""
    result = intake(bench)
    lines = [line.split() for line in result.stdout.splitlines()]

    assert ["1", "0", "29", "25", "10"] == next(line[:5] for line in lines if line[:1] == ["1"])
    assert 4 == sum(line[-1:] == ["yes"] for line in lines)
    assert f"{NEW} written." in result.stdout


def test_a_dry_run_shows_and_writes_nothing(bench: Path) -> None:
    """The text that would be written, as the real run writes it."""
    before = files_of(bench)
    dry = intake(bench, "--dry-run", "--json")
    between = files_of(bench)
    intake(bench)

    assert before == between
    assert (bench / "content" / NEW).read_text(encoding="utf-8") == json.loads(dry.stdout)["text"]


def test_nothing_is_ever_overwritten(bench: Path) -> None:
    """A second intake of the day is refused, also dry; with a suffix it gets a file of its own."""
    intake(bench)
    before = files_of(bench)
    again, dry = intake(bench), intake(bench, "--dry-run")
    (bench / "load.csv").write_text(csv_text(load_rows(seed=3)), encoding="utf-8")
    beside = intake(bench, "--suffix", "b", "--quiet")
    after = files_of(bench)

    assert (1, 1, 0) == (again.exit_code, dry.exit_code, beside.exit_code)
    assert "is there already and was not touched" in again.stderr
    assert {NEW.replace(".yaml", "-b.yaml")} == set(after) - set(before)
    assert before == {file: after[file] for file in before}


def test_protections_come_from_their_file(bench: Path) -> None:
    """Written as they stand there."""
    listed = bench / "protections.yaml"
    listed.write_text("- {protection: opp, outcome: acted, trip_power_w: 810}\n", encoding="utf-8")
    result = intake(bench, "--protections", str(listed))

    assert 0 == result.exit_code
    assert "  - {protection: opp, outcome: acted, trip_power_w: 810.0}\n" in (bench / "content" / NEW).read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("more", "code", "said"),
    [
        (("--unit", "tarnbeck-klin-650"), 1, "there is no unit tarnbeck-klin-650"),
        (("--suffix", "B!"), 1, "expected small letters and digits"),
        (("--date", "2027-03-04"), 1, "expected a day not after the edition's"),
        (("--ambient", "75"), 1, "ambient_c: came 75.0, expected a number in °C of at most 60"),
        (("--protections", "nowhere.yaml"), 1, "nowhere.yaml"),
        (("--date", "04.03.2026"), 2, "does not match"),
        (("--mains", "-230"), 2, "not in the range"),
        (("second.csv",), 2, "came 2 logs and 1 mappings"),
    ],
)
def test_wrong_use_writes_nothing(bench: Path, more: tuple[str, ...], code: int, said: str) -> None:
    """A sentence, the exit code, and the content as it was."""
    before = files_of(bench)
    result = intake(bench, *more)

    assert code == result.exit_code
    assert said in result.stderr
    assert before == files_of(bench)


def test_an_instrument_that_the_guide_does_not_know_is_refused(bench: Path) -> None:
    """What proof would find afterwards is found before."""
    mapping = bench / "content" / "mappings" / "bench.yaml"
    mapping.write_text(LOAD_MAPPING.replace("[analyser, load]", "[analyzer, load]"), encoding="utf-8")
    result = intake(bench)

    assert (1, False) == (result.exit_code, (bench / "content" / NEW).exists())
    assert f"{NEW}:6, instruments[0]: came analyzer, expected the name of an instrument; did you mean analyser?" in result.stderr


def test_faults_elsewhere_do_not_hold_up_a_log(bench: Path) -> None:
    """The first session of a unit can be taken while the content lacks it."""
    (bench / "content" / "units" / UNIT / "2026-03-02.yaml").unlink()

    assert 0 == intake(bench).exit_code


def test_an_unsteady_load_is_named_in_the_document_too(bench: Path) -> None:
    """Exit 1, the fault, and all segments with their state."""
    rows = load_rows()
    for second, row in enumerate(rows[61:91]):
        row[2] = f"{356 + second:.3f}"
    (bench / "load.csv").write_text(csv_text(rows), encoding="utf-8")
    result = intake(bench, "--json")
    document = json.loads(result.stdout)

    assert (1, None, False) == (result.exit_code, document["file"], document["written"])
    assert ["steady", "steady", "unsteady", "steady"] == [one["state"] for one in document["logs"][0]["segments"]]
    assert "that begins at 60 s" in document["faults"][0]["message"]


@settings(max_examples=examples(25, 10_000), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(line=st.integers(0, 120), cell=st.integers(0, 7), put=st.sampled_from(["", "x", "1e9", "-5", "NaN", '"', "1,5", "\t", "0", "=1+1"]))
def test_a_log_with_a_foreign_cell_ends_in_a_sentence_or_a_session(bench: Path, tally: Tally, line: int, cell: int, put: str) -> None:
    """Never a traceback, and nothing written unless the exit code is 0."""
    tally.tried("logs with a foreign cell")
    rows = load_rows()
    rows[line][cell] = put
    (bench / "load.csv").write_text(csv_text(rows), encoding="utf-8")
    (bench / "content" / NEW).unlink(missing_ok=True)
    result = intake(bench, "--quiet")

    assert isinstance(result.exception, SystemExit | None)
    assert (result.exit_code == 0) == (bench / "content" / NEW).exists()


def test_the_session_of_the_demo_is_what_its_logs_come_to(tmp_path: Path) -> None:
    """The file in the content, to the last byte, from the logs and mappings beside it."""
    content, unit = tmp_path / "content", "ostrand-level-850-ii"
    shutil.copytree(ROOT / "content", content, ignore=shutil.ignore_patterns("editions"))
    (content / "units" / unit / "2026-06-29.yaml").unlink()
    logs = content / "units" / unit / "logs"
    result = CliRunner().invoke(main, [
        "intake", str(logs / "2026-06-29-load.csv"), str(logs / "2026-06-29-noise.csv"), "--unit", unit, "--sample", "b",
        "--date", "2026-06-29", "--mains", "229.8", "--ambient", "23.4", "--protections", str(logs / "protections.yaml"),
        "--mapping", str(content / "mappings" / "bench-load.yaml"), "--mapping", str(content / "mappings" / "quiet-room.yaml"),
        "--content", str(content), "--dry-run", "--json",
    ])
    rows = sum(log["rows_read"] for log in json.loads(result.stdout)["logs"])

    assert (ROOT / "content" / "units" / unit / "2026-06-29.yaml").read_text(encoding="utf-8") == json.loads(result.stdout)["text"]
    assert rows >= 20_000
