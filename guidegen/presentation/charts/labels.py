"""Names set beside their points so that no two lie over each other."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from guidegen.presentation.charts.coordinates import Box, Point
from guidegen.presentation.charts.marks import TEXT_SIZE, text_width

Boxes = NDArray[np.float64]
"""Boxes, one a row: left, top, right and bottom edge."""
Places = NDArray[np.float64]
"""Places, one a row: to the right, downwards."""
NOTHING: Boxes = np.empty((0, 4))
"""No box at all."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A label to be placed."""

    point: Point
    """What it names."""
    words: str
    """What it says."""
    short: str = ""
    """What it says where the words find no room; empty leaves it out."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A label with its place."""

    point: Point
    """What it names."""
    words: str
    """What it says."""
    baseline: Point
    """Where its letters begin, are centred or end."""
    anchor: Literal["start", "middle", "end"]
    """Which of these: the end that is nearer to the point, since how wide letters stand is known only about."""
    box: Box
    """What it covers."""
    leader: tuple[Point, Point] | None = None
    """Line from the point to the letters where these stand far off, or nothing."""


_ASCENT = 0.78 * TEXT_SIZE
_CLEAR = 5.0
_BLANK = 4.0
_DESCENT = 0.24 * TEXT_SIZE
_ANCHORS: tuple[Literal["start", "middle", "end"], ...] = ("start", "end", "middle", "middle", "start", "end", "start", "end")
"""How letters are anchored to the right, left, above, below and at the slanting places of a point."""
_REACH = np.array((5.0, 9.0, 14.0, 22.0, 32.0, 44.0, 58.0, 74.0, 92.0, 112.0, 134.0))
_UNLED = 9.0
"""A label that stands nearer than this needs no line that leads to its point."""


def _baselines(point: Point, width: float) -> Places:
    """Places round a point where letters begin: right, left, above, below, then the slanting ones, near before far."""
    x, y = point
    level, over, under = np.full(len(_REACH), y + 0.27 * TEXT_SIZE), y - _REACH, y + _REACH + _ASCENT
    middle, right, left = np.full(len(_REACH), x - width / 2), x + _REACH / 2, x - _REACH / 2 - width
    across = (x + _REACH, x - _REACH - width, middle, middle, right, left, right, left)
    down = (level, level, over, under, over, over, under, under)
    return np.stack((np.stack(across, axis=1).ravel(), np.stack(down, axis=1).ravel()), axis=1)


def _letters(baselines: Places, words: str) -> Boxes:
    """What a line of text covers, a row for each place where it may begin."""
    x, y = baselines.T
    return np.stack((x, y - _ASCENT, x + text_width(words), y + _DESCENT), axis=1)


def _leader(point: Point, box: Box) -> tuple[Point, Point] | None:
    """The line from a mark's edge to the nearest edge of the letters; nothing where they stand close by."""
    near = (min(max(point[0], box.left), box.right), min(max(point[1], box.top), box.bottom))
    length = math.dist(point, near)
    if length <= _UNLED:
        return None
    part = _CLEAR / length
    return (point[0] + part * (near[0] - point[0]), point[1] + part * (near[1] - point[1])), near


def _meeting(boxes: Boxes, taken: Boxes) -> NDArray[np.bool_]:
    """For each box, whether it shares more than an edge with anything taken (``Box.meets``, for many at once)."""
    left, top, right, bottom = np.ascontiguousarray(boxes.T)[:, :, None]
    other_left, other_top, other_right, other_bottom = np.ascontiguousarray(taken.T)
    meets = left < other_right
    meets &= other_left < right
    meets &= top < other_bottom
    meets &= other_top < bottom
    found: NDArray[np.bool_] = meets.any(axis=1)
    return found


def edges(boxes: Iterable[Box]) -> Boxes:
    """Boxes as rows."""
    return np.array([(box.left, box.top, box.right, box.bottom) for box in boxes], dtype=float).reshape(-1, 4)


