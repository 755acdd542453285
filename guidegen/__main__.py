"""The process ``guidegen``: a command, and what only a process of its own may do for speed."""

import atexit
import gc
import os
import sys
from contextlib import suppress

from guidegen.cli import main

SELDOM = (1_000_000, 20, 100)
"""When the process looks for garbage: Python's own numbers looked a tenth of the time, and the most memory was the same. What
there is comes from the reading of records, which other processes do (``sharing.OFTEN``) where there are any.
"""


def run() -> None:
    """The command that was asked for, and the end of the process with its exit code.

    A run makes hardly any garbage and holds so much that looking for it takes long; so does taking apart at the end what it
    holds: a seventh of a publication in which little changed. The system takes the memory back as it is.
    """
    gc.set_threshold(*SELDOM)
    ended: list[int] = []
    atexit.register(_leave, ended)  # the first to be registered is the last to be called: libraries end in their own way before
    try:
        main()
    except SystemExit as end:
        if isinstance(end.code, int):
            ended.append(end.code)
        raise


def _leave(ended: list[int]) -> None:
    """Leave at once with the code of a command that ended; words that can't be told any more are left to Python to complain of."""
    if ended:
        with suppress(OSError, ValueError):
            sys.stdout.flush()
            sys.stderr.flush()
            os._exit(ended[0])


if __name__ == "__main__":
    run()
