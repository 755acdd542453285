"""Frames of charts: axes, ticks, their labels and lines of fixed place, drawn by matplotlib once per kind.

A frame has a fixed scale, so that every unit's chart of the kind can be laid over any other. What is measured is
drawn on it afterwards, by the linear map that is read from the same axes. 72 dots per inch make a unit of the
view box a point of the figure.

Frames are few and drawn slowly: those of earlier runs are recalled, and matplotlib is loaded for a new one only.
"""

import functools
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from importlib import import_module

from guidegen.presentation.charts.coordinates import Box, Scale
from guidegen.presentation.charts.marks import WIDTH
from guidegen.recalling import Recall, anew

DRAWN = "guidegen.presentation.charts.drawn"
"""All that loads matplotlib, imported where something is drawn anew."""
_RECALL: ContextVar[Recall] = ContextVar("recall of frames", default=anew)


@dataclass(frozen=True, slots=True, kw_only=True)
class AxisDescription:
    """One axis."""

    low: float
    """Value at its beginning."""
    high: float
    """Value at its end."""
    ticks: tuple[tuple[float, str], ...]
    """Values and how they are printed."""
    title: str = ""
    """What it measures, with the unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A horizontal line of fixed place."""

    value: float
    """Where, on the y axis."""
    words: str = ""
    """What stands above its right end."""
    style: str = "c-grid"
    """Class of the line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameDescription:
    """A frame: its size and margins in units, its axes, its rules."""

    x: AxisDescription
    """Axis to the right."""
    y: AxisDescription
    """Axis upwards."""
    width: float = WIDTH
    """Width of the drawing."""
    height: float = 200
    """Height of the drawing."""
    left: float = 26
    """Left margin."""
    right: float = 8
    """Right margin."""
    top: float = 24
    """Upper margin."""
    bottom: float = 34
    """Lower margin."""
    rules: tuple[Rule, ...] = ()
    """Lines of fixed place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """A frame as drawn, ready to take ink."""

    svg: str
    """Lines and letters, without an id."""
    size: tuple[float, float]
    """Width and height of the drawing."""
    box: Box
    """Area inside the axes."""
    x: Scale
    """From values to units to the right."""
    y: Scale
    """From values to units downwards."""

    def places(self, course: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
        """Where pairs of values stand on the drawing."""
        return tuple([(self.x.at(x), self.y.at(y)) for x, y in course])


@contextmanager
def recalled_frames(recall: Recall) -> Iterator[None]:
    """While it lasts, frames that were drawn before are recalled, in this process and in those that begin as its copies."""
    token = _RECALL.set(recall)
    try:
        yield
    finally:
        _RECALL.reset(token)


@functools.cache
def frame_of(description: FrameDescription) -> Frame:
    """The frame as drawn, kept for as long as the process lives."""
    return _RECALL.get().apart(f"frame {description!r}", functools.partial(_drawn, description))


def ready_to_draw(recall: Recall) -> None:
    """Matplotlib loaded now where no frame was drawn before: each of the processes that are about to begin as copies of this one
    would load it for itself.
    """
    if not recall.lies_apart():
        import_module(DRAWN)


def _drawn(description: FrameDescription) -> Frame:
    made: Frame = import_module(DRAWN).drawn_frame(description)
    return made
