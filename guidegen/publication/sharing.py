"""Work shared out among processes that are copies of this one; each hands its results over on a line of its own.

A process that the system ends, as it does when memory runs out, is noticed by its line falling silent: nobody waits for it.
"""

from collections.abc import Callable, Iterator
from contextlib import suppress
from multiprocessing import get_all_start_methods, get_context
from multiprocessing.connection import Connection
from threading import active_count
from typing import TypeVar

from guidegen.errors import PublicationError

T = TypeVar("T")


def can_share() -> bool:
    """Whether the system knows processes that begin as copies, and this one may be copied.

    A process with other threads, such as the preview, does all itself: what these hold locked would stay so in a copy.
    """
    return "fork" in get_all_start_methods() and active_count() == 1


def shared_out(work: Callable[[int], T], count: int, processes: int) -> Iterator[T]:
    """The results of ``work(0)``, ``work(1)`` and so on, in this order; raises ``PublicationError`` where a process ended."""
    fork = get_context("fork")
    lines: list[Connection] = []
    at_work = []
    try:
        for first in range(processes):
            line, end = fork.Pipe(duplex=False)
            lines.append(line)
            one = fork.Process(target=_worked_off, args=(work, range(first, count, processes), end, tuple(lines)), daemon=True)
            one.start()
            end.close()  # held by that process alone, so that the line falls silent when it ends
            at_work.append(one)
        for place in range(count):
            yield lines[place % processes].recv()
    except EOFError as error:
        raise PublicationError("a process that makes pages ended before its work was done, as when memory runs out, expected it "
                               "to end with its last page; what was published stands as it was") from error
    finally:
        for line in lines:
            line.close()
        for one in at_work:
            one.terminate()
            one.join()


def _worked_off(work: Callable[[int], T], places: range, end: Connection, lines: tuple[Connection, ...]) -> None:
    """Results put on the line one by one; silence where nobody listens any more."""
    for line in lines:
        line.close()
    with suppress(BrokenPipeError, KeyboardInterrupt):
        for place in places:
            end.send(work(place))
