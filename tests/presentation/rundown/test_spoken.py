"""Sentences of print as they are read aloud."""

from decimal import Decimal

import pytest

from guidegen.presentation.rundown.spoken import Voice, spoken
from guidegen.presentation.rundown.units import money_words
from guidegen.records import Region

IRELAND = Region(id="ie", name="Ireland", mains_voltage_v=230, currency="EUR", currency_mark="€", tax="included",
                 tariff_per_kwh=0.36, tariff_source="Invented", circuit_a=16)
VOICE = Voice(region=IRELAND, names=("Norvane Plain 450", "Norvane Plain 450 II"))


@pytest.mark.parametrize(("printed", "said"), [
    ("At half load 93.4 % arrives.", "At half load about ninety-three per cent arrives."),
    ("The 12 V rail stays within 0.8 % of nominal.", "The twelve-volt rail stays within zero point eight per cent of nominal."),
    ("On the 5 V standby rail.", "On the five-volt standby rail."),
    ("With 2 8-pin graphics plugs.", "With two eight-pin graphics plugs."),
    ("On a 15 A circuit at 120 V.", "On a fifteen-ampere circuit at a hundred and twenty volts."),
    ("300 to 500 W.", "Three hundred to five hundred watts."),
    ("It scores 64.7–87.2 of 100.", "It scores sixty-five to eighty-seven of a hundred."),
    ("It cost €\N{NO-BREAK SPACE}119.30.", "It cost about a hundred and nineteen euros."),
    ("It costs € 0.10 a watt.", "It costs ten cents a watt."),
    ("On 8\N{NO-BREAK SPACE}November\N{NO-BREAK SPACE}2026.", "On the eighth of November twenty twenty-six."),
    ("On 8 November.", "On the eighth of November."),
    ("The Norvane Plain 450 II is 2.0 points behind.", "The Norvane Plain 450 II is two points behind."),
    ("It did not act (up to 130 °C).", "It did not act, up to a hundred and thirty degrees Celsius."),
    ("Power-good hold-up (T5) at full load is 10.8 ms.", "Power-good hold-up, T five, at full load is just under eleven milliseconds."),
    ("It never exceeds 24.9 dB(A).", "It never exceeds about twenty-five decibels."),
])
def test_a_sentence_is_read_as_a_person_would(printed: str, said: str) -> None:
    """Rounded by the rule, units in words, names untouched (common practice, no source)."""
    assert said == spoken(printed, VOICE)


def test_a_number_is_not_rounded_onto_the_limit_beside_it() -> None:
    """119.6 mV of 120 mV allowed would sound like all of it."""
    said = spoken("It reaches 119.6 mV; 120 mV are allowed.", VOICE)

    assert "It reaches a hundred and nineteen point six millivolts; a hundred and twenty millivolts are allowed." == said


def test_a_limit_that_is_not_said_counts_too() -> None:
    """30.2 dB(A) is not thirty where thirty is a limit."""
    limited = Voice(region=IRELAND, limits={"dB(A)": (Decimal(30),)})

    assert "It makes thirty point two decibels." == spoken("It makes 30.2 dB(A).", limited)
    assert "It makes just over thirty decibels." == spoken("It makes 30.2 dB(A).", VOICE)


@pytest.mark.parametrize(("amount", "currency", "said"), [
    ("119.90", "EUR", "a hundred and nineteen euros and ninety cents"), ("1", "USD", "one dollar"), ("0.01", "GBP", "one penny"),
    ("0", "EUR", "zero euros"), ("2.5", "SEK", "two SEK and fifty hundredths"),
])
def test_amounts(amount: str, currency: str, said: str) -> None:
    """Whole units and hundredths; an unknown currency by its code (ISO 4217)."""
    assert said == money_words(Decimal(amount), currency)
