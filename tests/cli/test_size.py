"""``guidegen size`` as an editor or a reader meets it: answer, document, and what it says to a wrong question."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from guidegen.cli import main
from tests.conftest import CONTENT, ROOT

SMALL = ROOT / "tests" / "small_edition" / "content"
NO_BREAK = "\N{NO-BREAK SPACE}"


def size(*arguments: str, content: str = str(SMALL)) -> Result:
    """The command, run as from a shell without a terminal."""
    return CliRunner().invoke(main, ["size", *arguments, "--content", content])


def test_600_w_delivered_lead_to_1000_w_at_60_percent() -> None:
    """Full load in the middle of the rating, never above 60 % of it (common practice, no source): 600/0.60 = 1000."""
    result = size("--delivered", "600", content=str(CONTENT))
    first = result.stdout.splitlines()[0]

    assert 0 == result.exit_code
    assert first.startswith(f"1000{NO_BREAK}W: the usual full load of 600{NO_BREAK}W is 60{NO_BREAK}% of it")
    assert "Before you buy and build:" in result.stdout


def test_the_document_has_the_documented_names() -> None:
    """620 W at the plug at 88 % are 545.6 W delivered; every name that others rely on is there."""
    result = size("--wall", "620", "--mains", "230", "--json", content=str(CONTENT))
    document = json.loads(result.stdout)

    assert 0 == result.exit_code
    assert {"recommended_rating_w", "rule", "loads", "units", "cautions"} <= set(document)
    assert all({"delivered_w", "wall_w", "share"} <= set(load) for load in document["loads"].values())
    assert {"unit", "share", "efficiency_pct", "noise_dba", "heat_w"} <= set(document["units"][0])
    assert 545.6 == pytest.approx(document["loads"]["full"]["delivered_w"])
    assert all(545.6 / one["rating_w"] == pytest.approx(one["share"]) for one in document["units"])
    assert 1000 == document["recommended_rating_w"]


def test_parts_are_added_up_with_the_sum_shown() -> None:
    """Counts stand behind =, one piece where none does."""
    result = size("--part", "processor.mid", "--part", "memory.module=2")

    assert 0 == result.exit_code
    assert f"2 × Memory module: 2 × 5{NO_BREAK}W = 10{NO_BREAK}W" in result.stdout


def test_a_file_is_answered_as_the_same_parts(tmp_path: Path) -> None:
    """The same computer by both doors: the same answer."""
    file = tmp_path / "build.yaml"
    file.write_text("parts:\n  processor.mid: 1\n  memory.module: 2\n", encoding="utf-8")

    assert size("--part", "processor.mid", "--part", "memory.module=2", "--json").stdout == size("--build", str(file), "--json").stdout


@pytest.mark.parametrize(("text", "said"), [
    ("parts:\n  graphics.hihg: 1\n", "build.yaml:2, parts.graphics.hihg: came graphics.hihg"),
    ("parts:\n  graphics.hihg: 1\n", "graphics.high"),
    ("parts:\n  processor.mid: 0\n", "build.yaml:2, parts.processor.mid: came 0, expected a whole number of at least 1"),
    ("parts:\n  processor.mid: two\n", "build.yaml:2, parts.processor.mid: came two, expected a whole number"),
    ("parts:\n  processor.mid: true\n", "build.yaml:2, parts.processor.mid: came true, expected a whole number"),
    ('parts:\n  processor.mid: "2"\n', 'build.yaml:2, parts.processor.mid: came "2", expected a whole number without quotes, 2'),
    ("parts:\n  processor.mid: 2.0\n", "build.yaml:2, parts.processor.mid: came 2.0, expected a whole number"),
    ("prats:\n  processor.mid: 1\n", "build.yaml:1, prats: came prats"),
    ("parts:\n  processor.mid: 1\n  processor.mid: 2\n", "build.yaml:3"),
    ("", "build.yaml: came an empty file, expected the fields of the record"),
])
def test_a_wrong_file_is_answered_with_its_line(tmp_path: Path, text: str, said: str) -> None:
    """As a record: file, line, field, what came and what was expected; nothing on standard output."""
    file = tmp_path / "build.yaml"
    file.write_text(text, encoding="utf-8")
    result = size("--build", str(file))

    assert (1, "") == (result.exit_code, result.stdout)
    assert said in result.stderr


def test_a_file_that_is_not_there_is_said(tmp_path: Path) -> None:
    """No traceback: its name, in a sentence."""
    result = size("--build", str(tmp_path / "none.yaml"))

    assert (1, "") == (result.exit_code, result.stdout)
    assert "none.yaml" in result.stderr


def test_running_costs_are_told() -> None:
    """Energy and cost a year beside each unit, and whether the best pays for itself, with its doubt; the document has
    the same under its names.
    """
    asked = ("--delivered", "620")
    told = size(*asked, content=str(CONTENT)).stdout
    document = json.loads(size(*asked, "--json", content=str(CONTENT)).stdout)
    saving = document["saving"]

    assert "kWh" in told
    assert "it has paid for itself within its warranty of 12" in told
    assert "with 95" in told
    assert {one["unit"] for one in document["costs"]} == {one["unit"] for one in document["units"]}
    assert "within_warranty" == saving["payback"]["outcome"]
    assert saving["payback"]["years"] == pytest.approx(saving["price_difference"] / saving["money"]["value"])


def test_what_cannot_be_bought_is_printed_as_such(monkeypatch: pytest.MonkeyPatch) -> None:
    """The only unit of 1500 W has no fresh price: last in the table, its score a range, and the document says why."""
    monkeypatch.setenv("COLUMNS", "200")
    asked = ("--delivered", "739")
    told = size(*asked, content=str(CONTENT)).stdout
    units = json.loads(size(*asked, "--json", content=str(CONTENT)).stdout)["units"]
    (row,) = [line for line in told.splitlines() if line.lstrip().startswith("Marlowe & Fenn Highway 1500 ")]

    assert re.search(r" \d\d\.\d–\d\d\.\d .* no fresh price\s*$", row)
    assert ("Marlowe & Fenn Highway 1500", "no_price") == (units[-1]["name"], units[-1]["absent"])
    assert units[-1]["score"] < units[-1]["score_high"]
    assert {""} == {one["absent"] for one in units[:-1]}
    assert "Marlowe & Fenn Highway 1500 has" not in told


def test_wishes_reach_the_answer() -> None:
    """Headroom raises what the rating is chosen for; a depth and a budget bar what is longer or dearer."""
    document = json.loads(size(
        "--delivered", "300", "--headroom", "20", "--depth", "165", "--budget", "150", "--region", "us", "--profile",
        "gaming", "--json", content=str(CONTENT)).stdout)

    assert 300 * 1.2 / document["recommended_rating_w"] <= 0.6
    assert document["units"]
    assert all(unit["price"] <= 150 for unit in document["units"])
    assert {"idle", "work", "gaming", "full"} == set(document["loads"])


@pytest.mark.parametrize(("arguments", "said"), [
    (("--part", "graphics.hihg"), "no part class graphics.hihg; did you mean graphics.high?"),
    (("--part", "processor.mid", "--wall", "300"), "came 2, expected exactly one of --part, --build, --wall and --delivered"),
    (("--build", "build.yaml", "--delivered", "300"), "came 2, expected exactly one of --part, --build, --wall and"),
    ((), "came 0, expected exactly one of --part, --build, --wall and --delivered"),
    (("--part", "memory.module=two"), "came two, expected a whole number of one or more behind the ="),
    (("--part", "memory.module=-1"), "--part memory.module=-1: came -1, expected a whole number of one or more behind the ="),
    (("--part", "memory.module=0"), "came 0, expected a whole number of one or more behind the ="),
    (("--part", "memory.module=²"), "came ², expected a whole number of one or more behind the ="),
    (("--part", "memory.module="), "came nothing, expected a whole number of one or more behind the ="),
    (("--part", "memory.module=9" + 5000 * "9"), "expected a whole number of one or more behind the ="),
    (("--part", "processor.mid", "--part", "processor.mid"),
     "--part processor.mid: came twice, expected each class once; --part processor.mid=2 for all of them"),
    (("--part", "memory.module=2", "--part", "memory.module"), "--part memory.module=3 for all of them"),
    (("--wall", "300", "--region", "uss"), "no region uss; known: ie"),
    (("--wall", "-5"), "expected more than 0"),
])
def test_a_wrong_question_is_answered_in_a_sentence(arguments: tuple[str, ...], said: str) -> None:
    """Exit code 1, what came, what was expected, the nearest right name; nothing on standard output."""
    result = size(*arguments)

    assert (1, "") == (result.exit_code, result.stdout)
    assert said in result.stderr


def test_the_table_prints_classes_against_ratings() -> None:
    """Every processor class has its row, every graphics class its column."""
    result = size("--table", content=str(CONTENT))

    assert 0 == result.exit_code
    assert "The rating to look for" in result.stdout
    for words in ("Entry", "Workstation", "No graphics", "Largest"):
        assert words in result.stdout


def test_a_plug_meter_below_any_idle_is_refused_with_a_sentence() -> None:
    """The demo's smallest processor and board take 26 W at rest; 5 W at the plug can't be a full load."""
    result = CliRunner().invoke(main, ["size", "--wall", "5", "--content", str(ROOT / "content")])

    assert (1, True) == (result.exit_code, "at rest" in result.stderr)
