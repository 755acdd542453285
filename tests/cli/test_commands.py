"""The commands as an editor meets them: exit codes, sentences, documents."""

import csv
import io
import json
import os
import re
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from guidegen.cli import main

SMALL = Path(__file__).parent.parent / "small_edition" / "content"
DEMO = Path(__file__).parent.parent.parent / "content"


def run(*arguments: str) -> Result:
    """A command, run as from a shell without a terminal."""
    return CliRunner().invoke(main, list(arguments))


@pytest.fixture
def broken(tmp_path: Path) -> Path:
    """The small content with three faults in three files."""
    content = tmp_path / "content"
    shutil.copytree(SMALL, content)
    unit = min(content.glob("units/*/unit.yaml"))
    unit.write_text(unit.read_text(encoding="utf-8").replace("warranty_years:", "waranty_years:"), encoding="utf-8")
    session = sorted(content.glob("units/*/2026*.yaml"))[1]
    session.write_text(session.read_text(encoding="utf-8").replace("ambient_c: ", "ambient_c: 9", 1), encoding="utf-8")
    guide = content / "guide.yaml"
    guide.write_text(guide.read_text(encoding="utf-8").replace("home_region: ie", "home_region: ei"), encoding="utf-8")
    return content


def test_rank_prints_the_documented_document() -> None:
    """The least that others rely on, with scores at full precision."""
    document = json.loads(run("rank", "--json", "--content", str(SMALL)).stdout)
    bracket = document["brackets"][0]
    unit = bracket["units"][0]

    assert {"edition", "brackets"} <= set(document)
    assert {"bracket", "units", "choices"} <= set(bracket)
    assert {"unit", "place", "place_range", "score", "technical_score", "tier", "parts", "gates"} <= set(unit)
    assert {"choice", "unit", "reason"} <= set(bracket["choices"][0])
    assert all(0 <= worth <= 1 for worth in unit["parts"].values())


def test_rank_of_one_bracket_shows_that_one() -> None:
    """And an unknown one is answered with those that exist."""
    document = json.loads(run("rank", "650", "--json", "--content", str(SMALL)).stdout)
    unknown = run("rank", "655", "--content", str(SMALL))

    assert ["650"] == [b["bracket"] for b in document["brackets"]]
    assert (1, True) == (unknown.exit_code, "did you mean 650?" in unknown.stderr)


def test_proof_lists_all_faults_of_all_files_at_once(broken: Path) -> None:
    """Three files, three faults, each with file, line, field, what came, what was expected and the nearest name."""
    result = run("proof", "--json", "--content", str(broken))
    faults = json.loads(result.stdout)["faults"]

    assert 1 == result.exit_code
    assert ["home_region", "waranty_years", "ambient_c"] == [fault["field"] for fault in faults]
    assert ["guide.yaml", "unit.yaml", "2026"] == [fault["file"].split("/")[-1][: len(end)]
                                                   for fault, end in zip(faults, ("guide.yaml", "unit.yaml", "2026"), strict=True)]
    assert "warranty_years" == faults[1]["nearest"]
    assert all(fault["line"] > 0 and fault["expected"] for fault in faults)


@pytest.mark.parametrize("command", [
    ("publish",), ("rank",), ("size", "--delivered", "200"), ("rundown",), ("changes", "--against", str(SMALL)), ("freeze", "2026"),
], ids=lambda command: command[0])
def test_a_program_is_answered_with_faults_that_it_can_read(broken: Path, tmp_path: Path, command: tuple[str, ...]) -> None:
    """Whatever was asked for, faults come as they do from ``proof``, and nothing is said beside them."""
    output = ("--output", str(tmp_path / "output")) if command == ("publish",) else ()
    result = run(*command, "--json", "--quiet", "--content", str(broken), *output)
    document = json.loads(result.stdout)

    assert (1, "") == (result.exit_code, result.stderr)
    assert {"faults"} == document.keys()
    assert ["home_region", "waranty_years", "ambient_c"] == [fault["field"] for fault in document["faults"]]
    assert not (tmp_path / "output").exists()


def test_a_fault_is_shown_with_its_line_and_a_mark(broken: Path) -> None:
    """For a person: a sentence, the line, a mark under the column, and no traceback."""
    result = run("proof", "--content", str(broken))

    assert "did you mean warranty_years?" in result.stderr
    assert "^" in result.stderr
    assert "Traceback" not in result.stderr


