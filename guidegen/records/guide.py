"""``guide.yaml``: who publishes, where, for whom, and with which instruments."""

from typing import Annotated, Literal

from annotated_types import MinLen

from guidegen.records.kinds import (
    Count,
    Day,
    Format,
    Name,
    NotNegative,
    Percent,
    Positive,
    Text,
    YesNo,
    record,
)

Currency = Annotated[str, MinLen(3)]
"""Currency by its three-letter code (ISO 4217)."""
InstrumentQuantity = Literal[
    "input_power_w", "delivered_power_w", "power_factor", "voltage_v", "current_a", "ripple_mv", "noise_dba",
    "time_ms", "temperature_c", "fan_rpm", "standby_power_w", "inrush_a",
]
"""What an instrument reads, with its unit; small standby powers and the inrush peak are read by other ranges, or other probes, than
the rest, and have budgets of their own.
"""


@record
class Person:
    """Somebody who stands by the guide."""

    name: Text
    """Name."""
    role: Text
    """What they do here."""


@record
class Publisher:
    """Who publishes."""

    name: Text
    """Name of the guide or lab."""
    people: Annotated[tuple[Person, ...], MinLen(1)]
    """Who stands by it."""
    contact: Text
    """Mail address for errors."""
    funding: Text
    """Who pays, in a sentence that stands on the pages."""
    conflicts: Text
    """Conflicts of interest, or that there are none, in a sentence."""
    paid_links: Text
    """What a paid link is, in a sentence that stands beside the choices."""


@record
class Edition:
    """Which edition this content is."""

    name: Text
    """Name, such as ``2026``."""
    printing: Count
    """Printing of the edition, counted from 1."""
    date: Day
    """Day of publication; the only clock the guide knows."""
    seed: Count
    """Seed of the simulations."""


@record
class Bracket:
    """A range of rated power that shares a page: from ``from_w`` up to, not including, ``below_w``."""

    id: Name
    """Short name, part of the address."""
    title: Text
    """Heading, such as ``600 to 700 W``."""
    from_w: Positive
    """Lower edge, included, W."""
    below_w: Positive
    """Upper edge, not included, W."""
    usual_full_load_w: Positive
    """DC power of the usual build at full load; the mark on the load strips, W."""
    serves: Text
    """Whom this wattage is for, in a sentence or two of Markdown; numbers bound to the data."""


@record
class Region:
    """Where a reader buys and plugs in."""

    id: Name
    """Short name; the price file is ``prices/<id>.csv``."""
    name: Text
    """Name in a sentence."""
    mains_voltage_v: Positive
    """Mains voltage, V."""
    currency: Currency
    """Currency of the prices."""
    currency_mark: Text
    """Mark printed before an amount, such as ``€``."""
    tax: Literal["included", "excluded"]
    """Whether prices include sales tax."""
    price_includes: Text | None = None
    """What prices include by name, such as ``VAT`` or ``no sales tax``; said beside them."""
    tariff_per_kwh: Positive
    """Electricity, in the region's currency per kWh."""
    tariff_source: Text
    """Where the tariff comes from."""
    circuit_a: Positive
    """Rating of an ordinary household circuit, A."""


@record
class ProfileUse:
    """One kind of use in a day."""

    use: Literal["idle", "work", "gaming", "all_out"]
    """Kind of use."""
    share_of_full_pct: Percent
    """Load as a share of the reader's full load, %."""
    hours_per_day: NotNegative
    """Hours a day."""


@record
class ReaderProfile:
    """How a kind of reader spends the day."""

    id: Name
    """Short name."""
    title: Text
    """Name in a sentence."""
    uses: Annotated[tuple[ProfileUse, ...], MinLen(1)]
    """Uses; the rest of the day the machine is off."""


@record
class Reading:
    """How well an instrument reads one quantity."""

    quantity: InstrumentQuantity
    """The quantity with its unit."""
    gain_pct: NotNegative = 0.0
    """Relative standard uncertainty common to all readings, %."""
    offset: NotNegative = 0.0
    """Standard uncertainty common to all readings, in the quantity's unit."""
    resolution: NotNegative = 0.0
    """Smallest step shown, in the quantity's unit."""
    repeatability: NotNegative = 0.0
    """Standard deviation of one reading about the mean, in the quantity's unit."""
    floor: NotNegative = 0.0
    """Lowest value the instrument can show, in the quantity's unit."""


@record
class Instrument:
    """An instrument of the lab."""

    id: Name
    """Short name, used in session records."""
    kind: Text
    """What it is, in the trade's words; no maker."""
    calibrated: Day
    """Last calibration."""
    calibration_months: Count
    """For how long a calibration holds, months."""
    readings: Annotated[tuple[Reading, ...], MinLen(1)]
    """What it reads and how well."""


@record
class Moved:
    """An address that was given up for another; readers are led on for ever."""

    from_address: Text
    """The former address, from the root of the site, such as ``unit/old-name/``."""
    to_address: Text
    """The page that stands for it now."""


@record
class GuideRecord:
    """``guide.yaml``."""

    format: Format
    """Version of the record format: 1."""
    title: Text
    """Title of the guide."""
    tagline: Text
    """What it offers, in one sentence."""
    publisher: Publisher
    """Who publishes."""
    edition: Edition
    """Which edition this is."""
    public_address: Annotated[str, MinLen(8)]
    """Where it will stand, https, with a closing ``/``."""
    theme: Name
    """Folder below ``themes/``."""
    language: Name
    """Language of the interface, one that has a catalogue."""
    records_language: Name = "en"
    """Language of records and prose; what is computed from them is English, so that another language mixes with it."""
    data_licence: Text
    """Address of the licence of the data."""
    home_region: Name
    """Region whose prices decide the choices shown first."""
    invented: YesNo = False
    """``true`` for a demonstration: every page says that units and makers are invented."""
    brackets: Annotated[tuple[Bracket, ...], MinLen(1)]
    """Wattage brackets, rising, without gap or overlap."""
    regions: Annotated[tuple[Region, ...], MinLen(1)]
    """Regions."""
    profiles: Annotated[tuple[ReaderProfile, ...], MinLen(1)]
    """Reader profiles."""
    instruments: Annotated[tuple[Instrument, ...], MinLen(1)]
    """Instruments of the lab."""
    moved: tuple[Moved, ...] = ()
    """Addresses that were given up."""

    def __hash__(self) -> int:
        """Short, since records are long and looked up again and again."""
        return hash((self.title, self.edition))

    @property
    def home(self) -> Region:
        """The home region."""
        return next(region for region in self.regions if region.id == self.home_region)

    def bracket_of(self, rated_power_w: float) -> Bracket | None:
        """The bracket that a rated power falls into, or nothing."""
        return next((b for b in self.brackets if b.from_w <= rated_power_w < b.below_w), None)
