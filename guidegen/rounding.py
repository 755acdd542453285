"""How a number becomes words: one rounding route for table, sentence, drawing, JSON-LD and CSV."""

from decimal import ROUND_HALF_EVEN, Decimal
from functools import lru_cache

NO_BREAK = "\N{NO-BREAK SPACE}"
MINUS = "\N{MINUS SIGN}"


@lru_cache(maxsize=16_384)
def rounded(value: float, decimals: int) -> Decimal:
    """The value as it is published; every other form of it is made from this one.

    The shortest decimal that stands for the float is rounded half to even (ISO 80000-1:2009, annex B, rule A; from
    memory), so that 2.675 is taken for what it says and not for its binary neighbour.

    >>> rounded(2.675, 2), rounded(-0.04, 1)
    (Decimal('2.68'), Decimal('0.0'))
    """
    result = Decimal(repr(float(value))).quantize(_last_place(decimals), rounding=ROUND_HALF_EVEN)
    return abs(result) if result == 0 else result


@lru_cache
def _last_place(decimals: int) -> Decimal:
    return Decimal(1).scaleb(-decimals)


@lru_cache(maxsize=16_384)
def number(value: float, decimals: int = 0) -> str:
    """The number for a reader, with a real minus sign.

    >>> number(-3.14159, 2)
    '−3.14'
    """
    return f"{rounded(value, decimals)}".replace("-", MINUS)


def order(value: float, decimals: int) -> str:
    """The same number for a machine: decimal point, hyphen as minus.

    >>> order(-3.14159, 2)
    '-3.14'
    """
    return f"{rounded(value, decimals)}"


def with_unit(value: float, unit: str, decimals: int = 0) -> str:
    """Number and unit, kept on one line (SI brochure, 5.4.3).

    >>> with_unit(91.25, "%", 1) == "91.2" + NO_BREAK + "%"
    True
    """
    return f"{number(value, decimals)}{NO_BREAK}{unit}" if unit else number(value, decimals)


WHOLE_FROM = 20.0
"""Amounts of money from here on are said without their hundredths."""


def amount(value: float) -> str:
    """An amount of money without the mark of its currency: whole units from 20 upwards, hundredths below.

    >>> amount(45.4), amount(9.5)
    ('45', '9.50')
    """
    return number(value, 0 if value >= WHOLE_FROM else 2)


def listed(words: tuple[str, ...], last: str = "and") -> str:
    """Words in a row as a sentence has them.

    >>> listed(("ripple", "noise", "price"))
    'ripple, noise and price'
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"
