"""The picture card that stands for a page elsewhere: 1200 by 630 pixels, the same bytes for the same words."""

import textwrap
from dataclasses import dataclass

from matplotlib import style
from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from guidegen.presentation.charts.descriptions import LoadStrip, ShareCard
from guidegen.presentation.charts.drawn.card_ink import (
    ACCENT,
    INK,
    PAPER,
    SANS,
    SERIF,
    STYLE,
    draw_band,
    drawable,
    png_of,
)
from guidegen.presentation.charts.load_strip import FULL

SIZE = (1200, 630)
"""Pixels."""
_MARGIN = 0.06


@dataclass(frozen=True, slots=True)
class _Hand:
    """How a text of the card is written: font, size in points, letters in a line and lines at most."""

    family: str
    size: float
    letters: int
    lines: int


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
    lines, share = _wrapped(drawable(words, hand.family), hand.letters, hand.lines)
    text = figure.text(_MARGIN, top, lines, va="top", fontsize=hand.size * share, family=hand.family, color=INK, linespacing=1.25, parse_math=False)
    room = (1 - 2 * _MARGIN) * SIZE[0]
    width = text.get_window_extent().width
    if width > room:
        text.set_fontsize(hand.size * share * 0.98 * room / width)
    return float(text.get_window_extent().y0) / SIZE[1]


def _draw_strip(figure: Figure, strip: LoadStrip) -> None:
    """The bands with their names, and the accent line."""
    left, width, top = 0.23, 1 - _MARGIN - 0.23, 0.27
    for i, band in enumerate(strip.bands):
        bottom = top - 0.07 * i
        figure.text(_MARGIN, bottom + 0.02, drawable(band.title, SANS), fontsize=18, color=INK, va="center",
                    parse_math=False)
        draw_band(figure.add_axes((left, bottom, width, 0.04)), band)
    if strip.mark_pct is not None:
        x = left + width * min(max(strip.mark_pct, 0.0), FULL) / FULL
        figure.add_artist(Line2D([x, x], [top - 0.07 * (len(strip.bands) - 1) - 0.015, top + 0.055],
                                           color=ACCENT, linewidth=4))


def share_card(card: ShareCard) -> bytes:
    """The card as PNG."""
    with style.context(["default", STYLE]):
        figure = Figure(figsize=(SIZE[0] / 100, SIZE[1] / 100), dpi=100, facecolor=PAPER)
        figure.add_artist(Line2D([_MARGIN, 1 - _MARGIN], [0.86, 0.86], color=INK, linewidth=2))
        _write(figure, card.publisher, 0.93, _Hand(SERIF, 20, 60, 1))
        below = _write(figure, card.title, 0.80, _Hand(SERIF, 40, 34, 2))
        _write(figure, card.sentence, below - 0.05, _Hand(SANS, 22, 66, 2 if card.strip else 5))
        if card.strip:
            _draw_strip(figure, card.strip)
        return png_of(figure)
