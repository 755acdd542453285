"""Efficiency over load, against what the level on the box demands."""

import numpy as np

from guidegen.evaluation import TOLERANCE_PCT
from guidegen.presentation.charts.coordinates import Point, value_at
from guidegen.presentation.charts.descriptions import EfficiencyCourse, Reading, Span
from guidegen.presentation.charts.frames import AxisDescription, Frame, FrameDescription, Rule, frame_of
from guidegen.presentation.charts.labels import (
    Boxes,
    Placed,
    Wanted,
    edges,
    line_boxes,
    place_labels,
    point_boxes,
    segment_boxes,
)
from guidegen.presentation.charts.marks import area, clip, dots, drawing, element, element_id, line, segments, text
from guidegen.presentation.formatting import counted, listed, no_more_than, number, order, with_doubt, with_unit
from guidegen.presentation.pieces import Cell, Chart, Column, Table

LOAD_AXIS = AxisDescription(low=0, high=110, ticks=tuple((float(v), str(v)) for v in range(0, 101, 20)),
                            title="Load, % of the rating")
HIGH = 98.0
"""End of the efficiency axis, %."""
FRAME = FrameDescription(
    x=LOAD_AXIS, height=210, top=26,
    y=AxisDescription(low=70, high=HIGH, ticks=tuple((float(v), str(v)) for v in range(70, 96, 5)),
                      title="Efficiency, %"),
    rules=tuple(Rule(value=float(v)) for v in range(75, 96, 5)))
"""The same for every unit."""
_FLOOR_HALF = 3.2


def band(frame: Frame, spans: tuple[Span, ...]) -> str:
    """The bracket's range as a light area; nothing where there is none."""
    if len(spans) < 2:
        return ""
    there = frame.places(tuple((s.load_pct, s.high) for s in spans))
    back = frame.places(tuple((s.load_pct, s.low) for s in reversed(spans)))
    return area(there + back, style="c-band", opacity="0.1")


def whiskers(frame: Frame, readings: tuple[Reading, ...]) -> str:
    """The expanded uncertainty of each point as an upright line."""
    return segments(tuple(((frame.x.at(r.load_pct), frame.y.at(r.value - r.doubt)),
                           (frame.x.at(r.load_pct), frame.y.at(r.value + r.doubt)))
                          for r in readings if r.doubt > 0), style="c-mark")