class Ground:
    """An area in which labels are placed, as often as wanted; what lies in the way of a label is found out once."""

    def __init__(self, within: Box, obstacles: Boxes = NOTHING) -> None:
        self._within = within
        self._obstacles = obstacles
        self._clear: dict[tuple[Point, str], tuple[Places, Boxes, NDArray[np.intp]]] = {}
        self._leaders: dict[tuple[Point, Box], tuple[tuple[Point, Point] | None, bool]] = {}

    def place(self, wanted: tuple[Wanted, ...]) -> tuple[Placed, ...]:
        """The labels that find room, in the order wanted: the first to come has first choice.

        A label whose words find no room is set with its short words, and left out where these find none either.
        """
        taken = NOTHING
        placed: list[Placed] = []
        for one in wanted:
            found = self._first_free(one, one.words, taken)
            if found is None and one.short:
                found = self._first_free(one, one.short, taken)
            if found is not None:
                placed.append(found)
                box = found.box  # a blank's width at both ends keeps neighbours from being read as one word
                wider = Box(box.left - _BLANK, box.top, box.right + _BLANK, box.bottom)
                taken = np.vstack((taken, edges((wider,)), line_boxes(found.leader) if found.leader else NOTHING))
        return tuple(placed)

    def _first_free(self, wanted: Wanted, words: str, taken: Boxes) -> Placed | None:
        """The nearest place where neither the letters nor their leader lie over anything."""
        baselines, boxes, sides = self._places(wanted.point, words)
        for at in np.flatnonzero(~_meeting(boxes, taken)).tolist():
            box = Box(*boxes[at].tolist())
            leader, clear = self._led(wanted.point, box)
            if clear and (leader is None or not _meeting(line_boxes(leader, 2), taken).any()):
                x, y = baselines[at].tolist()
                anchor = _ANCHORS[sides[at]]
                shift = {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * text_width(words)
                return Placed(wanted.point, words, (x + shift, y), anchor, box, leader)
        return None

    def _places(self, point: Point, words: str) -> tuple[Places, Boxes, NDArray[np.intp]]:
        """Where letters may begin, what they cover then and on which side of the point that is, as far as it is inside
        and off the obstacles; near before far.
        """
        if (point, words) not in self._clear:
            baselines, within = _baselines(point, text_width(words)), self._within
            boxes = _letters(baselines, words)
            left, top, right, bottom = boxes.T
            inside = (within.left <= left) & (right <= within.right) & (within.top <= top) & (bottom <= within.bottom)
            baselines, boxes, sides = baselines[inside], boxes[inside], np.flatnonzero(inside) % len(_ANCHORS)
            clear = ~_meeting(boxes, self._obstacles)
            self._clear[point, words] = baselines[clear], boxes[clear], sides[clear]
        return self._clear[point, words]

    def _led(self, point: Point, box: Box) -> tuple[tuple[Point, Point] | None, bool]:
        """The leader of a label that stands there, where it needs one, and whether it is off the obstacles."""
        if (point, box) not in self._leaders:
            leader = _leader(point, box)
            clear = leader is None or not _meeting(line_boxes(leader, 2), self._obstacles).any()
            self._leaders[point, box] = leader, bool(clear)
        return self._leaders[point, box]


def place_labels(wanted: tuple[Wanted, ...], *, within: Box, obstacles: Boxes = NOTHING) -> tuple[Placed, ...]:
    """The labels that find room, in the order wanted, as ``Ground.place`` sets them."""
    return Ground(within, obstacles).place(wanted)


def point_boxes(points: tuple[Point, ...], radius: float) -> Boxes:
    """What round marks cover."""
    places = np.array(points, dtype=float).reshape(-1, 2)
    return np.hstack((places - radius, places + radius))


def line_boxes(points: tuple[Point, ...], step: float = 4) -> Boxes:
    """What a line covers, as small boxes along it."""
    places = np.array(points, dtype=float).reshape(-1, 2)
    begins, ways = places[:-1], places[1:] - places[:-1]
    counts = np.maximum(1, (np.abs(ways).max(axis=1, initial=0.0) / step).astype(int))
    part = np.repeat(np.arange(len(ways)), counts + 1)
    steps = np.arange(len(part)) - (np.cumsum(counts + 1) - (counts + 1))[part]
    middles = begins[part] + ways[part] * steps[:, None] / counts[part][:, None]
    return np.hstack((middles - 1, middles + 1))
