"""A build adds up, rail by rail, and refuses what can't be a computer."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.errors import RequestError
from guidegen.evaluation.sizing import build_load
from guidegen.records import PartsRecord

NAMES = ("processor.small", "graphics.small", "graphics.large", "memory.module", "drive.disk")
BUILDS = st.dictionaries(st.sampled_from(NAMES), st.integers(1, 2), min_size=1)


def test_watts_add_up_in_every_state(parts: PartsRecord) -> None:
    """90 + 40 + 2·5 W sustained, half of it typical, a tenth idle."""
    load = build_load(parts, {"processor.small": 1, "board.plain": 1, "memory.module": 2})

    assert (140.0, 70.0, 14.0) == (load.full_w, load.watts("typical"), load.idle_w)


def test_each_rail_has_its_own_sum(parts: PartsRecord) -> None:
    """90 W on 12 V, 40 W on 5 V, 10 W on 3.3 V."""
    load = build_load(parts, {"processor.small": 1, "board.plain": 1, "memory.module": 2})

    assert (90.0, 40.0, 10.0) == tuple(load.rail_watts(rail) for rail in ("12v", "5v", "3v3"))
    assert (7.5, 8.0) == (load.rail_current("12v"), load.rail_current("5v"))


def test_peaks_do_not_fall_together(parts: PartsRecord) -> None:
    """The total peak is full load with the largest single one on top: 240 + 150, not 240 + 150 + 90."""
    load = build_load(parts, {"processor.small": 1, "graphics.small": 1})

    assert 390.0 == load.peak_w
    assert [(330.0, 10.0), (390.0, 1.0)] == [(peak.power_w, peak.duration_ms) for peak in load.peaks()]


def test_pieces_of_one_class_peak_together(parts: PartsRecord) -> None:
    """Two cards run the same picture: 2·150 W more."""
    assert 600.0 == build_load(parts, {"graphics.small": 2}).peak_w


def test_the_sum_can_be_followed_line_by_line(parts: PartsRecord) -> None:
    """Part, count and watts, then the total."""
    steps = build_load(parts, {"processor.small": 1, "memory.module": 2}).steps()

    assert (
        "1 × processor small: 90 W", "2 × memory module: 2 × 5 W = 10 W", "Together at full load: 100 W",
    ) == tuple(step.replace("\N{NO-BREAK SPACE}", " ") for step in steps)


def test_plugs_are_counted(parts: PartsRecord) -> None:
    """Two disks need two drive plugs, the large processor two of its own."""
    load = build_load(parts, {"processor.large": 1, "drive.disk": 2})

    assert (2, 0, 0, 2) == tuple(load.plugs(kind) for kind in ("cpu_8", "pcie_8", "pcie_16", "sata"))


def test_an_unknown_part_is_answered_with_the_nearest_one(parts: PartsRecord) -> None:
    """One letter wrong is enough to be asked back."""
    with pytest.raises(RequestError) as raised:
        build_load(parts, {"procesor.small": 1})

    assert "no part class procesor.small; did you mean processor.small?" == str(raised.value)


def test_a_part_like_no_other_is_answered_with_all_of_them(parts: PartsRecord) -> None:
    """Where nothing is near, everything is named."""
    with pytest.raises(RequestError) as raised:
        build_load(parts, {"xyz": 1})

    assert str(raised.value).startswith("no part class xyz; known: processor.small, ")


@pytest.mark.parametrize(("name", "count", "most"), [
    ("memory.module", 65, 64), ("memory.module", 0, 64), ("memory.module", -1, 64), ("processor.small", 5, 4),
    ("graphics.large", 9, 8),
])
def test_absurd_counts_are_refused(parts: PartsRecord, name: str, count: int, most: int) -> None:
    """Nothing, less than nothing, and more than a computer holds."""
    with pytest.raises(RequestError) as raised:
        build_load(parts, {name: count})

    assert f"{count} pieces of {name}: expected 1 to {most}" == str(raised.value)


def test_a_build_of_nothing_is_refused(parts: PartsRecord) -> None:
    """No parts, no answer."""
    with pytest.raises(RequestError):
        build_load(parts, {})


@given(wanted=BUILDS, name=st.sampled_from(NAMES))
def test_one_more_part_lowers_nothing(parts: PartsRecord, wanted: dict[str, int], name: str) -> None:
    """Watts, peaks and plugs only grow."""
    less = build_load(parts, wanted)
    more = build_load(parts, {**wanted, name: wanted.get(name, 0) + 1})

    assert more.full_w > less.full_w
    assert more.idle_w >= less.idle_w
    assert more.peak_w >= less.peak_w
    assert more.plugs("sata") >= less.plugs("sata")


@given(wanted=BUILDS)
def test_the_rails_make_up_the_whole(parts: PartsRecord, wanted: dict[str, int]) -> None:
    """Nothing is counted twice or lost between the rails."""
    load = build_load(parts, wanted)

    assert load.full_w == pytest.approx(sum(load.rail_watts(rail) for rail in ("12v", "5v", "3v3")))
