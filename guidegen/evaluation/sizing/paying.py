"""What the units that fit cost to run, and whether the best pays for itself against the cheapest of them."""

from dataclasses import dataclass

from guidegen.evaluation.assessment import Assessment
from guidegen.evaluation.findings import UnitResult
from guidegen.evaluation.running_costs import (
    COVERAGE,
    AnnualEnergy,
    Payback,
    annual_energy,
    cost,
    payback,
    saving,
)
from guidegen.evaluation.sizing.fitted import bench_at
from guidegen.evaluation.sizing.fitting import FitList, UnitFit
from guidegen.evaluation.sizing.questions import Asked
from guidegen.evaluation.sizing.wording import NO_BREAK, money, number, with_unit
from guidegen.quantities import Quantity
from guidegen.records import Region

MANY_YEARS = 99.0
"""Years beyond this are said to be more, not counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitCost:
    """What a unit that fits costs to run."""

    unit: str
    """Identifier."""
    energy: AnnualEnergy
    """Energy from the wall in a year of the profile."""
    cost: Quantity
    """Its price at the region's tariff, in the region's currency a year."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitSaving:
    """The unit with the best score against the cheapest that fits, of those that can be bought."""

    unit: str
    """The one with the best score."""
    against: str
    """The cheapest."""
    price_difference: float
    """By how much it is dearer, in the region's currency."""
    energy: Quantity
    """What it saves in a year of the profile, kWh; below 0 where it takes more."""
    money: Quantity
    """The same at the region's tariff, in its currency."""
    payback: Payback
    """Whether that pays for the difference in price within its warranty."""
    warranty_years: float
    """Its warranty, years."""


def costs_of(fits: FitList, asked: Asked, assessment: Assessment) -> tuple[UnitCost, ...]:
    """Running costs of the units that fit and were measured at every load of the profile."""
    results = tuple((fit.unit, assessment.result(fit.unit)) for fit in fits.units)
    energies = tuple((unit, _energy(result, asked, standby=True)) for unit, result in results if result)
    return tuple(
        UnitCost(unit=unit, energy=energy, cost=cost(energy.energy, asked.region.tariff_per_kwh))
        for unit, energy in energies
        if energy
    )


def saving_of(fits: FitList, asked: Asked, assessment: Assessment) -> UnitSaving | None:
    """What the best unit saves against the cheapest; nothing where it is the cheapest itself, can't be bought, or
    one of the two was not measured at every load. Standby power counts where both were measured.
    """
    best, cheapest = _best_and_cheapest(fits)
    if best is None or cheapest is None or best.price is None or cheapest.price is None or best is cheapest:
        return None
    results = assessment.result(best.unit), assessment.result(cheapest.unit)
    if results[0] is None or results[1] is None:
        return None
    standby = all(result is not None and result.finding("standby.no_load") for result in results)
    here, there = (_energy(result, asked, standby=standby) for result in (results[0], results[1]))
    if here is None or there is None:
        return None
    energy, dearer = saving(here.energy, there.energy), best.price - cheapest.price
    money, years = cost(energy, asked.region.tariff_per_kwh), results[0].unit.record.warranty_years
    return UnitSaving(
        unit=best.unit, against=cheapest.unit, price_difference=dearer, energy=energy, money=money,
        payback=payback(dearer, money, warranty_years=years), warranty_years=years,
    )


def saving_words(fits: FitList, found: UnitSaving | None, region: Region) -> tuple[str, ...]:
    """The same in a sentence; nothing where there is nothing to compare."""
    best, cheapest = _best_and_cheapest(fits)
    if best is None or cheapest is None:
        return ()
    if best is cheapest:
        return (f"{best.name} is the cheapest of those that can be bought.",)
    if found is None:
        return ()
    yearly, doubt = (money(amount, region.currency_mark) for amount in (abs(found.money.value), COVERAGE * found.money.uncertainty))
    runs = f"saves {yearly} ± {doubt} a year" if found.money.value > 0 else f"costs {yearly} ± {doubt} a year more to run"
    dearer = f"{best.name} {runs} and costs {money(found.price_difference, region.currency_mark)} more"
    return (f"Against {cheapest.name}, the cheapest of those that can be bought, {dearer}: {_outcome(found)}.",)


def _best_and_cheapest(fits: FitList) -> tuple[UnitFit | None, UnitFit | None]:
    """The first unit and the cheapest of those that can be bought; nothing where fewer than two can."""
    there = tuple(fit for fit in fits.units if fit.price is not None and not fit.absent)
    if len(there) < 2:
        return None, None
    return there[0], min(there, key=lambda fit: fit.price or 0.0)


def _energy(result: UnitResult, asked: Asked, *, standby: bool) -> AnnualEnergy | None:
    """Energy in a year at the reader's mains; nothing where a load was not measured."""
    loss, off = bench_at(result, asked.search.mains_v).curve("loss"), result.finding("standby.no_load")
    if loss is None:
        return None
    uses = tuple(use for use in asked.search.uses if use.hours_per_day > 0)
    energy = annual_energy(loss, uses, standby=off.quantity if off and standby else None)
    return None if energy.unmeasured else energy


def _outcome(found: UnitSaving) -> str:
    pays, warranty = found.payback, found.warranty_years
    within = f"within its warranty of {with_unit(warranty, 'years', 0 if warranty == int(warranty) else 1)}"
    taken = _taken(pays) if pays.earliest is not None else ""
    if pays.outcome == "within_warranty":
        return f"it has paid for itself {within}; years until then: {taken}"
    if pays.outcome == "undecided":
        return f"the measurements leave open whether it pays for itself {within}; years until then: {taken}"
    return f"it never pays for itself {within}" + (f"; years until then: {taken}" if taken else "")


def _taken(pays: Payback) -> str:
    """The years until then with what the measurements leave open, where that shows; hours and tariff are taken as said."""
    years, *ends = (_years(value) for value in (pays.years, pays.earliest, pays.latest))
    doubt = f" ({ends[0]} to {ends[1]} by the measurements, with 95{NO_BREAK}%)" if ends[0] != ends[1] else ""
    return f"{years}{doubt}, at these hours and this tariff"


def _years(value: float | None) -> str:
    if value is None:
        return "never"
    return f"more than {number(MANY_YEARS)}" if value > MANY_YEARS else number(value, 1)
