"""A unit's price over time: a stepped line, broken where it could not be bought."""

from collections.abc import Iterator
from datetime import date
from functools import lru_cache

import numpy as np

from guidegen.presentation.charts.coordinates import Box, Point
from guidegen.presentation.charts.descriptions import PriceCourse, PriceDay, PriceSpan
from guidegen.presentation.charts.frames import AxisDescription, Frame, FrameDescription, Rule, frame_of
from guidegen.presentation.charts.labels import Wanted, line_boxes, place_labels
from guidegen.presentation.charts.marks import area, dots, drawing, line, text
from guidegen.presentation.charts.price_score import price_ticks
from guidegen.presentation.formatting import MONTHS, NO_BREAK, amount, day
from guidegen.presentation.pieces import Cell, Chart, Column, Table

_MOST_TICKS = 5
_Step = tuple[float, float, tuple[float, float, float]]
_Runs = tuple[tuple[bool, tuple[Point, ...]], ...]


def month_ticks(begin: date, end: date) -> tuple[tuple[float, str], ...]:
    """First days of months between two days, few enough to be read; the year stands at its January and at the first.

    >>> [words for _, words in month_ticks(date(2026, 1, 1), date(2026, 12, 31))]
    ['Jan 2026', 'Apr', 'Jul', 'Oct']
    """
    months = [date(y, m, 1) for y in range(begin.year, end.year + 1) for m in range(1, 13)
              if begin <= date(y, m, 1) <= end]
    step = next((s for s in (1, 2, 3, 6) if len(months) <= s * _MOST_TICKS), 12)
    kept = [month for month in months if (month.month - 1) % step == 0]
    return tuple((float(month.toordinal()), MONTHS[month.month - 1][:3]
                  + (f" {month.year}" if i == 0 or month.month == 1 else "")) for i, month in enumerate(kept))


def frame_description(course: PriceCourse) -> FrameDescription:
    """The frame: prices from 0, so that a step is as large as it looks."""
    ticks = price_ticks(course.price_max)
    return FrameDescription(
        x=AxisDescription(low=float(course.begin.toordinal()), high=float(course.end.toordinal()),
                          ticks=month_ticks(course.begin, course.end)),
        y=AxisDescription(low=0, high=course.price_max, ticks=ticks, title=f"Price, {course.currency}"),
        height=170, top=26, bottom=22, left=32, right=26, rules=tuple(Rule(value=v) for v, _ in ticks[1:]))


def _runs(course: PriceCourse) -> Iterator[tuple[bool, tuple[Point, ...]]]:
    """Stretches of the stepped line, each with whether the unit could be bought; a price holds until the next day told."""
    known = [d for d in course.days if d.day <= course.end]
    ends = (*(d.day for d in known[1:]), course.end)
    current: list[Point] = []
    state: bool | None = None
    for found, until in zip(known, ends, strict=False):  # without a price there is an end alone
        if until < course.begin:
            continue
        buyable = found.in_stock if found.price is not None else None
        if buyable is not state and current:
            yield bool(state), tuple(current)
            current = []
        state = buyable
        if found.price is not None:
            begin = max(found.day, course.begin)
            current += [(float(begin.toordinal()), found.price), (float(until.toordinal()), found.price)]
    if current:
        yield bool(state), tuple(current)


def _stretches(course: PriceCourse) -> Iterator[tuple[_Step, ...]]:
    """Runs of days on which the bracket's prices are known: from when, until when, and highest, lowest, middle."""
    known = {span.day: (span.high, span.low, span.middle) for span in course.bracket}
    days = [d.day for d in course.days if d.day <= course.end]
    current: list[_Step] = []
    for start, until in zip(days, (*days[1:], course.end), strict=False):  # without a day there is an end alone
        if start in known and until > course.begin:
            current.append((float(max(start, course.begin).toordinal()), float(until.toordinal()), known[start]))
        elif current:
            yield tuple(current)
            current = []
    if current:
        yield tuple(current)


def _bracket(frame: Frame, course: PriceCourse) -> str:
    """The bracket's range as a light area, its middle as a thin line."""
    drawn = []
    for run in _stretches(course):
        high, low, middle = (
            frame.places(tuple(point for begin, until, prices in run for point in ((begin, prices[i]), (until, prices[i]))))
            for i in range(3)
        )
        drawn.append(area(high + low[::-1], style="c-band", opacity="0.1"))
        drawn.append(line(middle, style="c-line-3", width="0.8"))
    return "".join(drawn)


def _priced(course: PriceCourse) -> tuple[PriceDay, ...]:
    return tuple(d for d in course.days if d.price is not None)


@lru_cache(maxsize=4096)
def _money(currency: str, value: float) -> str:
    """An amount as printed; kept, since the courses of a bracket tell the same amounts over and over."""
    return f"{currency}{NO_BREAK}{amount(value)}"


