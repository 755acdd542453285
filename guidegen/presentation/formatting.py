"""How findings, prices and days are printed; numbers go through the one rounding route of ``guidegen.rounding``."""

from datetime import date
from decimal import Decimal

from guidegen.evaluation import Finding
from guidegen.quantities import Quantity
from guidegen.records import Region
from guidegen.rounding import MINUS, NO_BREAK, amount, listed, number, order, rounded, with_unit

__all__ = [
    "COVERAGE", "MINUS", "MONTHS", "NO_BREAK", "amount", "counted", "day", "finding_figure", "finding_text", "finding_with_doubt",
    "listed", "money", "no_more_than", "number", "order", "quantity_text", "rounded", "signed", "with_unit", "within_text",
]

COVERAGE = 2
"""Coverage factor of the uncertainties that are printed, about 95 % (JCGM 100:2008, 6.2)."""
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
          "November", "December")


def no_more_than(text: str, *, bound: bool) -> str:
    """A printed number where there is no room for words, marked where it is only an upper bound.

    >>> no_more_than("15.8", bound=True) == "≤" + NO_BREAK + "15.8"
    True
    """
    return f"≤{NO_BREAK}{text}" if bound else text


def finding_text(finding: Finding) -> str:
    """A finding as it stands in a sentence."""
    said = with_unit(finding.quantity.value, finding.quantity.unit, finding.decimals)
    return f"at most {said}" if finding.upper_bound else said


def finding_figure(finding: Finding) -> str:
    """A finding under a heading that has its unit."""
    return no_more_than(number(finding.quantity.value, finding.decimals), bound=finding.upper_bound)


def within_text(finding: Finding) -> str:
    """A finding as a bound that it keeps: rounded up where its last digit would fall short of it."""
    printed, step = rounded(finding.quantity.value, finding.decimals), Decimal(1).scaleb(-finding.decimals)
    return with_unit(float(printed if printed >= Decimal(repr(finding.quantity.value)) else printed + step), finding.quantity.unit, finding.decimals)


def finding_with_doubt(finding: Finding) -> str:
    """A finding with its expanded uncertainty, both ending at the same digit."""
    quantity = finding.quantity
    if quantity.uncertainty == 0:
        return finding_text(finding)
    doubt = rounded(COVERAGE * quantity.uncertainty, finding.decimals)
    spread = f"{doubt}" if doubt else f"{Decimal(1).scaleb(-finding.decimals)}"
    return f"{finding_figure(finding)}{NO_BREAK}±{NO_BREAK}{spread}{NO_BREAK}{quantity.unit}".rstrip()


def with_doubt(value: float, doubt: float) -> str:
    """A number under a heading that has its unit, to one decimal, with its expanded uncertainty where that is known.

    >>> with_doubt(91.34, 0.26).replace(NO_BREAK, " "), with_doubt(91.34, 0.0)
    ('91.3 ± 0.3', '91.3')
    """
    return f"{number(value, 1)}{NO_BREAK}±{NO_BREAK}{number(doubt, 1)}" if doubt else number(value, 1)


def quantity_text(quantity: Quantity, decimals: int) -> str:
    """A quantity as it stands in a sentence."""
    return with_unit(quantity.value, quantity.unit, decimals)


def money(value: float, region: Region, *, decimals: int | None = None) -> str:
    """An amount in the region's currency; whole units from 20 upwards, cents below."""
    return f"{region.currency_mark}{NO_BREAK}{amount(value) if decimals is None else number(value, decimals)}"


def day(when: date) -> str:
    """A day as a reader says it.

    >>> day(date(2026, 11, 8)) == f"8{NO_BREAK}November{NO_BREAK}2026"
    True
    """
    return f"{when.day}{NO_BREAK}{MONTHS[when.month - 1]}{NO_BREAK}{when.year}"


def signed(value: float, decimals: int = 0) -> str:
    """A difference with its sign; what rounds to nothing has none.

    >>> signed(0.42, 1), signed(-0.42, 1), signed(0.04, 1)
    ('+0.4', '−0.4', '0.0')
    """
    return f"{'+' if rounded(value, decimals) > 0 else ''}{number(value, decimals)}"


def counted(count: int, one: str, many: str = "") -> str:
    """A count with its noun.

    >>> counted(1, "unit"), counted(3, "unit")
    ('1 unit', '3 units')
    """
    return f"{count} {one if count == 1 else many or one + 's'}"
