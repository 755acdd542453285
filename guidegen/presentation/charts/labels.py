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
_LEVEL = 0.27 * TEXT_SIZE
_SIDES: tuple[tuple[Literal["start", "middle", "end"], float, float, float, float], ...] = (
    ("start", 1, 0, 0, _LEVEL), ("end", -1, 1, 0, _LEVEL), ("middle", 0, 0.5, -1, 0), ("middle", 0, 0.5, 1, _ASCENT),
    ("start", 0.5, 0, -1, 0), ("end", -0.5, 1, -1, 0), ("start", 0.5, 0, 1, _ASCENT), ("end", -0.5, 1, 1, _ASCENT),
)
"""Sides of a point where letters may stand: right, left, above, below, then the slanting ones. For each how the letters
are anchored, and where they begin: so many reaches to the right, widths of the words back, reaches down, units further down.
"""
_REACHES = np.array((5.0, 9.0, 14.0, 22.0, 32.0, 44.0, 58.0, 74.0, 92.0, 112.0, 134.0))
_RIGHT, _DOWN = (np.outer(_REACHES, [side[i] for side in _SIDES]).ravel() for i in (1, 3))
_BACK, _LOWER = (np.tile([float(side[i]) for side in _SIDES], len(_REACHES)) for i in (2, 4))
_UNLED = 9.0
"""A label that stands nearer than this needs no line that leads to its point."""


def _leader(point: Point, box: Box) -> tuple[Point, Point] | None:
    """The line from a mark's edge to the nearest edge of the letters; nothing where they stand close by."""
    near = (min(max(point[0], box.left), box.right), min(max(point[1], box.top), box.bottom))
    length = math.dist(point, near)
    if length <= _UNLED:
        return None
    part = _CLEAR / length
    return (point[0] + part * (near[0] - point[0]), point[1] + part * (near[1] - point[1])), near


def _overlaps(boxes: NDArray[np.float64], taken: Boxes) -> NDArray[np.bool_]:
    """For each box (a column: left, top, right, bottom) a row that says of everything taken whether it shares more than
    an edge with it (``Box.meets``, for many at once).
    """
    left, top, right, bottom = boxes[:, :, None]
    other_left, other_top, other_right, other_bottom = np.ascontiguousarray(taken.T)
    meets: NDArray[np.bool_] = left < other_right
    meets &= other_left < right
    meets &= top < other_bottom
    meets &= other_top < bottom
    return meets


def _lies_over(leader: tuple[Point, Point] | None, taken: Boxes) -> bool:
    """Whether a leader lies over anything taken, by what it covers; no leader lies over nothing."""
    return leader is not None and bool(_overlaps(line_boxes(leader, 2).T, taken).any())


def edges(boxes: Iterable[Box]) -> Boxes:
    """Boxes as rows."""
    return np.array([(box.left, box.top, box.right, box.bottom) for box in boxes], dtype=float).reshape(-1, 4)


class _Spots:
    """Where a label may stand, inside and off the obstacles, near before far."""

    def __init__(self, point: Point, words: str, *, within: Box, obstacles: Boxes) -> None:
        self._point = point
        self._words = words
        self._obstacles = obstacles
        self._leaders: dict[int, tuple[Point, Point] | None] = {}
        width = text_width(words)
        x, y = point[0] + _RIGHT - _BACK * width, point[1] + _DOWN + _LOWER
        left, top, right, bottom = covered = np.stack((x, y - _ASCENT, x + width, y + _DESCENT))
        inside = (within.left <= left) & (right <= within.right) & (within.top <= top) & (bottom <= within.bottom)
        kept = np.flatnonzero(inside)
        kept = kept[~_overlaps(covered[:, kept], obstacles).any(axis=1)]
        self._boxes = covered[:, kept]
        self._sides = [_SIDES[at] for at in (kept % len(_SIDES)).tolist()]
        self._baselines = y[kept].tolist()
        self._open = np.ones(len(kept), dtype=bool)

    def first_free(self, taken: Boxes) -> Placed | None:
        """The label at the nearest place where neither its letters nor its leader lie over anything."""
        for at in np.flatnonzero(self._open & ~_overlaps(self._boxes, taken).any(axis=1)).tolist():
            if at not in self._leaders:
                self._leaders[at] = _leader(self._point, Box(*self._boxes[:, at].tolist()))
                self._open[at] = not _lies_over(self._leaders[at], self._obstacles)
            if self._open[at] and not _lies_over(self._leaders[at], taken):
                return self._placed(at)
        return None

    def _placed(self, at: int) -> Placed:
        box, (anchor, _, back, _, _) = Box(*self._boxes[:, at].tolist()), self._sides[at]
        return Placed(self._point, self._words, (box.left + back * text_width(self._words), self._baselines[at]), anchor, box, self._leaders[at])


class Ground:
    """An area in which labels are placed, as often as wanted; what lies in the way of a label is found out once."""

    def __init__(self, within: Box, obstacles: Boxes = NOTHING) -> None:
        self._within = within
        self._obstacles = obstacles
        self._spots: dict[tuple[Point, str], _Spots] = {}

    def place(self, wanted: tuple[Wanted, ...]) -> tuple[Placed, ...]:
        """The labels that find room, in the order wanted: the first to come has first choice.

        A label whose words find no room is set with its short words, and left out where these find none either.
        """
        taken = NOTHING
        placed: list[Placed] = []
        for one in wanted:
            found = self._first_free(one.point, one.words, taken)
            if found is None and one.short:
                found = self._first_free(one.point, one.short, taken)
            if found is not None:
                placed.append(found)
                box = found.box  # a blank's width at both ends keeps neighbours from being read as one word
                wider = Box(box.left - _BLANK, box.top, box.right + _BLANK, box.bottom)
                taken = np.vstack((taken, edges((wider,)), line_boxes(found.leader) if found.leader else NOTHING))
        return tuple(placed)

    def _first_free(self, point: Point, words: str, taken: Boxes) -> Placed | None:
        """The label as ``_Spots.first_free`` sets it."""
        if (point, words) not in self._spots:
            self._spots[point, words] = _Spots(point, words, within=self._within, obstacles=self._obstacles)
        return self._spots[point, words].first_free(taken)


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
    return _boxes_along(places[:-1], places[1:], step)


def segment_boxes(pairs: tuple[tuple[Point, Point], ...], step: float = 4) -> Boxes:
    """What separate straight lines cover, as small boxes along each."""
    ends = np.array(pairs, dtype=float).reshape(-1, 2, 2)
    return _boxes_along(ends[:, 0], ends[:, 1], step)


def _boxes_along(begins: Places, ends: Places, step: float) -> Boxes:
    ways = ends - begins
    counts = np.maximum(1, (np.abs(ways).max(axis=1, initial=0.0) / step).astype(int))
    part = np.repeat(np.arange(len(ways)), counts + 1)
    steps = np.arange(len(part)) - (np.cumsum(counts + 1) - (counts + 1))[part]
    middles = begins[part] + ways[part] * steps[:, None] / counts[part][:, None]
    return np.hstack((middles - 1, middles + 1))
