"""The load strip at large, with its bands named and its loads marked, and the key to reading one."""

from guidegen.presentation.charts.coordinates import Box
from guidegen.presentation.charts.descriptions import LoadStrip, StripBand
from guidegen.presentation.charts.load_strip import FULL, Layout, bands, mark, outer
from guidegen.presentation.charts.marks import WIDTH, segments, text, text_width
from guidegen.presentation.charts.strip_words import words
from guidegen.presentation.formatting import with_unit
from guidegen.presentation.pieces import Strip

LARGE = Layout(0.0, float(WIDTH), (32.0, 68.0, 104.0), 13.0)
"""Bands with a line of text above each."""
_AXIS = 124.0
_HEIGHT = 142.0
_KEY_MARK = 48.0
_KEY_BANDS = (
    StripBand(title="Heat lost", shares=((3, 0.75), (20, 0.5), (50, 0.35), (110, 0.5))),
    StripBand(title="Noise", shares=((3, 0.0), (40, 0.1), (80, 0.75), (92, 1.0), (110, 1.3))),
    StripBand(title="Ripple", shares=()))
_KEY_WORDS = ("more ink: nearer its limit", "hatched: beyond its limit", "outlined: not measured")


def _worst(band: StripBand) -> str:
    """The highest share of a band, printed at its right end."""
    if not band.shares:
        return "not measured"
    load, most = max(band.shares, key=lambda pair: pair[1])
    return f"at most {with_unit(100 * most, '%', 0)} of its limit, at {with_unit(load, '%', 0)}"


def _axis(layout: Layout) -> str:
    """Ticks and loads beneath the bands."""
    loads = (0.0, 20.0, 40.0, 60.0, 80.0, 100.0)
    ticks = segments(tuple(((layout.at(v), _AXIS - 3), (layout.at(v), _AXIS)) for v in loads[1:-1]), style="s-frame")
    letters = [text((layout.at(v), _AXIS + 12), f"{v:.0f}", anchor="middle" if v else "start") for v in loads[:-1]]
    full = text((layout.at(100), _AXIS + 12), with_unit(100, "%", 0), anchor="middle")
    return ticks + "".join(letters) + full


def _mark_words(strip: LoadStrip, layout: Layout) -> str:
    """What the accent line is, above it and inside the drawing."""
    if strip.mark_pct is None or not strip.mark_words:
        return ""
    half = text_width(strip.mark_words) / 2
    middle = min(max(layout.at(strip.mark_pct), half), layout.right - half)
    return text((middle, 10), strip.mark_words, style="s-mark-text", anchor="middle")


def _labelled(strip: LoadStrip, beside: tuple[str, ...]) -> str:
    """Bands, their names, what stands beside each, axis and mark."""
    heads = "".join(text((0, top - 4), band.title) + text((WIDTH, top - 4), said, style="c-quiet", anchor="end")
                    for band, top, said in zip(strip.bands, LARGE.tops, beside, strict=True))
    # The line is broken where the letters of a band stand, so that it never runs through them.
    lines = "".join(mark(strip.mark_pct, LARGE, span=(top - 1, top + LARGE.thickness + 1)) for top in LARGE.tops)
    return bands(strip, LARGE) + heads + _axis(LARGE) + lines + _mark_words(strip, LARGE)


def large_strip_of(strip: LoadStrip) -> Strip:
    """The strip of a unit's own page: bands named, the worst of each told."""
    svg = outer(strip, Box(0, 0, WIDTH, _HEIGHT), kind="strip strip-large",
                body=_labelled(strip, tuple(_worst(band) for band in strip.bands)))
    return Strip(svg=svg, words=words(strip))


def strip_legend(legend_id: str = "strip-key", *, mark_words: str = "the usual full load") -> Strip:
    """The key: an invented example that shows all a strip can show."""
    example = LoadStrip(id=legend_id, name="How to read a strip", bands=_KEY_BANDS, mark_pct=_KEY_MARK,
                        mark_words=mark_words)
    said = ("Three bands, from above heat lost, noise and ripple, over the load from idle at the left to "
            f"{with_unit(FULL, '%', 0)} of the rating at the right. The more ink a band holds, the nearer its limit; hatched in the "
            "warning tone it is beyond. An empty outline was not measured. The gap stands at "
            f"{with_unit(100, '%', 0)}, the line marks {mark_words}.")
    svg = outer(example, Box(0, 0, WIDTH, _HEIGHT), kind="strip strip-large", body=_labelled(example, _KEY_WORDS))
    return Strip(svg=svg, words=said)
