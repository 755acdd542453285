"""Price against technical score for a bracket, and the units that nothing beats on both."""

import math

import numpy as np

from guidegen.presentation.charts.coordinates import Box, Point
from guidegen.presentation.charts.descriptions import PricedUnit, PriceField
from guidegen.presentation.charts.frames import AxisDescription, Frame, FrameDescription, Rule, frame_of
from guidegen.presentation.charts.labels import Ground, Placed, Wanted, line_boxes, point_boxes
from guidegen.presentation.charts.marks import dots, drawing, line, segments, text
from guidegen.presentation.formatting import listed, number, order
from guidegen.presentation.pieces import Cell, Chart, Column, Table

_MOST_NAMED = 3
_KEPT_CLEAR = 4.9
"""What a mark keeps free around itself, so that no other unit's name seems to be its own."""
_ROOM_FOR = 24
"""Names that a chart of this size holds at the very most; more are not tried."""


def price_axis_end(highest: float) -> float:
    """The round number at which a price axis ends that has to hold ``highest``.

    >>> price_axis_end(189.0), price_axis_end(200.0), price_axis_end(201.0)
    (200.0, 200.0, 400.0)
    """
    power = 10.0 ** math.floor(math.log10(max(highest, 1.0)))
    return next(power * end for end in (1, 2, 4, 6, 8, 10) if power * end >= highest)


def price_ticks(end: float) -> tuple[tuple[float, str], ...]:
    """Round prices from 0 to the end of the axis, six at most.

    >>> [words for _, words in price_ticks(200)], [words for _, words in price_ticks(450)]
    (['0', '50', '100', '150', '200'], ['0', '100', '200', '300', '400'])
    """
    power = 10.0 ** math.floor(math.log10(end / 5))
    step = next(power * s for s in (1, 2, 2.5, 5, 10) if power * s >= end / 5 * (1 - 1e-9))
    decimals = 0 if step == int(step) else 2
    return tuple((i * step, number(i * step, decimals)) for i in range(int(end / step + 1e-9) + 1))


def frame_description(field: PriceField) -> FrameDescription:
    """The frame: scores from a round one below the bracket's lowest to 100, prices from 0 to the bracket's end."""
    low = least_score(field)
    step = 10 if low >= 40 else 20
    levels = tuple(range(low, 101, step))
    return FrameDescription(
        x=AxisDescription(low=0, high=field.price_max, ticks=price_ticks(field.price_max), title=f"Price, {field.currency}"),
        y=AxisDescription(low=low, high=100, ticks=tuple((float(v), str(v)) for v in levels), title="Technical score"),
        height=300, top=26, right=14, rules=tuple(Rule(value=float(v)) for v in levels[1:]))


def least_score(field: PriceField) -> int:
    """The multiple of ten, or of twenty where the bracket reaches far down, that lies below its lowest score."""
    lowest = min((unit.score for unit in field.units), default=0.0)
    ten = 10 * (math.ceil(lowest / 10) - 1)
    return max(0, ten if ten >= 40 else 20 * (math.ceil(lowest / 20) - 1))


def front(units: tuple[PricedUnit, ...]) -> tuple[PricedUnit, ...]:
    """Units for which no advised unit is at least as good for less, or better for the same price; cheapest first."""
    found: list[PricedUnit] = []
    for unit in sorted((u for u in units if u.advised), key=lambda u: (u.price, -u.score, u.name)):
        if not found or unit.score > found[-1].score or (unit.score, unit.price) == (found[-1].score, found[-1].price):
            found.append(unit)
    return tuple(found)


def _steps(places: tuple[Point, ...], end: float) -> tuple[Point, ...]:
    """The front as steps: the best score that money has bought so far."""
    steps: list[Point] = []
    for x, y in places:
        if steps:
            steps.append((x, steps[-1][1]))
        steps.append((x, y))
    return (*steps, (end, steps[-1][1])) if steps else ()


def _place(frame: Frame, unit: PricedUnit) -> Point:
    return frame.x.at(unit.price), frame.y.at(unit.score)


