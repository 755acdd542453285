"""What was made before is recalled: by the same program, of the same things, where the shelf is sound."""

import os
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from guidegen import sharing
from guidegen.press import Shelves, forget
from guidegen.press.shelves import MANY
from guidegen.recalling import Wanted


class Maker:
    """Makes a value and counts how often."""

    def __init__(self, value: object) -> None:
        self.value, self.times = value, 0

    def __call__(self) -> object:
        """The value."""
        self.times += 1
        return self.value


def ask(room: Path, *asked: tuple[str, str, Maker], program: str = "p") -> tuple[object, ...]:
    """One run that asks for some things and keeps them."""
    shelves = Shelves(room, program)
    found = tuple(shelves(shelf, key, make) for shelf, key, make in asked)
    shelves.keep()
    return found


def test_a_value_is_made_once(tmp_path: Path) -> None:
    """The second run has it from the shelf."""
    make = Maker(("a", 1))

    assert [("a", 1)] * 2 == [ask(tmp_path, ("one", "k", make))[0] for _ in range(2)]
    assert make.times == 1


def test_another_key_and_another_program_make_it_anew(tmp_path: Path) -> None:
    """What it is made of, and what makes it."""
    make = Maker(1)
    ask(tmp_path, ("one", "k", make))
    ask(tmp_path, ("one", "other", make))
    ask(tmp_path, ("one", "other", make), program="q")

    assert make.times == 3


def test_what_a_run_did_not_ask_for_is_not_kept(tmp_path: Path) -> None:
    """A key that nobody asks for goes, and so does a shelf that nobody opens."""
    make = Maker(1)
    ask(tmp_path, ("one", "a", make), ("one", "b", make), ("two", "a", make))
    ask(tmp_path, ("one", "b", make))

    assert ["one.shelf"] == [path.name for path in tmp_path.iterdir()]
    ask(tmp_path, ("one", "a", make))
    assert make.times == 4


@pytest.mark.parametrize("spoil", [lambda raw: raw[:-1], lambda raw: raw[:40] + b"x" + raw[41:], lambda _: b"", lambda raw: raw + b"x"])
def test_a_damaged_shelf_is_no_shelf(tmp_path: Path, spoil: "object") -> None:
    """Cut short, changed, empty or longer: the value is made anew and the shelf is whole again."""
    assert callable(spoil)
    make = Maker([1, 2])
    ask(tmp_path, ("one", "k", make))
    path = tmp_path / "one.shelf"
    whole = path.read_bytes()
    path.write_bytes(spoil(whole))

    assert ([1, 2],) == ask(tmp_path, ("one", "k", make))
    assert (2, whole) == (make.times, path.read_bytes())


def test_a_value_that_can_not_be_kept_is_made_each_time(tmp_path: Path) -> None:
    """No error: the run does without."""
    make = Maker(object())
    for _ in range(2):
        ask(tmp_path, ("one", "k", make))

    assert make.times == 2


def test_forgetting_leaves_no_shelf(tmp_path: Path) -> None:
    """As ``--fresh`` wants it."""
    ask(tmp_path, ("one", "k", Maker(1)))
    forget(tmp_path)

    assert [] == list(tmp_path.iterdir())


