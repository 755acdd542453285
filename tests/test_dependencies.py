"""What is installed along: bounded at both ends, and named with its licence."""

import re
import tomllib

import pytest

from tests.conftest import ROOT

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
LICENCES = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("## Licences of what is installed along", 1)[1].split("\n## ", 1)[0]


@pytest.mark.parametrize("one", PROJECT["dependencies"])
def test_a_dependency_is_bounded_and_named_with_its_licence(one: str) -> None:
    """A lower bound, an upper one, and a place in the list of licences."""
    found = re.fullmatch(r"([a-z0-9-]+)>=[0-9.]+,<[0-9]+", one)

    assert found is not None
    assert re.search(rf"\b{found[1]}\b", LICENCES)
