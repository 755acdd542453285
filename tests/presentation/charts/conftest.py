"""Invented units to draw, and every drawing of them."""

from collections.abc import Callable
from datetime import date

import pytest

from guidegen.presentation.charts import (
    CriterionShare,
    EfficiencyCourse,
    LoadStrip,
    NoiseCourse,
    Panel,
    PanelSet,
    PriceCourse,
    PriceDay,
    PricedUnit,
    PriceField,
    RailRipple,
    Reading,
    RippleCourse,
    ScoreMakeup,
    Span,
    StripBand,
    efficiency_chart,
    large_strip_of,
    multiples_chart,
    noise_chart,
    price_history_chart,
    price_score_chart,
    ripple_chart,
    score_chart,
    strip_legend,
    strip_of,
)

LOADS = (2.0, 5.0, 10.0, 20.0, 40.0, 50.0, 60.0, 80.0, 100.0, 110.0)
FIELD = (("Halmer Quill", 149, 86.4), ("Ostrand Level II", 189, 85.9), ("Brevik Tarn", 128, 79.2),
         ("Tallow & Pike Steady", 119, 78.0), ("Norvane Mesa", 99, 74.6), ("Calder Reach", 135, 77.0),
         ("Moss Arden Plain", 109, 70.0), ("Ostrand Plane", 140, 79.5), ("Halmer Nib", 122, 76.4),
         ("Vintry Loom", 155, 83.0), ("Vintry Spool", 160, 82.4), ("Norvane Butte", 104, 72.0))


def readings(*values: float, doubt: float = 0.4) -> tuple[Reading, ...]:
    """Values at the first loads of ``LOADS``."""
    return tuple(Reading(load, value, doubt) for load, value in zip(LOADS, values, strict=False))


def efficiency(name: str = "Halmer Quill") -> EfficiencyCourse:
    """A unit that meets three floors and misses one; its first reading lies below the scale."""
    return EfficiencyCourse(
        id="eff", name=name, readings=readings(66.1, 80.2, 87.2, 91.2, 92.9, 93.1, 93.0, 92.2, 91.0, 90.3),
        floors=((10, 85.0), (20, 90.0), (50, 94.0), (100, 89.0)), level=f"Level claimed by {name}",
        bracket=(Span(10, 80, 88.5), Span(50, 88, 94), Span(110, 84, 92)))


def ripple(name: str = "Kestrin Bolt") -> RippleCourse:
    """One rail beyond its limit, one within, one not measured."""
    return RippleCourse(id="rip", name=name, document=name, rails=(
        RailRipple(rail="12 V", limit_mv=120, readings=readings(22, 22, 25, 30, 44, 60, 70, 99, 131, 138)),
        RailRipple(rail=f"5 V {name}", limit_mv=50, readings=readings(12, 12, 12, 13, 14, 15, 17, 19, 23, 24)),
        RailRipple(rail="3.3 V", limit_mv=50, readings=())))


def noise(name: str = "Halmer Quill") -> NoiseCourse:
    """A unit that grows loud, heard above a quiet room."""
    return NoiseCourse(id="noi", name=name, distance="at 1 m", background_dba=16.5,
                       readings=readings(17.0, 17.0, 17.1, 17.2, 18.0, 21.1, 24.2, 30.4, 35.6, 38.1),
                       bracket=(Span(10, 16.5, 24), Span(110, 33, 46)))


def makeup(name: str = "Halmer Quill") -> ScoreMakeup:
    """Four criteria, one of them not tested."""
    return ScoreMakeup(id="sco", name=name, score=86.4, criteria=(
        CriterionShare(title=f"Electrical quality {name}", weight=0.4, worth=91),
        CriterionShare(title="Efficiency", weight=0.3, worth=84), CriterionShare(title="Noise", weight=0.2, worth=62),
        CriterionShare(title="Surges", weight=0.1, worth=None)))


