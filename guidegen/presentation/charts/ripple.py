"""Ripple per rail over load, each as a share of its limit, one panel beneath the other at one scale."""

from guidegen.evaluation import is_rated
from guidegen.presentation.charts.coordinates import Point, crossings
from guidegen.presentation.charts.descriptions import RailRipple, Reading, RippleCourse
from guidegen.presentation.charts.efficiency import LOAD_AXIS
from guidegen.presentation.charts.frames import AxisDescription, Frame, FrameDescription, Rule, frame_of
from guidegen.presentation.charts.marks import area, clip, dots, drawing, element, element_id, hatch, line, text
from guidegen.presentation.formatting import listed, number, order, with_unit
from guidegen.presentation.pieces import Cell, Chart, Column, Table

ENDS = (120.0, 150.0, 200.0, 300.0, 400.0, 500.0)
"""Where the share axis may end, % of the limit: at the first of them, unless something lies beyond it."""
_PITCH = 72.0


def frame_description(high: float = ENDS[0], *, last: bool = True) -> FrameDescription:
    """A panel; the last one has the load beneath."""
    shares = (0.0, 50.0, 100.0, 150.0) if high <= 150 else tuple(map(float, range(0, int(high) + 1, 100)))
    ticks = tuple((share, number(share, 0)) for share in shares if share <= high)
    rules = tuple(Rule(value=100, style="c-limit") if share == 100 else Rule(value=share) for share, _ in ticks[1:])
    loads = LOAD_AXIS if last else AxisDescription(
        low=LOAD_AXIS.low, high=LOAD_AXIS.high, ticks=tuple((v, "") for v, _ in LOAD_AXIS.ticks))
    return FrameDescription(x=loads, y=AxisDescription(low=0, high=high, ticks=ticks), height=_PITCH + (28 if last else 0),
                            top=18, bottom=34 if last else 6, rules=rules)


def axis_end(course: RippleCourse) -> float:
    """The end of the share axis: one for all rails, at which the worst reading is still seen."""
    worst = max((100 * reading.value / rail.limit_mv for rail in course.rails for reading in rail.readings), default=0.0)
    return next((end for end in ENDS if worst <= end), ENDS[-1])


def _worst(rail: RailRipple) -> Reading:
    """The highest reading of the loads that the limit is set for; of overload alone where there is no other."""
    rated = [reading for reading in rail.readings if is_rated(reading.load_pct)]
    return max(rated or rail.readings, key=lambda r: r.value)


def _shares(rail: RailRipple) -> tuple[Point, ...]:
    """(load %, % of the limit)."""
    return tuple((r.load_pct, 100 * r.value / rail.limit_mv) for r in rail.readings)


def _summary(rail: RailRipple) -> str:
    """The worst reading of a rail in a few words."""
    if not rail.readings:
        return "not measured"
    worst = _worst(rail)
    return (f"{with_unit(worst.value, 'mV', 0)} of {with_unit(rail.limit_mv, 'mV', 0)} "
            f"at {with_unit(worst.load_pct, '%', 0)} load")


def _panel(rail: RailRipple, frame: Frame, *, course_id: str, down: float) -> str:
    """One rail: its name, its worst value, its course, and what lies beyond the limit."""
    shares = _shares(rail)
    beyond = tuple(frame.places(stretch) for stretch in crossings(shares, 100))
    over = "".join(
        area((*stretch, (stretch[-1][0], frame.y.at(100)), (stretch[0][0], frame.y.at(100))),
             style="c-hatch", fill=f"url(#{element_id(course_id, 'hatch')})") for stretch in beyond)
    ink = element("g", {"clip-path": f"url(#{element_id(course_id, 'clip')})"}, over,
                  line(frame.places(shares), style="c-line-1", width="1.6"),
                  "".join(line(stretch, style="c-warn", width="1.8") for stretch in beyond),
                  dots(frame.places(((_worst(rail).load_pct, 100 * _worst(rail).value / rail.limit_mv),)),
                       style="c-warn" if beyond else "c-mark", radius=2.4)) if shares else ""
    head = (text((0, 11), rail.rail)
            + text((frame.box.right, 11), _summary(rail), style="c-warn-text" if beyond else "c-text", anchor="end"))
    return element("g", {"transform": f"translate(0 {down:.0f})"}, frame.svg, head, ink)


