"""Broken content and the exact sentences that an editor reads: each case is a plain file of tests/cases/faults/."""

import re
import shutil
from dataclasses import dataclass
from pathlib import Path

import pytest

from guidegen.errors import ContentError, Fault
from guidegen.sources import read_library

TESTS = Path(__file__).parents[1]
SMALL_EDITION = TESTS / "small_edition" / "content"
CASES = sorted((TESTS / "cases" / "faults").glob("*.md"))
FILE = re.compile(r"In `(?P<file>[^`]+)`\n\n```diff\n(?P<hunks>.*?)```", re.DOTALL)
FAULTS = re.compile(r"```faults\n(?P<faults>.*?)```", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Edit:
    """Lines of a file and what stands in their stead."""

    file: str
    """File below the content folder."""
    old: str
    """Lines as they stand; empty for a new file."""
    new: str
    """Lines that come instead."""


def edits_of(case: str) -> tuple[Edit, ...]:
    """The edits that a case describes."""
    return tuple(
        Edit(
            found["file"],
            "".join(f"{line[1:]}\n" for line in hunk.splitlines() if line.startswith("-")),
            "".join(f"{line[1:]}\n" for line in hunk.splitlines() if line.startswith("+")),
        )
        for found in FILE.finditer(case)
        for hunk in found["hunks"].split("\n\n")
    )


def apply(edit: Edit, content: Path) -> None:
    """The edit made in a copy of the content; a case that no longer fits the edition fails here."""
    path = content / edit.file
    text = path.read_text(encoding="utf-8") if path.exists() else ""
    assert edit.old in text, f"{edit.file} no longer has: {edit.old}"
    path.write_text(text.replace(edit.old, edit.new, 1) if edit.old else text + edit.new, encoding="utf-8")


def told(fault: Fault) -> str:
    """A fault as the cases write it: place, message, and the line."""
    return f"{fault.line}:{fault.column} {fault.rule}\n  {fault.message}\n  | {fault.text}\n"


def faults_of(case: str, content: Path) -> str:
    """All faults of the small edition after the edits of a case."""
    shutil.copytree(SMALL_EDITION, content)
    for edit in edits_of(case):
        apply(edit, content)
    with pytest.raises(ContentError) as refused:
        read_library(content)
    return "".join(told(fault) for fault in refused.value.faults)


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_broken_content_is_answered_with_these_sentences(path: Path, tmp_path: Path) -> None:
    """Every fault of a case comes, in order, word for word, with its line and column, and no other."""
    case = path.read_text(encoding="utf-8")
    expected = FAULTS.search(case)
    assert expected is not None, "the case says which faults it expects"

    assert expected["faults"] == faults_of(case, tmp_path / "content")
