"""Work shared out among processes that are copies of this one; each takes a part, hands its results over and takes the next.

A process that the system ends, as it does when memory runs out, is noticed by its line falling silent: nobody waits for it.
"""

from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from itertools import islice
from multiprocessing import get_all_start_methods, get_context
from multiprocessing.connection import Connection, wait
from os import cpu_count
from threading import active_count
from typing import TypeVar

from guidegen.errors import PublicationError

T = TypeVar("T")


def processes_for(parts: int) -> int:
    """How many processes may work off so many parts: 1, which is this one itself, where no other may be begun.

    That needs a system that knows processes which begin as copies. A process with other threads, such as the preview, does
    all itself: what these hold locked would stay so in a copy.
    """
    alone = "fork" not in get_all_start_methods() or active_count() > 1
    return 1 if alone else max(1, min(cpu_count() or 1, parts))


def slices(count: int, pieces: int) -> tuple[range, ...]:
    """The places from 0 to ``count`` in so many runs of neighbours, as even as can be.

    >>> slices(5, 2)
    (range(0, 2), range(2, 5))
    """
    return tuple(range(count * one // pieces, count * (one + 1) // pieces) for one in range(pieces))


def shared_out(work: Callable[[int], T], parts: Sequence[range], processes: int) -> Iterator[tuple[int, T]]:
    """Every place of the parts with its result, as they come; raises ``PublicationError`` where a process ended.

    A part is worked off by one process, in its order: what one place computes is at hand for the next.
    """
    fork = get_context("fork")
    left = iter(parts)
    lines: list[Connection] = []
    at_work = []
    try:
        for first in islice(left, processes):
            line, end = fork.Pipe()
            lines.append(line)
            one = fork.Process(target=_worked_off, args=(work, end, tuple(lines)), daemon=True)
            one.start()
            end.close()  # held by that process alone, so that the line falls silent when it ends
            at_work.append(one)
            line.send(first)
        busy = list(lines)
        while busy:
            spoken = wait(busy)
            for line in [one for one in busy if one in spoken]:
                told = line.recv()
                if told is not None:
                    yield told
                    continue
                part = next(left, None)
                line.send(part)
                if part is None:
                    busy.remove(line)
    except (EOFError, OSError) as error:
        raise PublicationError("a process that makes pages ended before its work was done, as when memory runs out, expected it "
                               "to end with its last page; what was published stands as it was") from error
    finally:
        for line in lines:
            line.close()
        for one in at_work:
            one.terminate()
            one.join()


def _worked_off(work: Callable[[int], T], end: Connection, lines: tuple[Connection, ...]) -> None:
    """Parts taken from the line and results put on it one by one; silence where nobody listens any more."""
    for line in lines:
        line.close()
    with suppress(OSError, EOFError, KeyboardInterrupt):
        while (part := end.recv()) is not None:
            for place in part:
                end.send((place, work(place)))
            end.send(None)
