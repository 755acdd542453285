"""Remarks on what a reader hears, holds and plugs in."""

from collections.abc import Iterator

from guidegen.evaluation import NEVER_LOUDER, Finding, PriceView, UnitResult
from guidegen.origins import Origin
from guidegen.presentation.formatting import counted, day, finding_text, money, number, with_unit
from guidegen.presentation.remarks.remark import Remark, scale

DEPTH_THAT_FITS_MOST_MM = 160.0


def noise(result: UnitResult) -> Iterator[Remark]:
    """How loud it is where it matters, and how long it stays silent."""
    half = result.finding("acoustic_noise.at_50")
    starts = result.finding("fan.starts_at")
    rated = result.unit.record.rated_power_w
    if half is None:
        return
    silent = starts is not None and starts.quantity.value >= 0.2 * rated
    if half.quantity.value <= 25:
        until = f", the fan still up to {finding_text(starts)}" if silent and starts else ""
        yield Remark(
            topic="noise", good=True, weight=scale(half.quantity.value, none=27, full=17),
            clause=f"{finding_text(half)} at half load{until}",
            sentence=f"At half load it makes {finding_text(half)}{until}.",
            reader="a quiet room" if half.quantity.value <= 21 else "", numbers=(half, *((starts,) if silent and starts else ())),
        )
    elif half.quantity.value >= 30:
        yield Remark(
            topic="noise", good=False, weight=scale(half.quantity.value, none=27, full=42),
            clause=f"{finding_text(half)} at half load",
            sentence=f"At half load it makes {finding_text(half)}, heard across a quiet room.",
            reader="a quiet room", numbers=(half,),
        )
    yield from _noise_when_busy(result, half.quantity.value)


def _noise_when_busy(result: UnitResult, half_dba: float) -> Iterator[Remark]:
    busy = result.finding("acoustic_noise.at_80")
    quiet_until = result.finding("acoustic_noise.under_30")
    if busy is None or half_dba >= 30:
        return
    if busy.quantity.value >= 34:
        yield Remark(
            topic="noise", good=False, weight=0.8 * scale(busy.quantity.value, none=32, full=46),
            clause=f"{finding_text(busy)} at 80 % load",
            sentence=f"It is quiet at first and {finding_text(busy)} at 80 % load.",
            reader="silence during long games", numbers=(busy,),
        )
    elif quiet_until is not None and quiet_until.quantity.value >= 0.9 * result.unit.record.rated_power_w:
        yield Remark(
            topic="noise", good=True, weight=0.6,
            clause="never above 30 dB(A)" if NEVER_LOUDER in quiet_until.note else f"under 30 dB(A) up to {finding_text(quiet_until)}",
            sentence="It stays under 30 dB(A) even above its rating." if NEVER_LOUDER in quiet_until.note else
            f"It stays under 30 dB(A) up to {finding_text(quiet_until)}.", numbers=(quiet_until,),
        )


def noise_claim(result: UnitResult) -> Iterator[Remark]:
    """The noise level on the box, where the bench found more."""
    claimed = result.unit.record.claims.noise_dba
    full = result.finding("acoustic_noise.at_100")
    if claimed is not None and full is not None and full.quantity.value > claimed + 3:
        yield Remark(
            topic="label", good=False, weight=0.55,
            clause=f"{finding_text(full)} at full load where the box says {number(claimed, 0)} for no load in particular",
            sentence=f"The box says {with_unit(claimed, 'dB(A)', 0)} and not at which load; at full load the bench read {finding_text(full)}.",
            numbers=(full,), fields=(_field(result, "claims", "noise_dba"),),
        )


def _field(result: UnitResult, *path: str) -> Origin:
    return Origin(result.unit.file, path)


def _numbers(result: UnitResult, *keys: str) -> tuple[Finding, ...]:
    return tuple(found for key in keys if (found := result.finding(key)) is not None)


def size(result: UnitResult) -> Iterator[Remark]:
    """Depth, where it is out of the ordinary."""
    depth = result.unit.record.size.depth_mm
    text = with_unit(depth, "mm", 0)
    numbers = _numbers(result, "size.depth")
    if depth <= 130:
        yield Remark(
            topic="size", good=True, weight=0.75 * scale(depth, none=140, full=100),
            clause=f"{text} deep", sentence=f"With {text} of depth it fits cases that most supplies don't.",
            reader="a small case", numbers=numbers,
        )
    elif depth > DEPTH_THAT_FITS_MOST_MM:
        yield Remark(
            topic="size", good=False, weight=0.6 * scale(depth, none=155, full=200),
            clause=f"{text} deep", sentence=f"It is {text} deep; measure your case first.",
            reader=f"a case with less than {text} for the supply", numbers=numbers,
        )


