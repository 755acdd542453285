"""A printed sentence as it is read aloud: every number in words, rounded for the ear, every unit in words.

Names of units keep their letters and digits. What two sentences of print would say of one number is said once, here.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from guidegen.presentation.formatting import MINUS, MONTHS, NO_BREAK
from guidegen.presentation.rundown.ear import (
    all_for_the_ear,
    nearness,
    number_words,
    ordinal_words,
    whole_words,
    year_words,
)
from guidegen.presentation.rundown.units import UNITS, money_words, with_unit_words
from guidegen.records import Region

_NUMBER = rf"[-{MINUS}]?\d+(?:\.\d+)?"
_MONEY = "money"
_UNIT = "|".join(re.escape(unit) for unit in sorted(UNITS, key=lambda unit: (-len(unit), unit)))
_GAP = f"[ {NO_BREAK}]"
_BOUNDED = ("about", "exceeds", "just", "least", "most", "only", "over", "to", "under", "within")
"""After these words a rounded number is called about so much: nothing stands just under a bound."""
_PLAIN = {
    "aside": r"(?P<opens> \()|(?P<closes>\))",
    "pin": r"(?P<pin>\d+)-pin\b",
    "rail": rf"(?P<rail>{_NUMBER}){_GAP}V(?P<standby>{_GAP}standby)?{_GAP}rail\b",
    "symbol": r"\bT(?P<symbol>\d)\b",
    "day": rf"(?P<day>\d{{1,2}}){_GAP}(?P<month>{'|'.join(MONTHS)})(?:{_GAP}(?P<year>\d{{4}}))?",
    "span": rf"(?P<low>{_NUMBER})(?: to |–)(?P<high>{_NUMBER})(?:{_GAP}(?P<of>{_UNIT})(?![A-Za-z]))?",
    "quantity": rf"(?P<value>{_NUMBER}){_GAP}(?P<unit>{_UNIT})(?![A-Za-z])",
    "bare": rf"(?P<bare>{_NUMBER})(?![\d-])",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Voice:
    """What has to be known to read a sentence aloud."""

    region: Region
    """Region whose currency amounts are in."""
    names: tuple[str, ...] = ()
    """Names that are said as they are written."""
    limits: Mapping[str, tuple[Decimal, ...]] = field(default_factory=dict)
    """By unit, what no rounding may cross."""

    def pattern(self) -> re.Pattern[str]:
        """Everything in a sentence that holds a digit, names first."""
        names = "|".join(re.escape(name) for name in sorted(self.names, key=lambda name: (-len(name), name)))
        mark = re.escape(self.region.currency_mark)
        money = rf"{mark}{_GAP}?(?P<money>{_NUMBER})"
        parts = (f"(?P<name>{names})" if names else "", money, *_PLAIN.values())
        return re.compile("|".join(part for part in parts if part))


def spoken(sentence: str, voice: Voice) -> str:
    """The sentence for a reader aloud; what begins it is written large.

    >>> ireland = Region(id="ie", name="Ireland", mains_voltage_v=230, currency="EUR", currency_mark="€", tax="included",
    ...                  tariff_per_kwh=0.3, tariff_source="-", circuit_a=16)
    >>> spoken("92.9 % of the wall's power arrives; the rest is 32.6 W of heat.", Voice(region=ireland))
    "Just under ninety-three per cent of the wall's power arrives; the rest is about thirty-three watts of heat."
    """
    pattern = voice.pattern()
    rounded = _rounded(tuple(pattern.finditer(sentence)), voice)
    said = pattern.sub(lambda found: _said(found, sentence, voice, rounded), sentence).replace(NO_BREAK, " ")
    return said[:1].upper() + said[1:]


def _rounded(found: tuple[re.Match[str], ...], voice: Voice) -> dict[tuple[str, Decimal], Decimal]:
    """What is said for each number of a unit: those of one unit are heard together."""
    by_unit: dict[str, list[Decimal]] = {}
    for match in found:
        if match["money"]:
            by_unit.setdefault(_MONEY, []).append(_decimal(match["money"]))
        if match["value"]:
            by_unit.setdefault(match["unit"], []).append(_decimal(match["value"]))
        for end in ("low", "high"):
            if match[end]:
                by_unit.setdefault(match["of"] or "", []).append(_decimal(match[end]))
    return {
        (unit, printed): printed if unit == _MONEY and abs(printed) < 1 else said
        for unit, numbers in by_unit.items()
        for printed, said in zip(numbers, all_for_the_ear(tuple(numbers), voice.limits.get(unit, ())), strict=True)
    }


def _said(found: re.Match[str], sentence: str, voice: Voice, rounded: Mapping[tuple[str, Decimal], Decimal]) -> str:
    """The words for one match."""
    if voice.names and found["name"]:
        return found[0]
    if found["money"]:
        printed = _decimal(found["money"])
        amount = rounded[_MONEY, printed]
        return f"{_near(printed, amount, sentence[: found.start()])}{money_words(amount, voice.region.currency)}"
    if found["opens"]:
        return ", "
    if found["closes"]:
        return "," if sentence[found.end():].startswith(" ") else ""
    return _said_of_the_trade(found) or _said_plainly(found, sentence, rounded)


def _said_of_the_trade(found: re.Match[str]) -> str:
    """The words for a time by its symbol, the pins of a plug or a rail, or empty."""
    if found["symbol"]:
        return f"T {whole_words(int(found['symbol']))}"
    if found["pin"]:
        return f"{whole_words(int(found['pin']))}-pin"
    if found["rail"]:
        return f"{number_words(_decimal(found['rail']))}-volt {'standby ' if found['standby'] else ''}rail"
    return ""


def _said_plainly(found: re.Match[str], sentence: str, rounded: Mapping[tuple[str, Decimal], Decimal]) -> str:
    """The words for a day, a span, a quantity or a bare number."""
    if found["day"]:
        year = f" {year_words(int(found['year']))}" if found["year"] else ""
        return f"the {ordinal_words(int(found['day']))} of {found['month']}{year}"
    if found["low"]:
        return _span(found, rounded)
    if found["value"]:
        printed = _decimal(found["value"])
        said = rounded[found["unit"], printed]
        if said == printed and re.search(r"\b[Aa]n? $", sentence[: found.start()]):
            return f"{number_words(said)}-{UNITS[found['unit']][0]}"
        return f"{_near(printed, said, sentence[: found.start()])}{with_unit_words(said, found['unit'])}"
    return number_words(_decimal(found["bare"]))


def _span(found: re.Match[str], rounded: Mapping[tuple[str, Decimal], Decimal]) -> str:
    """From one number to another, the unit once."""
    unit = found["of"] or ""
    low, high = (rounded[unit, _decimal(found[end])] for end in ("low", "high"))
    return f"{number_words(low)} to {with_unit_words(high, unit) if unit else number_words(high)}"


def _near(printed: Decimal, said: Decimal, before: str) -> str:
    """How near the spoken number is, with a space behind it."""
    near = nearness(printed, said)
    last = re.findall(r"[a-z]+", before.lower())[-1:]
    if near and last and last[0] in _BOUNDED:
        near = "" if last[0] == "about" else "about"
    return f"{near} " if near else ""


def _decimal(text: str) -> Decimal:
    return Decimal(text.replace(MINUS, "-"))
