"""Numbers for the ear: how far they are rounded, and how they are said in words.

The rule (common practice, no source): from 1000 upward to tens, from 10 upward to whole numbers, below 10 to one
decimal. It is given up where it would say something else than the printed number: a spoken number lies on the same side
of every limit as the printed one, and of two numbers neither becomes equal to nor passes the other; then it keeps as
many of its printed decimals as that takes.
"""

from collections.abc import Iterable
from decimal import Decimal

from guidegen.rounding import rounded

_SMALL = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_ORDINALS = {"one": "first", "two": "second", "three": "third", "five": "fifth", "eight": "eighth", "nine": "ninth",
             "twelve": "twelfth"}
_CLOSE = Decimal("0.25")
"""Of a step of the last spoken digit: so near to it a number is just under or just over what is said."""


def whole_words(count: int) -> str:
    """A whole number below a million in words.

    >>> whole_words(21), whole_words(119), whole_words(1250), whole_words(1035)
    ('twenty-one', 'a hundred and nineteen', 'one thousand two hundred and fifty', 'one thousand and thirty-five')
    """
    if count < 20:
        return _SMALL[count]
    if count < 100:
        rest = count % 10
        return _TENS[count // 10] + (f"-{_SMALL[rest]}" if rest else "")
    if count < 200:
        return "a hundred" + _rest(count % 100)
    if count < 1000:
        return f"{_SMALL[count // 100]} hundred" + _rest(count % 100)
    if count == 1000:
        return "a thousand"
    left = count % 1000
    told = whole_words(left).replace("a hundred", "one hundred", 1) if left >= 100 else ""
    return f"{whole_words(count // 1000)} thousand" + (f" {told}" if told else _rest(left))


def _rest(count: int) -> str:
    return f" and {whole_words(count)}" if count else ""


def number_words(value: Decimal) -> str:
    """A number in words, every digit behind the point said by itself, closing zeros left out.

    >>> number_words(Decimal("15.8")), number_words(Decimal("-0.05"))
    ('fifteen point eight', 'minus zero point zero five')
    >>> number_words(Decimal("2.0"))
    'two'
    """
    sign, text = ("minus " if value < 0 else ""), f"{abs(value):f}"
    before, _, behind = text.partition(".")
    behind = behind.rstrip("0")
    digits = " ".join(_SMALL[int(digit)] for digit in behind)
    return f"{sign}{whole_words(int(before))}{f' point {digits}' if digits else ''}"


def ordinal_words(count: int) -> str:
    """The place of a day in its month.

    >>> ordinal_words(1), ordinal_words(8), ordinal_words(20), ordinal_words(31)
    ('first', 'eighth', 'twentieth', 'thirty-first')
    """
    head, hyphen, last = whole_words(count).rpartition("-")
    said = _ORDINALS.get(last, f"{last[:-1]}ieth" if last.endswith("y") else f"{last}th")
    return f"{head}{hyphen}{said}"


def year_words(year: int) -> str:
    """A year as it is said.

    >>> year_words(2026), year_words(2005), year_words(1900)
    ('twenty twenty-six', 'two thousand and five', 'nineteen hundred')
    """
    century, rest = divmod(year, 100)
    if 2000 <= year < 2010:
        return f"two thousand{_rest(rest)}"
    return f"{whole_words(century)} {whole_words(rest) if rest >= 10 else f'oh {whole_words(rest)}' if rest else 'hundred'}"


def for_the_ear(printed: Decimal, against: Iterable[Decimal] = ()) -> Decimal:
    """The printed number as far as an ear needs it; on the same side of zero and of ``against`` as it was printed.

    >>> for_the_ear(Decimal("93.4")), for_the_ear(Decimal("119.6"), [Decimal(120)])
    (Decimal('93'), Decimal('119.6'))
    """
    bounds = (Decimal(0), *against)
    decimals = max(0, -int(printed.as_tuple().exponent))
    for places in range(_places(printed), decimals):
        said = _cut(printed, places)
        if all(_side(said, bound) == _side(printed, bound) for bound in bounds):
            return said
    return printed


def all_for_the_ear(printed: tuple[Decimal, ...], against: Iterable[Decimal] = ()) -> tuple[Decimal, ...]:
    """Numbers that are heard together: each on its side of the bounds, and all in the order of print.

    >>> all_for_the_ear((Decimal("85.3"), Decimal("85.1")))
    (Decimal('85.3'), Decimal('85'))
    """
    bounds = tuple(against)
    return tuple(for_the_ear(one, (*bounds, *_between(one, printed))) for one in printed)


def _between(one: Decimal, printed: tuple[Decimal, ...]) -> tuple[Decimal, ...]:
    """Bounds that keep a number apart from the others: the others, and the middles on the way to them."""
    others = tuple(other for other in printed if other != one)
    return (*others, *((one + other) / 2 for other in others))


def same_to_the_ear(first: Decimal, second: Decimal) -> bool:
    """Whether two numbers, each said by itself, sound the same; then they are called practically the same."""
    return for_the_ear(first) == for_the_ear(second)


def nearness(printed: Decimal, said: Decimal) -> str:
    """What stands before a rounded number: ``about``, ``just under`` or ``just over``; nothing before an exact one.

    >>> nearness(Decimal("92.9"), Decimal(93)), nearness(Decimal("92.6"), Decimal(93)), nearness(Decimal(5), Decimal(5))
    ('just under', 'about', '')
    """
    if said == printed:
        return ""
    step = Decimal(1).scaleb(-_places(printed))
    if abs(said - printed) > _CLOSE * step:
        return "about"
    return "just under" if abs(printed) < abs(said) else "just over"


def _places(printed: Decimal) -> int:
    size = abs(printed)
    return -1 if size >= 1000 else 0 if size >= 10 else 1


def _cut(printed: Decimal, places: int) -> Decimal:
    """Rounded by the one route; tens are whole numbers again."""
    tens = Decimal(10) if places < 0 else Decimal(1)
    return rounded(float(printed / tens), max(places, 0)) * tens


def _side(value: Decimal, bound: Decimal) -> int:
    return (value > bound) - (value < bound)
