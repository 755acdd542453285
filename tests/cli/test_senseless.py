"""Records whose numbers can't be, proofed from the command line: each case is a plain file of tests/cases/senseless/."""

import json
import re
import shutil
from pathlib import Path

import pytest
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
    """Counted from 1 in the file as it stands: the line has the field's name, or the price."""
    content = broken(path.read_text(encoding="utf-8"), tmp_path / "content")
    faults = json.loads(CliRunner().invoke(main, ["proof", "--json", "--content", str(content)]).stdout)["faults"]
    named = [fault for fault in faults if fault["rule"] != "prose"]
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