def test_only_a_command_that_would_have_written_says_that_nothing_was(broken: Path, tmp_path: Path) -> None:
    """``proof`` and ``rank`` count the faults; ``publish`` says more."""
    reading = [run(command, "--content", str(broken)).stderr.splitlines()[-1] for command in ("proof", "rank", "rundown")]
    writing = run("publish", "--content", str(broken), "--output", str(tmp_path / "output")).stderr.splitlines()[-1]

    assert (["3 faults"] * 3, "3 faults; nothing was written") == (reading, writing)


@pytest.mark.parametrize("left", ["none", "withdrawn"])
def test_a_guide_without_units_is_told_so(left: str, tmp_path: Path) -> None:
    """With the folder that is empty, also as a document; nobody asks for a rating."""
    content = tmp_path / "content"
    shutil.copytree(SMALL, content)
    for unit in (content / "units").iterdir():
        if left == "none":
            shutil.rmtree(unit)
        else:
            with (unit / "unit.yaml").open("a", encoding="utf-8") as record:
                record.write('withdrawn: {on: 2026-04-14, reason: "It is no longer made."}\n')
    prices = content / "prices" / "ie.csv"
    if left == "none":
        prices.write_text(prices.read_text(encoding="utf-8").splitlines()[0] + "\n", encoding="utf-8")
    document = json.loads(run("proof", "--json", "--content", str(content)).stdout)
    spoken = [run(command, "--content", str(content)) for command in ("proof", "rundown", "rank")]
    came = "no unit" if left == "none" else "withdrawn units alone"
    said = f"units: came {came}, expected at least one unit: a folder such as units/harrow-one/ with its unit.yaml and a session"

    assert [said] == [fault["message"] for fault in document["faults"]]
    assert [(1, said)] * 3 == [(one.exit_code, one.stderr.splitlines()[0]) for one in spoken]


def test_publish_prints_what_it_wrote(tmp_path: Path) -> None:
    """The documented document."""
    result = run("publish", "--content", str(SMALL), "--output", str(tmp_path / "o"), "--json")
    document = json.loads(result.stdout)

    assert {"pages_written", "pages_unchanged", "removed", "seconds", "steps"} == set(document)
    assert document["pages_written"] > 5


@pytest.mark.parametrize("again", [("--json",), ("--timings",), ("--timings", "--json"), ("--undo", "--json"), ("--undo", "--timings")], ids=" ".join)
def test_publish_answers_in_the_same_form_when_nothing_had_to_be_done(tmp_path: Path, again: tuple[str, ...]) -> None:
    """A third run over the same records, told as a document or with its times: there are no steps, and no crash."""
    content = Path(shutil.copytree(SMALL, tmp_path / "content"))
    places = ("--content", str(content), "--output", str(tmp_path / "o"))
    for edit in ("24.1", "24.2"):
        session = next((content / "units" / "ostrevant-cairn-550").glob("2*.yaml"))
        session.write_text(re.sub("ambient_c: 24.[0-9]", f"ambient_c: {edit}", session.read_text(encoding="utf-8")), encoding="utf-8")
        assert run("publish", *places).exit_code == 0
    for path in content.rglob("*"):
        os.utime(path, (1_700_000_000, 1_700_000_000))
    assert run("publish", *places).exit_code == 0
    result = run("publish", *places, *again)

    assert (0, "") == (result.exit_code, result.stderr if "--json" in again else "")
    assert "--json" not in again or [] == json.loads(result.stdout)["steps"]


def test_publish_with_faults_says_so_and_writes_nothing(broken: Path, tmp_path: Path) -> None:
    """Exit 1, nothing written."""
    result = run("publish", "--content", str(broken), "--output", str(tmp_path / "o"))

    assert (1, False) == (result.exit_code, (tmp_path / "o").exists())


def test_wrong_use_leaves_with_two() -> None:
    """An unknown option or command is wrong use."""
    assert (2, 2) == (run("publish", "--contnet", "x").exit_code, run("pubish").exit_code)


def test_every_command_has_help() -> None:
    """A sentence for each, in the list and on its own page."""
    listed = run("--help").stdout
    assert "--json" in run("start", "--help").stdout
    for name in ("publish", "proof", "rank", "changes", "intake"):
        assert name in listed
        assert "--content" in run(name, "--help").stdout


