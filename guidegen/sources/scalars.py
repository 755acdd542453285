"""What an unquoted word of YAML stands for: a number, a day, true, false or text; anything that surprises is refused."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import lru_cache

LONGEST_NUMBER = 25
"""Digits of a number; more than any instrument shows."""


@dataclass(frozen=True, slots=True)
class Refused:
    """A word that YAML would read as something the writer did not mean."""

    expected: str
    """What to write instead."""


Value = str | int | float | date | Refused
"""What an unquoted word may come to; ``bool`` is an ``int``."""

_NUMBER = re.compile(r"[-+]?(?:0|[1-9][0-9]*)(\.[0-9]+)?")
_DAY = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_THOUSANDS = re.compile(r"[0-9]{3}(\.[0-9]+)?")
_BASE_60 = re.compile(r"[-+]?[0-9]+(:[0-5]?[0-9])+(\.[0-9]*)?")
_LEADING_ZERO = re.compile(r"([-+]?)0+([0-9]+(?:\.[0-9]+)?)")
_OTHER_BASE = re.compile(r"[-+]?0[xob][0-9a-fA-F_]+")
_EXPONENT = re.compile(r"[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)[eE][-+]?[0-9]{1,4}")
_HALF_DECIMAL = re.compile(r"([-+]?)(?=\.?[0-9])([0-9]*)\.([0-9]*)")
_UNDERSCORED = re.compile(r"[-+]?[0-9][0-9_]*(\.[0-9_]+)?")
_NOT_FINITE = re.compile(r"[-+]?\.(nan|inf)", re.IGNORECASE)
_NOTHING = frozenset(("", "~", "null", "Null", "NULL"))
TRUTH = frozenset(("yes", "no", "on", "off", "true", "false"))
"""Words that YAML readers take for true or false, in any letters."""
_IN_QUOTES = "or quotes around it if it is text"


def without_comma(whole: str, behind: str) -> str:
    """What is expected instead of a number with a comma in it.

    >>> without_comma("13", "0")
    'a number with a point as decimal mark, 13.0'
    >>> without_comma("1", "059.5")
    'a number without a comma between thousands, 1059.5'
    >>> without_comma("1", "059")
    'a number with a point as decimal mark, 1.059, or without a comma between thousands, 1059'
    >>> without_comma("1.059", "5")
    'a number with a point as decimal mark and none between thousands, 1059.5'
    """
    if "." in whole:
        return f"a number with a point as decimal mark and none between thousands, {whole.replace('.', '')}.{behind}"
    decimal = "" if "." in behind else f"a number with a point as decimal mark, {whole}.{behind}"
    if not _THOUSANDS.fullmatch(behind):
        return decimal or "a number without a comma"
    return f"{f'{decimal}, or' if decimal else 'a number'} without a comma between thousands, {whole}{behind}"


@lru_cache(maxsize=50_000)
def plain_value(word: str) -> Value:
    """The value of an unquoted word.

    >>> plain_value("12.04"), plain_value("2026-03-02"), plain_value("3v3")
    (12.04, datetime.date(2026, 3, 2), '3v3')
    >>> plain_value("010").expected
    '10 without leading zeros, or quotes around it if it is text'
    """
    if word in {"true", "false"}:
        return word == "true"
    if word in _NOTHING:
        return Refused("a value; leave the field out where there is none")
    if word[0].isalpha():
        return _word(word)
    number = _NUMBER.fullmatch(word)
    if number is not None:
        return _number(word, whole=number[1] is None)
    day = _DAY.fullmatch(word)
    if day is not None:
        return _day(int(day[1]), int(day[2]), int(day[3]))
    return _surprise(word) or word


def _word(word: str) -> str | Refused:
    if len(word) <= 5 and word.lower() in TRUTH:
        return Refused("true or false in small letters, or quotes around it if it is text")
    return word


def _number(word: str, *, whole: bool) -> int | float | Refused:
    if len(word) > LONGEST_NUMBER:
        return Refused(f"a number of at most {LONGEST_NUMBER} digits, {_IN_QUOTES}")
    return int(word) if whole else float(word)


def _day(year: int, month: int, day: int) -> date | Refused:
    try:
        return date(year, month, day)
    except ValueError:
        return Refused("a day of the calendar, year-month-day")


def _surprise(word: str) -> Refused | None:
    """Why a word that begins with a sign, digit or point is neither a number as we write it nor safely text."""
    for pattern, say in _SURPRISES:
        found = pattern.fullmatch(word)
        if found is not None:
            return Refused(f"{say(found)}, {_IN_QUOTES}")
    return None


def _written_out(found: re.Match[str]) -> str:
    """A power of ten is read as a number by some and as text by others (YAML 1.1 wants ``1.0e+3``)."""
    number = Decimal(found[0])
    return f"{number:f} written out" if abs(number.adjusted()) < LONGEST_NUMBER else "the number written out"


def _both_sides(found: re.Match[str]) -> str:
    return f"{found[1]}{found[2] or '0'}.{found[3] or '0'} with digits on both sides of the point"


_SURPRISES: tuple[tuple[re.Pattern[str], Callable[[re.Match[str]], str]], ...] = (
    (_BASE_60, lambda _: "a number in one unit (YAML counts 12:30 in sixties)"),
    (_OTHER_BASE, lambda _: "a decimal number"),
    (_NOT_FINITE, lambda _: "a finite number, the field left out where there is none"),
    (_LEADING_ZERO, lambda found: f"{found[1]}{found[2]} without leading zeros"),
    (_EXPONENT, _written_out),
    (_HALF_DECIMAL, _both_sides),
    (_UNDERSCORED, lambda found: f"{found[0].replace('_', '')} without underscores"),
)
"""Words of which two readers would make different things, and what to write instead; the first that fits speaks."""