def _labels(frame: Frame, runs: _Runs, lines: _Runs) -> str:
    """The last price and, where it prints otherwise, the lowest, off the lines as drawn of the runs."""
    bought = [point for buyable, run in runs if buyable for point in run]
    if not bought:
        return ""
    worth = {amount(point[1]): point for point in (min(bought, key=lambda p: p[1]), bought[-1])}
    points = frame.places(tuple(worth.values()))
    taken = np.vstack([line_boxes(places) for _, places in lines])
    spots = tuple(Wanted(point, words) for words, point in zip(worth, points, strict=True))
    box = frame.box
    within = Box(box.left, box.top, frame.size[0], box.bottom)  # the last price has room behind the end of the line
    return dots(points, radius=2.2) + "".join(
        text(p.baseline, p.words, anchor=p.anchor) for p in place_labels(spots, within=within, obstacles=taken))


def _words(course: PriceCourse) -> tuple[str, str]:
    """Title and description."""
    priced = _priced(course)
    if not priced:
        return f"No price of {course.name} is known", "An empty frame."
    bought = tuple(d for d in priced if d.in_stock) or priced
    lowest = min(bought, key=lambda d: (d.price or 0.0, d.day))
    last = priced[-1]
    now = f"{_money(course.currency, last.price or 0.0)} on {day(last.day)}{'' if last.in_stock else ', out of stock'}"
    low, high = (_money(course.currency, extreme(d.price or 0.0 for d in bought)) for extreme in (min, max))
    had = "it has" if all(d.in_stock for d in priced) else "in stock it has" if any(d.in_stock for d in priced) else "never in stock, it has"
    cost = f"{had} cost between {low} and {high}" if low != high else f"{had} cost {low} each time we looked"
    if course.bracket:
        cost += f", and the middle of the bracket is {_money(course.currency, course.bracket[-1].middle)}"
    least = (f"lowest{' in stock' if bought != priced else ''} {_money(course.currency, lowest.price or 0.0)} on {day(lowest.day)}"
             if (lowest.price or 0.0) < (last.price or 0.0) else "never lower in this time")
    gone = sum(not d.in_stock or d.price is None for d in course.days)
    return (f"{now}; {cost}",
            f"Price of {course.name} from {day(course.begin)} to {day(course.end)}: {now}; {least}; {cost}."
            + (f" Not to be bought on {gone} of {len(course.days)} days looked at." if gone else ""))


def _bracket_text(course: PriceCourse, span: PriceSpan) -> str:
    return f"{_money(course.currency, span.low)} to {_money(course.currency, span.high)}, middle {_money(course.currency, span.middle)}"


def _told(course: PriceCourse, found: PriceDay) -> str:
    """A day of the month and its price, and whether the unit was to be had."""
    price = "no price" if found.price is None else _money(course.currency, found.price)
    return f"{found.day.day}: {price}" + ("" if found.in_stock or found.price is None else " (not in stock)")


def _table(course: PriceCourse) -> Table:
    """A row a month, each price and each range of the bracket after its day: there are too many for a row each."""
    months: dict[tuple[int, int], list[PriceDay]] = {}
    for found in course.days:
        months.setdefault((found.day.year, found.day.month), []).append(found)
    ranges = {span.day: span for span in course.bracket}
    columns = (Column(key="month", title="Month"), Column(key="prices", title="Day and price"),
               *((Column(key="bracket", title="Day and range of the bracket"),) if ranges else ()))
    rows = tuple((Cell(text=f"{MONTHS[month - 1]} {year}"), Cell(text="; ".join([_told(course, found) for found in days])),
                  *((Cell(text=_ranges_told(course, days, ranges)),) if ranges else ()))
                 for (year, month), days in sorted(months.items()))
    return Table(id=f"{course.id}-data", caption=f"Prices of {course.name}, in stock unless it says otherwise",
                 columns=columns, rows=rows)


def _ranges_told(course: PriceCourse, days: list[PriceDay], ranges: dict[date, PriceSpan]) -> str:
    """The bracket's ranges on those of the days on which it is known."""
    return "; ".join([f"{found.day.day}: {_bracket_text(course, ranges[found.day])}" for found in days if found.day in ranges])


def _key(course: PriceCourse) -> str:
    return " Shaded: the bracket from its lowest to its highest price; the thin line is its middle." if course.bracket else ""


def price_history_chart(course: PriceCourse) -> Chart:
    """The price over time."""
    frame = frame_of(frame_description(course))
    runs = tuple(_runs(course))
    lines = tuple((buyable, frame.places(run)) for buyable, run in runs)
    ink = "".join(line(places, style="c-line-1" if buyable else "c-line-3",
                       width="1.6" if buyable else "1", dashes="" if buyable else "2 3") for buyable, places in lines)
    words = _words(course)
    return Chart(id=course.id, title=words[0], description=words[1], table=_table(course),
                 note=f"The line is broken where no price was found, dotted where the unit was out of stock.{_key(course)}",
                 svg=drawing(course.id, frame.size, words=words,
                             body=frame.svg + _bracket(frame, course) + ink + _labels(frame, runs, lines)))
