"""The occasion: the mains, the day, and instruments whose calibration still holds."""

from calendar import monthrange
from collections.abc import Iterator
from datetime import date

from guidegen.evaluation.sense_checks.shapes import Clash, Occasion, SenseRecords
from guidegen.origins import Origin
from guidegen.records import Unit

MAINS_V = ((109.0, 126.0), (218.0, 242.0))
"""5 % about 115 to 120 V and about 230 V, the mains that badges are defined at (width: common practice, no source)."""
MAINS_HZ = ((49.0, 51.0), (59.0, 61.0))
"""About 50 and 60 Hz (width: common practice, no source)."""


def mains(occasion: Occasion) -> Iterator[Clash]:
    """A mains at which no badge can be judged."""
    found = occasion.session.record.mains
    if not any(low <= found.voltage_v <= high for low, high in MAINS_V):
        expected = "115 to 120 V or 230 V, within 5 %: the badge's tables know no other"
        yield Clash(occasion.at("mains", "voltage_v"), f"{found.voltage_v:g} V", expected)
    if not any(low <= found.frequency_hz <= high for low, high in MAINS_HZ):
        yield Clash(occasion.at("mains", "frequency_hz"), f"{found.frequency_hz:g} Hz", "50 or 60 Hz, within 1 Hz")


def before_release(occasion: Occasion) -> Iterator[Clash]:
    """A session on a day when the unit could not yet be bought."""
    day, released = occasion.session.record.date, occasion.unit.record.released
    if day < released:
        expected = f"a day not before the unit's release, {released.isoformat()}"
        yield Clash(occasion.at("date"), day.isoformat(), expected)


def withdrawn_early(unit: Unit, records: SenseRecords) -> Iterator[Clash]:
    """A unit that left the guide before it was released."""
    del records
    gone = unit.record.withdrawn
    if gone is not None and gone.on < unit.record.released:
        expected = f"a day not before the release, {unit.record.released.isoformat()}"
        yield Clash(Origin(unit.file, ("withdrawn", "on")), gone.on.isoformat(), expected)


def withdrawn_late(unit: Unit, records: SenseRecords) -> Iterator[Clash]:
    """A unit that would leave the guide only after the edition's day."""
    gone, guide = unit.record.withdrawn, records.guide
    if gone is not None and guide is not None and gone.on > guide.edition.date:
        expected = f"a day not after the edition's, {guide.edition.date.isoformat()}"
        yield Clash(Origin(unit.file, ("withdrawn", "on")), gone.on.isoformat(), expected)


def calibration(occasion: Occasion) -> Iterator[Clash]:
    """Instruments whose calibration had run out on the day of the session."""
    day = occasion.session.record.date
    for place, instrument in occasion.instruments():
        ends = months_after(instrument.calibrated, instrument.calibration_months)
        if day > ends:
            yield Clash(
                occasion.at("instruments", place), f"{instrument.id}, whose calibration held until {ends.isoformat()}",
                f"an instrument with a calibration that holds on {day.isoformat()}",
            )


def months_after(day: date, months: int) -> date:
    """The same day of the month so many months later, or the month's last day; the last day that there is at most.

    >>> months_after(date(2025, 8, 31), 6)
    datetime.date(2026, 2, 28)
    """
    years, month = divmod(day.month - 1 + months, 12)
    year = day.year + years
    if year > date.max.year:
        return date.max
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))
