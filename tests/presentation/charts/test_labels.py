"""Labels and their places."""

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.presentation.charts.coordinates import Box
from guidegen.presentation.charts.descriptions import PriceField
from guidegen.presentation.charts.frames import frame_of
from guidegen.presentation.charts.labels import Wanted, line_boxes, place_labels
from guidegen.presentation.charts.price_score import frame_description, labels, price_score_chart

AREA = Box(26, 26, 326, 266)
POINTS = st.tuples(st.floats(26, 326), st.floats(26, 266))


@settings(max_examples=40, deadline=None)
@given(st.lists(st.builds(Wanted, POINTS, st.text("abc é", min_size=1, max_size=24), st.sampled_from(("", "12"))), max_size=20))
def test_no_two_labels_overlap(wanted: list[Wanted]) -> None:
    """Whatever is to be named, letters never lie over letters nor over another's leader, and stay inside."""
    placed = place_labels(tuple(wanted), within=AREA)
    assert [(a.words, b.words) for a, b in combinations(placed, 2) if a.box.meets(b.box)] == []
    assert all(AREA.holds(one.box) for one in placed)
    led = [(one, Box(*part)) for one in placed if one.leader for part in line_boxes(one.leader).tolist()]
    assert [one.words for one, part in led for other in placed if other is not one and part.meets(other.box)] == []


def test_a_lone_label_stands_at_the_right_of_its_point() -> None:
    """Nothing in the way: the first place is taken."""
    (placed,) = place_labels((Wanted((100, 100), "Halmer"),), within=AREA)
    assert (placed.baseline[0], placed.leader) == (105.0, None)


def test_a_label_without_room_is_left_out() -> None:
    """A name wider than the area and without short words is not drawn."""
    assert place_labels((Wanted((100, 100), "x" * 80),), within=AREA) == ()


def test_every_unit_of_a_crowded_bracket_has_a_label(price_field: PriceField) -> None:
    """A name, or the number of its row in the table."""
    placed = labels(price_field, frame_of(frame_description(price_field)))
    assert {one.point for one in placed} == {
        frame_of(frame_description(price_field)).places(((unit.price, unit.score),))[0] for unit in price_field.units}


def test_letters_are_anchored_at_the_end_that_is_nearer_to_their_point() -> None:
    """However wide a font sets them, a label at the left of its point ends there, and one above is centred."""
    at_the_edge, between = Box(0, 0, 100, 200), Box(75, 0, 125, 200)
    (beside,), (above,) = (place_labels((Wanted((100, 100), "Halmer"),), within=area) for area in (at_the_edge, between))

    assert ("end", "middle") == (beside.anchor, above.anchor)
    assert [95.0, 100.0] == pytest.approx([beside.baseline[0], above.baseline[0]])


def test_a_name_keeps_clear_of_the_mark_of_another_unit(price_field: PriceField) -> None:
    """Else it would seem to be that unit's."""
    frame = frame_of(frame_description(price_field))
    marks = {unit.name: frame.places(((unit.price, unit.score),))[0] for unit in price_field.units}
    near = [(one.words, name) for one in labels(price_field, frame) for name, (x, y) in marks.items()
            if (x, y) != one.point and Box(x - 4, y - 4, x + 4, y + 4).meets(one.box)]

    assert [] == near


def test_the_scores_begin_at_a_round_one_below_the_lowest(price_field: PriceField) -> None:
    """No half of the drawing is left empty, and the note says where the axis begins."""
    units = tuple(replace(unit, score=max(unit.score, 61.0)) for unit in price_field.units)
    begins = [frame_description(replace(price_field, units=some)).y.low for some in (units, (), (replace(units[0], score=35.0),))]

    assert [60, 0, 20] == begins
    assert "The scores begin at 60." in price_score_chart(replace(price_field, units=units)).note
