"""Standard uncertainties: of one reading from its instrument, and of what is computed from readings (JCGM 100:2008)."""

import math
from collections.abc import Iterable

import numpy as np
from numpy.typing import ArrayLike, NDArray

from guidegen.evaluation.findings import Bench
from guidegen.quantities import Quantity
from guidegen.records.guide import InstrumentQuantity, Reading


def read(bench: Bench, kind: InstrumentQuantity, value: float, unit: str) -> Quantity:
    """One reading with the uncertainty of the instrument that made it; none where no instrument is listed for it."""
    reading = bench.reading(kind)
    if reading is None:
        return Quantity(value, unit)
    return Quantity(value, unit, own=own_uncertainty(reading), shared=shared_uncertainty(reading, value))


def at_floor(bench: Bench, kind: InstrumentQuantity, value: float) -> bool:
    """Whether the instrument can't show less than this value, so that the truth may lie below."""
    reading = bench.reading(kind)
    return reading is not None and reading.floor > 0 and value <= reading.floor


def own_uncertainty(reading: Reading) -> float:
    """Scatter of one reading and its last digit: √(s² + d²/12) (JCGM 100:2008, 4.2 and F.2.2.1)."""
    return math.hypot(reading.repeatability, reading.resolution / math.sqrt(12.0))


def shared_uncertainty(reading: Reading, value: float) -> float:
    """What the instrument does to every reading alike: √((g·x)² + o²), g relative gain, o offset."""
    return math.hypot(reading.gain_pct / 100.0 * value, reading.offset)


def mean(quantities: tuple[Quantity, ...]) -> Quantity:
    """The mean of quantities from the same instruments: own parts shrink with √n, shared parts don't."""
    count = len(quantities)
    return Quantity(
        math.fsum(q.value for q in quantities) / count,
        quantities[0].unit,
        own=math.sqrt(math.fsum(q.own**2 for q in quantities)) / count,
        shared=math.fsum(q.shared for q in quantities) / count,
    )


def ratio(over: Quantity, under: Quantity, unit: str, *, factor: float = 1.0) -> Quantity:
    """``factor × over / under`` with relative uncertainties in quadrature (JCGM 100:2008, 5.1.6).

    The two come from different instruments; where one instrument reads both this overstates the doubt.

    >>> eta = ratio(Quantity(500.0, "W", own=0.5), Quantity(550.0, "W", own=0.825), "%", factor=100.0)
    >>> round(eta.value, 3), round(eta.uncertainty, 3)
    (90.909, 0.164)
    """
    value = factor * over.value / under.value
    own = abs(value) * math.hypot(over.own / over.value if over.value else 0.0, under.own / under.value)
    shared = abs(value) * math.hypot(over.shared / over.value if over.value else 0.0, under.shared / under.value)
    return Quantity(value, unit, own=own, shared=shared)


def difference(first: Quantity, second: Quantity) -> Quantity:
    """``first − second``; shared parts of different instruments, in quadrature."""
    return Quantity(
        first.value - second.value,
        first.unit,
        own=math.hypot(first.own, second.own),
        shared=math.hypot(first.shared, second.shared),
    )


def scaled(quantity: Quantity, factor: float, unit: str) -> Quantity:
    """The quantity times an exact factor, in another unit."""
    return Quantity(
        factor * quantity.value, unit, own=abs(factor) * quantity.own, shared=abs(factor) * quantity.shared
    )


def combined(
    sensitivities: Iterable[float], uncertainties: Iterable[float], correlations: ArrayLike | None = None
) -> float:
    """Combined standard uncertainty ``√(ΣΣ c_i c_j u_i u_j r_ij)``; without correlations ``√Σ(c_i u_i)²``.

    JCGM 100:2008, 5.1.2 and 5.2.2.

    >>> combined((1.0, 1.0), (3.0, 4.0)), combined((1.0, -1.0), (3.0, 3.0), ((1.0, 1.0), (1.0, 1.0)))
    (5.0, 0.0)
    """
    each = [c * u for c, u in zip(sensitivities, uncertainties, strict=True)]
    if correlations is None:
        return math.hypot(*each)
    parts = np.asarray(each, dtype=np.float64)
    square = float(parts @ np.asarray(correlations, dtype=np.float64) @ parts)
    return math.sqrt(max(0.0, square))


def normal_draws(
    values: NDArray[np.float64], doubts: NDArray[np.float64], *, seed: int, trials: int
) -> NDArray[np.float64]:
    """One row a trial: the values drawn about themselves by their own doubts (JCGM 101:2008, 6.4.7); the seed decides."""
    return np.random.default_rng(seed).normal(values, doubts, size=(trials, len(values)))


def symmetric_interval(draws: NDArray[np.float64], *, coverage: float = 0.95) -> tuple[float, float]:
    """The probabilistically symmetric coverage interval of simulated values (JCGM 101:2008, 7.7)."""
    tail = (1.0 - coverage) / 2.0
    low, high = np.quantile(draws, (tail, 1.0 - tail))
    return float(low), float(high)


def effective_freedom(components: tuple[tuple[float, float], ...]) -> float:
    """Effective degrees of freedom from (component, degrees of freedom) (Welch and Satterthwaite; JCGM 100, G.4.1)."""
    total = math.fsum(u**2 for u, _ in components)
    return total**2 / math.fsum(u**4 / freedom for u, freedom in components)
