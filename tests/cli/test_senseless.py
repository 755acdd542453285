"""Records whose numbers can't be, proofed from the command line: each case is a plain file of tests/cases/senseless/."""

import json
import re
import shutil
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner

from guidegen.cli import main
from tests.sources.test_fault_cases import apply, edits_of

TESTS = Path(__file__).parents[1]
SMALL_EDITION = TESTS / "small_edition" / "content"
CASES = sorted((TESTS / "cases" / "senseless").glob("*.md"))
FAULTS = re.compile(r"```faults\n(?P<faults>.*?)```", re.DOTALL)


def broken(case: str, content: Path) -> Path:
    """The small edition after the edits of a case."""
    shutil.copytree(SMALL_EDITION, content)
    for edit in edits_of(case):
        apply(edit, content)
    return content


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_proof_names_every_planted_fault_with_its_line(path: Path, tmp_path: Path) -> None:
    """In order of files and lines, word for word, and no other; exit 1."""
    case = path.read_text(encoding="utf-8")
    expected = FAULTS.search(case)
    assert expected is not None, "the case says which faults it expects"
    result = CliRunner().invoke(main, ["proof", "--json", "--content", str(broken(case, tmp_path / "content"))])
    told = "".join(f"{fault['rule']}: {fault['message']}\n" for fault in json.loads(result.stdout)["faults"])

    assert (1, expected["faults"]) == (result.exit_code, told)


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_the_line_that_is_named_holds_the_field(path: Path, tmp_path: Path) -> None:
    """Counted from 1 in the file as it stands: the line has the field's name, or the price; a whole row has no name."""
    content = broken(path.read_text(encoding="utf-8"), tmp_path / "content")
    faults = json.loads(CliRunner().invoke(main, ["proof", "--json", "--content", str(content)]).stdout)["faults"]
    named = [fault for fault in faults if fault["rule"] != "prose" and not fault["field"].endswith("]")]
    for fault in named:
        line = (content / fault["file"]).read_text(encoding="utf-8").splitlines()[fault["line"] - 1]
        name = re.findall(r"[a-z]\w*", fault["field"])[-1]

        assert ("8790" if name == "price" else name) in line
    assert named


def test_publish_stops_at_a_wrong_number_and_leaves_no_site(tmp_path: Path) -> None:
    """No reader sees it: the fault with its line and a mark, and nothing written."""
    case = (TESTS / "cases" / "senseless" / "beside-prose.md").read_text(encoding="utf-8")
    content, output = broken(case, tmp_path / "content"), tmp_path / "output"
    result = CliRunner().invoke(main, ["publish", "--content", str(content), "--output", str(output)])

    assert (1, False) == (result.exit_code, output.exists())
    assert "expected more power in than delivered; efficiency stays below 100 %\n        input_power_w: 261.8\n" in result.stderr
    assert "Traceback" not in result.stderr


@pytest.fixture
def accepting(tmp_path: Path) -> Path:
    """The small edition with exhaust air that reads colder than it came in, looked into and accepted."""
    content = tmp_path / "content"
    shutil.copytree(SMALL_EDITION, content)
    session = content / "units" / "wexcombe-ember-550" / "2026-03-09.yaml"
    text = session.read_text(encoding="utf-8").replace("exhaust_c: 25.3", "exhaust_c: 23.3", 1)
    entry = '{rule: exhaust-colder, field: "load_points[0].exhaust_c", reason: "The door stood open & let cold air in."}'
    session.write_text(f"{text}accepted:\n  - {entry}\n", encoding="utf-8")
    return content


def test_proof_lists_what_was_accepted_with_what_was_said(accepting: Path) -> None:
    """No fault, exit 0, and nothing hushed up; in words as well as in JSON."""
    described = CliRunner().invoke(main, ["proof", "--json", "--content", str(accepting)])
    spoken = CliRunner().invoke(main, ["proof", "--content", str(accepting)])
    reason = "The door stood open & let cold air in."

    assert (0, 0) == (described.exit_code, spoken.exit_code)
    assert {"faults": [], "warnings": [], "accepted": [{
        "file": "units/wexcombe-ember-550/2026-03-09.yaml", "rule": "exhaust-colder", "field": "load_points[0].exhaust_c",
        "reason": reason, "came": "23.3 °C with 24.3 °C at the intake", "expected": "air that leaves no colder than it came in",
    }]} == json.loads(described.stdout)
    assert reason in spoken.stdout


def test_proof_lists_what_was_accepted_beside_faults(accepting: Path) -> None:
    """A fault elsewhere doesn't hide what stands."""
    page = accepting / "pages" / "how-we-test.md"
    page.write_text(page.read_text(encoding="utf-8").replace("description:", "descriptoin:", 1), encoding="utf-8")
    told = json.loads(CliRunner().invoke(main, ["proof", "--content", str(accepting), "--json", "--quiet"]).stdout)

    assert ["pages/how-we-test.md"] == [fault["file"] for fault in told["faults"]]
    assert ["exhaust-colder"] == [one["rule"] for one in told["accepted"]]


def test_the_unit_page_prints_what_was_accepted_and_why(accepting: Path, tmp_path: Path) -> None:
    """A reader may judge it otherwise; the page of another unit has no such table."""
    output = tmp_path / "output"
    published = CliRunner().invoke(main, ["publish", "--quiet", "--content", str(accepting), "--output", str(output)])
    assert (0, "") == (published.exit_code, published.stderr)
    pages = {
        name: BeautifulSoup((output / "unit" / name / "index.html").read_text(encoding="utf-8"), "html.parser")
        for name in ("wexcombe-ember-550", "tarnbeck-kiln-650")
    }
    tables = {name: [t for t in page.find_all("table") if t.caption and "Objections that stand" in t.caption.text]
              for name, page in pages.items()}
    (table,) = tables["wexcombe-ember-550"]

    assert [] == tables["tarnbeck-kiln-650"]
    assert "The door stood open & let cold air in." in table.get_text()
    assert "23.3 °C with 24.3 °C at the intake" in table.get_text().replace("\u00a0", " ")
