"""The load strip."""

import re
from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.presentation.charts import LoadStrip, StripBand, strip_legend, strip_of
from guidegen.presentation.charts.load_strip import ROW, density, stops

SVG = "{http://www.w3.org/2000/svg}"
SHARES = st.lists(st.tuples(st.integers(0, 110), st.floats(0, 2)), min_size=2, max_size=30,
                  unique_by=lambda pair: pair[0]).map(lambda pairs: tuple((float(x), y) for x, y in sorted(pairs)))


def ink(svg: str, index: int) -> list[tuple[float, float]]:
    """Offset and opacity of the stops of a band."""
    gradient = ET.fromstring(svg).findall(f".//{SVG}linearGradient")[index]
    return [(float(stop.get("offset", "")), float(stop.get("stop-opacity", ""))) for stop in gradient]


def with_band(strip: LoadStrip, shares: tuple[tuple[float, float], ...]) -> LoadStrip:
    """The strip with one band of these shares."""
    return replace(strip, bands=(StripBand(title="Ripple", shares=shares),))


def test_one_gradient_a_measured_band(load_strip: LoadStrip) -> None:
    """Two of three bands are measured: two gradients, one outline."""
    root = ET.fromstring(strip_of(load_strip).svg)
    assert (len(root.findall(f".//{SVG}linearGradient")), len(root.findall(f".//{SVG}path[@class='s-frame']"))) == (2, 1)


@settings(max_examples=30, deadline=None)
@given(SHARES.map(lambda shares: tuple(zip((x for x, _ in shares), sorted(y for _, y in shares), strict=True))))
def test_ink_grows_with_the_share(shares: tuple[tuple[float, float], ...]) -> None:
    """Rising shares give rising opacity, at rising offsets from 0 to 1."""
    strip = LoadStrip(id="u", name="Unit", bands=(StripBand(title="Ripple", shares=shares),))
    offsets, opacities = zip(*ink(strip_of(strip).svg, 0), strict=True)
    assert (list(opacities), list(offsets)) == (sorted(opacities), sorted(offsets))
    assert (offsets[0], offsets[-1]) == (0.0, 1.0)


@given(st.floats(0, 3), st.floats(0, 3))
def test_density_never_falls(one: float, other: float) -> None:
    """More of the limit is never less ink, and ink ends at the limit."""
    assert density(min(one, other)) <= density(max(one, other)) <= 1


@settings(max_examples=30, deadline=None)
@given(SHARES)
def test_stops_keep_the_ends_and_are_few(shares: tuple[tuple[float, float], ...]) -> None:
    """At most eleven stops, and a band's ends are where it was measured."""
    kept = stops(shares)
    assert len(kept) <= 11
    assert (shares[0][0], shares[-1][0]) == pytest.approx((kept[0][0], kept[-1][0]))


def test_beyond_the_limit_is_hatched_where_it_begins(load_strip: LoadStrip) -> None:
    """A band that crosses its limit half way between two loads is hatched from there on."""
    svg = strip_of(with_band(load_strip, ((0.0, 0.5), (50.0, 0.5), (90.0, 1.5)))).svg
    begin = re.search(r'd="M([\d.]+) [^"]*" fill="url\(#stp-over\)"', svg)
    assert begin is not None
    assert ROW.at(70) == pytest.approx(float(begin.group(1)), abs=0.05)


def test_ink_is_full_where_the_limit_is_crossed(load_strip: LoadStrip) -> None:
    """The gradient reaches full ink at the crossing and not at the next measured load."""
    assert ink(strip_of(with_band(load_strip, ((0.0, 0.5), (100.0, 1.5)))).svg, 0) == [(0.0, 0.53), (0.5, 1.0), (1.0, 1.0)]


def test_within_the_limit_nothing_is_hatched(load_strip: LoadStrip) -> None:
    """At the limit itself a band is full ink and not beyond."""
    assert "stp-over" not in strip_of(with_band(load_strip, ((0.0, 0.2), (110.0, 1.0)))).svg


def test_full_load_is_a_gap(load_strip: LoadStrip) -> None:
    """No ink lies at 100 %."""
    data = re.search(r'd="([^"]+)" fill="url\(#stp-0\)"', strip_of(load_strip).svg)
    assert data is not None
    spans = [(float(a), float(b)) for a, b in re.findall(r"M([\d.]+) [\d.]+H([\d.]+)", data.group(1))]
    assert (len(spans), [span for span in spans if span[0] < ROW.at(100) < span[1]]) == (2, [])


def test_the_line_stands_at_the_readers_load(load_strip: LoadStrip) -> None:
    """The accent line is placed by the same scale, and left out without a load."""
    mark = re.search(r'class="s-mark" d="M([\d.]+) ', strip_of(load_strip).svg)
    assert mark is not None
    assert pytest.approx(float(mark.group(1)), abs=0.05) == 290 * 55.9 / 110
    assert "s-mark" not in strip_of(replace(load_strip, mark_pct=None)).svg


def test_a_strip_is_small() -> None:
    """Three zigzags at a dozen loads, or three smooth courses beyond their limits, stay under 2.5 kB."""
    loads = tuple(range(0, 111, 10))
    busy = tuple(StripBand(title=title, shares=tuple((float(load), top * (0.4 + 0.6 * (i % 2))) for i, load in enumerate(loads)))
                 for title, top in (("Heat lost", 0.9), ("Noise", 0.95), ("Ripple", 0.99)))
    assert len(strip_of(LoadStrip(id="harrow-one-850", name="Harrow One 850", bands=busy, mark_pct=50)).svg.encode()) < 2500
    beyond = tuple(StripBand(title=band.title, shares=tuple((x, (x / 100) ** 2) for x, _ in band.shares)) for band in busy)
    assert len(strip_of(LoadStrip(id="harrow-one-850", name="Harrow One 850", bands=beyond, mark_pct=50)).svg.encode()) < 2500


def test_an_id_must_be_fit_for_a_reference(load_strip: LoadStrip) -> None:
    """A prefix with a bracket in it would end the reference; it is refused."""
    with pytest.raises(ValueError, match="expected an id of letters"):
        strip_of(replace(load_strip, id="a)b"))


def test_the_key_says_all_a_strip_can_show() -> None:
    """The key shows and tells the hatch, the outline, the gap and the line."""
    key = strip_legend("key", mark_words="your 475 W")
    assert [word for word in ("hatched", "outline", "gap", "your 475 W") if word not in key.words] == []
    assert [part for part in ("key-over", "s-frame", "s-mark") if part not in key.svg] == []
