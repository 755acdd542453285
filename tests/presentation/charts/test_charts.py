"""What each kind of chart says and shows."""

import re
from dataclasses import replace
from datetime import date
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.presentation.charts import (
    EfficiencyCourse,
    NoiseCourse,
    PanelSet,
    PriceCourse,
    PriceDay,
    PricedUnit,
    PriceField,
    PriceSpan,
    RippleCourse,
    ScoreMakeup,
    efficiency_chart,
    multiples_chart,
    noise_chart,
    price_axis_end,
    price_history_chart,
    price_score_chart,
    ripple_chart,
    score_chart,
)
from guidegen.presentation.charts.descriptions import Reading
from guidegen.presentation.charts.frames import frame_of
from guidegen.presentation.charts.noise import frame_description as noise_frame
from guidegen.presentation.charts.price_history import frame_description as history_frame
from guidegen.presentation.charts.price_history import month_ticks
from guidegen.presentation.charts.price_score import front, price_ticks
from guidegen.presentation.charts.ripple import axis_end
from guidegen.presentation.charts.ripple import frame_description as ripple_frame
from guidegen.presentation.pieces import Chart

SVG = "{http://www.w3.org/2000/svg}"


def plain(words: str) -> str:
    """The words with common spaces."""
    return words.replace("\N{NO-BREAK SPACE}", " ")


def paths(chart: Chart, style: str) -> list[str]:
    """Path data of a class."""
    return [node.get("d", "") for node in ET.fromstring(chart.svg).iter(f"{SVG}path") if node.get("class") == style]


def test_efficiency_names_its_best_and_its_last_value(efficiency_course: EfficiencyCourse) -> None:
    """The title is computed from the readings; what lies below the scale is told."""
    chart = efficiency_chart(efficiency_course)
    assert plain(chart.title) == "93.1 % efficient at 50 % load, 90.3 % at 110 %"
    assert "Below the scale: 66.1 % at 2 % load" in plain(chart.note)


def test_a_missed_floor_is_told_from_those_met(efficiency_course: EfficiencyCourse) -> None:
    """Three floors are met, one lies above the course."""
    chart = efficiency_chart(efficiency_course)
    assert ("".join(paths(chart, "c-limit")).count("M"), "".join(paths(chart, "c-warn")).count("M")) == (3, 1)


def test_a_demand_stands_beside_the_load_that_the_badge_is_judged_at(efficiency_course: EfficiencyCourse) -> None:
    """170.005 W of 850 W is the load of 20 %, and 98.9 % is not full load."""
    loads: dict[float, float] = {10: 9.2, 20: 20.0006, 50: 50.9, 100: 98.9}
    read = tuple(replace(one, load_pct=loads.get(one.load_pct, one.load_pct)) for one in efficiency_course.readings)
    table = efficiency_chart(replace(efficiency_course, readings=read)).table
    assert table is not None
    told = {row[0].text: row[2].text for row in table.rows if row[2].text}

    assert {"9": "85.0", "20": "90.0", "51": "94.0"} == told


def test_whiskers_reach_two_uncertainties(efficiency_course: EfficiencyCourse) -> None:
    """Each whisker is as long as twice the expanded uncertainty on the axis of 28 % over 150 units."""
    whiskers = next(d for d in paths(efficiency_chart(efficiency_course), "c-mark") if "a" not in d)
    heights = [float(y) for _, y in re.findall(r"[ML]([\d.]+) ([\d.]+)", whiskers)]
    assert pytest.approx([a - b for a, b in list(pairwise(heights))[::2]], abs=0.11) == [2 * 0.4 * 150 / 28] * 10


def test_charts_without_readings_say_so(efficiency_course: EfficiencyCourse, noise_course: NoiseCourse) -> None:
    """Nothing measured: an empty frame and a title that tells it."""
    assert [efficiency_chart(replace(efficiency_course, readings=())).title, noise_chart(replace(noise_course, readings=())).title] == [
        "The efficiency of Halmer Quill was not measured", "The noise of Halmer Quill was not measured"]


def test_noise_says_up_to_which_load_it_is_quiet(noise_course: NoiseCourse) -> None:
    """20 dB(A) are crossed between 40 % (18.0) and 50 % (21.1): at 46 %."""
    assert plain(noise_chart(noise_course).title) == "At or below 20 dB(A) up to 46 % load, at most 38.1 dB(A) at 110 % load"