def let_share(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two processors, and no thread of the tests' own runner in the way."""
    monkeypatch.setattr(sharing, "cores", lambda: 2)
    monkeypatch.setattr(sharing, "active_count", lambda: 1)


def made_by(number: int) -> tuple[int, int]:
    """A value, and the process that made it."""
    return number, os.getpid()


def refuse() -> Any:
    """What can't be made."""
    raise ValueError("nothing to make it of")


def test_what_is_told_ahead_is_made_elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """In other processes, shelf by shelf; asked for afterwards nothing is made here, and the shelves are those of one process."""
    let_share(monkeypatch)
    makers = {name: Maker([name]) for name in "abc"}
    wanted = [Wanted(shelf, name, make) for shelf in ("one", "two") for name, make in makers.items()]
    shelves = Shelves(tmp_path / "several", "p")
    shelves.room.mkdir()
    shelves.ahead(wanted)
    found = [shelves(one.shelf, one.key, one.make) for one in wanted]
    shelves.keep()
    alone = tmp_path / "alone"
    alone.mkdir()
    ask(alone, *((one.shelf, one.key, makers[one.key]) for one in wanted))

    assert [["a"], ["b"], ["c"]] * 2 == found
    assert [2, 2, 2] == [make.times for make in makers.values()]  # alone, and not before
    assert [(alone / name).read_bytes() for name in ("one.shelf", "two.shelf")] == [
        (shelves.room / name).read_bytes() for name in ("one.shelf", "two.shelf")]


def test_many_values_of_one_shelf_are_cut_among_processes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As with the records of a large library: each is made once, elsewhere, and by more than one process."""
    let_share(monkeypatch)
    shelves = Shelves(tmp_path, "p")
    wanted = [Wanted("one", str(n), partial(made_by, n)) for n in range(2 * MANY + 1)]
    shelves.ahead(wanted)
    found = [shelves(one.shelf, one.key, refuse) for one in wanted]

    assert list(range(2 * MANY + 1)) == [n for n, _ in found]
    assert len({by for _, by in found} - {os.getpid()}) == len({by for _, by in found}) == 3


def test_what_can_not_be_made_ahead_says_why_when_it_is_asked_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another process failed; the reason is met here."""
    let_share(monkeypatch)
    shelves = Shelves(tmp_path, "p")
    shelves.ahead([Wanted("one", "k", refuse), Wanted("two", "k", Maker(1))])

    assert 1 == shelves("two", "k", refuse)
    with pytest.raises(ValueError, match="nothing to make it of"):
        shelves("one", "k", refuse)


def test_a_shelf_put_away_stands_and_may_be_opened_again(tmp_path: Path) -> None:
    """What was asked for before it was put away stays, beside what is asked for afterwards."""
    make = Maker([1])
    shelves = Shelves(tmp_path, "p")
    shelves("one", "a", make)
    shelves.done("one")
    standing = [path.name for path in tmp_path.iterdir()]
    shelves("one", "b", make)
    shelves.keep()
    ask(tmp_path, ("one", "a", make), ("one", "b", make))

    assert (["one.shelf"], 2) == (standing, make.times)


def test_a_value_apart_is_at_hand_at_once_and_in_the_next_run(tmp_path: Path) -> None:
    """Any process that asks writes it down by itself; no run has to keep it."""
    make = Maker(("frame", 1))

    assert [("frame", 1)] * 3 == [Shelves(tmp_path, "p").apart("k", make) for _ in range(3)]
    assert make.times == 1
    assert Shelves(tmp_path, "p").apart("another", Maker(2)) == 2


def test_values_apart_of_another_program_go(tmp_path: Path) -> None:
    """They are made anew, and the old ones are no longer there when the run is kept."""
    make = Maker(1)
    for program in ("p", "q", "p"):
        shelves = Shelves(tmp_path, program)
        shelves.apart("k", make)
        shelves.keep()

    assert make.times == 3
    assert ["apart-p"] == [path.name for path in tmp_path.iterdir()]


@pytest.mark.parametrize("damage", [lambda body: body[:-1], lambda body: body[:-1] + b"\0", lambda _: b""])
def test_a_damaged_value_apart_is_made_anew(tmp_path: Path, damage: Callable[[bytes], bytes]) -> None:
    """Cut, changed or empty."""
    make = Maker(("a", 1))
    Shelves(tmp_path, "p").apart("k", make)
    file = next(tmp_path.glob("apart-*/*"))
    file.write_bytes(damage(file.read_bytes()))

    assert Shelves(tmp_path, "p").apart("k", make) == ("a", 1)
    assert make.times == 2
    assert Shelves(tmp_path, "p").apart("k", make) == ("a", 1)
    assert make.times == 2


def test_a_value_apart_that_finds_no_room_is_given_all_the_same(tmp_path: Path) -> None:
    """A file where its folder should be."""
    (tmp_path / "apart-p").write_text("")

    assert Shelves(tmp_path, "p").apart("k", Maker(1)) == 1


def test_values_apart_are_forgotten_with_the_others(tmp_path: Path) -> None:
    """``--fresh`` believes nothing."""
    make = Maker(1)
    Shelves(tmp_path, "p").apart("k", make)
    forget(tmp_path)
    Shelves(tmp_path, "p").apart("k", make)

    assert make.times == 2
