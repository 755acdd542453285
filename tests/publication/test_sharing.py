"""Work shared out among processes: in order, whole, and nobody waits for one that is gone."""

import os
import signal
from functools import partial

import pytest

from guidegen.errors import PublicationError
from guidegen.publication.sharing import shared_out


def squared(place: int) -> tuple[int, str]:
    """A result that fills a line."""
    return place * place, "x" * 50_000


def ended_at(last: int, place: int) -> int:
    """A result, until the system ends the process."""
    if place == last:
        os.kill(os.getpid(), signal.SIGKILL)
    return place


@pytest.mark.parametrize("processes", [1, 2, 5])
def test_results_come_in_order(processes: int) -> None:
    """However many work, and however large the results."""
    assert [place * place for place in range(23)] == [number for number, _ in shared_out(squared, 23, processes)]


@pytest.mark.parametrize("last", [0, 7, 19])
def test_a_process_that_the_system_ends_is_said(last: int) -> None:
    """As when memory runs out; the others are ended, too."""
    with pytest.raises(PublicationError, match="as when memory runs out"):
        list(shared_out(partial(ended_at, last), 20, 3))


def test_whoever_listens_no_more_is_waited_for_by_nobody() -> None:
    """A fault on the first page ends the work of all."""
    results = shared_out(squared, 1000, 2)

    assert 0 == next(results)[0]
    results.close()  # type: ignore[attr-defined]