def field(name: str = "Kestrin Bolt") -> PriceField:
    """Twelve units close to each other, and a cheap one that can't be advised."""
    return PriceField(id="fld", bracket=f"800 W {name}", currency="€", price_max=200, units=(
        *(PricedUnit(name=n, price=price, price_text=f"€ {price}", score=score) for n, price, score in FIELD),
        PricedUnit(name=name, price=74, price_text="€ 74", score=90.0, advised=False)))


def prices(name: str = "Halmer Quill") -> PriceCourse:
    """Prices with a stretch out of stock and one without a price."""
    return PriceCourse(id="pri", name=name, currency="€", price_max=200, begin=date(2026, 1, 1), end=date(2026, 11, 30),
                       days=(PriceDay(date(2026, 1, 12), 169), PriceDay(date(2026, 4, 2), 159, in_stock=False),
                             PriceDay(date(2026, 5, 10), 165), PriceDay(date(2026, 6, 30), None),
                             PriceDay(date(2026, 7, 20), 139), PriceDay(date(2026, 11, 18), 149)))


def panels(name: str = "Kestrin Bolt") -> PanelSet:
    """Three units side by side, one not measured."""
    return PanelSet(id="pan", bracket="800 to 900 W", measure="noise", span=noise().bracket, panels=(
        Panel(name="Halmer Quill", readings=noise().readings), Panel(name="Norvane Mesa", readings=()),
        Panel(name=name, readings=noise().readings, warning=True)))


def strip(name: str = "Kestrin Bolt", strip_id: str = "stp") -> LoadStrip:
    """Heat within its limit, noise not measured, ripple beyond from 100 % on."""
    return LoadStrip(id=strip_id, name=name, mark_pct=55.9, mark_words=f"your 475 W {name}", bands=(
        StripBand(title="Heat lost", shares=tuple((load, 0.9 - load / 200) for load in LOADS)),
        StripBand(title="Noise", shares=()),
        StripBand(title="Ripple", shares=tuple((load, (load / 100) ** 2) for load in LOADS))))


def drawings(name: str = "Halmer & <Quill>") -> dict[str, str]:
    """Every kind of drawing, for a unit of this name."""
    return {"efficiency": efficiency_chart(efficiency(name)).svg, "noise": noise_chart(noise(name)).svg,
            "ripple": ripple_chart(ripple(name)).svg, "score": score_chart(makeup(name)).svg,
            "field": price_score_chart(field(name)).svg, "prices": price_history_chart(prices(name)).svg,
            "panels": multiples_chart(panels(name)).svg, "strip": strip_of(strip(name)).svg,
            "large": large_strip_of(strip(name, "lrg")).svg, "legend": strip_legend("key", mark_words=name).svg}


@pytest.fixture(scope="session")
def draw() -> Callable[[str], dict[str, str]]:
    """Every kind of drawing, for a unit of a given name."""
    return drawings


@pytest.fixture(scope="session")
def drawn() -> dict[str, str]:
    """Every kind of drawing."""
    return drawings()


@pytest.fixture
def efficiency_course() -> EfficiencyCourse:
    """A course of efficiency."""
    return efficiency()


@pytest.fixture
def noise_course() -> NoiseCourse:
    """A course of noise."""
    return noise()


@pytest.fixture
def ripple_course() -> RippleCourse:
    """Rails of a unit."""
    return ripple()


@pytest.fixture
def score_makeup() -> ScoreMakeup:
    """Parts of a score."""
    return makeup()


@pytest.fixture
def price_field() -> PriceField:
    """A bracket by price and score."""
    return field()


@pytest.fixture
def price_course() -> PriceCourse:
    """Prices of a unit."""
    return prices()


@pytest.fixture
def panel_set() -> PanelSet:
    """Small panels of a bracket."""
    return panels()


@pytest.fixture
def load_strip() -> LoadStrip:
    """A load strip."""
    return strip()