def course_of(readings: tuple[Reading, ...], between: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
    """The interpolated course, or the points themselves."""
    return between or tuple((r.load_pct, r.value) for r in readings)


def named_values(frame: Frame, readings: tuple[Reading, ...], obstacles: Boxes) -> tuple[Placed, ...]:
    """The printed values of the readings that are worth a label, off what is drawn and off each other."""
    labels = tuple(Wanted((frame.x.at(r.load_pct), frame.y.at(r.value)), no_more_than(number(r.value, 1), bound=r.bound)) for r in readings)
    return place_labels(labels, within=frame.box, obstacles=obstacles)


def printed(reading: Reading, unit: str) -> str:
    """A reading in a sentence."""
    return no_more_than(with_unit(reading.value, unit, 1), bound=reading.bound)


def written(placed: tuple[Placed, ...], style: str = "c-text") -> str:
    """Placed labels as text."""
    return "".join(text(one.baseline, one.words, style=style, anchor=one.anchor) for one in placed)


def _bar(frame: Frame, floor: Point) -> tuple[Point, Point]:
    """The ends of the short bar of a floor."""
    load, value = floor
    return ((frame.x.at(load - _FLOOR_HALF), frame.y.at(value)), (frame.x.at(load + _FLOOR_HALF), frame.y.at(value)))


def _floors(frame: Frame, course: EfficiencyCourse) -> str:
    """What the level demands as short bars; in the warning tone where the reading lies beneath."""
    drawn = course_of(course.readings, course.between)
    missed = tuple(floor for floor in course.floors if (value_at(drawn, floor[0]) or HIGH) < floor[1])
    return (segments(tuple(_bar(frame, floor) for floor in course.floors if floor not in missed), style="c-limit",
                     width="2")
            + segments(tuple(_bar(frame, floor) for floor in missed), style="c-warn", width="2"))


def _letters(frame: Frame, course: EfficiencyCourse, curve: tuple[Point, ...]) -> str:
    """The best and the last value, and the name of the level once, where room is off the curve as drawn."""
    bars = tuple(_bar(frame, floor) for floor in course.floors)
    taken = np.vstack((line_boxes(curve), segment_boxes(bars)))
    worth = dict.fromkeys((max(course.readings, key=lambda r: r.value), course.readings[-1])) if course.readings else {}
    values = named_values(frame, tuple(worth), taken)
    taken = np.vstack((taken, point_boxes(curve, 3), edges(one.box for one in values)))
    spots = tuple(Wanted(((a[0] + b[0]) / 2, a[1]), f"{course.level} demands") for a, b in reversed(bars))
    named = next((found for spot in spots if (found := place_labels((spot,), within=frame.box, obstacles=taken))), ())
    return written(values) + (written(named, "c-quiet") if course.level else "")


def _words(course: EfficiencyCourse) -> tuple[str, str]:
    """Title and description."""
    if not course.readings:
        return f"The efficiency of {course.name} was not measured", "An empty frame."
    best = max(course.readings, key=lambda r: r.value)
    first, last = course.readings[0], course.readings[-1]
    title = (f"{with_unit(best.value, '%', 1)} efficient at {with_unit(best.load_pct, '%', 0)} load, "
             f"{with_unit(last.value, '%', 1)} at {with_unit(last.load_pct, '%', 0)}")
    told = (f"Efficiency of {course.name} at {counted(len(course.readings), 'load')}: from {with_unit(first.value, '%', 1)} "
            f"at {with_unit(first.load_pct, '%', 0)} load to {with_unit(best.value, '%', 1)} at "
            f"{with_unit(best.load_pct, '%', 0)} and {with_unit(last.value, '%', 1)} at {with_unit(last.load_pct, '%', 0)}.")
    if course.floors:
        demands = listed(tuple(f"{with_unit(v, '%', 1)} at {with_unit(at, '%', 0)}" for at, v in course.floors))
        told += f" {course.level or 'The level'} demands {demands}."
    return title, told


def _demanded(course: EfficiencyCourse) -> dict[float, float]:
    """By load as read, % of the rating, what the level demands there, %: each demand at the nearest reading that stands for its
    load, by the tolerance of the badge's verdict. A demand whose load was not measured stands nowhere.
    """
    loads = [reading.load_pct for reading in course.readings]
    nearest = [(min(loads, key=lambda load: abs(load - at)), at, floor) for at, floor in course.floors] if loads else []
    return {load: floor for load, at, floor in nearest if abs(load - at) <= TOLERANCE_PCT}


def _table(course: EfficiencyCourse) -> Table:
    demanded = _demanded(course)
    rows = tuple((
        Cell(text=number(r.load_pct, 0), order=order(r.load_pct, 1)),
        Cell(text=with_doubt(r.value, r.doubt), order=order(r.value, 1)),
        Cell(text=number(demanded[r.load_pct], 1) if r.load_pct in demanded else "",
             order=order(demanded[r.load_pct], 1) if r.load_pct in demanded else "")) for r in course.readings)
    columns = (Column(key="load", title="Load, %", numeric=True), Column(key="value", title="Efficiency ± (k = 2), %", numeric=True),
               Column(key="floor", title=f"{course.level or 'Level'} demands, %", numeric=True))
    return Table(id=f"{course.id}-data", caption=f"Efficiency of {course.name} over load", columns=columns, rows=rows)


def _note(course: EfficiencyCourse) -> str:
    """How to read it, and what lies off the scale."""
    low = tuple(r for r in course.readings if r.value < FRAME.y.low)
    off = listed(tuple(f"{with_unit(r.value, '%', 1)} at {with_unit(r.load_pct, '%', 0)} load" for r in low))
    parts = ["Higher is better.",
             "Upright lines: uncertainty, k = 2." if any(r.doubt for r in course.readings) else "",
             "Shaded: the range of the bracket." if len(course.bracket) > 1 else "",
             f"Below the scale: {off}." if low else ""]
    return " ".join(part for part in parts if part)


def efficiency_chart(course: EfficiencyCourse) -> Chart:
    """Efficiency over load: points, course, uncertainty, what the claimed level demands, the bracket's range."""
    frame = frame_of(FRAME)
    clip_id = element_id(course.id, "clip")
    curve = frame.places(course_of(course.readings, course.between))
    ink = element("g", {"clip-path": f"url(#{clip_id})"}, band(frame, course.bracket), whiskers(frame, course.readings),
                  line(curve, style="c-line-1", width="1.6") if curve else "",
                  dots(frame.places(tuple((r.load_pct, r.value) for r in course.readings)), radius=1.8))
    words = _words(course)
    body = "".join((clip(clip_id, frame.box), frame.svg, ink, _floors(frame, course), _letters(frame, course, curve)))
    return Chart(id=course.id, title=words[0], description=words[1], table=_table(course), note=_note(course),
                 svg=drawing(course.id, frame.size, words=words, body=body))
