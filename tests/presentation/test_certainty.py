"""How sure an order is, in words that the numbers bear out."""

from dataclasses import replace
from pathlib import Path

import pytest

from guidegen.evaluation import Assessment, BracketAssessment, Score, assess
from guidegen.presentation.catalogues import words_in
from guidegen.presentation.certainty import (
    certainty_table,
    favour_words,
    stability_insert,
    stability_row,
    stability_words,
)
from guidegen.presentation.comparing import compare
from guidegen.sources import read_library

DEMO = Path(__file__).parent.parent.parent / "content"


@pytest.fixture(scope="module")
def demo() -> Assessment:
    """The demo, assessed."""
    return assess(read_library(DEMO))


def bracket(assessment: Assessment, identifier: str) -> BracketAssessment:
    """A bracket in the home region."""
    return next(one for one in assessment.home if one.ranking.bracket.id == identifier)


def test_every_placed_unit_has_a_row_with_its_printed_range(demo: Assessment) -> None:
    """The sure place is the one of the ranking; nobody without a place is in the table."""
    for one in demo.home:
        table = certainty_table(one, words_in("en"))
        assert table is not None
        assert [s.candidate.name for s in one.ranking.placed] == [row[0].text for row in table.rows]
        ranges = [row[1].text for row in table.rows]
        assert [f"{s.best}–{s.worst}" if s.best != s.worst else f"{s.best}" for s in one.ranking.placed] == ranges


def test_one_unit_alone_is_in_no_doubt(demo: Assessment) -> None:
    """Without another there is no order to be sure of."""
    one = bracket(demo, "850")
    nobody = replace(one, robustness=None)

    assert (None, "") == (certainty_table(nobody, words_in("en")), stability_words(nobody))


def test_what_must_matter_is_what_weighs_most_when_a_unit_is_first(demo: Assessment) -> None:
    """A criterion that is named alone has the largest mean weight of all weightings that put the unit first."""
    for one in demo.home:
        sure = one.robustness
        assert sure is not None
        titles = {c.id: c.title.lower() for c in one.ranking.placed[0].candidate.score.criteria}
        for unit in sure.units:
            words = favour_words(sure, unit, one.ranking)
            weights = sure.central_weights(unit)
            if words.startswith("if ") and words.endswith(" matters most"):
                assert weights is not None
                assert words == f"if {titles[max(weights, key=lambda k: weights[k])]} matters most"


def test_the_change_that_is_named_does_unseat_the_first(demo: Assessment) -> None:
    """Scored again under the changed weights, the two are even, and both are in the sentence."""
    for one in demo.home:
        sure = one.robustness
        assert sure is not None
        assert sure.unseated is not None
        first, other = (one.ranking.standing(unit) for unit in (sure.units[0], sure.unseated.to))
        assert first is not None
        assert other is not None
        totals = [rescored(s.candidate.score, sure.unseated.weights) for s in (first, other)]
        assert abs(totals[0] - totals[1]) < 1e-9
        assert f"would put the {other.candidate.name} before the {first.candidate.name}" in stability_words(one)


def rescored(score: Score, weights: tuple[float, ...]) -> float:
    """The score under other weights."""
    return sum(100 * weight * criterion.low for weight, criterion in zip(weights, score.criteria, strict=True))


def test_the_table_of_all_brackets_has_a_row_each(demo: Assessment) -> None:
    """Every bracket with two places or more."""
    table = stability_insert(tuple(map(stability_row, demo.home)))

    assert table is not None
    assert [one.ranking.bracket.title for one in demo.home] == [row[0].text for row in table.rows]


def test_two_units_are_compared_by_what_decides(demo: Assessment) -> None:
    """Level units are called level, with a chance that is no certainty; the better one is named first."""
    one = bracket(demo, "850")
    said = " ".join(compare(one.ranking, ("ostrand-level-850-ii", "halmer-quill-850"), one.robustness))

    assert said.startswith("The Halmer Quill 850 leads the Ostrand Level 850 II by ")
    assert said.endswith("runs; the two are level.")
    assert "In favour of the Ostrand Level 850 II: efficiency" in said


def test_units_of_two_brackets_are_not_compared(demo: Assessment) -> None:
    """Only what is ranked together."""
    one = bracket(demo, "850")
    with pytest.raises(ValueError, match="not two units"):
        compare(one.ranking, ("halmer-quill-850", "halmer-quill-650"), one.robustness)
