"""The usual cautions are all there, each with its source."""

import pytest

from guidegen.evaluation.sizing import CAUTIONS


@pytest.mark.parametrize(("name", "word"), [
    ("opening", "Never open"), ("modular_cables", "modular cables"), ("fully_seated", "latch"), ("adapters", "splitters"),
    ("extension_leads", "extension lead"), ("circuit", "qualified electrician"), ("earthing", "earth pin"),
])
def test_a_caution_is_there(name: str, word: str) -> None:
    """By name and by what it warns of."""
    assert [True] == [word in caution.text for caution in CAUTIONS if caution.id == name]


def test_every_caution_names_its_source() -> None:
    """Or says that there is none; and no two are the same."""
    assert all(caution.source for caution in CAUTIONS)
    assert len(CAUTIONS) == len({caution.id for caution in CAUTIONS})


def test_local_codes_come_first() -> None:
    """The limit of the circuit is theirs to set."""
    circuit = next(caution for caution in CAUTIONS if caution.id == "circuit")

    assert "local codes decide" in circuit.text
