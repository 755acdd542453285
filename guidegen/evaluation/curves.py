"""Courses between measured loads: efficiency through the loss in watts, everything else by straight lines.

Loss is the smooth quantity: a constant part, one that grows with power and one with its square. Efficiency itself is
never interpolated; a curve drawn through it can peak only where somebody happened to measure.
"""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from guidegen.evaluation.findings import Curve, UnitResult
from guidegen.evaluation.shape_preserving import Array, Course
from guidegen.evaluation.uncertainty import normal_draws
from guidegen.quantities import Quantity

LEAVE_ONE_OUT_ALLOWANCE = 1.5
"""The quadratic model holds where its leave-one-out error stays within this many propagated uncertainties."""
LEAST_DOUBT_W = 1e-3
"""No reading of a loss weighs more than one known to a milliwatt."""
FEWEST_POINTS = 6
"""Fewer points can't say whether three coefficients hold."""
LEAST_LEFT = 1e-6
"""Where the fit follows a point so nearly that less than this share of a change of it is missed, the fit to all points can't say
what the others alone would."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LossModel:
    """``loss = a + b·p + c·p²``, all per unit of the rating, a, b, c ≥ 0."""

    a: float
    """Constant part."""
    b: float
    """Part that grows with power."""
    c: float
    """Part that grows with the square."""
    leave_one_out_pct: float
    """Root mean square error of the efficiency when each inner point is left out in turn, points."""

    def peak_load(self) -> float | None:
        """Load of the best efficiency per unit of the rating: √(a/c); nothing where loss has no square part.

        >>> round(750 * LossModel(a=8 / 750, b=0.03, c=0.075, leave_one_out_pct=0.0).peak_load(), 2)
        282.84
        """
        return float(np.sqrt(self.a / self.c)) if self.c > 0 else None

    def best_efficiency(self) -> float:
        """Efficiency in % at the best load: 1/(1 + b + 2√(a·c)).

        >>> round(LossModel(a=8 / 750, b=0.03, c=0.075, leave_one_out_pct=0.0).best_efficiency(), 4)
        92.0329
        """
        return float(100.0 / (1.0 + self.b + 2.0 * np.sqrt(self.a * self.c)))


def value_at(curve: Curve, load_w: float) -> Quantity | None:
    """The value at a delivered power in W; nothing beyond the measured loads.

    A loss follows the shape-preserving cubic, everything else a straight line between its neighbours. Own doubts of the
    neighbours add in quadrature, shared ones alike, each by its share.
    """
    straight = _straight(curve, load_w)
    lost = loss_at(curve)(load_w) if straight is not None and curve.key == "loss" else None
    if straight is None or lost is None:
        return straight
    return Quantity(lost, straight.unit, own=straight.own, shared=straight.shared)


def _straight(curve: Curve, load_w: float) -> Quantity | None:
    points = curve.points
    if not points or not points[0].load_w <= load_w <= points[-1].load_w:
        return None
    right = next(i for i, point in enumerate(points) if point.load_w >= load_w)
    if right == 0 or points[right].load_w == load_w:
        return points[right].quantity
    low, high = points[right - 1], points[right]
    share = (load_w - low.load_w) / (high.load_w - low.load_w)
    return Quantity(
        low.quantity.value + share * (high.quantity.value - low.quantity.value),
        low.quantity.unit,
        own=float(np.hypot((1 - share) * low.quantity.own, share * high.quantity.own)),
        shared=(1 - share) * low.quantity.shared + share * high.quantity.shared,
    )


def loss_at(loss: Curve) -> Callable[[float], float | None]:
    """The loss in W as a function of delivered power in W: shape-preserving cubic through the measured points; nothing
    beyond the ends.
    """
    if len(loss.points) < 2:
        return lambda _: None
    course = Course.through(*_arrays(loss))

    def at(load_w: float) -> float | None:
        lost = float(course.at(np.array(load_w)))
        return None if np.isnan(lost) else lost

    return at


def efficiency_at(loss: Curve, load_w: float) -> float | None:
    """Efficiency in % at a delivered power in W, through the loss; nothing beyond the measured loads."""
    lost = loss_at(loss)(load_w)
    if lost is None or load_w <= 0:
        return None
    return 100.0 * load_w / (load_w + lost)


def efficiency_course(result: UnitResult, steps: int = 60) -> tuple[tuple[float, float], ...]:
    """(load in %, efficiency in %) from the first to the last measured load, for drawing."""
    loss = result.curve("loss")
    if loss is None or len(loss.points) < 2:
        return ()
    rated = result.unit.record.rated_power_w
    first, last = loss.points[0].load_w, loss.points[-1].load_w
    loads = np.geomspace(max(first, 0.01 * rated), last, steps)
    lost = Course.through(*_arrays(loss)).at(np.clip(loads, first, last))
    return tuple(zip((100.0 * loads / rated).tolist(), (100.0 * loads / (loads + lost)).tolist(), strict=True))


def best_load(loss: Curve, steps: int = 440) -> float | None:
    """Delivered power in W at which the measured course of the loss makes the best efficiency; nothing without a course.

    The course is looked at in ``steps`` equal steps between the ends: a maximum so flat needs no finer search.
    """
    if len(loss.points) < 2:
        return None
    loads, losses = _arrays(loss)
    tried = np.linspace(max(loads[0], 1e-3 * loads[-1]), loads[-1], steps + 1)
    lost = Course.through(loads, losses).at(tried)
    return float(tried[int(np.argmax(tried / (tried + lost)))])


def _arrays(curve: Curve) -> tuple[Array, Array]:
    """Delivered powers in W and values."""
    return (
        np.array([point.load_w for point in curve.points]), np.array([point.quantity.value for point in curve.points])
    )


def peak_loads(loss: Curve, rated_w: float, *, seed: int, trials: int = 2000) -> Array | None:
    """Best loads of the quadratic model for drawn losses, per unit of the rating (JCGM 101:2008).

    The place of a flat maximum is far from linear in the losses. What a meter does to all readings alike moves the
    part that grows with power and so hardly the place; only own doubts are drawn. Nothing where too few draws have a
    maximum.
    """
    loads, losses = (values / rated_w for values in _arrays(loss))
    own = np.array([max(point.quantity.own, LEAST_DOUBT_W) for point in loss.points]) / rated_w
    weighted = np.column_stack([np.ones_like(loads), loads, loads**2]) / own[:, None]
    drawn = normal_draws(losses, own, seed=seed, trials=trials) / own
    a, _, c = np.linalg.pinv(weighted) @ drawn.T
    curved = (a > 0) & (c > 0)
    if np.count_nonzero(curved) < trials / 2:
        return None
    places: Array = np.sqrt(a[curved] / c[curved])
    return places


def fit_losses(loads: Array, losses: Array, doubts: Array) -> tuple[float, float, float]:
    """a, b, c ≥ 0 of the quadratic loss, per unit; weighted by 1/u, solved without normal equations.

    Where the free solution has a negative coefficient, the best of those with some coefficients held at 0: least squares
    under bounds lie at the free solution of one of these faces (Lawson and Hanson, Solving Least Squares Problems, 1974,
    ch. 23; from memory), and three coefficients have seven.
    """
    design, wanted = _weighted(loads, losses, doubts)
    best, least = np.zeros(3), np.inf
    for held in (face for count in range(3) for face in combinations(range(3), count)):
        free = [place for place in range(3) if place not in held]
        solution = np.linalg.lstsq(design[:, free], wanted)[0]
        missed = float(np.sum((design[:, free] @ solution - wanted) ** 2))
        if (solution >= 0.0).all() and missed < least:
            best, least = np.zeros(3), missed
            best[free] = solution
            if not held:
                break
    return float(best[0]), float(best[1]), float(best[2])


def _weighted(loads: Array, losses: Array, doubts: Array) -> tuple[Array, Array]:
    """The rows of the quadratic loss and the losses that they should make, each by its doubt."""
    weights = 1.0 / doubts
    return np.column_stack([np.ones_like(loads), loads, loads**2]) * weights[:, None], losses * weights


def loss_model(loss: Curve, rated_w: float) -> LossModel | None:
    """The quadratic model of a measured loss, if leave-one-out says that it holds; otherwise nothing."""
    if len(loss.points) < FEWEST_POINTS:
        return None
    loads, losses = (values / rated_w for values in _arrays(loss))
    doubts = np.array([max(p.quantity.uncertainty, LEAST_DOUBT_W) for p in loss.points]) / rated_w
    a, b, c = _fits_without_one(loads, losses, doubts)
    predicted, found = (loads / (loads + lost) for lost in (a + b * loads + c * loads**2, losses))
    leave_one_out = _root_mean_square(100.0 * (predicted - found)[1:-1])
    if leave_one_out > LEAVE_ONE_OUT_ALLOWANCE * _root_mean_square((100.0 * doubts * loads / (loads + losses) ** 2)[1:-1]):
        return None
    a, b, c = fit_losses(loads, losses, doubts)
    return LossModel(a=a, b=b, c=c, leave_one_out_pct=leave_one_out)


def _root_mean_square(values: Array) -> float:
    return float(np.sqrt(np.mean(np.square(values))))


def _fits_without_one(loads: Array, losses: Array, doubts: Array) -> Array:
    """a, b, c as ``fit_losses`` has them without each point in turn, a column a point.

    Without bounds all of them follow from the fit to all points: with the residual e and the leverage h of the point left
    out, the coefficients change by ``X⁺ₚ·e/(1 − h)`` (Belsley, Kuh and Welsch, Regression Diagnostics, 1980, ch. 2; from
    memory). Only where one of them falls below 0, or the fit hangs on that point, the others are fitted again.
    """
    design, wanted = _weighted(loads, losses, doubts)
    inverse = np.linalg.pinv(design)
    fitted = inverse @ wanted
    left = 1.0 - np.sum(design.T * inverse, axis=0)
    hangs = left < LEAST_LEFT
    fits: Array = fitted[:, None] - inverse * (wanted - design @ fitted) / np.where(hangs, 1.0, left)
    for i in np.flatnonzero(hangs | (fits < 0.0).any(axis=0)):
        keep = np.arange(len(loads)) != i
        fits[:, i] = fit_losses(loads[keep], losses[keep], doubts[keep])
    return fits