def test_every_command_takes_what_the_readme_says() -> None:
    """``--quiet`` all but ``schema``; ``--content`` and ``--json`` all but those named."""
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    taken = {name: {option for one in made.params for option in one.opts} for name in main.list_commands(None)  # type: ignore[arg-type]
             if (made := main.get_command(None, name)) is not None}  # type: ignore[arg-type]
    without = {option: {name for name, options in taken.items() if option not in options} for option in ("--quiet", "--content", "--json")}

    assert {"--quiet": {"schema"}, "--content": {"schema", "start"}, "--json": {"schema", "preview"}} == without
    assert "Every command but `schema` takes `--quiet`; all but `start` also `--content DIR` (default `content`), and all but `preview` `--json`" in readme


def test_a_missing_folder_is_a_sentence() -> None:
    """No traceback for a slip in the path."""
    result = run("proof", "--content", "nowhere")

    assert (1, True) == (result.exit_code, "nowhere" in result.stderr)


def test_rank_says_how_sure_a_place_is() -> None:
    """Three kinds of doubt apart from each other, the chance against the next, and the weights that suit a unit."""
    units = json.loads(run("rank", "--json", "--content", str(DEMO)).stdout)["brackets"][0]["units"]
    placed = [unit for unit in units if unit["place"] is not None]
    out = [unit for unit in units if unit["place"] is None]

    assert {"measurement", "weights", "near_weights", "both"} == set(placed[0]["rank_acceptability_first"])
    assert abs(sum(unit["rank_acceptability_first"]["both"] for unit in placed) - 1) < 1e-9
    assert (True, None) == (0.5 < placed[0]["chance_above_next"] <= 1, placed[-1]["chance_above_next"])
    assert abs(sum(placed[0]["central_weights"].values()) - 1) < 1e-9
    assert all(unit["rank_acceptability_first"] is None for unit in out)


def test_rank_prints_a_table_for_a_spreadsheet() -> None:
    """A row a unit with the numbers of the document, in a region of one's choice."""
    rows = list(csv.DictReader(io.StringIO(run("rank", "850", "--csv", "--region", "us", "--content", str(DEMO)).stdout)))
    document = json.loads(run("rank", "850", "--json", "--region", "us", "--content", str(DEMO)).stdout)
    units = document["brackets"][0]["units"]

    assert [unit["unit"] for unit in units] == [row["unit"] for row in rows]
    assert [str(unit["score"]) for unit in units] == [row["score"] for row in rows]
    assert ["", "fail"] == [rows[-1]["place"], rows[-1]["gate_ripple"]]
    assert "us" == rows[0]["region"]


def test_rank_explains_two_units_as_an_editor_would() -> None:
    """The difference, what decides, what speaks for the other, the chance, and the same whichever is named first."""
    said = run("rank", "--explain", "halmer-quill-850", "norvane-mesa-850", "--content", str(DEMO)).stdout
    turned = run("rank", "--explain", "norvane-mesa-850", "halmer-quill-850", "--content", str(DEMO)).stdout

    assert said == turned
    assert said.startswith("The Halmer Quill 850 leads the Norvane Mesa 850 by ")
    for words in ("What decides: ", "In favour of the Norvane Mesa 850: ", "runs; the two are told apart."):
        assert words in said


def test_rank_does_not_compare_who_fails_a_gate() -> None:
    """The gate is told instead of a number."""
    arguments = ("rank", "--explain", "halmer-quill-850", "kestrin-bolt-850", "--json", "--content", str(DEMO))
    document = json.loads(run(*arguments).stdout)

    assert (None, None, None) == (document["points"], document["chance_above"], document["level"])
    assert document["sentences"][0].startswith("The Kestrin Bolt 850 has no place: ")


def test_rank_explains_only_what_is_ranked_together() -> None:
    """Two brackets, or a name that is none, are answered in a sentence; two outputs at once are wrong use."""
    apart = run("rank", "--explain", "halmer-quill-850", "halmer-quill-650", "--content", str(DEMO))
    unknown = run("rank", "--explain", "halmer-quil-850", "kestrin-bolt-850", "--content", str(DEMO))

    assert (1, True) == (apart.exit_code, "are not two units of one bracket" in apart.stderr)
    assert (1, True) == (unknown.exit_code, "did you mean halmer-quill-850?" in unknown.stderr)
    assert 2 == run("rank", "--csv", "--json", "--content", str(DEMO)).exit_code


