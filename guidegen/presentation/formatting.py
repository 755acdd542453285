"""How numbers are printed: one rounding route, on decimals, for table, sentence, drawing, JSON-LD and CSV."""

from datetime import date
from decimal import ROUND_HALF_EVEN, Decimal

from guidegen.evaluation import Finding
from guidegen.quantities import Quantity
from guidegen.records import Region

NO_BREAK = "\N{NO-BREAK SPACE}"
MINUS = "\N{MINUS SIGN}"
COVERAGE = 2
"""Coverage factor of the uncertainties that are printed, about 95 % (JCGM 100:2008, 6.2)."""
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
          "November", "December")


def rounded(value: float, decimals: int) -> Decimal:
    """The value as it is published; every other form of it is made from this one.

    The shortest decimal that stands for the float is rounded half to even (ISO 80000-1:2009, annex B, rule A; from
    memory), so that 2.675 is taken for what it says and not for its binary neighbour.

    >>> rounded(2.675, 2), rounded(-0.04, 1)
    (Decimal('2.68'), Decimal('0.0'))
    """
    result = Decimal(repr(value)).quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_EVEN)
    return abs(result) if result == 0 else result


def number(value: float, decimals: int) -> str:
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


def with_unit(value: float, unit: str, decimals: int) -> str:
    """Number and unit, kept on one line (SI brochure, 5.4.3).

    >>> with_unit(91.25, "%", 1) == "91.2" + NO_BREAK + "%"
    True
    """
    return f"{number(value, decimals)}{NO_BREAK}{unit}" if unit else number(value, decimals)


def finding_text(finding: Finding) -> str:
    """A finding as it stands in a sentence."""
    return with_unit(finding.quantity.value, finding.quantity.unit, finding.decimals)


def finding_with_doubt(finding: Finding) -> str:
    """A finding with its expanded uncertainty, both ending at the same digit."""
    quantity = finding.quantity
    if quantity.uncertainty == 0:
        return finding_text(finding)
    doubt = rounded(COVERAGE * quantity.uncertainty, finding.decimals)
    spread = f"{doubt}" if doubt else f"{Decimal(1).scaleb(-finding.decimals)}"
    return f"{number(quantity.value, finding.decimals)}{NO_BREAK}±{NO_BREAK}{spread}{NO_BREAK}{quantity.unit}".rstrip()


def quantity_text(quantity: Quantity, decimals: int) -> str:
    """A quantity as it stands in a sentence."""
    return with_unit(quantity.value, quantity.unit, decimals)


def money(amount: float, region: Region, *, decimals: int | None = None) -> str:
    """An amount in the region's currency; whole units from 20 upwards, cents below."""
    places = decimals if decimals is not None else (0 if amount >= 20 else 2)
    return f"{region.currency_mark}{NO_BREAK}{number(amount, places)}"


def day(when: date) -> str:
    """A day as a reader says it.

    >>> day(date(2026, 11, 8)) == f"8{NO_BREAK}November{NO_BREAK}2026"
    True
    """
    return f"{when.day}{NO_BREAK}{MONTHS[when.month - 1]}{NO_BREAK}{when.year}"


def listed(words: tuple[str, ...], last: str = "and") -> str:
    """Words in a row as a sentence has them.

    >>> listed(("ripple", "noise", "price"))
    'ripple, noise and price'
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def counted(count: int, one: str, many: str = "") -> str:
    """A count with its noun.

    >>> counted(1, "unit"), counted(3, "unit")
    ('1 unit', '3 units')
    """
    return f"{count} {one if count == 1 else many or one + 's'}"
