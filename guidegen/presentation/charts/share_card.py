"""The picture card that stands for a page elsewhere: 1200 by 630 pixels, the same bytes for the same words."""

import io
import re
import textwrap
from dataclasses import dataclass
from itertools import pairwise

from matplotlib import style
from matplotlib.axes import Axes
from matplotlib.colors import LinearSegmentedColormap
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties, findfont, get_font
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from guidegen.presentation.charts.coordinates import crossings
from guidegen.presentation.charts.descriptions import LoadStrip, ShareCard, StripBand
from guidegen.presentation.charts.load_strip import FULL, density

PAPER, INK, ACCENT, WARNING, QUIET = "#faf8f2", "#1d2024", "#0b5a66", "#8a2f12", "#595c60"
"""The colours of the light theme; a picture can't follow the reader's."""
SIZE = (1200, 630)
"""Pixels."""
_SERIF, _SANS = "DejaVu Serif", "DejaVu Sans"
_MARGIN = 0.06
_BLANK = re.compile(r"[ \t\r\n]+")
_STYLE = {"font.family": _SANS, "hatch.linewidth": 2.0}


@dataclass(frozen=True, slots=True)
class _Hand:
    """How a text of the card is written: font, size in points, letters in a line and lines at most."""

    family: str
    size: float
    letters: int
    lines: int


def _drawable(words: str, family: str) -> str:
    """The words with a box for every letter that the font lacks, instead of a warning from deep below."""
    known = get_font(findfont(FontProperties(family=family))).get_charmap()
    return "".join(letter if ord(letter) in known else "\N{WHITE SQUARE}" for letter in _BLANK.sub(" ", words.strip()))


def _wrapped(words: str, width: int, most: int) -> tuple[str, float]:
    """The words in lines as even as they can be, and the share of its size to write them in; nothing is cut.

    Where they are too many for so many lines of so many letters, smaller letters make room for more of both.
    """
    share = 1.0
    while len(lines := textwrap.wrap(words, int(width / share))) > most / share:
        share *= 0.97
    width = int(width / share)
    while len(lines) > 1 and len(narrower := textwrap.wrap(words, width - 1)) == len(lines):
        lines, width = narrower, width - 1
    return "\n".join(lines), share


def _write(figure: Figure, words: str, top: float, hand: _Hand) -> float:
    """Write the words from ``top`` down, smaller where they would leave the card; their lower edge comes back."""
    lines, share = _wrapped(_drawable(words, hand.family), hand.letters, hand.lines)
    text = figure.text(_MARGIN, top, lines, va="top", fontsize=hand.size * share, family=hand.family, color=INK, linespacing=1.25, parse_math=False)
    room = (1 - 2 * _MARGIN) * SIZE[0]
    width = text.get_window_extent().width
    if width > room:
        text.set_fontsize(hand.size * share * 0.98 * room / width)
    return float(text.get_window_extent().y0) / SIZE[1]


def _draw_band(axes: Axes, band: StripBand) -> None:
    """One band: ink density, hatch beyond the limit, outline where not measured."""
    axes.set_xlim(0, FULL)
    axes.set_ylim(0, 1)
    axes.set_axis_off()
    if not band.shares:
        axes.add_patch(Rectangle((0, 0), FULL, 1, fill=False, edgecolor=QUIET, linewidth=2))
        return
    ink = LinearSegmentedColormap.from_list("ink", [PAPER, INK], N=256)
    for (x0, s0), (x1, s1) in pairwise(band.shares):
        row = [density(s0 + (s1 - s0) * i / 63) for i in range(64)]
        axes.imshow([row], cmap=ink, vmin=0, vmax=1, extent=(x0, x1, 0, 1), aspect="auto", interpolation="nearest")
    for stretch in crossings(band.shares, 1):
        axes.axvspan(stretch[0][0], stretch[-1][0], facecolor=PAPER, edgecolor=WARNING, hatch="///", linewidth=0)
    axes.axvspan(99.6, 100.4, facecolor=PAPER)
    axes.set_xlim(0, FULL)


def _draw_strip(figure: Figure, strip: LoadStrip) -> None:
    """The bands with their names, and the accent line."""
    left, width, top = 0.23, 1 - _MARGIN - 0.23, 0.27
    for i, band in enumerate(strip.bands):
        bottom = top - 0.07 * i
        figure.text(_MARGIN, bottom + 0.02, _drawable(band.title, _SANS), fontsize=18, color=INK, va="center",
                    parse_math=False)
        _draw_band(figure.add_axes((left, bottom, width, 0.04)), band)
    if strip.mark_pct is not None:
        x = left + width * min(max(strip.mark_pct, 0.0), FULL) / FULL
        figure.add_artist(Line2D([x, x], [top - 0.07 * (len(strip.bands) - 1) - 0.015, top + 0.055],
                                           color=ACCENT, linewidth=4))


def share_card(card: ShareCard) -> bytes:
    """The card as PNG."""
    with style.context(["default", _STYLE]):
        figure = Figure(figsize=(SIZE[0] / 100, SIZE[1] / 100), dpi=100, facecolor=PAPER)
        figure.add_artist(Line2D([_MARGIN, 1 - _MARGIN], [0.86, 0.86], color=INK, linewidth=2))
        _write(figure, card.publisher, 0.93, _Hand(_SERIF, 20, 60, 1))
        below = _write(figure, card.title, 0.80, _Hand(_SERIF, 40, 34, 2))
        _write(figure, card.sentence, below - 0.05, _Hand(_SANS, 22, 66, 2 if card.strip else 5))
        if card.strip:
            _draw_strip(figure, card.strip)
        written = io.BytesIO()
        figure.savefig(written, format="png", metadata={"Software": None})
    return written.getvalue()
