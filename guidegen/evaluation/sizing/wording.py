"""Numbers in the sentences and sums of sizing: watts, percent and money, by the one rounding route."""

from guidegen.rounding import NO_BREAK, amount, listed, number, with_unit

__all__ = ["ABSENCES", "NO_BREAK", "listed", "money", "number", "percent", "percent_against", "watts", "with_unit"]

ABSENCES = {"no_price": "no fresh price", "hard_to_find": "hard to find", "out_of_stock": "out of stock"}
"""Why a unit can't be bought now, in words."""


def money(value: float, mark: str) -> str:
    """An amount of money behind the mark of its currency.

    >>> money(45.4, "€") == "€" + NO_BREAK + "45"
    True
    """
    return f"{mark}{NO_BREAK}{amount(value)}"


def watts(value: float) -> str:
    """A power in whole watts."""
    return with_unit(value, "W", 0)


def percent(share: float) -> str:
    """A share of 0 to 1 in whole percent.

    >>> percent(0.6) == "60" + NO_BREAK + "%"
    True
    """
    return with_unit(100.0 * share, "%", 0)


def percent_against(share: float, limit: float) -> str:
    """A share in percent with as many decimals, up to two, as it takes to print differently from ``limit``.

    >>> percent_against(0.601, 0.6) == "60.1" + NO_BREAK + "%"
    True
    """
    apart = (d for d in (0, 1, 2) if share == limit or number(100 * share, d) != number(100 * limit, d))
    return with_unit(100.0 * share, "%", next(apart, 2))
