"""Words for the short names in records: one for each that a record may hold."""

from typing import get_args

from bs4 import BeautifulSoup

from guidegen.presentation.names import READINGS, STANDINGS
from guidegen.records import InstrumentQuantity


def test_every_reading_and_every_standing_has_words() -> None:
    """A power factor is no power and a fan's speed no fan."""
    assert set(get_args(InstrumentQuantity)) == set(READINGS)
    assert len(READINGS) == len({title for title, _ in READINGS.values()})
    assert {"seen", "second_hand", "from_memory", "house_rule", "computed"} == set(STANDINGS)


def test_the_table_of_instruments_says_what_each_reads(pages: dict[str, BeautifulSoup]) -> None:
    """The demo's power analyser reads a power factor, without a unit."""
    rows = [[cell.get_text(" ", strip=True) for cell in row.select("td, th")] for row in pages["how-we-test/index.html"].select("#instruments tr")]
    found = [row for row in rows if row[0] == "power analyser"]

    assert ["input power", "power factor", "standby power"] == [row[1] for row in found]
    assert "0.002" == found[1][3]


def test_an_energy_balance_is_no_document_that_was_read(pages: dict[str, BeautifulSoup]) -> None:
    """It is the lab's own sum by a law of physics."""
    text = pages["unit/norvane-plain-450/index.html"].get_text(" ", strip=True)

    assert "P·t/η) (our own calculation)" in text
