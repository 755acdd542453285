"""Names set beside their points so that no two lie over each other."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from guidegen.presentation.charts.coordinates import Box, Point
from guidegen.presentation.charts.marks import TEXT_SIZE, text_width

Boxes = NDArray[np.float64]
"""Boxes, one a row: left, top, right and bottom edge."""


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
    """Where its letters begin."""
    box: Box
    """What it covers."""
    leader: tuple[Point, Point] | None = None
    """Line from the point to the letters where these stand far off, or nothing."""


_ASCENT = 0.78 * TEXT_SIZE
_CLEAR = 5.0
_BLANK = 4.0
_DESCENT = 0.24 * TEXT_SIZE
_REACH = (5.0, 9.0, 14.0, 22.0, 32.0, 44.0, 58.0, 74.0, 92.0, 112.0, 134.0)
_UNLED = 9.0
"""A label that stands nearer than this needs no line that leads to its point."""


def letters_box(baseline: Point, words: str) -> Box:
    """What a line of text covers."""
    x, y = baseline
    return Box(x, y - _ASCENT, x + text_width(words), y + _DESCENT)


def _baselines(point: Point, width: float) -> Iterator[Point]:
    """Places round a point: right, left, above, below, then the slanting ones, near before far."""
    x, y = point
    middle = y + 0.27 * TEXT_SIZE
    for reach in _REACH:
        over, under = y - reach, y + reach + _ASCENT
        for left in (x + reach, x - reach - width):
            yield left, middle
        for down in (over, under):
            yield x - width / 2, down
        for down in (over, under):
            yield x + reach / 2, down
            yield x - reach / 2 - width, down


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
    left, top, right, bottom = boxes.T[:, :, None]
    other_left, other_top, other_right, other_bottom = taken.T
    meets = (left < other_right) & (other_left < right) & (top < other_bottom) & (other_top < bottom)
    found: NDArray[np.bool_] = meets.any(axis=1)
    return found


def _first_free(wanted: Wanted, words: str, taken: Boxes, within: Box) -> Placed | None:
    """The nearest place where neither the letters nor their leader lie over anything."""
    places = [(baseline, box) for baseline in _baselines(wanted.point, text_width(words))
              if within.holds(box := letters_box(baseline, words))]
    if not places:
        return None
    for at in np.flatnonzero(~_meeting(_edges(box for _, box in places), taken)):
        baseline, box = places[at]
        leader = _leader(wanted.point, box)
        if leader is None or not _meeting(_edges(line_boxes(leader, 2)), taken).any():
            return Placed(wanted.point, words, baseline, box, leader)
    return None


def _edges(boxes: Iterable[Box]) -> Boxes:
    return np.array([(box.left, box.top, box.right, box.bottom) for box in boxes], dtype=float).reshape(-1, 4)


def place_labels(wanted: tuple[Wanted, ...], *, within: Box, obstacles: tuple[Box, ...] = ()) -> tuple[Placed, ...]:
    """The labels that find room, in the order wanted: the first to come has first choice.

    A label whose words find no room is set with its short words, and left out where these find none either.
    """
    taken = _edges(obstacles)
    placed: list[Placed] = []
    for one in wanted:
        found = _first_free(one, one.words, taken, within)
        if found is None and one.short:
            found = _first_free(one, one.short, taken, within)
        if found is not None:
            placed.append(found)
            box = found.box  # a blank's width at both ends keeps neighbours from being read as one word
            wider = Box(box.left - _BLANK, box.top, box.right + _BLANK, box.bottom)
            taken = np.vstack((taken, _edges((wider, *(line_boxes(found.leader) if found.leader else ())))))
    return tuple(placed)


def point_boxes(points: tuple[Point, ...], radius: float) -> tuple[Box, ...]:
    """What round marks cover."""
    return tuple(Box(x - radius, y - radius, x + radius, y + radius) for x, y in points)


def line_boxes(points: tuple[Point, ...], step: float = 4) -> tuple[Box, ...]:
    """What a line covers, as small boxes along it."""
    boxes: list[Box] = []
    for (x0, y0), (x1, y1) in pairwise(points):
        count = max(1, int(max(abs(x1 - x0), abs(y1 - y0)) / step))
        boxes += [Box(x - 1, y - 1, x + 1, y + 1)
                  for i in range(count + 1)
                  for x, y in [(x0 + (x1 - x0) * i / count, y0 + (y1 - y0) * i / count)]]
    return tuple(boxes)
