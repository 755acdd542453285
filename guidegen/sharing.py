"""Work shared out among processes that are copies of this one; each does a part, hands its results over and ends.

A process that the system ends, as it does when memory runs out, is noticed by its line falling silent: nobody waits for it.
"""

import gc
import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from itertools import islice
from multiprocessing import get_all_start_methods, get_context
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from threading import active_count
from typing import TypeVar

from guidegen.errors import PublicationError

T = TypeVar("T")
OFTEN = (100_000, 20, 100)
"""When a process that shares in the work looks for garbage: what reads records leaves some."""


def cores() -> int:
    """How many processors this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def processes_for(parts: int) -> int:
    """How many processes may work off so many parts: 1, which is this one itself, where no other may be begun.

    That needs a system that knows processes which begin as copies. A process with other threads, such as the preview, does
    all itself: what these hold locked would stay so in a copy.
    """
    alone = "fork" not in get_all_start_methods() or active_count() > 1
    return 1 if alone else max(1, min(cores(), parts))


def slices(count: int, pieces: int) -> tuple[range, ...]:
    """The places from 0 to ``count`` in so many runs of neighbours, as even as can be.

    >>> slices(5, 2)
    (range(0, 2), range(2, 5))
    """
    return tuple(range(count * one // pieces, count * (one + 1) // pieces) for one in range(pieces))


def shared_out(work: Callable[[int], T], parts: Sequence[range], processes: int) -> Iterator[tuple[int, T]]:
    """Every place of the parts with its result, as they come; raises ``PublicationError`` where a process ended.

    Each part has a process of its own, so many at a time: what one place computes is at hand for the next, and its memory
    is free again with the part.
    """
    left = iter(parts)
    busy: dict[Connection, BaseProcess] = {}
    try:
        for part in islice(left, processes):
            _begin(work, part, busy)
        while busy:
            spoken = wait(busy)
            for line in [one for one in busy if one in spoken]:
                told = line.recv()
                if told is not None:
                    yield told
                    continue
                line.close()
                busy.pop(line).join()
                for part in islice(left, 1):
                    _begin(work, part, busy)
    except (EOFError, OSError) as error:
        raise PublicationError("a process that makes pages ended before its work was done, as when memory runs out, expected it "
                               "to end with its last page; what was published stands as it was") from error
    finally:
        for line, one in busy.items():
            line.close()
            one.terminate()
            one.join()


def _begin(work: Callable[[int], T], part: range, busy: dict[Connection, BaseProcess]) -> None:
    """One more process at work."""
    fork = get_context("fork")
    line, end = fork.Pipe(duplex=False)
    one = fork.Process(target=_worked_off, args=(work, part, end, (line, *busy)), daemon=True)
    one.start()
    end.close()  # held by that process alone, so that the line falls silent when it ends
    busy[line] = one


def _worked_off(work: Callable[[int], T], part: range, end: Connection, lines: tuple[Connection, ...]) -> None:
    """Results put on the line one by one, and nothing when all is done; silence where nobody listens any more.

    What the process was born with is no garbage: looking through it would take long and copy its memory.
    """
    gc.freeze()
    gc.set_threshold(*OFTEN)
    for line in lines:
        line.close()
    with suppress(OSError, KeyboardInterrupt):
        for place in part:
            end.send((place, work(place)))
        end.send(None)
