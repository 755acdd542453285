"""What all picture cards are drawn with: colours and fonts of the house, letters that the font has, the bands of a strip."""

import io
import re

import numpy as np
from matplotlib.axes import Axes
from matplotlib.colors import LinearSegmentedColormap
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties, findfont, get_font
from matplotlib.patches import Rectangle

from guidegen.presentation.charts.coordinates import crossings
from guidegen.presentation.charts.descriptions import StripBand
from guidegen.presentation.charts.load_strip import FULL, density

PAPER, INK, ACCENT, WARNING, QUIET = "#faf8f2", "#1d2024", "#0b5a66", "#8a2f12", "#595c60"
"""The colours of the light theme; a picture can't follow the reader's."""
SERIF, SANS = "DejaVu Serif", "DejaVu Sans"
"""The fonts that matplotlib brings along: the same on every machine."""
STYLE = {"font.family": SANS, "hatch.linewidth": 2.0}
"""Settings for the whole drawing."""
_GRAINS = 1024
"""Steps of ink along a band: more than the pixels that it covers."""
_BLANK = re.compile(r"[ \t\r\n]+")


def drawable(words: str, family: str) -> str:
    """The words with a box for every letter that the font lacks, instead of a warning from deep below."""
    known = get_font(findfont(FontProperties(family=family))).get_charmap()
    return "".join(letter if ord(letter) in known else "\N{WHITE SQUARE}" for letter in _BLANK.sub(" ", words.strip()))


def draw_band(axes: Axes, band: StripBand) -> None:
    """One band: ink density, hatch beyond the limit, outline where not measured."""
    axes.set_xlim(0, FULL)
    axes.set_ylim(0, 1)
    axes.set_axis_off()
    if not band.shares:
        axes.add_patch(Rectangle((0, 0), FULL, 1, fill=False, edgecolor=QUIET, linewidth=2))
        return
    ink = LinearSegmentedColormap.from_list("ink", [PAPER, INK], N=256)
    loads, shares = zip(*band.shares, strict=True)
    row = [density(share) for share in np.interp(np.linspace(loads[0], loads[-1], _GRAINS), loads, shares).tolist()]
    axes.imshow([row], cmap=ink, vmin=0, vmax=1, extent=(loads[0], loads[-1], 0, 1), aspect="auto", interpolation="nearest")
    for stretch in crossings(band.shares, 1):
        axes.axvspan(stretch[0][0], stretch[-1][0], facecolor=PAPER, edgecolor=WARNING, hatch="///", linewidth=0)
    axes.axvspan(99.6, 100.4, facecolor=PAPER)
    axes.set_xlim(0, FULL)


def png_of(figure: Figure) -> bytes:
    """The figure as PNG, without the name of a program in it."""
    written = io.BytesIO()
    figure.savefig(written, format="png", metadata={"Software": None})
    return written.getvalue()
