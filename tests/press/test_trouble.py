"""What can go wrong with disks, rights, clocks and neighbours: a sentence, exit 1, and what was published stays whole."""

import os
import resource
import shutil
import stat
import tempfile
import time
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

import pytest

from guidegen.cli import main
from guidegen.flow import publish
from guidegen.press import Press
from guidegen.sources import folders, library
from tests.children import answer_to, begun, without_rights
from tests.publications import TwoStates, stands
from tests.tally import Tally

NOT_OURS = {"CNAME": b"psu.example\n", "notes/private.txt": b"mine", "unit/readme.txt": b"mine too", ".htaccess": b"Deny"}
"""Files of others in the published folder."""
YEAR_NS = 400 * 86_400_000_000_000
Setting = Callable[[Path, Path], None]


def published(content: Path, output: Path, setting: Setting | None = None) -> None:
    """The command itself, in the process that calls this; ``setting`` first makes trouble."""
    if setting is not None:
        setting(content, output)
    main(["publish", "--quiet", "--content", str(content), "--output", str(output)])


def lies(output: Path) -> dict[str, tuple[bytes, int, int]]:
    """Content, rights and time of change of every file of others, and the rights of their folder."""
    found = {path: output / path for path in NOT_OURS}
    lain = {path: (at.read_bytes(), stat.S_IMODE(at.stat().st_mode), at.stat().st_mtime_ns) for path, at in found.items()}
    return lain | {"notes": (b"", stat.S_IMODE((output / "notes").stat().st_mode), 0)}


@pytest.fixture
def output(guide: TwoStates) -> Iterator[Path]:
    """The first state published beside files of others, in a place that anybody may reach."""
    with tempfile.TemporaryDirectory() as place:
        Path(place).chmod(0o755)
        output = Path(place, "output")
        for path, content in NOT_OURS.items():
            (output / path).parent.mkdir(parents=True, exist_ok=True)
            (output / path).write_bytes(content)
        (output / "notes").chmod(0o700)
        publish(guide.states[0], output)
        yield output


def no_room(_content: Path, _output: Path) -> None:
    """No file may grow beyond four kilobytes, so that the system refuses to write on, as on a full disk."""
    resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))


def no_rights(content: Path, _output: Path) -> None:
    """The folder is another user's."""
    os.chdir(content.parent)
    without_rights()


def vanishing(content: Path, _output: Path) -> None:
    """A record goes between the walk and the reading."""
    walk = folders.walk

    def walked(folder: Path) -> folders.Folder:
        found = walk(folder)
        (content / "units" / "tarnbeck-kiln-650" / "unit.yaml").unlink()
        return found

    setattr(library, "walk", walked)  # noqa: B010


def not_to_be_looked_into(_content: Path, output: Path) -> None:
    """A folder of somebody else's among the pages that the system doesn't let us look into."""
    scandir = os.scandir

    def scanned(path: str | Path = ".") -> object:
        if str(path) == str(output / "notes"):
            raise PermissionError(13, "Permission denied", str(path))
        return scandir(path)

    setattr(os, "scandir", scanned)  # noqa: B010


def back(_content: Path, _output: Path) -> None:
    """The clock goes wrong by a year and a month, into the past."""
    now = time.time_ns
    time.time_ns = lambda: now() - YEAR_NS


def ahead(_content: Path, _output: Path) -> None:
    """The same, into the future."""
    now = time.time_ns
    time.time_ns = lambda: now() + YEAR_NS


def no_names(_content: Path, _output: Path) -> None:
    """The disk takes no further name."""
    def full(self: Path, _target: Path) -> Path:
        raise OSError(28, "No space left on device", str(self))

    setattr(Path, "rename", full)  # noqa: B010


TROUBLES: dict[str, tuple[Setting, str]] = {
    "no room": (no_room, "File too large, expected to write there"),
    "no rights": (no_rights, "Permission denied"),
    "no names": (no_names, "No space left on device"),
    "a file gone": (vanishing, "unit.yaml: came a file that can't be read (no such file or directory), expected a readable file"),
    "a folder not to be looked into": (not_to_be_looked_into, "notes: came Permission denied"),
}
"""What goes wrong, and what is said."""


