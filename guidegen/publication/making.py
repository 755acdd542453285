"""Planned pages and picture cards made, shared out among processes where that is safe: whoever is free begins the next part."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from itertools import pairwise, starmap
from types import MappingProxyType

from guidegen.errors import ThemeError
from guidegen.presentation.page_keys import key_of
from guidegen.presentation.sheets import DrawingPlan, PagePlan
from guidegen.press import File
from guidegen.publication.rendering import Page, Printer
from guidegen.sharing import processes_for, shared_out, slices

_WORTH_SHARING = 16
"""From so many pages on a second process pays for its start."""
_VERY_MANY = 2000
"""From so many pages on memory counts more than the start of some processes."""
_NOTHING: Mapping[str, str] = MappingProxyType({})
Plan = DrawingPlan | PagePlan
"""What is to be made."""


@dataclass(frozen=True, slots=True)
class Unchanged:
    """A page whose sheet says what it said before: it is not rendered again."""


Made = File | Page | Unchanged
"""A picture, a page, or a page that stands."""


def made(
    printer: Printer, drawings: tuple[DrawingPlan, ...], plans: tuple[PagePlan, ...], said: Mapping[str, str] = _NOTHING
) -> Iterator[tuple[Plan, Made]]:
    """Every plan with what came of it, as they come; raises the ``ThemeError`` of the first page that has one.

    ``said`` is what sheets said before, by address, for pages that still stand.
    """
    work: tuple[Plan, ...] = (*drawings, *plans)
    parts = (*_drawing_parts(len(drawings)), *_page_parts(plans, first=len(drawings)))
    processes, one = processes_for(len(parts)), partial(_made, printer, work, said)
    alone = ((place, one(place)) for place in range(len(work)))
    for place, result in alone if processes < 2 else shared_out(one, parts, processes):
        if isinstance(result, ThemeError):
            raise result
        yield work[place], result


def _drawing_parts(count: int) -> tuple[range, ...]:
    """Runs of drawings for one process each; one takes as long as several pages."""
    return slices(count, processes_for(count // 2)) if count else ()


def _page_parts(plans: tuple[PagePlan, ...], *, first: int) -> tuple[range, ...]:
    """Runs of pages for one process each: as many pages for each process, or, where there are very many, pages that rest on
    the same results, so that none holds the results of more than a bracket. The pages begin at the place ``first``.
    """
    if not plans:
        return ()
    if len(plans) < _VERY_MANY:
        runs = slices(len(plans), processes_for(len(plans) // (_WORTH_SHARING // 2)))
        return tuple(range(first + run.start, first + run.stop) for run in runs)
    begins = [place for place, plan in enumerate(plans) if place == 0 or plan.beside != plans[place - 1].beside]
    return tuple(starmap(range, pairwise(first + place for place in (*begins, len(plans)))))


def _made(printer: Printer, work: tuple[Plan, ...], said: Mapping[str, str], place: int) -> Made | ThemeError:
    """What comes of a plan; a fault of the theme is handed over like a page."""
    plan = work[place]
    if isinstance(plan, DrawingPlan):
        return File(path=plan.address, content=plan.draw())
    sheet = plan.compose()
    says = key_of(sheet)
    if said.get(plan.address) == says:
        return Unchanged()
    try:
        return printer.page(sheet, says)
    except ThemeError as error:
        return error