def cables(result: UnitResult) -> Iterator[Remark]:
    """Plugs that a build of this wattage may miss."""
    unit = result.unit
    drives, cards = unit.connectors("sata"), unit.connectors("pcie_8")
    sixteen = unit.connectors("pcie_16_12v_2x6", "pcie_16_12vhpwr")
    rated, cards_in_box = unit.record.rated_power_w, _numbers(result, "cables.pcie_8", "cables.pcie_16")
    if 0 < drives <= 4:  # a box without any is a list of cables that was not finished
        yield Remark(
            topic="cables", good=False, weight=scale(drives, none=7, full=2) * 0.7,
            clause=f"only {drives} drive plugs", sentence=f"Only {drives} drive plugs come in the box.",
            reader=f"a build with more than {drives} drives", numbers=_numbers(result, "cables.sata"),
        )
    if rated >= 550 and cards + 2 * sixteen < 3:
        yield Remark(
            topic="cables", good=False, weight=0.65,
            clause=f"only {cards} 8-pin graphics plugs", sentence=f"With {cards} 8-pin graphics plugs and no 16-pin "
            "cable it limits the choice of cards." if not sixteen else f"With {cards} 8-pin graphics plugs beside the "
            "16-pin one it limits the choice of cards.",
            reader="a graphics card with three 8-pin sockets", numbers=cards_in_box,
        )
    if rated >= 700 and not sixteen:
        yield Remark(
            topic="cables", good=False, weight=0.5,
            clause="no 16-pin graphics cable", sentence="There is no 16-pin cable for a large graphics card.",
            reader="a graphics card with the 16-pin socket", numbers=cards_in_box,
        )
    if all(cable.fixed for cable in unit.record.cables):
        yield Remark(
            topic="cables", good=False, weight=0.3,
            clause="every cable fixed", sentence="None of its cables can be taken off.",
            reader="a tidy build in a small case", fields=(_field(result, "cables"),),
        )


def build(result: UnitResult) -> Iterator[Remark]:
    """Capacitors and warranty."""
    record = result.unit.record
    bulk = record.construction.bulk_capacitors
    if bulk.temperature_c < 105:
        yield Remark(
            topic="build", good=False, weight=0.5,
            clause=f"a bulk capacitor rated for {with_unit(bulk.temperature_c, '°C', 0)}",
            sentence=f"Its bulk capacitor is rated for {with_unit(bulk.temperature_c, '°C', 0)}; 105 °C is usual.",
            fields=(_field(result, "construction", "bulk_capacitors", "temperature_c"),),
        )
    if record.warranty_years >= 10:
        yield Remark(
            topic="warranty", good=True, weight=0.4,
            clause=f"{number(record.warranty_years, 0)} years of warranty",
            sentence=f"The maker answers for it for {number(record.warranty_years, 0)} years.",
            reader="someone who keeps a supply for two computers", numbers=_numbers(result, "warranty.years"),
        )
    elif record.warranty_years <= 3:
        yield Remark(
            topic="warranty", good=False, weight=0.4,
            clause=f"only {number(record.warranty_years, 0)} years of warranty",
            sentence=f"The warranty ends after {number(record.warranty_years, 0)} years.",
            numbers=_numbers(result, "warranty.years"),
        )


def price(view: PriceView, rated_power_w: float) -> Iterator[Remark]:
    """Whether it can be had, and for how much a watt."""
    if view.availability == "no_price":
        yield Remark(
            topic="price", good=False, weight=0.6, clause=f"no price seen in {view.region.name}",
            sentence=f"We have seen no price of it in {view.region.name}, so it is in none of the choices there.",
        )
    elif view.availability == "hard_to_find" and view.looks:
        yield Remark(
            topic="price", good=False, weight=0.85, clause="hard to find",
            sentence=f"It is hard to find in {view.region.name}: in stock on {view.looks_in_stock} of "
            f"{counted(view.looks, 'day')} on which we looked in the last twelve weeks.",
            reader="anyone in a hurry",
        )
    elif view.only_out_of_stock:
        yield Remark(
            topic="price", good=False, weight=0.85, clause="out of stock",
            sentence=f"It is out of stock in {view.region.name}, and no price at which it could be bought is fresh.",
            reader="anyone in a hurry",
        )
    elif view.best is None and view.last_seen is not None:
        yield Remark(
            topic="price", good=False, weight=0.5, clause="no fresh price",
            sentence=f"Its last price in {view.region.name} is from {day(view.last_seen)} and no longer counts.",
        )
    elif view.best is not None and view.best.row.price is not None:
        per_watt = view.best.row.price / rated_power_w
        good = per_watt <= 0.13
        yield Remark(
            topic="price", good=good,
            weight=0.7 * scale(per_watt, none=0.15 if good else 0.18, full=0.08 if good else 0.28),
            clause=f"{money(per_watt, view.region, decimals=2)} a watt",
            sentence=f"At {money(view.best.row.price, view.region)} it costs {money(per_watt, view.region, decimals=2)} "
            "a watt.",
            reader="a tight budget", fields=(view.best.origin,),
        )
