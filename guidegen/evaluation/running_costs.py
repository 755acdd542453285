"""What a supply costs to run: energy in a year, its price, and whether the dearer unit ever pays for itself.

Only the loss differs between two units in the same computer; the energy that arrives is the same.
"""

import math
from dataclasses import dataclass
from typing import Literal

from guidegen.evaluation.curves import value_at
from guidegen.evaluation.findings import Curve, UnitResult
from guidegen.quantities import Quantity
from guidegen.records import ReaderProfile

DAYS_PER_YEAR = 365.0
HOURS_PER_YEAR = 8760.0
"""365 days, as in the formulas of ENERGY STAR and Regulation (EU) 617/2013."""
COVERAGE = 1.96
"""Standard uncertainties on either side for 95 % (JCGM 100:2008, G.1.3)."""
HOURS_PER_DAY = 24.0

Payoff = Literal["at_once", "within_warranty", "never_within_warranty", "undecided"]
"""Whether the dearer unit pays for itself; ``at_once`` where it isn't dearer, ``undecided`` where the measurements
leave both open."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UseLoad:
    """One kind of use, with its load."""

    use: str
    """Kind of use."""
    delivered_w: float
    """Delivered power, W."""
    hours_per_day: float = 0.0
    """Hours a day."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EnergyLine:
    """The energy of one use in a year."""

    load: UseLoad
    """The use."""
    loss_w: Quantity
    """Power lost in the supply, W; for ``off`` all that it takes."""
    energy_kwh: float
    """Energy from the wall, kWh a year."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AnnualEnergy:
    """Energy from the wall in a year."""

    energy: Quantity
    """All uses together, kWh a year."""
    lines: tuple[EnergyLine, ...]
    """Use by use."""
    unmeasured: tuple[str, ...]
    """Uses whose load lies beyond the measured ones; they are left out of the sum."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Payback:
    """Whether the dearer of two units pays for itself."""

    outcome: Payoff
    """The answer."""
    years: float | None
    """Price difference over the yearly saving, years; nothing where nothing is saved."""
    earliest: float | None
    """Lower end with 95 %, years; nothing where nothing is saved even at the best of the measurements."""
    latest: float | None
    """Upper end with 95 %, years; nothing where it may never be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """A dearer unit against a cheaper one in the same computer."""

    energy: Quantity
    """What the dearer one saves in a year, kWh; below 0 where it takes more."""
    money: Quantity
    """The same at the tariff, in its currency."""
    payback: Payback
    """Whether that pays for the difference in price within its warranty."""


def annual_kwh(power_w: float, hours_per_day: float) -> float:
    """Energy in a year, kWh.

    >>> annual_kwh(100.0, 4.0)
    146.0
    """
    return power_w * hours_per_day * DAYS_PER_YEAR / 1000.0


def loss_difference_kwh(delivered_w: float, hours_per_day: float, efficiency_pct: float, *, against_pct: float) -> float:
    """Energy that a supply of ``efficiency_pct`` takes in a year beyond one of ``against_pct``, kWh:
    ``P·h·365/1000·(1/η1 − 1/η2)``.

    >>> round(loss_difference_kwh(300.0, 4.0, 87.0, against_pct=92.0), 2)
    27.36
    """
    return annual_kwh(delivered_w, hours_per_day) * (100.0 / efficiency_pct - 100.0 / against_pct)


def use_loads(profile: ReaderProfile, full_w: float) -> tuple[UseLoad, ...]:
    """The uses of a profile at a reader's full load."""
    return tuple(
        UseLoad(use=use.use, delivered_w=full_w * use.share_of_full_pct / 100.0, hours_per_day=use.hours_per_day)
        for use in profile.uses
    )