def test_ripple_beyond_its_limit_is_named_and_hatched(ripple_course: RippleCourse) -> None:
    """One rail is beyond its limit: one hatched area, its value in the rated range marked in the table, that in overload not."""
    chart = ripple_chart(ripple_course)
    assert plain(chart.title) == "Ripple on 12 V goes beyond the limit"
    assert len(paths(chart, "c-hatch")) == 1
    assert chart.table is not None
    assert [cell.text for row in chart.table.rows for cell in row if cell.warning] == ["131"]


@pytest.mark.parametrize(("worst", "end", "ticks"), [
    (119.0, 120.0, ["0", "50", "100"]), (150.0, 150.0, ["0", "50", "100", "150"]), (151.0, 200.0, ["0", "100", "200"]),
    (900.0, 500.0, ["0", "100", "200", "300", "400", "500"]),
])
def test_the_scale_of_ripple_grows_to_hold_what_lies_beyond(ripple_course: RippleCourse, worst: float, end: float, ticks: list[str]) -> None:
    """To a round step for all rails; the note names what even the largest scale does not hold."""
    rail = ripple_course.rails[0]
    course = replace(ripple_course, rails=(replace(rail, readings=(Reading(110, worst / 100 * rail.limit_mv),)), *ripple_course.rails[1:]))
    frame = ripple_frame(axis_end(course))

    assert (end, ticks) == (frame.y.high, [words for _, words in frame.y.ticks])
    assert [value for value, _ in frame.y.ticks[1:]] == [rule.value for rule in frame.rules]
    assert ("Above the scale" in ripple_chart(course).note) == (worst > end)


def test_every_level_of_noise_that_is_named_has_its_line(noise_course: NoiseCourse) -> None:
    """In steps of 5 dB(A), none left out."""
    frame = noise_frame(noise_course)

    assert ["20", "25", "30", "35", "40", "45", "50"] == [words for _, words in frame.y.ticks]
    assert [value for value, _ in frame.y.ticks] == [rule.value for rule in frame.rules]


def test_a_price_that_prints_like_the_last_is_named_once(price_course: PriceCourse) -> None:
    """149.4 and 149.2 are both 149: one label, behind the end of the line."""
    days = (PriceDay(date(2026, 1, 12), 169), PriceDay(date(2026, 10, 2), 149.2), PriceDay(date(2026, 11, 18), 149.4))
    root = ET.fromstring(price_history_chart(replace(price_course, days=days)).svg)
    named = [node for node in root.iter(f"{SVG}text") if node.text == "149"]
    frame = frame_of(history_frame(price_course))

    assert 1 == len(named)
    assert float(named[0].get("x", "")) > frame.box.right


def test_weights_are_said_to_a_tenth(score_makeup: ScoreMakeup) -> None:
    """17.5 % and 22.5 % stay what they are: whole figures would be 18 and 22."""
    parts = [replace(part, weight=weight) for part, weight in zip(score_makeup.criteria, (0.175, 0.225, 0.4, 0.2), strict=True)]
    chart = score_chart(replace(score_makeup, criteria=tuple(parts)))

    assert chart.table is not None
    assert ["17.5", "22.5", "40.0", "20.0"] == [row[1].text for row in chart.table.rows]
    assert "weight 17.5 %" in plain(chart.svg)


def test_ripple_within_its_limits_names_the_nearest_rail(ripple_course: RippleCourse) -> None:
    """23 of 50 mV at full load is 46 %, and the 24 mV in overload count for nothing; the rail without readings says nothing."""
    chart = ripple_chart(replace(ripple_course, rails=ripple_course.rails[1:]))
    assert plain(chart.title) == "Up to full load ripple stays at or below 46 % of the limit on 5 V Kestrin Bolt; 5 V Kestrin Bolt comes nearest"
    assert paths(chart, "c-hatch") == []


def test_the_areas_of_the_parts_are_what_they_bring_in(score_makeup: ScoreMakeup) -> None:
    """Length times height of the bars stand to each other as weight times worth."""
    root = ET.fromstring(score_chart(score_makeup).svg)
    areas = [float(node.get("width", "")) * float(node.get("height", "")) for node in root.iter(f"{SVG}rect")
             if node.get("class", "").startswith("c-fill")]
    brought = [part.weight * part.worth for part in score_makeup.criteria if part.worth is not None]
    assert [value / brought[0] for value in brought] == pytest.approx([value / areas[0] for value in areas], rel=0.01)


def test_the_weakest_part_is_named(score_makeup: ScoreMakeup) -> None:
    """Noise loses 0.2 * 38 points, more than 0.3 * 16 and 0.4 * 9."""
    assert score_chart(score_makeup).title == "Noise costs most: 7.6 of 100 points"