@pytest.mark.parametrize("name", TROUBLES)
def test_trouble_is_a_sentence_and_the_last_edition_stays(
    guide: TwoStates, output: Path, tmp_path: Path, tally: Tally, name: str,
) -> None:
    """Exit 1, every byte as it was, also what isn't ours; and when the trouble is over, a run needs no help."""
    setting, said = TROUBLES[name]
    content = Path(shutil.copytree(guide.states[1], output.parent / "content"))
    before, lain = stands(output, frozenset(NOT_OURS)), lies(output)
    tally.tried("troubles with disk, rights, clock and neighbours")
    answer = answer_to(partial(published, content, output, setting), tmp_path / "said")
    after = stands(output, frozenset(NOT_OURS))
    healed = answer_to(partial(published, guide.states[1], output), tmp_path / "said")

    assert said in answer.said
    assert (1, False) == (answer.code, "Traceback" in answer.said)
    assert before == after
    assert (0, lain) == (healed.code, lies(output))
    assert stands(output, frozenset(NOT_OURS)) in guide.editions - {before}


@pytest.mark.parametrize("setting", [back, ahead])
def test_a_clock_that_is_set_changes_nothing(guide: TwoStates, output: Path, tmp_path: Path, tally: Tally, setting: Setting) -> None:
    """Published last year, or with records from next year: the edition that the content says."""
    content = Path(shutil.copytree(guide.states[1], tmp_path / "content"))
    for path in content.rglob("*.*"):
        os.utime(path, ns=(time.time_ns() + YEAR_NS,) * 2)
    tally.tried("troubles with disk, rights, clock and neighbours")
    first = answer_to(partial(published, content, output, setting), tmp_path / "said")
    between = stands(output, frozenset(NOT_OURS))
    second = answer_to(partial(published, guide.states[0], output), tmp_path / "said")

    assert (0, 0) == (first.code, second.code), (first.said, second.said)
    assert guide.editions == {between, stands(output, frozenset(NOT_OURS))}


def test_a_folder_on_another_file_system_is_reached_through_a_link(guide: TwoStates, tmp_path: Path, tally: Tally) -> None:
    """The press stands where the link leads; a folder that is a file system of its own is refused in a sentence."""
    shared = Path("/dev/shm")  # noqa: S108
    tally.tried("troubles with disk, rights, clock and neighbours", 2)
    with tempfile.TemporaryDirectory(dir=shared) as place:
        (tmp_path / "output").symlink_to(Path(place, "site"))
        answers = [answer_to(partial(published, state, tmp_path / "output"), tmp_path / "said") for state in guide.states]
        found = stands(Path(place, "site"))
        still_a_link = (tmp_path / "output").is_symlink()
    own = answer_to(partial(published, guide.states[0], Path("/proc")), tmp_path / "said")

    assert [0, 0] == [answer.code for answer in answers], answers
    assert still_a_link
    assert found in guide.editions
    assert (1, True) == (own.code, "came a file system of its own, expected a folder on one" in own.said)
    assert shared.stat().st_dev != tmp_path.stat().st_dev


def test_commands_at_once_end_whole(guide: TwoStates, output: Path, tmp_path: Path, tally: Tally) -> None:
    """Three processes publish two states into one folder: each succeeds or says who holds it, and one edition stands."""
    tally.tried("commands at once", 6)
    answers = []
    for _ in range(2):
        children = [begun(partial(published, guide.states[i % 2], output), tmp_path / f"said-{i}") for i in range(3)]
        answers += [child.answer() for child in children]
        assert stands(output, frozenset(NOT_OURS)) in guide.editions

    assert {0} <= {answer.code for answer in answers} <= {0, 1}, answers
    assert all("came another guidegen at work there" in answer.said for answer in answers if answer.code)
    assert not Press.of(output).building.exists()
