"""The sizing worksheet: everything that a browser needs to answer as ``evaluation.sizing`` does, in plain numbers."""

import json
from collections.abc import Mapping, Sequence
from typing import Any

from guidegen.evaluation import (
    MOST_HEADROOM_PCT,
    MOST_W,
    PLUG_KINDS,
    Curve,
    Judgement,
    LoadShares,
    RatingOnOffer,
    UnitResult,
    bench_at,
    least_idle_w,
    load_shares,
    most_of,
    nearest_mains,
    offer_of,
)
from guidegen.presentation.addresses import bracket_address, unit_address
from guidegen.presentation.pieces import Worksheet
from guidegen.presentation.sizing_tables import COMMON_PARTS
from guidegen.quantities import Quantity
from guidegen.records import Library, PartClass, PolicyRecord, Region

MAINS = (115, 230)
"""Mains at which units are measured, V."""


def worksheet_of(
    library: Library, offers: tuple[RatingOnOffer, ...], units: Mapping[str, dict[str, Any]], said: Mapping[str, Sequence[Judgement]]
) -> Worksheet:
    """The worksheet of the whole guide; units that are advised in no region are left out.

    ``units`` are the units by identifier, as ``unit_in_worksheet`` has them, ``said`` the brackets' judgements by region.
    """
    guide = library.guide
    advised = frozenset(unit for brackets in said.values() for one in brackets for unit in one.advised)
    data = {
        "rules": _rules(library),
        "parts": [_part(part) for part in library.parts.classes],
        "usual": _usual(library),
        "plugs": [name for _, name in PLUG_KINDS.values()],
        "plug_kinds": list(PLUG_KINDS),
        "offers": [_offer(offer, library) for offer in offers],
        "units": [data for unit, data in units.items() if unit in advised],
        "regions": [
            _region(region, said.get(region.id, ())) for region in guide.regions
        ],
        "home": guide.home_region,
        "profiles": [
            {"id": one.id, "title": one.title, "uses": [[u.use, u.share_of_full_pct, u.hours_per_day] for u in one.uses]}
            for one in guide.profiles
        ],
    }
    return Worksheet(
        id="worksheet", data=json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    )


def _rules(library: Library) -> dict[str, float]:
    rules = library.policy.sizing
    return {
        "low": rules.target_low_pct, "high": rules.target_high_pct, "never": rules.never_above_pct,
        "ageing": rules.ageing_pct, "assumed": rules.assumed_efficiency_pct, "most_w": MOST_W,
        "most_headroom": MOST_HEADROOM_PCT, "least_w": least_idle_w(library.parts),
    }


def _part(part: PartClass) -> dict[str, Any]:
    return {
        "id": part.id, "kind": part.kind, "title": part.title, "examples": part.examples,
        "idle": part.idle_w, "typical": part.typical_w, "sustained": part.sustained_w, "peak": part.peak_w,
        "peak_ms": part.peak_ms, "rail": part.rail, "plugs": [getattr(part, kind) for kind in PLUG_KINDS],
        "most": most_of(part.kind),
    }


def _usual(library: Library) -> dict[str, int]:
    """With what the form begins: the second example of the content, or the first, or common parts."""
    examples = library.parts.examples
    known = {part.id for part in library.parts.classes}
    if examples:
        return dict(examples[min(1, len(examples) - 1)].parts)
    return {name: count for name, count in COMMON_PARTS.items() if name in known}


def _offer(offer: RatingOnOffer, library: Library) -> dict[str, Any]:
    bracket = library.guide.bracket_of(offer.rating_w)
    return {
        **_able(offer), "address": bracket_address(bracket) if bracket else "",
        "bracket": bracket.title if bracket else "",
    }


def _able(offer: RatingOnOffer) -> dict[str, Any]:
    return {"rating": offer.rating_w, "rail_12v": offer.rail_12v_a, "excursions": offer.excursions}


def unit_in_worksheet(result: UnitResult, policy: PolicyRecord) -> dict[str, Any]:
    """Everything of a unit that the worksheet computes with."""
    record, standby = result.unit.record, result.finding("standby.no_load")
    benches = {wanted: bench_at(result, float(wanted)) for wanted in MAINS}
    measured = {bench.mains_v: bench for bench in benches.values()}
    return {
        "id": result.unit.id, "name": result.unit.name, "address": unit_address(result.unit), **_able(offer_of(result)),
        "depth": record.size.depth_mm, "minor": record.minor_rails_power_w,
        "plugs": [result.unit.connectors(*connectors) for connectors, _ in PLUG_KINDS.values()],
        "standby": [standby.quantity.value, *_doubts(standby.quantity)] if standby else None,
        "warranty": record.warranty_years, "strip": _strip(load_shares(result, policy)),
        "nearest": {wanted: bench.mains_v for wanted, bench in benches.items()},
        "bench": {
            volts: {"loss": _losses(bench.curve("loss")), "noise": _points(noise), "bounded": noise.bounded_w if noise else -1}
            for volts, bench in measured.items() for noise in (bench.curve("acoustic_noise"),)
        },
    }


def _points(curve: Curve | None) -> list[list[float]] | None:
    """(delivered power in W, value), rising; nothing where it was not measured."""
    return [[point.load_w, point.quantity.value] for point in curve.points] if curve else None


def _strip(shares: LoadShares) -> list[list[list[float]]]:
    """Heat, noise and ripple as (load in %, share of the limit), to three decimals: finer than any ink."""
    return [[[round(load, 3), round(share, 3)] for load, share in course] for course in (shares.heat, shares.noise, shares.ripple)]


def _losses(curve: Curve | None) -> list[list[float]] | None:
    """(delivered power in W, loss in W, its own doubt in W, that of the meters in W), rising."""
    return [[p.load_w, p.quantity.value, *_doubts(p.quantity)] for p in curve.points] if curve else None


def _doubts(quantity: Quantity) -> tuple[float, float]:
    """Own and shared standard uncertainty to six digits: no printed figure shows more."""
    return float(f"{quantity.own:.6g}"), float(f"{quantity.shared:.6g}")


def _judged(one: Judgement, unit: str) -> list[Any]:
    """Score and price of a unit; behind them, where there is any of it, why it can't be bought, and the higher end of the score."""
    behind = (one.absent.get(unit), one.highest.get(unit))
    return [one.scores.get(unit, 0.0), one.prices.get(unit), *(behind if any(behind) else ())]


def _region(region: Region, said: Sequence[Judgement]) -> dict[str, Any]:
    advised = {unit: _judged(one, unit) for one in said for unit in one.advised}
    return {
        "id": region.id, "name": region.name, "mains": nearest_mains(region.mains_voltage_v),
        "volts": region.mains_voltage_v, "circuit": region.circuit_a, "tariff": region.tariff_per_kwh, "mark": region.currency_mark,
        "advised": dict(sorted(advised.items())),
    }
