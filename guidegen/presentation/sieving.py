"""What a reader's browser needs to sift and compare the units of a bracket: published figures, each with its doubt."""

import json
from dataclasses import dataclass
from itertools import combinations
from typing import Any

from guidegen.evaluation import (
    CERTAINTY,
    PLUG_KINDS,
    Assessment,
    BracketAssessment,
    Finding,
    PriceView,
    Standing,
)
from guidegen.presentation.choosing import absence, place_text, score_text, standing_note
from guidegen.presentation.comparing import compare
from guidegen.presentation.formatting import day, money, number, order
from guidegen.presentation.names import STOCKS
from guidegen.presentation.sheets import RankedCell
from guidegen.records import Region, Unit
from guidegen.records.unit import Connector

MOST_IN_PAIRS = 12
"""Up to so many units the page carries the editor's words on every two of them; their number grows with the square."""
SIXTEEN_PINS: dict[Connector, str] = {"pcie_16_12v_2x6": "12V-2x6", "pcie_16_12vhpwr": "12VHPWR"}
"""The standards of the 16-pin plug."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Property:
    """A measured or counted property that two units are compared by."""

    name: str
    """Short name, as in the address of a page."""
    finding: str
    """Key of the finding."""
    verb: str
    """What the better of two units does, before the difference."""
    better: str
    """How it does so, between the difference and ``than``."""
    apart: str = ""
    """Unit of a difference where it is not that of the figure."""


PROPERTIES = (
    Property(name="efficiency_20", finding="efficiency.at_20", verb="is", better="more efficient", apart="percentage points"),
    Property(name="efficiency", finding="efficiency.at_50", verb="is", better="more efficient", apart="percentage points"),
    Property(name="noise", finding="acoustic_noise.at_50", verb="is", better="quieter"),
    Property(name="noise_full", finding="acoustic_noise.at_100", verb="is", better="quieter"),
    Property(name="ripple", finding="ripple.12v.worst", verb="has", better="less"),
    Property(name="hold_up", finding="hold_up.rails_at_100", verb="holds up", better="longer"),
    Property(name="standby", finding="standby.no_load", verb="takes", better="less"),
    Property(name="depth", finding="size.depth", verb="is", better="shorter"),
    *(Property(name=kind, finding=f"cables.{kind}", verb="has", better="more") for kind in PLUG_KINDS),
    Property(name="warranty", finding="warranty.years", verb="is covered", better="longer"),
)
"""Rows of the comparison, and figures to sift by."""


def price_cell(view: PriceView) -> RankedCell:
    """A unit's price in a region as the table prints it, or why there is none."""
    best = view.best
    if best is not None and best.row.price is not None:
        return RankedCell(text=money(best.row.price, view.region), order=order(best.row.price, 2))
    return RankedCell(text=absence(view) if view.last_seen else STOCKS["no_price"], order="")


def sieve_of(assessment: Assessment, one: BracketAssessment) -> str:
    """JSON with a record a unit, in the order of the bracket's table, and what its figures mean."""
    standings = one.ranking.standings
    places = {standing.candidate.id: i for i, standing in enumerate(standings)}
    guide = assessment.library.guide
    views = {region.id: _views(assessment, one, region) for region in guide.regions}
    data = {
        "certainty": CERTAINTY,
        "home": guide.home_region,
        "regions": [_region(region, tuple(views[region.id].values())) for region in guide.regions],
        "properties": [_property(wanted, standings) for wanted in PROPERTIES],
        "units": [
            {
                **_unit(standing, places),
                "prices": {region: _price(found[standing.candidate.id]) for region, found in views.items()},
            }
            for standing in standings
        ],
        "pairs": _pairs(one),
    }
    return json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def _views(assessment: Assessment, one: BracketAssessment, region: Region) -> dict[str, PriceView]:
    """Prices of the bracket's units in a region, by unit."""
    return {
        standing.candidate.id: standing.candidate.prices
        for standing in assessment.by_score(region.id, one.ranking.bracket.id).standings
    }


def _region(region: Region, views: tuple[PriceView, ...]) -> dict[str, str]:
    """A region with the days of its prices in words."""
    days = sorted({view.best.row.date for view in views if view.best})
    tax = "" if region.tax == "included" else ", before tax"
    seen = f", seen {'' if len(days) == 1 else f'{day(days[0])} to '}{day(days[-1])}" if days else ""
    return {"id": region.id, "name": region.name, "mark": region.currency_mark, "seen": f"{tax}{seen}"}


def _property(wanted: Property, standings: tuple[Standing, ...]) -> dict[str, Any]:
    """What a row of the comparison is called; its unit stands with every figure."""
    found = next((f for s in standings if (f := s.candidate.finding(wanted.finding))), None)
    unit = found.quantity.unit if found else ""
    return {
        "id": wanted.name, "title": found.title if found else wanted.name, "unit": unit, "apart": wanted.apart or unit,
        "verb": wanted.verb, "better": wanted.better, "up": bool(found and found.better == "higher"),
    }


def _unit(standing: Standing, places: dict[str, int]) -> dict[str, Any]:
    one, record = standing.candidate, standing.candidate.result.unit.record
    note, warning = standing_note(standing, None)
    placed = standing.place is not None
    return {
        "id": one.id, "rating": record.rated_power_w, "form": record.form_factor, "still": record.fan.semi_passive,
        "sixteen": _sixteen(one.result.unit), "place": place_text(standing) or "no place",
        "verdict": note if warning else standing.tier.title, "warning": warning,
        "score": [score_text(one.score), order(one.score.low, 1)] if placed else None,
        "level": sorted(places[other] for other in standing.level_with),
        "values": [_value(one.finding(wanted.finding)) for wanted in PROPERTIES],
    }


def _value(found: Finding | None) -> list[Any] | None:
    """The printed number; where it is measured also the value with its own and its shared standard uncertainty to six
    digits, and whether it is an upper bound.
    """
    if found is None:
        return None
    quantity = found.quantity
    text = number(quantity.value, found.decimals)
    if quantity.uncertainty == 0:
        return [text]
    numbers = [float(f"{value:.6g}") for value in (quantity.value, quantity.own, quantity.shared)]
    return [text, *numbers, *([1] if found.upper_bound else [])]


def _sixteen(unit: Unit) -> str:
    """The standard of the 16-pin plugs, or empty."""
    return " and ".join(name for plug, name in SIXTEEN_PINS.items() if unit.connectors(plug))


def _price(view: PriceView) -> list[str]:
    """As the table prints it; with a price also the number to sift by."""
    cell = price_cell(view)
    return [cell.text, cell.order] if cell.order else [cell.text]


def _pairs(one: BracketAssessment) -> list[str]:
    """The editor's words on every two units, in the order of the table; none where the field is large."""
    units = tuple(standing.candidate.id for standing in one.ranking.standings)
    if len(units) > MOST_IN_PAIRS:
        return []
    return [" ".join(compare(one.ranking, pair, one.robustness)) for pair in combinations(units, 2)]
