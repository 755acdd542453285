"""``guidegen changes`` on copies of the small edition, each with one thing changed."""

import json
import re
import shutil
from collections.abc import Callable
from math import fsum
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from guidegen.cli import main
from guidegen.rounding import NO_BREAK

SMALL = Path(__file__).parent.parent / "small_edition" / "content"
DEMO = Path(__file__).parent.parent.parent / "content"
Copy = Callable[..., Path]
WITHDRAWN = 'withdrawn: {on: 2026-04-01, reason: "The maker recalled it."}\n'


@pytest.fixture
def copy(tmp_path: Path) -> Copy:
    """Makes a copy of the small edition in which one text stands for another in one file, and a unit may be left out."""
    def made(name: str, file: str = "guide.yaml", old: str = "", new: str = "", *, without: str = "") -> Path:
        content = tmp_path / name
        shutil.copytree(SMALL, content)
        path = content / file
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new, 1), encoding="utf-8")
        if without:
            shutil.rmtree(content / "units" / without)
            prices = content / "prices" / "ie.csv"
            rows = prices.read_text(encoding="utf-8").splitlines(keepends=True)
            prices.write_text("".join(row for row in rows if f",{without}," not in row), encoding="utf-8")
        return content

    return made


def run(content: Path, against: Path, *arguments: str) -> Result:
    """The command, run as from a shell without a terminal."""
    return CliRunner().invoke(main, ["changes", "--content", str(content), "--against", str(against), *arguments])


def said(content: Path, against: Path, *arguments: str) -> str:
    """What it prints, with ordinary spaces."""
    return run(content, against, *arguments).stdout.replace(NO_BREAK, " ")


def document(content: Path, against: Path, *arguments: str) -> dict[str, Any]:
    """Its document."""
    made: dict[str, Any] = json.loads(run(content, against, "--json", *arguments).stdout)
    return made


def kinds(told: dict[str, Any]) -> list[tuple[str, str | None]]:
    """Kind and unit of every change of a document."""
    return [(one["kind"], one["unit"]) for one in told["changes"]]


def test_a_unit_more_is_new_and_moves_nobody_s_score(copy: Copy) -> None:
    """The unit, the choice that it takes, and nothing of the units that were there."""
    before = copy("before", without="wexcombe-ember-550")
    told = document(SMALL, before)

    assert [("choice", "wexcombe-ember-550"), ("new", "wexcombe-ember-550")] == kinds(told)
    assert (None, 2) == (told["changes"][1]["from"], told["changes"][1]["to"])
    assert "\n500 to 600 W\n  Best value: the Wexcombe Ember 550 instead of the Ostrevant Cairn 550; it is new; " in said(SMALL, before)
    assert "  The Wexcombe Ember 550 is new: place 2 of 2, 70.4 of 100, Dependable.\n" in said(SMALL, before)


def test_the_document_is_as_promised(copy: Copy) -> None:
    """The least that others rely on; shares, points and places sum to the whole."""
    told = document(SMALL, copy("before", without="tarnbeck-kiln-650"))

    assert ({"since", "changes"}, "2026") == ({"since", "changes"} & told.keys(), told["since"])
    for one in told["changes"]:
        assert {"kind", "unit", "bracket", "from", "to", "because", "sentence"} <= one.keys()
        assert ["measure", "price", "policy", "field"] == list(one["because"])
        assert 1.0 == fsum(one["because"].values())


def test_a_session_that_reads_otherwise_is_told_with_its_day(copy: Copy) -> None:
    """Quieter at half and full load by 12 dB(A): the score rises by what was measured, and with it the place."""
    file = "units/wexcombe-ember-550/2026-03-09.yaml"
    text = (SMALL / file).read_text(encoding="utf-8")
    quieter = re.sub(r"noise_dba: ([\d.]+)", lambda level: f"noise_dba: {max(13.0, float(level[1]) - 12):.1f}", text)
    after = copy("after", file, text, quieter)
    told = document(after, SMALL)

    assert {"choice", "place", "score", "retested"} == {kind for kind, _ in kinds(told)}
    assert {("measure",)} == {tuple(c for c, share in one["because"].items() if share) for one in told["changes"]}
    assert (
        "The Wexcombe Ember 550 rises from place 2 to place 1: its score goes from 70.4 to 78.1 by a session put right "
        "(9 March 2026); it passes the Ostrevant Cairn 550.\n"
    ) in said(after, SMALL)


def test_half_the_price_is_told_with_both_prices(copy: Copy) -> None:
    """The score rises by the price alone; the choice by price follows."""
    after = copy("after", "prices/ie.csv", "2026-04-13,ostrevant-cairn-550,91.90", "2026-04-13,ostrevant-cairn-550,45.95")
    told = document(after, SMALL)
    priced = next(one for one in told["changes"] if one["kind"] == "repriced")
    score = next(one for one in told["changes"] if one["kind"] == "score")

    assert ("ostrevant-cairn-550", 91.9, 45.95) == (priced["unit"], priced["from"], priced["to"])
    assert abs(score["to"] - score["from"] - score["because"]["price"]) < 1e-9
    assert "The score of the Ostrevant Cairn 550 goes from 77.7 to 86.8 by a lower price (€ 92 to € 46).\n" in said(after, SMALL)
    assert "decided by prices.\n" in said(after, SMALL)


