"""Where things stand on a drawing: units of the view box, x to the right, y downwards."""

import math
from dataclasses import dataclass
from itertools import chain, pairwise

Point = tuple[float, float]
"""A place or a pair of values, x first."""


def coordinate(value: float) -> str:
    """The number as every drawing writes it: one decimal at most, no trailing zero, no negative zero.

    >>> coordinate(12.04), coordinate(-0.01), coordinate(7.25)
    ('12', '0', '7.2')
    """
    if not math.isfinite(value):
        message = f"came {value}, expected a finite coordinate"
        raise ValueError(message)
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


@dataclass(frozen=True, slots=True)
class Scale:
    """A linear map from values to units of the view box."""

    slope: float
    """Units per value."""
    start: float
    """Place of the value 0."""

    def at(self, value: float) -> float:
        """The place of ``value``.

        >>> Scale(2.0, 10.0).at(5.0)
        20.0
        """
        return self.start + self.slope * value


def scale_between(low: float, high: float, *, begin: float, end: float) -> Scale:
    """The scale that puts ``low`` at ``begin`` and ``high`` at ``end``."""
    slope = (end - begin) / (high - low)
    return Scale(slope, begin - slope * low)


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle in units of the view box."""

    left: float
    """Left edge."""
    top: float
    """Upper edge."""
    right: float
    """Right edge."""
    bottom: float
    """Lower edge."""

    def meets(self, other: "Box") -> bool:
        """Whether the two share more than an edge.

        >>> Box(0, 0, 2, 2).meets(Box(1, 1, 3, 3)), Box(0, 0, 2, 2).meets(Box(2, 0, 3, 2))
        (True, False)
        """
        return (self.left < other.right and other.left < self.right
                and self.top < other.bottom and other.top < self.bottom)

    def holds(self, other: "Box") -> bool:
        """Whether ``other`` lies wholly inside."""
        return (self.left <= other.left and other.right <= self.right
                and self.top <= other.top and other.bottom <= self.bottom)


def path_data(points: tuple[Point, ...], *, closed: bool = False) -> str:
    """Path data of straight lines through the points, each number as ``coordinate`` writes it.

    >>> path_data(((0, 0), (10, 2.55), (20, -0.01)))
    'M0 0L10 2.5L20 0'
    """
    # All numbers are written at once, since paths are long: "nan" and "inf" are the only ones with an n, and a hyphen
    # before a whole 0 can be none but a negative zero's.
    steps = ("L%.1f %.1f " * len(points)) % tuple(chain.from_iterable(points))
    if "n" in steps:
        for point in points:
            tuple(map(coordinate, point))
    short = steps.replace(".0 ", " ").replace("-0 ", "0 ").replace(" L", "L")
    return f"M{short[1:-1]}{'Z' if closed else ''}" if points else ""


def crossings(course: tuple[Point, ...], level: float) -> tuple[tuple[Point, ...], ...]:
    """The stretches of a course that lie above ``level``, each begun and ended where the straight line crosses it.

    >>> crossings(((0, 0), (10, 2), (20, 0)), 1)
    (((5.0, 1), (10, 2), (15.0, 1)),)
    """
    stretches: list[tuple[Point, ...]] = []
    current: list[Point] = []
    previous: Point | None = None
    for point in course:
        if previous is not None and (previous[1] > level) != (point[1] > level):
            part = (level - previous[1]) / (point[1] - previous[1])
            current.append((previous[0] + part * (point[0] - previous[0]), level))
        if point[1] > level:
            current.append(point)
        elif current:
            stretches.append(tuple(current))
            current = []
        previous = point
    if current:
        stretches.append(tuple(current))
    return tuple(stretches)


def value_at(course: tuple[Point, ...], place: float) -> float | None:
    """The value of a course at ``place`` by straight lines; nothing beyond its ends.

    >>> value_at(((0, 0), (10, 2)), 5), value_at(((0, 0), (10, 2)), 11)
    (1.0, None)
    """
    for (x0, y0), (x1, y1) in pairwise(course):
        if x0 <= place <= x1:
            return y0 + (y1 - y0) * (place - x0) / (x1 - x0)
    return next((y for x, y in course if x == place), None)
