"""Values as bytes and back: exactly the same, and nothing that the bytes may name is run."""

import pickle
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from guidegen.press.packing import pack, unpack
from guidegen.sources import read_library
from tests.publications import SMALL


@dataclass(frozen=True, slots=True)
class Foreign:
    """A dataclass that is none of the program's."""

    value: int


class Harm:
    """What would run a command where pickle is trusted."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def __reduce__(self) -> tuple[object, tuple[object, ...]]:
        return Path.touch, (self.path,)


def test_a_whole_library_comes_back_equal() -> None:
    """Units, sessions, prices, prose and policy, field by field."""
    library = read_library(SMALL)
    again = unpack(pack(library))

    assert library == again
    assert library.units[0] is not again.units[0]


@pytest.mark.parametrize("value", [None, True, 3, 2.5, "text", b"bytes", (1, "a"), [1, [2]], {"a": {1: 2}}, {1, 2}, frozenset({1}), date(2026, 3, 2)])
def test_plain_values_come_back_equal(value: object) -> None:
    """With their types."""
    again = unpack(pack(value))

    assert (type(value), value) == (type(again), again)


@pytest.mark.parametrize("value", [Foreign(1), Decimal(1), Path(), len])
def test_what_is_not_known_is_not_packed(value: object) -> None:
    """An error of pickle, so that who would keep the value does without."""
    with pytest.raises(pickle.PicklingError):
        pack((value,))


def test_forged_bytes_run_nothing(tmp_path: Path) -> None:
    """A callable, a class of others, a function of the program: refused by name."""
    mark = tmp_path / "mark"
    for forged in (pickle.dumps(Harm(mark)), pickle.dumps(Foreign(1)), b"cguidegen.press.packing\npack\n(I1\ntR.", b"cos\nsystem\n(S'true'\ntR."):
        with pytest.raises(pickle.UnpicklingError):
            unpack(forged)

    assert not mark.exists()


@pytest.mark.parametrize("spoilt", [b"", b"\x80", b"nonsense", pack((1, 2))[:-3]])
def test_damaged_bytes_are_an_error_of_pickle(spoilt: bytes) -> None:
    """Whatever they are."""
    with pytest.raises(pickle.UnpicklingError):
        unpack(spoilt)
