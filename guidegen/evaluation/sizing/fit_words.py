"""What is said of the units that fit: how many, which has the best score, and which can't be bought now."""

from guidegen.evaluation.sizing.fitted import nearest_mains
from guidegen.evaluation.sizing.fitting import FitList, UnitFit, named_with_absence
from guidegen.evaluation.sizing.questions import Asked
from guidegen.evaluation.sizing.wording import listed, watts, with_unit


def fit_words(fits: FitList, asked: Asked) -> tuple[str, ...]:
    """The sentences about the units that fit, or about what to give up where none does."""
    plugs = asked.search.wishes.plugs.words
    said = [f"The parts need {plugs}."] if plugs else []
    if fits.units:
        said += _found(fits, asked)
    elif fits.found.rating_w is not None:
        said.append("No unit that is advised here fits.")
        said += [one.sentence for one in fits.give_up]
        if not fits.give_up:
            said.append("Giving up a wish does not help; wait for the next edition or choose parts that draw less.")
    if asked.build is None:
        said.append("The short peaks of the graphics card are not known from watts alone; prefer a unit built to ATX 3.x.")
    return tuple(said)


def _found(fits: FitList, asked: Asked) -> list[str]:
    first, missing = fits.units[0], tuple(one for one in fits.units if one.absent)
    ratings = sorted({one.rating_w for one in fits.units})
    said = []
    if fits.found.rating_w not in ratings:
        said.append(f"No advised unit of that rating fits; those that do have {listed(tuple(map(watts, ratings)))}.")
    if len(fits.units) == 1:
        said.append(f"One advised unit fits: {first.name}.")
    else:
        said.append(f"{len(fits.units)} advised units fit{_first_words(fits.units, several=len(ratings) > 1)}.")
    if missing:
        said.append(f"Not to be had at present: {listed(tuple(named_with_absence(one.name, one.absent) for one in missing))}.")
    if first.mains_v != nearest_mains(asked.search.mains_v):
        said.append(
            f"The figures of {first.name} were measured at {with_unit(first.mains_v, 'V')}, not at the "
            f"{with_unit(asked.search.mains_v, 'V')} of your mains; efficiency is usually a little lower at the lower voltage."
        )
    return said


def _first_words(units: tuple[UnitFit, ...], *, several: bool) -> str:
    """What the first unit is among those of its rating that can be bought; ``several``: whether other ratings fit, too.

    Nothing is the best where it stands alone, nor where it can't be bought.
    """
    first = units[0]
    if first.absent:
        return ""
    alike = tuple(one for one in units if one.rating_w == first.rating_w)
    there = tuple(one for one in alike if not one.absent)
    which = (f" with {watts(first.rating_w)}" if several else "") + (" that can be bought" if len(there) < len(alike) else "")
    if len(there) == 1:
        return f"; {first.name} is the only one{which}"
    counted = ", with what was not tested counted at its worst" if any(one.partly_unknown for one in there) else ""
    return f"; {first.name} has the best score{which and f' of those{which}'}{counted}"
