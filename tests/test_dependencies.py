"""What is installed along: bounded at both ends, and named with its licence."""

import re
import tomllib
from importlib.metadata import metadata
from pathlib import Path

import pytest

from guidegen.flow import publish
from guidegen.press import MANIFEST
from tests.conftest import ROOT
from tests.examples import LONG
from tests.lowest import lowest, published_on_the_lowest
from tests.publications import SMALL

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
LICENCES = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("## Licences of what is installed along", 1)[1].split("\n## ", 1)[0]

KINDS: dict[str, str] = dict(re.findall(r"([A-Z][A-Za-z0-9. -]*?): ([a-z0-9, -]+)\.", LICENCES))
"""Names of packages by the licence that the list gives them."""
SAID = {"MIT": "MIT", "BSD": "BSD", "MIT-CMU": "MIT-CMU|HPND", "PSF-based": "PSF|Python Software Foundation|matplotlib", "ZPL 2.1": "ZPL|Zope"}
"""What a package says of itself, by that licence."""


@pytest.mark.parametrize("one", PROJECT["dependencies"])
def test_a_dependency_is_bounded_and_named_with_its_licence(one: str) -> None:
    """A lower bound, an upper one, and a place in the list of licences."""
    found = re.fullmatch(r"([a-z0-9-]+)>=[0-9.]+,<[0-9]+", one)

    assert found is not None
    assert re.search(rf"\b{found[1]}\b", LICENCES)


def test_the_lowest_versions_are_named() -> None:
    """One pin for each dependency."""
    assert len(PROJECT["dependencies"]) == sum(re.fullmatch(r"[a-z0-9-]+==[0-9.]+", one) is not None for one in lowest())


@pytest.mark.parametrize("one", PROJECT["dependencies"])
def test_the_licence_is_the_one_that_the_package_names(one: str) -> None:
    """As the installed package says itself; who names none in its fields is asked by its classifiers."""
    name = re.split(">=", one)[0]
    told = metadata(name)
    fields = [value[:200] for field in ("License-Expression", "License") for value in told.get_all(field, [])]
    words = " ".join((*fields, *(value for value in told.get_all("Classifier", []) if value.startswith("License"))))
    (kind,) = (kind for kind, named in KINDS.items() if re.search(rf"\b{name}\b", named))

    assert re.search(SAID[kind], words), words


@pytest.mark.skipif(not LONG, reason="installs from the package registry; sh tests/run --long")
def test_the_lowest_versions_publish_the_same_data(tmp_path: Path) -> None:
    """Every table, record and drawing byte for byte; scripts, styles and cards may be packed otherwise by other versions."""
    publish(SMALL, tmp_path / "here")
    low = published_on_the_lowest(tmp_path)
    same = [path.relative_to(low) for path in sorted(low.rglob("*")) if path.suffix in {".csv", ".json", ".svg", ".yaml"}
            and path.name != MANIFEST]

    assert len(same) > 10
    assert [] == [path for path in same if (low / path).read_bytes() != (tmp_path / "here" / path).read_bytes()]
