"""Addresses that were published once, held against the pages there are."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from guidegen.presentation.permanence import broken_promises
from guidegen.records import EditionRecord, FrozenBracket, FrozenEdition, FrozenUnit, Library, ListedFile, Moved
from guidegen.sources import read_library

SMALL = Path(__file__).parent.parent / "small_edition" / "content"
PAGES = ("", "unit/ostrevant-cairn-550/", "unit/new-name/", "watts/550/", "404.html")


@pytest.fixture(scope="module")
def library() -> Library:
    """The small edition with an earlier edition of two units and a page that it no longer has."""
    record = EditionRecord(
        format=1, name="2025", title="The small bench", edition="2025", printing=1, date=date(2025, 4, 1),
        public_address="https://guide.example/archive/2025/", home_region="ie", program="guidegen 0", libraries={}, build="0", sessions=2,
        units=(FrozenUnit(id="ostrevant-cairn-550", maker="Ostrevant", model="Cairn 550", bracket="550"),
               FrozenUnit(id="old-name", maker="Ostrevant", model="Dune 550", bracket="550")),
        brackets=(FrozenBracket(id="500", title="500 W"),),
    )
    paths = ("edition.json", "site/index.html", "site/unit/old-name/index.html", "site/unit/ostrevant-cairn-550/index.html",
             "site/watts/500/index.html")
    edition = FrozenEdition(file="editions/2025/edition.json", record=record, files=tuple(ListedFile(path=p, digest="0" * 64) for p in paths))
    return replace(read_library(SMALL), editions=(edition,))


def told(library: Library, *moved: tuple[str, str]) -> list[str]:
    """The faults with some addresses led on."""
    led_on = tuple(Moved(from_address=old, to_address=new) for old, new in moved)
    return [fault.message for fault in broken_promises(replace(library, guide=replace(library.guide, moved=led_on)), PAGES, tuple(old for old, _ in moved))]


def test_every_lost_address_is_told_with_the_edition_that_published_it(library: Library) -> None:
    """A unit by its record, another page by the line of the list of files."""
    unit, bracket = told(library)

    assert unit.startswith("units/old-name/unit.yaml: came no such unit, expected the unit Ostrevant Dune 550, whose address was published "
                           "in edition 2025 (editions/2025/SHA256SUMS:3)")
    assert bracket.startswith("editions/2025/SHA256SUMS:5: came the address watts/500/, which the guide has no more")
    assert bracket.endswith("did you mean watts/550/?")


def test_addresses_that_are_led_on_are_kept(library: Library) -> None:
    """To a page that there is."""
    assert [] == told(library, ("unit/old-name/", "unit/new-name/"), ("watts/500/", "watts/550/"))


@pytest.mark.parametrize(("moved", "said"), [
    (("unit/old-name/", "unit/nwe-name/"), ("guide.yaml, moved[1].to_address: came unit/nwe-name/, which is no page of the guide, "
     "expected the address of one, such as unit/new-name/; did you mean unit/new-name/?")),
    (("unit/old-name/", "404.html"),
     "guide.yaml, moved[1].to_address: came 404.html, which is no page of the guide, expected the address of one, such as unit/new-name/"),
    (("unit/new-name/", ""), "guide.yaml, moved[1].from_address: came unit/new-name/, expected an address without a page of its own"),
    (("watts/500/", ""), "guide.yaml, moved[1].from_address: came watts/500/ a second time, expected each former address once"),
    (("../x/", ""), "guide.yaml, moved[1].from_address: came ../x/, expected a former address of a page, such as unit/old-name/"),
    (("unit/a", ""), "guide.yaml, moved[1].from_address: came unit/a, expected a former address of a page, such as unit/old-name/; did you mean unit/a/?"),
    (("archive/2025/", ""), "guide.yaml, moved[1].from_address: came archive/2025/, expected a former address of a page"),
])
def test_an_address_that_can_not_be_led_on_is_told(library: Library, moved: tuple[str, str], said: str) -> None:
    """Where it stands in the guide's list."""
    faults = [fault for fault in told(library, ("watts/500/", "watts/550/"), moved) if fault.startswith("guide.yaml")]

    assert 1 == len(faults)
    assert faults[0].startswith(said)


def test_an_identifier_belongs_to_its_unit(library: Library) -> None:
    """Another maker under a published identifier."""
    renamed = tuple(replace(unit, record=replace(unit.record, maker="Sallow")) if unit.id == "ostrevant-cairn-550" else unit
                    for unit in library.units)
    faults = told(replace(library, units=renamed), ("unit/old-name/", ""), ("watts/500/", ""))

    assert [("units/ostrevant-cairn-550/unit.yaml, maker: came Sallow Cairn 550, expected Ostrevant Cairn 550, as edition 2025 published it "
            "under this identifier; an identifier is never used again, another unit takes a folder of its own")] == faults
