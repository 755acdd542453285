"""The load strip in words."""

from dataclasses import replace

import pytest

from guidegen.presentation.charts import LoadStrip, StripBand, words
from guidegen.presentation.charts.strip_words import band_words


@pytest.mark.parametrize(("shares", "expected"), [
    ((), "noise not measured"),
    (((10, 0.05), (100, 0.1)), "noise never above a tenth of its limit"),
    (((10, 0.1), (100, 0.33)), "noise never above a third of its limit"),
    (((10, 0.1), (100, 0.5)), "noise never above half of its limit"),
    (((0, 0.0), (100, 0.8)), "noise reaches half its limit at 62 % load, at most 80 % of it, at 100 % load"),
    (((10, 0.6), (100, 1.0)), "noise at most 100 % of its limit, at 100 % load"),
    (((0, 0.0), (100, 2.0)), "noise is beyond its limit from 50 % load on"),
    (((0, 2.0), (100, 0.0)), "noise is beyond its limit up to 50 % load"),
    (((10, 1.2), (100, 1.1)), "noise is beyond its limit at every load measured"),
    (((0, 0), (20, 2), (40, 0), (60, 0), (80, 2), (100, 0)),
     "noise is beyond its limit from 10 % to 30 % load and from 70 % to 90 % load"),
])
def test_a_band_is_said_in_words(shares: tuple[tuple[float, float], ...], expected: str) -> None:
    """Each course of a band has its sentence."""
    assert expected == band_words(StripBand(title="Noise", shares=shares)).replace("\N{NO-BREAK SPACE}", " ")


def test_the_readers_load_has_its_own_sentence(load_strip: LoadStrip) -> None:
    """What holds at the marked load is told for the bands that were measured there."""
    said = words(replace(load_strip, mark_pct=50.0, mark_words="your 425 W")).replace("\N{NO-BREAK SPACE}", " ")
    assert said.endswith("noise not measured; ripple is beyond its limit from 100 % load on."
                         " At your 425 W, as a share of the limit: heat lost 65 % and ripple 25 %.")


def test_a_load_beyond_what_was_measured_is_not_guessed(load_strip: LoadStrip) -> None:
    """No band reaches the marked load: no sentence about it."""
    short = replace(load_strip, bands=(StripBand(title="Noise", shares=((10, 0.1), (60, 0.2))),), mark_pct=80.0)
    assert words(short) == "Noise never above a quarter of its limit."
