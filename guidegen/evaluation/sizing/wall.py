"""Between the plug meter and the parts: wall power, delivered power, and the efficiency that lies between them."""

import math

import scipy

from guidegen.errors import RequestError
from guidegen.evaluation.curves import loss_at
from guidegen.evaluation.findings import Curve


def delivered_from_wall(wall_w: float, efficiency_pct: float) -> float:
    """Delivered power behind a plug-meter reading, W: wall power times efficiency.

    >>> round(delivered_from_wall(620.0, 88.0), 1)
    545.6
    """
    return wall_w * efficiency_pct / 100.0


def wall_from_delivered(delivered_w: float, efficiency_pct: float) -> float:
    """What a plug meter shows for a delivered power, W.

    >>> round(wall_from_delivered(750.0, 90.0), 1)
    833.3
    """
    return delivered_w * 100.0 / efficiency_pct


def lost_w(delivered_w: float, efficiency_pct: float) -> float:
    """Power that becomes heat inside the supply, W.

    >>> round(lost_w(750.0, 90.0), 1)
    83.3
    """
    return wall_from_delivered(delivered_w, efficiency_pct) - delivered_w


def delivered_through(wall_w: float, loss: Curve) -> float | None:
    """Delivered power behind a plug-meter reading, W, through the measured loss of the supply in the computer; nothing
    beyond its measured loads.
    """
    at = loss_at(loss)
    if len(loss.points) < 2:
        return None
    first, last = loss.points[0].load_w, loss.points[-1].load_w

    def missing(delivered_w: float) -> float:
        return delivered_w + (at(min(max(delivered_w, first), last)) or 0.0) - wall_w

    if missing(first) > 0 or missing(last) < 0:
        return None
    return float(scipy.optimize.brentq(missing, first, last))


def checked_power(value: float, name: str) -> float:
    """The power as given; ``RequestError`` where it can't be one of a computer.

    >>> checked_power(545.0, "delivered power")
    545.0
    """
    if not (math.isfinite(value) and 0 < value <= MOST_W):
        raise RequestError(f"{name} of {value:g} W: expected more than 0 and at most {MOST_W:g} W")
    return value


MOST_W = 10_000.0
"""No computer on an ordinary plug draws more, W."""