def labels(field: PriceField, frame: Frame) -> tuple[Placed, ...]:
    """Names beside their points, the best first; where a name finds no room, the unit's number in the table.

    The numbers are set first, as they must stand close by; names may hang farther off on a leader. As many units are
    named as leave none without a label.
    """
    best = front(field.units)
    steps = _steps(tuple(_place(frame, unit) for unit in best), frame.box.right)
    taken = np.vstack((point_boxes(tuple(_place(frame, unit) for unit in field.units), _KEPT_CLEAR), line_boxes(steps)))
    others = sorted((unit for unit in field.units if unit not in best), key=lambda u: (-u.score, u.name))
    ordered = (*reversed(best), *others)
    numbers = {unit: i for i, unit in enumerate(field.units, start=1)}
    box = frame.box
    ground, tries = Ground(Box(box.left, box.top, frame.size[0], box.bottom), taken), []  # names may reach into the margin
    for named in _names_tried(len(ordered)):
        wanted = (*(Wanted(_place(frame, unit), str(numbers[unit])) for unit in ordered[named:]),
                  *(Wanted(_place(frame, unit), unit.name, str(numbers[unit])) for unit in ordered[:named]))
        tries.append(ground.place(wanted))
        if len(tries[-1]) == len(ordered):
            break
    return max(tries, key=len)


def _names_tried(units: int) -> tuple[int, ...]:
    """How many names are tried, most first: each number in a field of few units, a halving row of them in a crowd."""
    if units <= _ROOM_FOR:
        return tuple(range(units, -1, -1))
    return (*(_ROOM_FOR >> n for n in range(_ROOM_FOR.bit_length())), 0)


def _crosses(places: tuple[Point, ...]) -> str:
    """Slanting crosses for units that the guide does not advise."""
    pairs = tuple(pair for x, y in places
                  for pair in (((x - 3, y - 3), (x + 3, y + 3)), ((x - 3, y + 3), (x + 3, y - 3))))
    return segments(pairs, style="c-warn", width="1.4")


def _table(field: PriceField) -> Table:
    best = front(field.units)
    rows = tuple((Cell(text=f"{i} {unit.name}"), Cell(text=unit.price_text, order=order(unit.price, 2)),
                  Cell(text=number(unit.score, 1), order=order(unit.score, 3)),
                  Cell(text=("on the line" if unit in best else "") if unit.advised else "not advised",
                       warning=not unit.advised))
                 for i, unit in enumerate(field.units, start=1))
    columns = (Column(key="unit", title="Unit"), Column(key="price", title="Price", numeric=True),
               Column(key="score", title="Technical score", numeric=True), Column(key="line", title="Remark"))
    return Table(id=f"{field.id}-data", caption=f"Price and technical score, {field.bracket}", columns=columns, rows=rows)


def _words(field: PriceField) -> tuple[str, str]:
    """Title and description."""
    best = front(field.units)
    if not best:
        return f"No unit in {field.bracket} can be advised at a known price", f"{len(field.units)} units are drawn."
    told = "; ".join(f"{unit.name} {unit.price_text}, {number(unit.score, 1)}" for unit in best)
    description = f"{len(field.units)} units of {field.bracket} by price and technical score. On the line: {told}."
    if len(best) == 1:
        return f"{best[0].name} is both the cheapest and the best that can be advised", description
    if len(best) <= _MOST_NAMED:
        return f"For their price nothing beats {listed(tuple(unit.name for unit in best))}", description
    title = (f"{len(best)} of {len(field.units)} units are unbeaten for their price, from {best[0].name} at "
             f"{best[0].price_text} to {best[-1].name} at {best[-1].price_text}")
    return title, description


def price_score_chart(field: PriceField) -> Chart:
    """Price against technical score; the stepped line joins the units that nothing beats on both."""
    frame = frame_of(frame_description(field))
    best = front(field.units)
    steps = _steps(tuple(_place(frame, unit) for unit in best), frame.box.right)
    others = tuple(_place(frame, unit) for unit in field.units if unit.advised and unit not in best)
    placed = labels(field, frame)
    body = "".join((
        frame.svg, line(steps, style="c-line-2", width="1.4") if steps else "", dots(others, radius=2.5),
        dots(tuple(_place(frame, unit) for unit in best), style="c-mark-2", radius=3),
        _crosses(tuple(_place(frame, unit) for unit in field.units if not unit.advised)),
        segments(tuple(p.leader for p in placed if p.leader), style="c-axis", width="0.5"),
        *(text(p.baseline, p.words, anchor=p.anchor) for p in placed)))
    words = _words(field)
    names = {unit.name for unit in field.units}
    low = least_score(field)
    parts = ("Better lies above and to the left. The line joins the units that nothing beats on both.",
             f"The scores begin at {low}." if low else "",
             "Crosses: not advised." if any(not unit.advised for unit in field.units) else "",
             "Numbers stand for rows of the table." if any(p.words not in names for p in placed) else "")
    return Chart(id=field.id, title=words[0], description=words[1], table=_table(field),
                 note=" ".join(part for part in parts if part),
                 svg=drawing(field.id, frame.size, words=words, body=body))
