"""Every step that the press takes with files, ended by a kill or refused by the system: one whole edition stands, always.

Python tells an audit hook of each step (PEP 578), before it is taken.
"""

import os
import signal
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

from guidegen.errors import PublicationError
from guidegen.press import MANIFEST, Manifest, Press, step_back
from guidegen.press.manifests import digest_of
from tests.children import answer_to
from tests.examples import LONG
from tests.press.editions import put
from tests.tally import Tally

FIRST = {"index.html": "a", "unit/one/index.html": "one", "old/index.html": "gone soon", "data.csv": "1"}
EARLIER = {"index.html": "earlier", "unit/one/index.html": "one"}
"""The edition out of which the next is built."""
SECOND = {"index.html": "b", "unit/one/index.html": "one", "unit/two/index.html": "two", "data.csv": "2"}
NOT_OURS = {"notes/mine.txt": "mine", "unit/one/mine.txt": "mine too"}
DONE = 0
"""A run that came to its end."""


def undo(output: Path) -> None:
    """The edition before, put back."""
    press = Press.of(output)
    with press.held():
        step_back(press)


RUNS: dict[str, Callable[[Path], None]] = {"publish": partial(put, pages=SECOND), "undo": undo}


def up_to(step: int, output: Path, run: str, *, killed: bool) -> None:
    """A run that is killed at a step, or whose step the system refuses; ``PublicationError`` becomes exit 1."""
    taken = 0

    def hook(event: str, _arguments: object) -> None:
        nonlocal taken
        if event == "open" or event.startswith(("os.", "shutil.")):
            taken += 1
            if taken == step and killed:
                os.kill(os.getpid(), signal.SIGKILL)
            if taken == step:
                raise OSError(28, "No space left on device")

    sys.addaudithook(hook)
    try:
        RUNS[run](output)
    except PublicationError as error:
        sys.exit(str(error))
    finally:
        reached, step = taken >= step, -1
    if not reached:
        print("done before that step")  # noqa: T201


def pages_of(output: Path) -> dict[str, str]:
    """The edition that stands, file by file as its list says; what isn't ours is there beside it."""
    manifest = Manifest.read(output)
    assert dict(manifest.files) == {path: digest_of(output / path) for path in manifest.files}
    there = {path.relative_to(output).as_posix(): path.read_text() for path in output.rglob("*") if path.is_file()}
    assert NOT_OURS == {path: text for path, text in there.items() if path not in manifest.files and path != MANIFEST}
    return {path: there[path] for path in manifest.files}


@pytest.mark.parametrize("run", RUNS)
@pytest.mark.parametrize("killed", [True, False], ids=["killed", "refused"])
def test_each_step_may_be_the_last(tmp_path: Path, tally: Tally, run: str, killed: bool) -> None:
    """One edition or the other stands, files of others with it, and the next run does what it should."""
    met, said = set[str](), tmp_path / "said"
    for step in range(1, 1000, 1 if LONG else 3):
        output = tmp_path / str(step) / "output"
        put(output, EARLIER)
        put(output, SECOND if run == "undo" else {**EARLIER, "index.html": "before"})
        for path, text in NOT_OURS.items():
            (output / path).parent.mkdir(parents=True, exist_ok=True)
            (output / path).write_text(text)
        put(output, FIRST)
        tally.tried("steps of the press ended by a kill" if killed else "steps of the press refused by the system")
        answer = answer_to(partial(up_to, step, output, run, killed=killed), said)
        found = pages_of(output)
        met.add("first" if found == FIRST else "second" if found == SECOND else "?")
        put(output, {"index.html": "c"})

        assert {"index.html": "c"} == pages_of(output)
        assert answer.code in ({-signal.SIGKILL, DONE} if killed else {1, DONE}), answer.said
        assert {"lock", "previous"} == {path.name for path in Press.of(output).room.iterdir()} - {"spare"}
        if "done before that step" in answer.said:
            break

    assert {"first", "second"} == met
    assert step > 50
