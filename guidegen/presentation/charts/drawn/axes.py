"""Frames of charts as matplotlib draws them: its own axes, and the linear map that is read from them."""

import io
import warnings
from contextlib import AbstractContextManager

from matplotlib import style
from matplotlib.axes import Axes
from matplotlib.axis import Axis as DrawnAxis
from matplotlib.figure import Figure

from guidegen.presentation.charts.coordinates import Box, Scale
from guidegen.presentation.charts.drawn.cleaning import cleaned
from guidegen.presentation.charts.frames import AxisDescription, Frame, FrameDescription, Rule
from guidegen.presentation.charts.marks import TEXT_SIZE

STYLE = {
    "svg.fonttype": "none", "svg.hashsalt": "guidegen", "font.family": "DejaVu Sans", "font.size": TEXT_SIZE,
    "axes.linewidth": 1, "axes.spines.left": False, "axes.spines.right": False, "axes.spines.top": False,
    "xtick.major.size": 4, "ytick.major.size": 0, "xtick.major.pad": 3, "ytick.major.pad": 5,
    "xtick.major.width": 1, "figure.dpi": 72, "savefig.dpi": 72, "path.simplify": False,
    "text.parse_math": False,
}
"""Settings of matplotlib, over its own defaults, so that no settings of the machine reach a drawing; words between two
``$`` are words.
"""


def settings() -> AbstractContextManager[None]:
    """A context in which matplotlib draws by ``STYLE`` and its own defaults alone."""
    return style.context(["default", STYLE])


def _label(drawn: DrawnAxis, axis: AxisDescription) -> None:
    """Set fixed ticks and give their lines and letters the classes they keep."""
    drawn.set_ticks([value for value, _ in axis.ticks], labels=[words for _, words in axis.ticks])
    for tick in drawn.get_major_ticks():
        tick.tick1line.set_gid("c-axis")
        tick.label1.set_gid("c-text")


def _add_rules(axes: Axes, rules: tuple[Rule, ...], right: float) -> None:
    for rule in rules:
        axes.axhline(rule.value, linewidth=1, gid=rule.style)
        if rule.words:
            axes.annotate(rule.words, (right, rule.value), (0, 3), textcoords="offset points", ha="right", gid="c-quiet")


def drawn_axes(frame: FrameDescription) -> tuple[Figure, Axes]:
    """The figure and axes of a frame, to draw on; call it inside ``settings``."""
    figure = Figure(figsize=(frame.width / 72, frame.height / 72))
    axes = figure.add_axes((
        frame.left / frame.width, frame.bottom / frame.height,
        (frame.width - frame.left - frame.right) / frame.width,
        (frame.height - frame.top - frame.bottom) / frame.height))
    axes.set_xlim(frame.x.low, frame.x.high)
    axes.set_ylim(frame.y.low, frame.y.high)
    _label(axes.xaxis, frame.x)
    _label(axes.yaxis, frame.y)
    axes.spines["bottom"].set_gid("c-axis")
    _add_rules(axes, frame.rules, frame.x.high)
    if frame.x.title:
        figure.text(1 - frame.right / frame.width, 5 / frame.height, frame.x.title, ha="right", gid="c-quiet")
    if frame.y.title:
        figure.text(0, 1 - TEXT_SIZE / frame.height, frame.y.title, gid="c-quiet")
    return figure, axes


def saved(figure: Figure) -> str:
    """The figure as matplotlib writes it, without date and version."""
    written = io.StringIO()
    with warnings.catch_warnings():
        # Letters stay letters and are drawn by the reader's fonts; that matplotlib's own lack one is of no matter.
        warnings.filterwarnings("ignore", "Glyph .* missing from font", UserWarning)
        figure.savefig(written, format="svg", metadata={"Date": None, "Creator": None})
    return written.getvalue()


def _scales(axes: Axes, height: float) -> tuple[Scale, Scale]:
    """The linear maps of the axes, read from two points of ``transData``."""
    (x0, y0), (x1, y1) = axes.transData.transform([(0.0, 0.0), (1.0, 1.0)])
    return Scale(float(x1 - x0), float(x0)), Scale(-float(y1 - y0), height - float(y0))


def drawn_frame(description: FrameDescription) -> Frame:
    """The frame as drawn."""
    with settings():
        figure, axes = drawn_axes(description)
        x, y = _scales(axes, description.height)
        svg = cleaned(saved(figure))
    box = Box(description.left, description.top,
              description.width - description.right, description.height - description.bottom)
    return Frame(svg=svg, size=(description.width, description.height), box=box, x=x, y=y)
