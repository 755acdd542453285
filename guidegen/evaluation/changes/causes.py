"""A difference between two guides divided among what caused it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from math import factorial
from typing import Literal

Cause = Literal["measure", "price", "policy", "field"]
"""What may differ between two guides: what was recorded of a unit (its facts, its sessions, the instruments), prices and
the day that they are looked at, what counts and in which bracket, and which units there are."""
CAUSES: tuple[Cause, ...] = ("measure", "price", "policy", "field")
Taken = frozenset[Cause]
"""The causes that are taken from the later guide; the rest is as it was in the earlier."""
NOTHING: Taken = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Because:
    """A difference by cause; the four sum to the whole."""

    measure: float = 0.0
    """By what was recorded of units that both guides have."""
    price: float = 0.0
    """By prices."""
    policy: float = 0.0
    """By what counts."""
    field: float = 0.0
    """By units that came or went."""
    counted_in: Literal["points", "places", "share"] = "share"
    """Points of the score, places, or shares of one where there is nothing to count (a choice, a gate, a word)."""

    @property
    def moved(self) -> tuple[Cause, ...]:
        """The causes that have a share."""
        return tuple(cause for cause in CAUSES if self.of(cause))

    def of(self, cause: Cause) -> float:
        """The share of one cause."""
        return {"measure": self.measure, "price": self.price, "policy": self.policy, "field": self.field}[cause]


def shares(value: Callable[[Taken], float], moved: tuple[Cause, ...]) -> Mapping[Cause, float]:
    """What each cause adds, averaged over all orders in which the causes may come one after another.

    ``value`` tells the outcome with some causes taken from the later guide. The share of a cause is
    ``Σ |S|!·(n−|S|−1)!/n! · (v(S ∪ {cause}) − v(S))`` over all sets S of the others: the shares sum to ``v(all) − v(none)``, a
    cause that moves nothing gets nothing, and no order is preferred (L. S. Shapley, A value for n-person games, 1953;
    from memory). Sums are exact; each share is rounded to a float once.

    >>> shares(lambda taken: 6.0 if len(taken) == 2 else 2.0 if "price" in taken else 0.0, ("price", "policy"))
    {'price': 4.0, 'policy': 2.0}
    """
    count = len(moved)
    exact = {taken: Fraction(value(taken)) for taken in subsets(moved)}
    return {
        cause: float(sum(
            Fraction(factorial(len(taken)) * factorial(count - len(taken) - 1), factorial(count))
            * (exact[taken | {cause}] - exact[taken])
            for taken in exact if cause not in taken
        ))
        for cause in moved
    }


def subsets(moved: tuple[Cause, ...]) -> tuple[Taken, ...]:
    """Every set of some of the causes, the smaller first."""
    return tuple(frozenset(some) for size in range(len(moved) + 1) for some in combinations(moved, size))
