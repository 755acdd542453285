"""Noise over load, with light lines to read the level by."""

from guidegen.presentation.charts.coordinates import crossings
from guidegen.presentation.charts.descriptions import NoiseCourse
from guidegen.presentation.charts.efficiency import LOAD_AXIS, band, course_of, named_values, printed, whiskers, written
from guidegen.presentation.charts.frames import AxisDescription, Frame, FrameDescription, Rule, frame_of
from guidegen.presentation.charts.labels import line_boxes
from guidegen.presentation.charts.marks import area, clip, dots, drawing, element, element_id, line, text
from guidegen.presentation.formatting import counted, no_more_than, number, order, with_doubt, with_unit
from guidegen.presentation.pieces import Cell, Chart, Column, Table

LOW, HIGH = 15.0, 50.0
"""Ends of the level axis, dB(A): the same for every unit."""


def frame_description(course: NoiseCourse) -> FrameDescription:
    """The frame, with a line for every level that is named: the thresholds and each step of the scale."""
    levels = sorted({*(t.value for t in course.thresholds), *map(float, range(20, int(HIGH) + 1, 5))})
    ticks = tuple((level, number(level, 0)) for level in levels)
    return FrameDescription(x=LOAD_AXIS, height=200, top=26, rules=tuple(Rule(value=level) for level in levels),
                            y=AxisDescription(low=LOW, high=HIGH, ticks=ticks, title="Noise, dB(A)"))


def _background(frame: Frame, level: float | None) -> str:
    """What the room hides: a light area up to its own level."""
    if level is None or level <= LOW:
        return ""
    box, top = frame.box, frame.y.at(min(level, HIGH))
    return (area(((box.left, top), (box.right, top), (box.right, box.bottom), (box.left, box.bottom)),
                 style="c-band", opacity="0.08")
            + text((box.right - 3, top - 3), "hidden by the room", style="c-quiet", anchor="end"))


def _quiet_until(course: NoiseCourse) -> str:
    """Up to which load the unit stays below the middle threshold, where that says something."""
    drawn = course_of(course.readings, course.between)
    levels = sorted(t.value for t in course.thresholds)
    for level in levels:
        above = crossings(drawn, level)
        if above and above[0][0][0] > drawn[0][0]:
            return f"at or below {with_unit(level, 'dB(A)', 0)} up to {with_unit(above[0][0][0], '%', 0)} load"
        if not above:
            return f"never above {with_unit(level, 'dB(A)', 0)}"
    return ""


def _words(course: NoiseCourse) -> tuple[str, str]:
    """Title and description."""
    if not course.readings:
        return f"The noise of {course.name} was not measured", "An empty frame."
    loudest = max(course.readings, key=lambda r: r.value)
    first = course.readings[0]
    peak = f"{with_unit(loudest.value, 'dB(A)', 1)} at {with_unit(loudest.load_pct, '%', 0)} load"
    quiet = _quiet_until(course)
    title = f"{quiet[0].upper()}{quiet[1:]}, at most {peak}" if quiet else f"At most {peak}"
    return title, (f"Noise of {course.name} at {counted(len(course.readings), 'load')}{f' {course.distance}' if course.distance else ''}: "
                   f"{printed(first, 'dB(A)')} at {with_unit(first.load_pct, '%', 0)} load, at most {peak}.")


def _table(course: NoiseCourse) -> Table:
    rows = tuple((Cell(text=number(r.load_pct, 0), order=order(r.load_pct, 1)),
                  Cell(text=no_more_than(with_doubt(r.value, r.doubt), bound=r.bound), order=order(r.value, 1)))
                 for r in course.readings)
    columns = (Column(key="load", title="Load, %", numeric=True), Column(key="value", title="Noise ± (k = 2), dB(A)", numeric=True))
    return Table(id=f"{course.id}-data", caption=f"Noise of {course.name} over load", columns=columns, rows=rows)


def _note(course: NoiseCourse) -> str:
    """How to read it, and what lies off the scale."""
    loud = tuple(r for r in course.readings if r.value > HIGH)
    meant = "; ".join(f"{with_unit(t.value, 'dB(A)', 0)}: {t.words}" for t in course.thresholds if t.words)
    parts = ["Lower is better.",
             f"{meant}." if meant else "",
             f"Microphone {course.distance}." if course.distance else "",
             "Upright lines: uncertainty, k = 2." if any(r.doubt for r in course.readings) else "",
             "≤: an upper bound; the room is as loud as the unit there." if any(r.bound for r in course.readings) else "",
             "Shaded along the course: the range of the bracket." if len(course.bracket) > 1 else "",
             f"Above the scale: {', '.join(with_unit(r.value, 'dB(A)', 1) for r in loud)}." if loud else ""]
    return " ".join(part for part in parts if part)


def noise_chart(course: NoiseCourse) -> Chart:
    """Noise over load: points, course, uncertainty, thresholds, the bracket's range."""
    frame = frame_of(frame_description(course))
    clip_id = element_id(course.id, "clip")
    curve = frame.places(course_of(course.readings, course.between))
    ink = element("g", {"clip-path": f"url(#{clip_id})"}, band(frame, course.bracket), whiskers(frame, course.readings),
                  line(curve, style="c-line-1", width="1.6") if curve else "",
                  dots(frame.places(tuple((r.load_pct, r.value) for r in course.readings)), radius=1.8))
    worth = dict.fromkeys((course.readings[0], max(course.readings, key=lambda r: r.value))) if course.readings else {}
    values = written(named_values(frame, tuple(worth), line_boxes(curve)))
    words = _words(course)
    body = "".join((clip(clip_id, frame.box), frame.svg, _background(frame, course.background_dba), ink, values))
    return Chart(id=course.id, title=words[0], description=words[1], table=_table(course), note=_note(course),
                 svg=drawing(course.id, frame.size, words=words, body=body))