def test_rank_says_where_a_unit_stands_that_is_not_ranked_here(tmp_path: Path) -> None:
    """In another wattage than the one asked for, or nowhere any more."""
    shutil.copytree(SMALL, tmp_path / "content")
    with (tmp_path / "content" / "units" / "tarnbeck-hearth-650" / "unit.yaml").open("a", encoding="utf-8") as record:
        record.write('withdrawn: {on: 2026-04-14, reason: "It is no longer made."}\n')
    other = run("rank", "550", "--explain", "wexcombe-ember-550", "tarnbeck-kiln-650", "--content", str(SMALL))
    gone = run("rank", "650", "--explain", "tarnbeck-kiln-650", "tarnbeck-hearth-650", "--content", str(tmp_path / "content"))
    apart = run("rank", "--explain", "wexcombe-ember-550", "tarnbeck-kiln-650", "--content", str(SMALL))

    assert (1, "tarnbeck-kiln-650 is rated 650 W and stands in bracket 650, expected two units of bracket 550\n") == (other.exit_code, other.stderr)
    assert (1, "tarnbeck-hearth-650 was withdrawn on 2026-04-14 and is ranked no more, expected two units of bracket 650\n") == (gone.exit_code, gone.stderr)
    assert "not two units of one bracket (they stand in 550 and 650); only those" in apart.stderr


def test_proof_warns_of_points_that_were_chosen_for_other_anchors(tmp_path: Path) -> None:
    """A warning with its line stops nothing: exit 0, no faults."""
    content = tmp_path / "content"
    shutil.copytree(SMALL, content)
    policy = content / "policy.yaml"
    text = policy.read_text(encoding="utf-8")
    before, part, after = text.partition("      - finding: efficiency.at_50\n")
    policy.write_text(f"{before}{part}        anchors_changed: 2099-01-01\n{after}", encoding="utf-8")
    result = run("proof", "--json", "--content", str(content))
    document = json.loads(result.stdout)

    assert (0, []) == (result.exit_code, document["faults"])
    assert [("weight-review", "policy.yaml")] == [(w["rule"], w["file"]) for w in document["warnings"]]
    assert "weight_reviewed" in text.splitlines()[document["warnings"][0]["line"] - 1]
    assert "anchors of efficiency.at_50" in run("proof", "--content", str(content)).stderr


def test_an_example_of_more_parts_than_a_computer_holds_is_refused_on_its_line(tmp_path: Path) -> None:
    """By ``proof`` and by ``publish``, with how many there may be; nothing is written."""
    content = tmp_path / "content"
    shutil.copytree(SMALL, content)
    parts = content / "parts.yaml"
    head, found, rest = parts.read_text(encoding="utf-8").rpartition("processor.mid: 1")
    parts.write_text(f"{head}processor.mid: 99999999999{rest}", encoding="utf-8")
    line = head.count("\n") + 1
    results = run("proof", "--content", str(content)), run("publish", "--content", str(content), "--output", str(tmp_path / "output"))

    assert found
    for result in results:
        assert 1 == result.exit_code
        assert f"parts.yaml:{line}, examples[0].parts.processor.mid: came 99999999999, expected 1 to 4 pieces" in result.stderr
    assert not (tmp_path / "output").exists()


def test_an_address_in_a_record_is_refused_on_its_line(tmp_path: Path) -> None:
    """Prose of a record is proofed as prose of a page: file, line, field, and what may stand there."""
    content = tmp_path / "content"
    shutil.copytree(SMALL, content)
    unit = content / "units" / "tarnbeck-kiln-650" / "unit.yaml"
    text = unit.read_text(encoding="utf-8")
    kept = "".join(f"{line}\n" for line in text.splitlines() if not line.startswith("editor_note"))
    unit.write_text(f'{kept}editor_note: "See [this](javascript:alert(1)) and ![that](pictures/none.png)."\n', encoding="utf-8")
    result = run("proof", "--content", str(content), "--quiet")
    place = f"units/tarnbeck-kiln-650/unit.yaml:{kept.count(chr(10)) + 1}, editor_note: came the"

    assert 1 == result.exit_code
    assert f"{place} link javascript:alert(1), expected an address that begins with https:// or mailto:" in result.stderr
    assert f"{place} picture pictures/none.png, expected a picture of the folder pictures/" in result.stderr
