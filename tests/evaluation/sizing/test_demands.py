"""Plugs, circuit and the supply for outages."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.evaluation.sizing import (
    Plugs,
    build_load,
    circuit_demand,
    circuit_limit_w,
    plugs_of,
    rides_through,
    ups_demand,
)
from guidegen.records import Library, PartsRecord, Region


@pytest.fixture
def home(small_library: Library) -> Region:
    """The small edition's home region, on a 16 A circuit at 230 V."""
    return replace(small_library.guide.regions[0], mains_voltage_v=230.0, circuit_a=16.0)


def test_plugs_follow_from_the_parts(parts: PartsRecord) -> None:
    """Two plugs for the large processor, one 16-pin for the card, two for the disks."""
    build = build_load(parts, {"processor.large": 1, "graphics.large": 1, "drive.disk": 2})

    assert Plugs(cpu_8=2, pcie_16=1, sata=2) == plugs_of(build)


def test_missing_plugs_are_named(small_library: Library) -> None:
    """Two processor plugs and two graphics plugs are in the box; a third and any 16-pin plug are not."""
    unit = next(u for u in small_library.units if u.id == "ostrevant-cairn-550")

    assert () == Plugs(cpu_8=2, pcie_8=2).missing_from(unit)
    assert ("2 more 8-pin graphics plugs", "1 more 16-pin graphics plug") == Plugs(pcie_8=4, pcie_16=1).missing_from(unit)


def test_the_larger_count_of_each_kind_is_kept() -> None:
    """What the parts need and what the reader wishes for."""
    assert Plugs(cpu_8=2, sata=4) == Plugs(cpu_8=2, sata=1).at_least(Plugs(cpu_8=1, sata=4))


def test_plugs_in_a_sentence() -> None:
    """One is one, two are many."""
    assert ("2 8-pin processor plugs and 1 drive plug", "") == (Plugs(cpu_8=2, sata=1).words, Plugs().words)


def test_a_computer_within_its_circuit_leaves_the_rest_to_others(home: Region) -> None:
    """736 W of 2944 W."""
    found = circuit_demand(736.0, home)

    assert (True, 0.25) == (found.fits, found.share)
    assert "takes 25\N{NO-BREAK SPACE}% of that" in found.sentence
    assert "qualified electrician" in found.sentence


def test_a_computer_beyond_its_circuit_is_told_not_to_run_there(home: Region) -> None:
    """1441 W on 15 A at 120 V."""
    found = circuit_demand(1441.0, replace(home, circuit_a=15.0), mains_v=120.0)

    assert not found.fits
    assert "Do not run it there; ask a qualified electrician." in found.sentence


@given(st.floats(50, 300), st.floats(1, 64))
def test_the_limit_leaves_a_fifth_of_the_breaker(mains_v: float, breaker_a: float) -> None:
    """Continuous load at 125 % fills the breaker exactly."""
    assert mains_v * breaker_a == pytest.approx(1.25 * circuit_limit_w(mains_v, breaker_a))


def test_an_uninterruptible_supply_needs_watts_and_volt_amperes() -> None:
    """720 W at a power factor of 0.9: 900 W and 1000 VA when loaded to 80 % (common practice, no source)."""
    found = ups_demand(720.0, power_factor=0.9, hold_up_ms=17.0)

    assert [900.0, 1000.0] == pytest.approx([found.rated_w, found.rated_va])
    assert "within 17.0\N{NO-BREAK SPACE}ms" in found.sentence


def test_without_a_measured_hold_up_nothing_is_promised() -> None:
    """No figure, no sentence about switching over."""
    assert "switch over" not in ups_demand(500.0).sentence


@given(st.floats(0, 50), st.floats(0, 50))
def test_a_computer_rides_through_what_is_shorter_than_its_hold_up(hold_up_ms: float, transfer_ms: float) -> None:
    """And through nothing as long as that."""
    assert rides_through(hold_up_ms, transfer_ms) == (hold_up_ms > transfer_ms)
