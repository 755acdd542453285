"""What was made before is recalled: by the same program, of the same things, where the shelf is sound."""

from pathlib import Path

import pytest

from guidegen.press import Shelves, forget


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