def _words(course: RippleCourse) -> tuple[str, str]:
    """Title and description."""
    measured = tuple(rail for rail in course.rails if rail.readings)
    if not measured:
        return f"The ripple of {course.name} was not measured", "Empty frames."
    told = ". ".join(f"{rail.rail}: {_summary(rail)}" for rail in course.rails)
    beyond = tuple(rail.rail for rail in measured if _worst(rail).value > rail.limit_mv)
    if beyond:
        return f"Ripple on {listed(beyond)} goes beyond the limit", f"Ripple of {course.name} by rail. {told}."
    worst = max(measured, key=lambda rail: _worst(rail).value / rail.limit_mv)
    share = with_unit(100 * _worst(worst).value / worst.limit_mv, "%", 0)
    rails = listed(tuple(rail.rail for rail in measured))
    return (f"Up to full load ripple stays at or below {share} of the limit on {rails}; {worst.rail} comes nearest",
            f"Ripple of {course.name} by rail. {told}.")


def _table(course: RippleCourse) -> Table:
    """A row a load, a column a rail; the limit stands in the heading."""
    at = {rail.rail: {round(r.load_pct): r for r in rail.readings} for rail in course.rails}
    loads = sorted({load for readings in at.values() for load in readings})
    rows = tuple(
        (Cell(text=number(load, 0), order=order(load, 0)), *(_cell(rail, at[rail.rail].get(load)) for rail in course.rails))
        for load in loads
    )
    columns = (Column(key="load", title="Load, %", numeric=True),
               *(Column(key=f"rail-{i}", title=f"{rail.rail}, mV (limit {number(rail.limit_mv, 0)})", numeric=True)
                 for i, rail in enumerate(course.rails)))
    return Table(id=f"{course.id}-data", caption=f"Ripple of {course.name} by load and rail", columns=columns, rows=rows)


def _cell(rail: RailRipple, reading: Reading | None) -> Cell:
    if reading is None:
        return Cell(text="not measured")
    return Cell(text=number(reading.value, 0), order=order(reading.value, 1), warning=reading.value > rail.limit_mv and is_rated(reading.load_pct))


def _note(course: RippleCourse) -> str:
    """How to read it, and what lies off the scale."""
    off = tuple(rail for rail in course.rails if any(reading.value > ENDS[-1] / 100 * rail.limit_mv for reading in rail.readings))
    parts = ["Share of the limit, %; lower is better.",
             f"Limits: {course.document}." if course.document else "",
             f"Above the scale: {listed(tuple(rail.rail for rail in off))}." if off else ""]
    return " ".join(part for part in parts if part)


def ripple_chart(course: RippleCourse) -> Chart:
    """Ripple of every rail against its limit."""
    last = len(course.rails) - 1
    high = axis_end(course)
    frame, last_frame = (frame_of(frame_description(high, last=is_last)) for is_last in (False, True))
    panels = "".join(_panel(rail, last_frame if i == last else frame, course_id=course.id, down=i * _PITCH)
                     for i, rail in enumerate(course.rails))
    words = _words(course)
    definitions = (clip(element_id(course.id, "clip"), frame.box) + hatch(element_id(course.id, "hatch")))
    size = (frame.size[0], last * _PITCH + last_frame.size[1])
    return Chart(id=course.id, title=words[0], description=words[1], table=_table(course), note=_note(course),
                 svg=drawing(course.id, size, words=words, body=definitions + panels))
