"""What a chart is told: plain numbers, already measured, judged and scored; the charts compute no result."""

from dataclasses import dataclass
from datetime import date
from typing import Literal


def _within(end: float, prices: tuple[float, ...]) -> None:
    """A chart that would draw a price beyond its axis can't be described."""
    beyond = tuple(price for price in prices if price > end)
    if beyond:
        message = f"came a price of {max(beyond)}, expected one within the axis that ends at {end}"
        raise ValueError(message)


@dataclass(frozen=True, slots=True)
class Reading:
    """A measured value at a load."""

    load_pct: float
    """Load, % of the rating."""
    value: float
    """Value, in the unit of its chart."""
    doubt: float = 0.0
    """Expanded uncertainty (k = 2), in the same unit; 0 draws no whiskers."""
    bound: bool = False
    """Whether the value is only an upper bound."""


@dataclass(frozen=True, slots=True)
class Span:
    """From where to where a bracket's units reach at a load."""

    load_pct: float
    """Load, % of the rating."""
    low: float
    """Lowest value."""
    high: float
    """Highest value."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EfficiencyCourse:
    """A unit's efficiency over load, %."""

    id: str
    """Anchor and prefix of ids."""
    name: str
    """The unit."""
    readings: tuple[Reading, ...]
    """Measured points, rising in load."""
    between: tuple[tuple[float, float], ...] = ()
    """The interpolated course, (load %, efficiency %); straight lines between the points where empty."""
    floors: tuple[tuple[float, float], ...] = ()
    """What the claimed level demands, (load %, efficiency %)."""
    level: str = ""
    """The claimed level as printed; empty where nothing is claimed."""
    bracket: tuple[Span, ...] = ()
    """The bracket's range, or nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RailRipple:
    """Ripple and noise of one rail over load, mV."""

    rail: str
    """Rail, such as ``12 V`` with a no-break space."""
    limit_mv: float
    """Its limit, mV peak to peak."""
    readings: tuple[Reading, ...]
    """Measured points, rising in load; empty where not measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RippleCourse:
    """Ripple and noise of a unit's rails against their limits."""

    id: str
    """Anchor and prefix of ids."""
    name: str
    """The unit."""
    rails: tuple[RailRipple, ...]
    """Rails in the order they are drawn."""
    document: str = ""
    """Document and clause of the limits."""


@dataclass(frozen=True, slots=True)
class Threshold:
    """A level that the guide speaks of."""

    value: float
    """Level, dB(A)."""
    words: str = ""
    """What it means, or empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NoiseCourse:
    """A unit's sound pressure level over load, dB(A)."""

    id: str
    """Anchor and prefix of ids."""
    name: str
    """The unit."""
    readings: tuple[Reading, ...]
    """Measured points, rising in load."""
    between: tuple[tuple[float, float], ...] = ()
    """The interpolated course; straight lines where empty."""
    thresholds: tuple[Threshold, ...] = (Threshold(20), Threshold(25), Threshold(30), Threshold(35))
    """Light lines to read the level by."""
    background_dba: float | None = None
    """Level below which the room hides the unit, dB(A), where known."""
    bracket: tuple[Span, ...] = ()
    """The bracket's range, or nothing."""
    distance: str = ""
    """Where the microphone stood, such as ``at 1 m``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CriterionShare:
    """One criterion's part of a score."""

    title: str
    """Criterion."""
    weight: float
    """Weight as a share of all weights, 0 to 1."""
    worth: float | None
    """Worth, 0 to 100; nothing where not tested."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ScoreMakeup:
    """What a score is made of."""

    id: str
    """Anchor and prefix of ids."""
    name: str
    """The unit."""
    score: float | None
    """The score, 0 to 100, or nothing."""
    criteria: tuple[CriterionShare, ...]
    """Its parts, in the order of the policy."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PricedUnit:
    """A unit with its price and its technical score."""

    name: str
    """Unit as labelled."""
    price: float
    """Price in the currency of the chart."""
    price_text: str
    """Price as printed."""
    score: float
    """Technical score, 0 to 100."""
    advised: bool = True
    """Whether the guide may recommend it; a unit that fails a gate is drawn apart and never on the front."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceField:
    """A bracket's units by price and technical score."""

    id: str
    """Anchor and prefix of ids."""
    bracket: str
    """Bracket as printed."""
    currency: str
    """Currency sign or code."""
    price_max: float
    """Where the price axis ends: a round number."""
    units: tuple[PricedUnit, ...]
    """Units that have both."""

    def __post_init__(self) -> None:
        _within(self.price_max, tuple(unit.price for unit in self.units))