def annual_energy(loss: Curve, loads: tuple[UseLoad, ...], *, standby: Quantity | None = None) -> AnnualEnergy:
    """Energy from the wall in a year: ``Σ (P + loss)·t = Σ P·t/η``, with ``standby`` W for the hours that are left.

    Own doubts of the losses add in quadrature, those of the meters linearly, since they move every load alike.
    """
    lines, unmeasured = [], []
    for load in loads:
        lost = value_at(loss, load.delivered_w)
        if lost is None:
            unmeasured.append(load.use)
        else:
            lines.append(_line(load, lost))
    if standby is not None:
        off = max(0.0, HOURS_PER_DAY - math.fsum(load.hours_per_day for load in loads))
        lines.append(_line(UseLoad(use="off", delivered_w=0.0, hours_per_day=off), standby))
    energy = Quantity(
        math.fsum(line.energy_kwh for line in lines), "kWh",
        own=math.hypot(*(annual_kwh(line.loss_w.own, line.load.hours_per_day) for line in lines)),
        shared=math.fsum(annual_kwh(line.loss_w.shared, line.load.hours_per_day) for line in lines),
    )
    return AnnualEnergy(energy=energy, lines=tuple(lines), unmeasured=tuple(unmeasured))


def _line(load: UseLoad, lost: Quantity) -> EnergyLine:
    return EnergyLine(load=load, loss_w=lost, energy_kwh=annual_kwh(load.delivered_w + lost.value, load.hours_per_day))


def unit_energy(result: UnitResult, loads: tuple[UseLoad, ...]) -> AnnualEnergy | None:
    """The energy of one unit with its own standby power; nothing where no loss was measured."""
    loss = result.curve("loss")
    if loss is None:
        return None
    standby = result.finding("standby.no_load")
    return annual_energy(loss, loads, standby=standby.quantity if standby else None)


def cost(energy: Quantity, tariff_per_kwh: float) -> Quantity:
    """What the energy costs in a year, in the currency of the tariff; the tariff is taken as exact."""
    return Quantity(
        energy.value * tariff_per_kwh, "", own=energy.own * tariff_per_kwh, shared=energy.shared * tariff_per_kwh
    )


def saving(one: Quantity, other: Quantity) -> Quantity:
    """What ``one`` saves against ``other`` in a year, in their unit.

    What the same meters do to both falls out but for its difference.
    """
    return Quantity(
        other.value - one.value, one.unit, own=math.hypot(one.own, other.own), shared=abs(other.shared - one.shared)
    )


def payback(price_difference: float, yearly_saving: Quantity, *, warranty_years: float) -> Payback:
    """Years until a unit that is dearer by ``price_difference`` has saved as much, and whether within its warranty."""
    if price_difference <= 0:
        return Payback(outcome="at_once", years=0.0, earliest=0.0, latest=0.0)
    doubt = COVERAGE * yearly_saving.uncertainty
    years, earliest, latest = (
        price_difference / value if value > 0 else None
        for value in (yearly_saving.value, yearly_saving.value + doubt, yearly_saving.value - doubt)
    )
    outcome: Payoff = "undecided"
    if earliest is None or earliest > warranty_years:
        outcome = "never_within_warranty"
    elif latest is not None and latest <= warranty_years:
        outcome = "within_warranty"
    return Payback(outcome=outcome, years=years, earliest=earliest, latest=latest)


def compare(
    cheaper: UnitResult, dearer: UnitResult, *, loads: tuple[UseLoad, ...], tariff_per_kwh: float, price_difference: float
) -> Comparison | None:
    """What the dearer unit saves, and whether that pays for it within its own warranty; nothing where one of the two was
    not measured at every load. Standby power counts where both were measured.
    """
    curves = cheaper.curve("loss"), dearer.curve("loss")
    standby = cheaper.finding("standby.no_load"), dearer.finding("standby.no_load")
    if curves[0] is None or curves[1] is None:
        return None
    off = (standby[0].quantity, standby[1].quantity) if standby[0] and standby[1] else (None, None)
    of_cheaper, of_dearer = annual_energy(curves[0], loads, standby=off[0]), annual_energy(curves[1], loads, standby=off[1])
    if of_cheaper.unmeasured or of_dearer.unmeasured:
        return None
    energy = saving(of_dearer.energy, of_cheaper.energy)
    money = cost(energy, tariff_per_kwh)
    years = dearer.unit.record.warranty_years
    return Comparison(energy=energy, money=money, payback=payback(price_difference, money, warranty_years=years))
