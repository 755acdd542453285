"""Courses between measured loads: efficiency through the loss in watts, everything else by straight lines.

Loss is the smooth quantity: a constant part, one that grows with power and one with its square. Efficiency itself is
never interpolated; a curve drawn through it can peak only where somebody happened to measure.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator
from scipy.optimize import nnls

from guidegen.evaluation.findings import Curve, UnitResult
from guidegen.quantities import Quantity

LEAVE_ONE_OUT_ALLOWANCE = 1.5
"""The quadratic model holds where its leave-one-out error stays within this many propagated uncertainties."""

Array = NDArray[np.float64]


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


def value_at(curve: Curve, load_w: float) -> Quantity | None:
    """The value at a delivered power in W, by a straight line between its neighbours; nothing beyond the ends."""
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
    """The loss in W as a function of delivered power in W: shape-preserving cubic through the measured points
    (Fritsch and Carlson 1980, as SciPy's PCHIP); nothing beyond the ends.
    """
    loads = np.array([point.load_w for point in loss.points])
    losses = np.array([point.quantity.value for point in loss.points])
    if len(loads) < 2:
        return lambda _: None
    course = PchipInterpolator(loads, losses, extrapolate=False)

    def at(load_w: float) -> float | None:
        if not loads[0] <= load_w <= loads[-1]:
            return None
        return float(course(load_w))

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
    at = loss_at(loss)
    loads = np.geomspace(max(loss.points[0].load_w, 0.01 * rated), loss.points[-1].load_w, steps)
    course = []
    for load in loads.tolist():
        lost = at(min(max(load, loss.points[0].load_w), loss.points[-1].load_w))
        if lost is not None and load > 0:
            course.append((100.0 * load / rated, 100.0 * load / (load + lost)))
    return tuple(course)


def fit_losses(loads: Array, losses: Array, doubts: Array) -> tuple[float, float, float]:
    """a, b, c ≥ 0 of the quadratic loss, per unit; weighted by 1/u, solved without normal equations."""
    weights = 1.0 / doubts
    design = np.column_stack([np.ones_like(loads), loads, loads**2]) * weights[:, None]
    solution, _ = nnls(design, losses * weights)
    return float(solution[0]), float(solution[1]), float(solution[2])


def loss_model(loss: Curve, rated_w: float) -> LossModel | None:
    """The quadratic model of a measured loss, if leave-one-out says that it holds; otherwise nothing."""
    if len(loss.points) < 6:
        return None
    loads = np.array([p.load_w for p in loss.points]) / rated_w
    losses = np.array([p.quantity.value for p in loss.points]) / rated_w
    doubts = np.array([max(p.quantity.uncertainty, 1e-3) for p in loss.points]) / rated_w
    errors = []
    for i in range(1, len(loads) - 1):
        keep = np.arange(len(loads)) != i
        a, b, c = fit_losses(loads[keep], losses[keep], doubts[keep])
        predicted = a + b * loads[i] + c * loads[i] ** 2
        errors.append(100.0 * (loads[i] / (loads[i] + predicted) - loads[i] / (loads[i] + losses[i])))
    leave_one_out = float(np.sqrt(np.mean(np.square(errors))))
    inner = 100.0 * doubts * loads / (loads + losses) ** 2
    if leave_one_out > LEAVE_ONE_OUT_ALLOWANCE * float(np.sqrt(np.mean(np.square(inner[1:-1])))):
        return None
    a, b, c = fit_losses(loads, losses, doubts)
    return LossModel(a=a, b=b, c=c, leave_one_out_pct=leave_one_out)