@dataclass(frozen=True, slots=True)
class PriceDay:
    """A price as it was found on a day."""

    day: date
    """Day."""
    price: float | None
    """Price; nothing where none was found."""
    in_stock: bool = True
    """Whether it could be bought."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceSpan:
    """What a bracket costs on a day, from a price to a price."""

    day: date
    """Day."""
    low: float
    """Lowest price."""
    middle: float
    """As many units cost more as cost less."""
    high: float
    """Highest price."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceCourse:
    """A unit's price over time in one region."""

    id: str
    """Anchor and prefix of ids."""
    name: str
    """The unit."""
    currency: str
    """Currency sign or code."""
    price_max: float
    """Where the price axis ends: a round number."""
    begin: date
    """First day of the axis."""
    end: date
    """Last day of the axis."""
    days: tuple[PriceDay, ...]
    """Prices, rising in time; each holds until the next."""
    bracket: tuple[PriceSpan, ...] = ()
    """What the bracket costs on those of these days on which it is known."""

    def __post_init__(self) -> None:
        prices = tuple(found.price for found in self.days if found.price is not None)
        _within(self.price_max, (*prices, *(span.high for span in self.bracket)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One unit's small panel."""

    name: str
    """Unit as labelled."""
    readings: tuple[Reading, ...]
    """Measured points, rising in load; empty where not measured."""
    warning: bool = False
    """Whether the unit is not advised."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelSet:
    """A bracket's units side by side at one scale."""

    id: str
    """Anchor and prefix of ids."""
    bracket: str
    """Bracket as printed."""
    measure: Literal["efficiency", "noise"]
    """What is drawn."""
    panels: tuple[Panel, ...]
    """Units in the order of their places."""
    span: tuple[Span, ...] = ()
    """The bracket's range, drawn behind every line, or nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StripBand:
    """One band of a load strip."""

    title: str
    """What it shows, such as ``Heat lost``."""
    shares: tuple[tuple[float, float], ...]
    """(load %, share of the limit, 1 = at the limit), rising in load; empty where not measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadStrip:
    """The load strip of one unit."""

    id: str
    """Prefix of ids, unique on its page."""
    name: str
    """The unit."""
    bands: tuple[StripBand, ...]
    """Bands from above: heat lost, noise, ripple."""
    mark_pct: float | None = None
    """Load of the accent line, % of the rating, or nothing."""
    mark_words: str = ""
    """What the line is, such as ``your 475 W``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareCard:
    """What a picture card says."""

    title: str
    """Large line."""
    sentence: str
    """What was found."""
    publisher: str
    """Who says so."""
    strip: LoadStrip | None = None
    """Strip to draw, or nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PresenterCard:
    """What a picture says while a choice is read aloud."""

    heading: str
    """The choice and its bracket."""
    unit: str
    """The unit."""
    number: str
    """The number that decided, with its unit."""
    number_words: str
    """What that number is."""
    lines: tuple[str, ...]
    """The drawback, and the price with its day."""
    publisher: str
    """Who says so, and in which edition."""
    notice: str = ""
    """That everything is invented, or empty."""
    strip: LoadStrip | None = None
    """Strip to draw, or nothing."""
