"""Work done in a process of its own that has the large libraries imported already: killed, or asked for its answer.

The children come from a server that was started for them and never used: a process that has minified a file can't be
forked, because the library that does it has threads of its own, which a fork leaves behind.
"""

import os
import sys
import time
import traceback
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing import get_context
from multiprocessing.context import ForkServerProcess
from pathlib import Path

Work = Callable[[], object]
"""What a child does; it has to be found by its name, since the child is no copy of the test's process."""
CRASHED = 70
"""Exit code of a child whose work ended in a traceback."""
_SERVER = get_context("forkserver")
_SERVER.set_forkserver_preload(["guidegen.presentation", "guidegen.sources", "guidegen.press", "pytest", "bs4", "playwright.sync_api"])


@dataclass(frozen=True, slots=True)
class Answer:
    """How a child ended."""

    code: int
    """Its exit code."""
    said: str
    """Everything that it said."""


@dataclass(frozen=True, slots=True)
class Child:
    """A process at work."""

    process: ForkServerProcess
    """The process."""
    said: Path
    """The file of what it says."""

    def answer(self) -> Answer:
        """How it ends; waited for."""
        self.process.join()
        assert self.process.exitcode is not None
        return Answer(self.process.exitcode, self.said.read_text(encoding="utf-8"))

    def kill_after(self, seconds: float) -> bool:
        """Whether it was still at work after so long, and was killed."""
        time.sleep(seconds)
        self.process.kill()
        self.process.join()
        return self.process.exitcode is not None and self.process.exitcode < 0


def begun(work: Work, said: Path) -> Child:
    """A child that does this work and nothing else."""
    process = _SERVER.Process(target=_worked, args=(work, said))
    process.start()
    return Child(process, said)


def answer_to(work: Work, said: Path) -> Answer:
    """How a child ends that does this work."""
    return begun(work, said).answer()


def _worked(work: Work, said: Path) -> None:
    """The work, what it says put into a file, and left with its exit code."""
    told = os.open(said, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o666)
    for stream in (1, 2):
        os.dup2(told, stream)
    code: object = 0
    try:
        work()
    except SystemExit as left:
        code = 0 if left.code is None else left.code
    except BaseException:  # noqa: BLE001
        traceback.print_exc()
        code = CRASHED
    sys.stdout.flush()
    sys.stderr.flush()
    if not isinstance(code, int):
        os.write(2, f"{code}\n".encode())
    os._exit(code if isinstance(code, int) else 1)


def without_rights() -> None:
    """From here on the process may do what anybody may, also where the tests run as the system's own user."""
    if os.geteuid() == 0:
        os.setgroups([])
        os.setegid(65534)
        os.seteuid(65534)
