"""Units and currencies as they are said."""

from decimal import Decimal

from guidegen.presentation.rundown.ear import number_words

UNITS = {
    "W": ("watt", "watts"), "mV": ("millivolt", "millivolts"), "dB(A)": ("decibel", "decibels"), "%": ("per cent", "per cent"),
    "ms": ("millisecond", "milliseconds"), "s": ("second", "seconds"), "V": ("volt", "volts"), "A": ("ampere", "amperes"),
    "mm": ("millimetre", "millimetres"), "°C": ("degree Celsius", "degrees Celsius"), "K": ("kelvin", "kelvins"),
    "Hz": ("hertz", "hertz"), "µF": ("microfarad", "microfarads"), "kWh": ("kilowatt-hour", "kilowatt-hours"),
    "VA": ("volt-ampere", "volt-amperes"), "rpm": ("turn a minute", "turns a minute"), "mA": ("milliampere", "milliamperes"),
    "points": ("point", "points"), "years": ("year", "years"), "of 100": ("of a hundred", "of a hundred"),
}
"""Every unit that a finding or a sentence bears: of one, and of more."""
CURRENCIES = {
    "EUR": ("euro", "euros", "cent", "cents"), "USD": ("dollar", "dollars", "cent", "cents"),
    "GBP": ("pound", "pounds", "penny", "pence"), "CHF": ("franc", "francs", "centime", "centimes"),
    "CAD": ("Canadian dollar", "Canadian dollars", "cent", "cents"), "AUD": ("Australian dollar", "Australian dollars", "cent", "cents"),
}
"""Currencies by their code (ISO 4217): whole and hundredth, of one and of more; any other is called by its code."""


def with_unit_words(value: Decimal, unit: str) -> str:
    """A number with its unit in words.

    >>> with_unit_words(Decimal("21"), "dB(A)"), with_unit_words(Decimal("1"), "W")
    ('twenty-one decibels', 'one watt')
    """
    one, many = UNITS[unit]
    return f"{number_words(value)} {one if abs(value) == 1 else many}"


def money_words(amount: Decimal, currency: str) -> str:
    """An amount in words: whole units, and hundredths where there are any.

    >>> money_words(Decimal("9.90"), "EUR"), money_words(Decimal("0.10"), "EUR"), money_words(Decimal("119"), "EUR")
    ('nine euros and ninety cents', 'ten cents', 'a hundred and nineteen euros')
    """
    code = (currency, currency)
    one, many, cent, cents = CURRENCIES.get(currency, (*code, "hundredth", "hundredths"))
    whole, part = divmod(abs(amount).quantize(Decimal("0.01")), 1)
    hundredths = int(part * 100)
    pieces = (
        f"{number_words(whole.quantize(Decimal(1)))} {one if whole == 1 else many}" if whole or not hundredths else "",
        f"{number_words(Decimal(hundredths))} {cent if hundredths == 1 else cents}" if hundredths else "",
    )
    return ("minus " if amount < 0 else "") + " and ".join(piece for piece in pieces if piece)
