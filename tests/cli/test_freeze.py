"""``guidegen freeze``: what it keeps, what it refuses, and what it says of an edition that somebody touched."""

import hashlib
import json
import shutil
import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from filelock import FileLock

from guidegen.cli import main
from tests.frozen import NAME, SMALL, frozen_content, move_on, replaced, snapshot


@pytest.fixture(scope="module")
def frozen(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Content with one frozen edition; not to be written to."""
    return frozen_content(tmp_path_factory.mktemp("frozen"))


@pytest.fixture
def content(frozen: Path, tmp_path: Path) -> Path:
    """A copy of it."""
    return Path(shutil.copytree(frozen, tmp_path / "content"))


def run(content: Path, *arguments: str) -> Result:
    """The command, run as from a shell without a terminal."""
    return CliRunner().invoke(main, ["freeze", "--content", str(content), *arguments])


def test_a_frozen_edition_keeps_site_records_description_and_hashes(frozen: Path) -> None:
    """Every file but the list is in the list with its SHA-256; the records are those of the content, byte for byte."""
    edition = frozen / "editions" / NAME
    files = snapshot(edition)
    listed = [line.split("  ") for line in files.pop("SHA256SUMS").decode().splitlines()]
    record = json.loads(files["edition.json"])
    inside = [(path, digest) for digest, path in listed if path.startswith("site/")]

    assert sorted((path, hashlib.sha256(content).hexdigest()) for path, content in files.items()) == [(p, d) for d, p in listed]
    assert snapshot(SMALL) == snapshot(edition / "content")
    assert ("2026", 1, "2026-04-15", "ie") == (record["edition"], record["printing"], record["date"], record["home_region"])
    assert "https://guide.small-bench.example/archive/2026/" == record["public_address"]
    assert hashlib.sha256("".join(f"{d}  {p}\n" for p, d in inside).encode()).hexdigest() == record["build"]
    assert ["ostrevant-cairn-550", "tarnbeck-kiln-650"] == [one["first_choice"] for one in record["brackets"]]
    assert {"site/index.html", "site/data/units.csv"} <= set(files)
    assert [NAME] == [path.name for path in (frozen / "editions").iterdir()]


def test_sha256sum_finds_it_whole(frozen: Path) -> None:
    """The plain tool (GNU coreutils) checks the list without guidegen."""
    tool = shutil.which("sha256sum")
    if tool is None:
        pytest.skip("no sha256sum on this machine")
    done = subprocess.run([tool, "-c", "SHA256SUMS"], cwd=frozen / "editions" / NAME, capture_output=True, text=True, check=False)

    assert (0, True) == (done.returncode, "site/index.html: OK" in done.stdout)


def test_the_same_content_freezes_to_the_same_bytes(frozen: Path, tmp_path: Path) -> None:
    """No clock and no chance in it."""
    again = frozen_content(tmp_path)

    assert snapshot(again / "editions") == snapshot(frozen / "editions")


def test_a_name_in_use_is_refused(content: Path) -> None:
    """Also one of an empty folder; nothing is touched."""
    (content / "editions" / "2027").mkdir()
    before = snapshot(content)
    results = [run(content, name) for name in (NAME, "2027")]

    assert [1, 1] == [result.exit_code for result in results]
    assert all("is there already and was not touched" in result.stderr for result in results)
    assert before == snapshot(content)


def test_an_edition_is_frozen_once(content: Path) -> None:
    """The same printing under another name is refused, the next printing is not."""
    before = snapshot(content)
    result = run(content, "2026-again")

    assert 1 == result.exit_code
    assert "edition 2026, printing 1 is frozen already as 2026" in result.stderr
    assert before == snapshot(content)
    replaced(content / "guide.yaml", "printing: 1", "printing: 2")
    assert 0 == run(content, "2026-2").exit_code
    assert ["2026", "2026-2"] == sorted(path.name for path in (content / "editions").iterdir())


@pytest.mark.parametrize(("name", "said"), [
    ("Spring 2026", "came the name Spring 2026, expected small letters and digits with single -, . or _ between them; did you mean spring-2026?"),
    ("../out", "came the name ../out, expected small letters"), (".hidden", "came the name .hidden, expected small letters"),
])
def test_an_unfit_name_is_refused(content: Path, name: str, said: str) -> None:
    """Nothing that climbs, nothing hidden, with the nearest right name."""
    before = snapshot(content.parent)
    result = run(content, name)

    assert (1, True) == (result.exit_code, said in result.stderr)
    assert before == snapshot(content.parent)


@pytest.mark.parametrize(("file", "old", "new", "said"), [
    ("guide.yaml", "home_region: ie", "home_region: ei", "guide.yaml:23, home_region: came ei"),
    ("pages/how-we-test.md", "Every unit", "{{ guide.unitz }} Every unit", "pages/how-we-test.md:5"),
])
def test_with_faults_pending_nothing_is_frozen(tmp_path: Path, file: str, old: str, new: str, said: str) -> None:
    """A fault of a record, or one of prose, said with file and line; no folder is left."""
    content = Path(shutil.copytree(SMALL, tmp_path / "content"))
    replaced(content / file, old, new)
    before = snapshot(content)
    result = run(content, NAME)

    assert 1 == result.exit_code
    assert said in result.stderr
    assert "nothing was written" in result.stderr
    assert before == snapshot(content)
    assert not (content / "editions").exists()


def test_a_theme_that_fails_half_way_leaves_nothing(tmp_path: Path) -> None:
    """A sheet that stops on units' pages, after others were written, leaves neither edition nor draft."""
    content = Path(shutil.copytree(SMALL, tmp_path / "content"))
    shutil.copytree(SMALL.parents[2] / "themes", tmp_path / "themes")
    replaced(tmp_path / "themes" / "test-sheet" / "sheets" / "unit.html", "{{ sheet.decision_rule }}", "{{ sheet.missing }}")
    result = run(content, NAME)

    assert (1, True) == (result.exit_code, "sheets/unit.html" in result.stderr)
    assert not (content / "editions").exists()


def test_what_a_run_cut_short_left_is_no_edition_and_goes(tmp_path: Path) -> None:
    """A hidden draft is read by nobody; the next run begins anew and leaves nothing of it."""
    content = Path(shutil.copytree(SMALL, tmp_path / "content"))
    draft = content / "editions" / f".{NAME}.draft" / "edition"
    (draft / "site").mkdir(parents=True)
    (draft / "site" / "index.html").write_text("half", encoding="utf-8")

    assert "No edition is frozen yet.\n" == run(content, "--verify").stdout
    assert 0 == run(content, NAME).exit_code
    assert [NAME] == [path.name for path in (content / "editions").iterdir()]


def test_two_runs_at_once_do_not_meet(tmp_path: Path) -> None:
    """The second is told of the first, whose draft stays as it is."""
    content = Path(shutil.copytree(SMALL, tmp_path / "content"))
    room = content / "editions" / f".{NAME}.draft"
    room.mkdir(parents=True)
    (room / "edition").mkdir()
    with FileLock(room / "lock"):
        result = run(content, NAME)

    assert (1, True) == (result.exit_code, "came another guidegen at work there" in result.stderr)
    assert (room / "edition").is_dir()


def test_verify_tells_every_file_that_differs(content: Path) -> None:
    """Changed, missing and additional, each with its line in the list; the exit code is 1."""
    edition = content / "editions" / NAME
    lines = [line[66:] for line in (edition / "SHA256SUMS").read_text(encoding="utf-8").splitlines()]
    replaced(edition / "site" / "units" / "index.html", "All units", "Some units")
    (edition / "content" / "policy.yaml").unlink()
    (edition / "site" / "extra.txt").write_text("more", encoding="utf-8")
    result = run(content, "--verify")
    told = [line for line in result.stderr.splitlines() if line.startswith("editions/")]
    changed, missing = 1 + lines.index("site/units/index.html"), 1 + lines.index("content/policy.yaml")

    assert 1 == result.exit_code
    assert [f"editions/{NAME}/SHA256SUMS:{missing}: came no such file content/policy.yaml",
            f"editions/{NAME}/SHA256SUMS:{changed}: came other bytes in site/units/index.html"] == [
        line.split(",")[0] for line in told if "extra" not in line]
    assert 1 == sum("came the file site/extra.txt, which stands in no line" in line for line in told)


def test_verify_of_what_is_whole_says_so(content: Path) -> None:
    """All editions or one, in words and as a document; records of the guide itself may have faults."""
    replaced(content / "guide.yaml", "home_region: ie", "home_region: ei")
    count = len((content / "editions" / NAME / "SHA256SUMS").read_text(encoding="utf-8").splitlines())
    document = json.loads(run(content, "--verify", NAME, "--json").stdout)

    assert f"2026: {count} files as they were frozen\n" == run(content, "--verify").stdout
    assert [("2026", count)] == [(one["name"], one["files"]) for one in document["editions"]]


def test_verify_of_an_unknown_edition_names_those_there_are(content: Path) -> None:
    """And nothing to verify is said, too."""
    result = run(content, "--verify", "2062")

    assert (1, True) == (result.exit_code, "no edition 2062; there are 2026; did you mean 2026?" in result.stderr)
    assert "No edition is frozen yet.\n" == run(SMALL, "--verify").stdout


def test_without_a_name_it_is_wrong_use(content: Path) -> None:
    """Exit code 2."""
    result = run(content)

    assert (2, True) == (result.exit_code, "came no NAME" in result.stderr)


def test_changes_are_told_against_an_edition_by_its_name(content: Path) -> None:
    """The records that it kept; a folder counts only when it is written as a path."""
    move_on(content)
    (content / "2025").mkdir()
    told, unknown = (
        CliRunner().invoke(main, ["changes", "--content", str(content), "--against", name]) for name in (NAME, "2025")
    )

    assert told.stdout.startswith(f"Since edition 2026, printing 1, in {content}/editions/2026/content, prices of Ireland:\n")
    assert "The Tarnbeck Hearth 650 was withdrawn" in told.stdout
    assert (1, True) == (unknown.exit_code, "no edition 2025; there are 2026" in unknown.stderr)


def test_changes_are_told_against_the_youngest_edition_where_none_is_named(content: Path) -> None:
    """The same words as with its name; without any edition a sentence that says how one comes to be."""
    none = CliRunner().invoke(main, ["changes", "--content", str(SMALL)])
    move_on(content)
    named, youngest = (
        CliRunner().invoke(main, ["changes", "--content", str(content), *more]) for more in (("--against", NAME), ())
    )

    assert (0, named.stdout) == (youngest.exit_code, youngest.stdout)
    assert (1, True) == (none.exit_code, "came no edition, expected one to compare with" in none.stderr)
