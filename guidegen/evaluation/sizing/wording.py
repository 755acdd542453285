"""Numbers in the sentences and sums of sizing, rounded by the same rule as everything that is published."""

from decimal import ROUND_HALF_EVEN, Decimal

NO_BREAK = "\N{NO-BREAK SPACE}"


def number(value: float, decimals: int = 0) -> str:
    """The number as a reader sees it: half to even on the shortest decimal that stands for the float.

    >>> number(2.675, 2), number(600.0)
    ('2.68', '600')
    """
    made = Decimal(repr(float(value))).quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_EVEN)
    return f"{abs(made) if made == 0 else made}".replace("-", "\N{MINUS SIGN}")


def with_unit(value: float, unit: str, decimals: int = 0) -> str:
    """Number and unit, kept on one line.

    >>> with_unit(83.333, "W", 1) == "83.3" + NO_BREAK + "W"
    True
    """
    return f"{number(value, decimals)}{NO_BREAK}{unit}"


def watts(value: float) -> str:
    """A power in whole watts."""
    return with_unit(value, "W")


def percent(share: float) -> str:
    """A share of 0 to 1 in whole percent.

    >>> percent(0.6) == "60" + NO_BREAK + "%"
    True
    """
    return with_unit(100.0 * share, "%")


def percent_against(share: float, limit: float) -> str:
    """A share in percent with as many decimals, up to two, as it takes to print differently from ``limit``.

    >>> percent_against(0.601, 0.6) == "60.1" + NO_BREAK + "%"
    True
    """
    apart = (d for d in (0, 1, 2) if share == limit or number(100 * share, d) != number(100 * limit, d))
    return with_unit(100.0 * share, "%", next(apart, 2))


def listed(words: tuple[str, ...], last: str = "and") -> str:
    """Words in a row as a sentence has them.

    >>> listed(("depth", "price", "plugs"), "or")
    'depth, price or plugs'
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"