def test_the_front_holds_what_nothing_beats(price_field: PriceField) -> None:
    """By the definition: no advised unit costs at most as much and scores at least as much, one of them strictly."""
    def beaten(unit: PricedUnit) -> bool:
        return any(other.advised and other.price <= unit.price and other.score >= unit.score
                   and (other.price, other.score) != (unit.price, unit.score) for other in price_field.units)
    expected = {unit.name for unit in price_field.units if unit.advised and not beaten(unit)}
    assert expected == {unit.name for unit in front(price_field.units)}


def test_a_unit_that_cannot_be_advised_is_never_on_the_front(price_field: PriceField) -> None:
    """The cheapest and best unit fails a gate: a cross, no place on the line, told in the table."""
    chart = price_score_chart(price_field)
    assert "Kestrin Bolt" not in {unit.name for unit in front(price_field.units)}
    assert "Kestrin Bolt" not in chart.title
    assert chart.table is not None
    assert [row[0].text for row in chart.table.rows if row[3].text == "not advised"] == ["13 Kestrin Bolt"]


def test_prices_break_where_nothing_could_be_bought(price_course: PriceCourse) -> None:
    """Three stretches in stock, one dotted without stock, none without a price."""
    chart = price_history_chart(price_course)
    assert (len(paths(chart, "c-line-1")), len(paths(chart, "c-line-3"))) == (3, 1)
    assert plain(chart.title) == "€ 149 on 18 November 2026; in stock it has cost between € 139 and € 169"
    assert "lowest in stock € 139 on 20 July 2026" in plain(chart.description)


def test_a_price_is_drawn_beside_the_range_of_its_bracket(price_course: PriceCourse) -> None:
    """One area and one middle for each run of days on which the range is known; the sentence has the last middle."""
    spans = tuple(PriceSpan(day=d.day, low=90, middle=120 + i, high=190) for i, d in enumerate(price_course.days) if i != 2)
    chart = price_history_chart(replace(price_course, bracket=spans))
    assert 2 == len(paths(chart, "c-band"))
    assert plain(chart.title).endswith("it has cost between € 139 and € 169, and the middle of the bracket is € 125")
    assert chart.table is not None
    ranges = "; ".join(plain(row[2].text) for row in chart.table.rows if row[2].text).split("; ")
    days = [found.day.day for i, found in enumerate(price_course.days) if i != 2]
    assert [f"{day}: € 90 to € 190, middle € {120 + i + (i > 1)}" for i, day in enumerate(days)] == ranges
    with pytest.raises(ValueError, match="came a price of 190"):
        replace(price_course, price_max=170, bracket=spans)


def test_a_price_from_before_the_axis_holds_at_its_beginning(price_course: PriceCourse) -> None:
    """The line begins at the left edge with the price that was last told."""
    early = replace(price_course, days=(PriceDay(date(2025, 6, 1), 190), PriceDay(date(2025, 12, 1), 150)))
    (data,) = paths(price_history_chart(early), "c-line-1")
    assert (len(re.findall("[ML]", data)), data[:4]) == (2, "M32 ")


def test_a_unit_without_prices_has_an_empty_frame(price_course: PriceCourse) -> None:
    """Nothing is known and nothing is drawn."""
    chart = price_history_chart(replace(price_course, days=()))
    assert (chart.title, paths(chart, "c-line-1")) == ("No price of Halmer Quill is known", [])


def test_a_price_beyond_the_axis_is_refused(price_field: PriceField, price_course: PriceCourse) -> None:
    """Points are never drawn outside their chart."""
    with pytest.raises(ValueError, match="came a price of 189, expected one within the axis that ends at 150"):
        replace(price_field, price_max=150)
    with pytest.raises(ValueError, match="came a price of 169"):
        replace(price_course, price_max=150)


@given(st.floats(0, 5000))
def test_a_price_axis_holds_its_highest_price(highest: float) -> None:
    """The end is never below the highest price, and a few ticks print as the round numbers they are."""
    end = price_axis_end(highest)
    assert end >= highest
    assert 3 <= len(price_ticks(end)) <= 6
    assert all(float(words) == pytest.approx(value) for value, words in price_ticks(end))


def test_month_ticks_are_few_and_name_the_year() -> None:
    """Two years give five ticks at most, each January with its year."""
    assert [words for _, words in month_ticks(date(2025, 3, 5), date(2026, 12, 31))] == ["Jul 2025", "Jan 2026", "Jul"]


def test_panels_share_one_frame(panel_set: PanelSet) -> None:
    """The frame stands once and is used by every panel."""
    chart = multiples_chart(panel_set)
    assert (chart.svg.count('id="pan-frame"'), chart.svg.count('href="#pan-frame"')) == (1, 3)
    assert "not measured" in chart.svg
