"""Processor classes by graphics classes."""

from guidegen.evaluation.sizing import RatingOnOffer, published, recommend, sizing_matrix
from guidegen.records import PartsRecord, SizingRules

RATINGS = (400.0, 550.0, 650.0, 850.0, 1000.0, 1200.0, 1600.0)
OFFERS = tuple(RatingOnOffer(rating_w=r, excursions=published(large=r > 450)) for r in RATINGS)


def test_every_processor_meets_every_card_and_none(parts: PartsRecord, rules: SizingRules) -> None:
    """Two rows of three cells."""
    matrix = sizing_matrix(parts, OFFERS, rules)

    assert ["processor.small", "processor.large"] == [p.id for p in matrix.processors]
    assert [None, "graphics.small", "graphics.large"] == [g.id if g else None for g in matrix.graphics]
    assert 6 == len(matrix.cells)


def test_a_cell_is_its_own_sum(parts: PartsRecord, rules: SizingRules) -> None:
    """90 + 150 + 96 W for the rest of the platform: 336 W, 560 W at 60 %, so 650 W."""
    cell = sizing_matrix(parts, OFFERS, rules).cell("processor.small", "graphics.small")

    assert cell is not None
    assert (336.0, 650.0) == (cell.full_w, cell.found.rating_w)
    assert recommend(336.0, RATINGS, rules).rating_w == cell.found.rating_w


def test_named_parts_take_the_place_of_the_rest_of_the_platform(parts: PartsRecord, rules: SizingRules) -> None:
    """90 + 40 + 2·5 W."""
    cell = sizing_matrix(parts, OFFERS, rules, beside={"board.plain": 1, "memory.module": 2}).cell("processor.small", None)

    assert cell is not None
    assert 140.0 == cell.full_w


def test_ratings_rise_along_rows_and_columns(parts: PartsRecord, rules: SizingRules) -> None:
    """A larger card or processor never asks for less."""
    matrix = sizing_matrix(parts, OFFERS, rules)
    rows = [[c.found.rating_w or 9e9 for c in matrix.cells if c.processor is p] for p in matrix.processors]

    assert all(row == sorted(row) for row in rows)
    assert all(upper <= lower for upper, lower in zip(*rows, strict=True))


def test_an_unknown_cell_is_nothing(parts: PartsRecord, rules: SizingRules) -> None:
    """No class, no cell."""
    assert sizing_matrix(parts, OFFERS, rules).cell("processor.none", None) is None