def test_a_weight_that_changed_is_told_before_the_brackets(copy: Copy) -> None:
    """The rule first, then what it did, in every bracket; one bracket may be asked for alone."""
    after = copy("after", "policy.yaml", "    points: 90\n", "    points: 300\n")
    told = document(after, SMALL)

    assert ("policy", None, 90.0, 300.0) == tuple(told["changes"][0][key] for key in ("kind", "unit", "from", "to"))
    assert "\nPolicy\n  Price per watt counts 300 points, was 90.\n\n500 to 600 W\n  First choice: " in said(after, SMALL)
    assert "its score goes from 77.7 to 71.4 by the changed policy; the Wexcombe Ember 550 (70.4 to 77.8) stands above it now" in said(after, SMALL)
    assert [None, "650", "650"] == [one["bracket"] for one in document(after, SMALL, "650")["changes"]]


def test_a_unit_that_is_withdrawn_has_its_reason_told(copy: Copy) -> None:
    """Its choices go to another, who rises by its going."""
    file = "units/ostrevant-cairn-550/unit.yaml"
    text = (SMALL / file).read_text(encoding="utf-8")
    after = copy("after", file, text, f"{text}{WITHDRAWN}")
    told = said(after, SMALL)

    assert "First choice and quietest choice: the Wexcombe Ember 550 instead of the Ostrevant Cairn 550; the Ostrevant Cairn 550 is withdrawn.\n" in told
    assert "The Ostrevant Cairn 550 was withdrawn on 1 April 2026; it had place 1. The maker recalled it.\n" in told
    assert "rises from place 2 to place 1: the Ostrevant Cairn 550 is withdrawn; its own score has not changed.\n" in told
    assert ("withdrawn", "ostrevant-cairn-550") in kinds(document(after, SMALL))


def test_the_same_content_is_one_sentence_and_an_empty_list(copy: Copy) -> None:
    """Also where only words differ that decide nothing."""
    after = copy("after", "guide.yaml", "title: The small bench", "title: The smaller bench")

    assert [] == document(after, SMALL)["changes"]
    assert 1 == said(after, SMALL).count("\n")
    assert said(after, SMALL).startswith("Nothing has changed since edition 2026, printing 1, in ")


def test_faults_of_both_contents_are_told_with_their_folders(copy: Copy) -> None:
    """All at once, exit 1, each file below the folder that it stands in."""
    before = copy("before", "policy.yaml", "from_score: 65", "from_score: 6,5")
    after = copy("after", "guide.yaml", "home_region: ie", "home_region: ei")
    result = run(after, before)

    assert 1 == result.exit_code
    assert f"{before.as_posix()}/policy.yaml:" in result.stderr
    assert f"{after.as_posix()}/guide.yaml:" in result.stderr
    assert "2 faults" in result.stderr


def test_what_is_not_there_is_answered_in_a_sentence(tmp_path: Path) -> None:
    """A folder, a bracket, a region; and without a content to compare with it is wrong use."""
    missing = run(SMALL, tmp_path / "nowhere")
    bracket = run(SMALL, SMALL, "655")
    region = run(SMALL, DEMO, "--region", "us")

    assert (1, True) == (missing.exit_code, "nowhere/guide.yaml: came no content folder" in missing.stderr)
    assert (1, "no bracket 655; there are 550, 650; did you mean 650?\n") == (bracket.exit_code, bracket.stderr)
    assert (1, f"{SMALL}: no region us; there are ie\n") == (region.exit_code, region.stderr)


def test_a_unit_more_in_the_demo_is_explained_in_a_screenful(tmp_path: Path) -> None:
    """The editor's first use: the newcomer, its choice, and in one sentence all who made room; 24 lines of 80 at most."""
    before = tmp_path / "before"
    shutil.copytree(DEMO, before)
    shutil.rmtree(before / "units" / "halmer-quill-850")
    for prices in (before / "prices").glob("*.csv"):
        rows = prices.read_text(encoding="utf-8").splitlines(keepends=True)
        prices.write_text("".join(row for row in rows if ",halmer-quill-850," not in row), encoding="utf-8")
    told = said(DEMO, before)

    assert 24 >= sum(1 + len(line) // 80 for line in told.splitlines())
    assert "  The Halmer Quill 850 is new: place 1 of 6, " in told
    assert 1 == told.count("fall by 1 place: the new Halmer Quill 850 stands above them now; their own scores have not changed.")


def test_another_home_region_is_named_and_listed(tmp_path: Path) -> None:
    """By whose prices both are compared, and that the other content had another home."""
    after = tmp_path / "after"
    shutil.copytree(DEMO, after)
    guide = after / "guide.yaml"
    guide.write_text(guide.read_text(encoding="utf-8").replace("home_region: ie", "home_region: us"), encoding="utf-8")
    told = said(after, DEMO)

    assert ", prices of the United States (its own home region was Ireland, and it was printed by prices there):\n" in told
    assert "\nPolicy\n  The home region is the United States, was Ireland: printed scores, places and choices follow its prices.\n" in told
