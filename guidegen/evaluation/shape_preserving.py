"""A smooth course through points that rises where they rise, falls where they fall, and turns nowhere else.

Source: Fritsch and Carlson, Monotone piecewise cubic interpolation, SIAM Journal on Numerical Analysis 17 (1980), with the
slopes of Fritsch and Butland (1984) and the ends of Moler, Numerical Computing with MATLAB, 2004, ch. 3.6 (both from
memory): what SciPy calls PCHIP, which tests hold it to. Written here because a guide is measured at every publication,
and the library takes longer to start than a bracket to measure.
"""

from dataclasses import dataclass
from typing import Self

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """A cubic between each two neighbours, with the same slope on either side of a point."""

    places: Array
    """Where the points lie, rising."""
    values: Array
    """Their values."""
    slopes: Array
    """How steep the course is at each."""

    @classmethod
    def through(cls, places: Array, values: Array) -> Self:
        """The course through at least two points; raises ``ValueError`` where their places don't rise."""
        widths = np.diff(places)
        if len(widths) == 0 or not (widths > 0).all():
            raise ValueError(f"came points at {places.tolist()}, expected at least two at rising places")
        return cls(places, values, _slopes(widths, np.diff(values) / widths))

    def at(self, wanted: Array) -> Array:
        """Values at some places; not a number beyond the ends."""
        left = np.clip(np.searchsorted(self.places, wanted, side="right") - 1, 0, len(self.places) - 2)
        width = self.places[left + 1] - self.places[left]
        rise = (self.values[left + 1] - self.values[left]) / width
        bend = (self.slopes[left] + self.slopes[left + 1] - 2 * rise) / width
        off = wanted - self.places[left]
        found = self.values[left] + off * (self.slopes[left] + off * ((rise - self.slopes[left]) / width - bend + off * bend / width))
        inside = (self.places[0] <= wanted) & (wanted <= self.places[-1])
        return np.where(inside, found, np.nan)


def _slopes(widths: Array, rises: Array) -> Array:
    """A weighted harmonic mean of the rises to the left and right of a point; 0 where the course turns."""
    if len(rises) == 1:
        return np.repeat(rises, 2)
    slopes = np.zeros(len(rises) + 1)
    left, right = rises[:-1], rises[1:]
    goes_on = left * right > 0
    near, far = widths[:-1] + 2 * widths[1:], 2 * widths[:-1] + widths[1:]
    with np.errstate(over="ignore"):  # a rise next to nothing, and so no slope
        parts = near[goes_on] / left[goes_on] + far[goes_on] / right[goes_on]
    slopes[1:-1][goes_on] = (near + far)[goes_on] / parts
    slopes[0] = _end(widths[0], widths[1], rises[0], rises[1])
    slopes[-1] = _end(widths[-1], widths[-2], rises[-1], rises[-2])
    return slopes


def _end(width: float, next_width: float, rise: float, next_rise: float) -> float:
    """The slope at an end by the parabola through three points, held back so that the course keeps its shape."""
    slope = ((2 * width + next_width) * rise - width * next_rise) / (width + next_width)
    if slope * rise <= 0:
        return 0.0
    if rise * next_rise <= 0 and abs(slope) > 3 * abs(rise):
        return 3 * rise
    return float(slope)
