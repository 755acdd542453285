"""Frames drawn by matplotlib, and the ink laid on them."""

import re

import pytest

from guidegen.presentation.charts.coordinates import Point, coordinate, path_data
from guidegen.presentation.charts.descriptions import EfficiencyCourse, NoiseCourse, PriceCourse, PriceField
from guidegen.presentation.charts.drawn.axes import drawn_axes, saved, settings
from guidegen.presentation.charts.efficiency import FRAME as EFFICIENCY
from guidegen.presentation.charts.frames import FrameDescription, frame_of
from guidegen.presentation.charts.noise import frame_description as noise_frame
from guidegen.presentation.charts.price_history import frame_description as history_frame
from guidegen.presentation.charts.price_score import frame_description as field_frame
from guidegen.presentation.charts.ripple import frame_description as ripple_frame


def matplotlib_line(description: FrameDescription, course: tuple[Point, ...]) -> tuple[Point, ...]:
    """The course as matplotlib itself draws it on the same axes, in units of the view box."""
    with settings():
        figure, axes = drawn_axes(description)
        axes.plot([x for x, _ in course], [y for _, y in course], gid="probe", clip_on=False)
        svg = saved(figure)
    data = re.search(r'<g id="probe">\s*<path d="([^"]+)"', svg)
    assert data is not None
    return tuple((float(x), float(y)) for x, y in re.findall(r"[ML] (-?[\d.]+) (-?[\d.]+)", data.group(1)))


def apart(ours: tuple[Point, ...], theirs: tuple[Point, ...]) -> float:
    """The largest distance of a coordinate from its counterpart."""
    return max(abs(a - b) for one, other in zip(ours, theirs, strict=True) for a, b in zip(one, other, strict=True))


@pytest.fixture
def frames(noise_course: NoiseCourse, price_field: PriceField, price_course: PriceCourse) -> tuple[FrameDescription, ...]:
    """A frame of every kind."""
    return (EFFICIENCY, ripple_frame(), noise_frame(noise_course), field_frame(price_field), history_frame(price_course))


def test_ink_stands_where_matplotlib_draws_it(frames: tuple[FrameDescription, ...]) -> None:
    """Our linear map and matplotlib's own drawing of a line agree within a tenth of a unit."""
    for frame in frames:
        course = tuple((frame.x.low + part * (frame.x.high - frame.x.low), frame.y.low + part**2 * (frame.y.high - frame.y.low))
                       for part in (0.0, 0.013, 0.2, 0.5, 0.77, 1.0))
        written = tuple((float(coordinate(x)), float(coordinate(y))) for x, y in frame_of(frame).places(course))
        assert apart(written, matplotlib_line(frame, course)) <= 0.1


def test_the_course_in_a_chart_is_that_of_matplotlib(efficiency_course: EfficiencyCourse, drawn: dict[str, str]) -> None:
    """The path in the finished chart is the path that matplotlib draws for the same readings."""
    course = tuple((r.load_pct, r.value) for r in efficiency_course.readings)
    data = re.search(r'<path class="c-line-1" d="([^"]+)"', drawn["efficiency"])
    assert data is not None
    written = tuple((float(x), float(y)) for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", data.group(1)))
    assert apart(written, matplotlib_line(EFFICIENCY, course)) <= 0.1


def test_a_frame_is_drawn_once() -> None:
    """The second chart of a kind takes the frame of the first."""
    assert frame_of(EFFICIENCY) is frame_of(EFFICIENCY)


def test_the_frame_shows_its_ticks() -> None:
    """Every label of the axes is a text of the frame."""
    words = re.findall(r">([^<]+)</text>", frame_of(EFFICIENCY).svg)
    assert [text for _, text in EFFICIENCY.x.ticks] == words[:len(EFFICIENCY.x.ticks)]


def test_coordinates_must_be_finite() -> None:
    """A missing number is refused and not drawn."""
    with pytest.raises(ValueError, match="came nan, expected a finite coordinate"):
        path_data(((0, 0), (1, float("nan"))))
