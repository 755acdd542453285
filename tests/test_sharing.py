"""Work shared out among processes: whole, part by part, and nobody waits for one that is gone."""

import os
import signal
from functools import partial

import pytest

from guidegen.errors import PublicationError
from guidegen.sharing import shared_out, slices


def squared(place: int) -> tuple[int, str]:
    """A result that fills a line."""
    return place * place, "x" * 50_000


def ended_at(last: int, place: int) -> int:
    """A result, until the system ends the process."""
    if place == last:
        os.kill(os.getpid(), signal.SIGKILL)
    return place


def at_work(place: int) -> tuple[int, int]:
    """Who did it."""
    return place, os.getpid()


@pytest.mark.parametrize(("processes", "pieces"), [(1, 1), (2, 2), (2, 23), (5, 7)])
def test_every_place_comes_once(processes: int, pieces: int) -> None:
    """However many work, in however many parts, and however large the results."""
    told = list(shared_out(squared, slices(23, pieces), processes))

    assert list(range(23)) == sorted(place for place, _ in told)
    assert all(number == place * place for place, (number, _) in told)


def test_a_part_is_worked_off_by_one_process_in_its_order() -> None:
    """What a part has in common is computed once."""
    told = [result for _, result in shared_out(at_work, slices(30, 6), 2)]

    for part in slices(30, 6):
        done = [(place, by) for place, by in told if place in part]
        assert [place for place, _ in done] == list(part)
        assert 1 == len({by for _, by in done})


def test_more_processes_than_parts_are_no_harm() -> None:
    """Those without a part end at once."""
    assert {(0, 0), (1, 1)} == {(place, number) for place, (number, _) in shared_out(squared, slices(2, 2), 4)}


@pytest.mark.parametrize("last", [0, 7, 19])
def test_a_process_that_the_system_ends_is_said(last: int) -> None:
    """As when memory runs out; the others are ended, too."""
    with pytest.raises(PublicationError, match="as when memory runs out"):
        list(shared_out(partial(ended_at, last), slices(20, 7), 3))


def test_whoever_listens_no_more_is_waited_for_by_nobody() -> None:
    """A fault on the first page ends the work of all."""
    results = shared_out(squared, slices(1000, 2), 2)

    place, (number, _) = next(results)

    assert number == place * place
    results.close()  # type: ignore[attr-defined]
