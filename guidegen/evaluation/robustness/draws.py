"""Draws that belong to a name: the same seed and name give the same numbers, whatever else is drawn.

Each stream is a Philox generator (Salmon and others, Parallel random numbers: as easy as 1, 2, 3, 2011) whose key is
the BLAKE2b hash (RFC 7693) of the seed and the name. Uniform numbers are made of its raw bits, normal and gamma numbers
by NumPy's ``RandomState``, whose streams are promised never to change (NEP 19).
"""

from functools import lru_cache
from hashlib import blake2b

import numpy as np
from numpy.typing import NDArray

Draws = NDArray[np.float64]
"""One number a draw, or one row a name."""
DRAWS = 10_000
"""Draws of a run: a share of one half is known to 0.01 with 95 % confidence (9604 by ``z²·p·(1 − p)/d²``)."""
_MANTISSA = 2.0**-53


def uniforms(seed: int, *name: str, draws: int = DRAWS) -> Draws:
    """Numbers between 0 and 1, never either, that belong to this seed and name."""
    bits = _stream(seed, *name).random_raw(draws)
    shifted: Draws = ((bits >> np.uint64(11)).astype(np.float64) + 0.5) * _MANTISSA
    return shifted


def normals(seed: int, *name: str, draws: int = DRAWS) -> Draws:
    """Standard normal numbers that belong to this seed and name."""
    return np.random.RandomState(_stream(seed, *name)).standard_normal(draws)


def _stream(seed: int, *name: str) -> np.random.Philox:
    key = blake2b("|".join((str(seed), *name)).encode(), digest_size=16).digest()
    return np.random.Philox(key=int.from_bytes(key, "little"))


def any_weights(seed: int, criteria: tuple[str, ...], *, draws: int = DRAWS) -> Draws:
    """Weights evenly over all weightings, a row a criterion: every column is at least 0 and sums to 1.

    Exponential numbers over their sum are uniform on the simplex (Devroye, Non-Uniform Random Variate Generation,
    1986, ch. V.2; from memory); uniform numbers over their sum are not.
    """
    return _any_weights(seed, criteria, draws)


@lru_cache(maxsize=8)
def _any_weights(seed: int, criteria: tuple[str, ...], draws: int) -> Draws:
    return _shares(np.stack([-np.log(uniforms(seed, "any weights", name, draws=draws)) for name in criteria]))


NEARNESS = 50.0
"""Concentration of weights near the editor's: a weight of 0.4 then has a standard deviation of 0.069."""


def near_weights(seed: int, weights: dict[str, float], *, nearness: float = NEARNESS, draws: int = DRAWS) -> Draws:
    """Weights around the given ones, a row a criterion: Dirichlet with parameters ``nearness × weight``.

    The mean is the weight, the standard deviation ``√(w·(1 − w)/(nearness + 1))``; gamma numbers over their sum
    (Devroye 1986, ch. XI.4; from memory).
    """
    return _near_weights(seed, tuple(weights.items()), nearness, draws)


@lru_cache(maxsize=8)
def _near_weights(seed: int, weights: tuple[tuple[str, float], ...], nearness: float, draws: int) -> Draws:
    rows = [np.random.RandomState(_stream(seed, "near weights", name)).standard_gamma(nearness * weight, draws) for name, weight in weights]
    return _shares(np.stack(rows))


def _shares(rows: Draws) -> Draws:
    """Every row's share of the sum; never changed afterwards, as brackets have the same weights in common."""
    total = np.zeros(rows.shape[1])
    for row in rows:
        total = total + row
    shares: Draws = rows / total
    shares.flags.writeable = False
    return shares
