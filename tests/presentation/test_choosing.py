"""Choices, places and neighbours in words that fit the facts."""

import re
from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from itertools import pairwise
from pathlib import Path

import pytest

from guidegen.evaluation import Assessment, BracketAssessment, assess
from guidegen.presentation.catalogues import words_in
from guidegen.presentation.certainty import certainty_table
from guidegen.presentation.choosing import (
    criterion_words,
    describe_choices,
    known_shares,
    neighbour_words,
    place_text,
    score_parts,
    score_text,
    standing_note,
)
from guidegen.presentation.evidence import verdict_row
from guidegen.presentation.formatting import number
from guidegen.presentation.pieces import Choice, NoChoice
from guidegen.presentation.remarks import pick, remarks_on
from guidegen.presentation.unit_words import badge_sentence, place_reasons, score_words
from guidegen.sources import read_library

DEMO = Path(__file__).parent.parent.parent / "content"


@pytest.fixture(scope="module")
def demo() -> Assessment:
    """The demo, assessed."""
    return assess(read_library(DEMO))


def bracket(demo: Assessment, name: str) -> BracketAssessment:
    """A bracket of the home region."""
    return next(b for b in demo.home if b.ranking.bracket.id == name)


def test_a_choice_has_reason_drawback_and_dated_price(demo: Assessment) -> None:
    """In every bracket: no empty words, and each number stands with a unit or as a score."""
    for one in demo.home:
        for choice in describe_choices(one.choices, one.ranking):
            if isinstance(choice, NoChoice):
                assert choice.why.startswith("None of the")
            elif not re.match("The .* again", choice.why):
                assert re.search(r"\d", choice.why)
                assert choice.drawback.startswith("Drawback: ")
                assert "2026" in choice.price


def test_a_unit_chosen_twice_is_described_once(demo: Assessment) -> None:
    """The second time it is named as what it was before, and nothing is said again."""
    for one in demo.home:
        described = [c for c in describe_choices(one.choices, one.ranking) if isinstance(c, Choice)]
        texts = [c.drawback for c in described if c.drawback]
        units = {c.unit.text for c in described}

        assert len(units) == len(texts)


def test_the_first_choice_says_who_was_passed_over_and_why(demo: Assessment) -> None:
    """The Belfry may score higher, whatever it would cost, and is hard to find."""
    one = bracket(demo, "850")
    first = describe_choices(one.choices, one.ranking)[0]

    assert isinstance(first, Choice)
    assert re.search(r"Quennel Belfry 850 may score higher \(\d+\.\d–\d+\.\d\) but is passed over: hard to find\.", first.against)


def test_who_surely_scores_higher_and_can_not_be_had_is_said_to(demo: Assessment) -> None:
    """The same bracket with the leader's rows out of stock for the last weeks: its last price in stock counts, and it is passed over."""
    library, leader = demo.library, bracket(demo, "850").ranking.placed[0].candidate
    since, price = library.guide.edition.date - timedelta(days=60), leader.prices.best.row.price if leader.prices.best else None
    tables = tuple(replace(table, rows=tuple(
        row if row.unit != leader.id or row.date <= since
        else replace(row, price=price) if row.date == since + timedelta(days=30) else replace(row, stock="out_of_stock")
        for row in table.rows
    )) for table in library.prices)
    one = bracket(assess(replace(library, prices=tables)), "850")
    first = describe_choices(one.choices, one.ranking)[0]

    assert isinstance(first, Choice)
    assert re.search(rf"The {leader.name} scores higher \(\d+\.\d\) but is passed over: hard to find\.", first.against)


def test_no_two_choices_in_the_guide_give_the_same_reason(demo: Assessment) -> None:
    """Text that repeats with only the names changed would be a defect."""
    reasons = [
        re.sub(r"[A-Z][a-z&]+( [A-Z&][a-z]*)* \d{3,4}( II)?", "", c.why + c.against)
        for one in demo.home
        for c in describe_choices(one.choices, one.ranking)
        if isinstance(c, Choice) and c.drawback
    ]

    assert len(reasons) == len(set(reasons))


def test_a_failed_gate_is_told_with_number_and_limit(demo: Assessment) -> None:
    """Under the name in the table, as a warning."""
    standing = bracket(demo, "850").ranking.standing("kestrin-bolt-850")
    assert standing is not None
    note, warning = standing_note(standing, None)

    assert warning
    assert re.search(r"worst ripple on 12 V \d+\sm?V, at most 120\smV: not advised", note)


def test_a_level_unit_is_named(demo: Assessment) -> None:
    """Not by where it stands: the reader may sort the table by another column."""
    placed = [one.ranking.placed for one in demo.home]
    notes = [(first, standing_note(second, first)[0]) for field in placed for first, second in pairwise(field)]
    level = [(first.candidate.name, note) for first, note in notes if note.startswith("level")]

    assert level
    assert all(note == f"level with the {name}" for name, note in level)


def test_a_range_of_places_has_an_en_dash_and_a_single_place_none(demo: Assessment) -> None:
    """1–2, or 3."""
    texts = [place_text(s) for one in demo.home for s in one.ranking.standings]

    assert all(re.fullmatch(r"(\d+(–\d+)?)?", text) for text in texts)


def test_an_incomplete_score_is_printed_as_a_range(demo: Assessment) -> None:
    """The unit without price."""
    standing = bracket(demo, "1600").ranking.standing("marlowe-and-fenn-highway-1500")

    assert standing is not None
    assert re.fullmatch(r"\d+\.\d–\d+\.\d", score_text(standing.candidate.score))
    assert ["?"] == [p.worth for p in score_parts(standing.candidate.score) if p.title == "Price per watt"]


def test_what_is_not_known_is_neither_gained_nor_lost(demo: Assessment) -> None:
    """A missing price is told as missing, beside neighbours, under the score and in the table of how sure the order is."""
    found = bracket(demo, "1600")
    standing = found.ranking.standing("marlowe-and-fenn-highway-1500")
    assert standing is not None
    reasons = place_reasons(standing, found.ranking)
    table = certainty_table(found, words_in("en"))
    assert table is not None
    row = next(row for row in table.rows if row[0].text == standing.candidate.name)

    assert reasons
    assert all("no fresh price of the Marlowe & Fenn Highway 1500 is known" in reason for reason in reasons)
    assert not any("through price per watt" in reason or "less than the doubt" in reason for reason in reasons)
    assert "no fresh price of the Marlowe & Fenn Highway 1500 is known" in score_words(standing)
    assert ["no fresh price of the Marlowe & Fenn Highway 1500 is known, counted at its worst", "not known", "not known"] == [row[i].text for i in (3, 4, 6)]
    assert not row[5].text.startswith("price")


def test_the_reason_names_who_gains(demo: Assessment) -> None:
    """No sentence about two or three units speaks of "it"."""
    for one in demo.home:
        for choice in describe_choices(one.choices, one.ranking):
            if isinstance(choice, Choice):
                assert not re.search(r"; it (gains|loses)|tell it from", choice.against)


def test_why_nothing_meets_a_rule_is_told_of_units_that_are_there(demo: Assessment) -> None:
    """Without a price in the guide no unit is said to be out of stock, and nobody is said to score too low."""
    bare = assess(replace(demo.library, prices=()))
    ranking = next(one for one in bare.home if one.ranking.bracket.id == "850")
    told = [c.why for c in describe_choices(ranking.choices, ranking.ranking) if isinstance(c, NoChoice)]

    assert told
    assert all(re.fullmatch(r"None of the 7 units tested: 1 unit fails a gate and 6 have no fresh price\.", why) for why in told)


def test_points_between_units_are_those_between_their_printed_scores(demo: Assessment) -> None:
    """A reader who subtracts finds what the sentence says."""
    for one in demo.home:
        for first, second in pairwise(one.ranking.placed):
            printed = [float(score_text(s.candidate.score).split("–")[0]) for s in (first, second)]
            apart = round(printed[0] - printed[1], 1)
            told = neighbour_words(first, second, above=False).replace("\N{NO-BREAK SPACE}", " ")

            assert (f"{apart:.1f} points" if apart else "less than 0.1 points") in told


def test_a_pass_in_a_trial_milder_than_asked_for_says_so(demo: Assessment) -> None:
    """The steps of the demo are smaller than the design guide's; their verdicts are no plain passes."""
    told = {verdict_row(verdict, result).outcome for result in demo.results for verdict in result.verdicts
            if verdict.key.startswith("transient_response.12v.") and verdict.finding and verdict.finding.milder}

    assert {"pass, in a trial milder than asked for"} == told


def test_a_number_of_a_criterion_is_named(demo: Assessment) -> None:
    """Which load, which rail: a criterion of several numbers says of which one it gives."""
    placed = bracket(demo, "850").ranking.placed
    told = {criterion_words(share).replace("\N{NO-BREAK SPACE}", " ") for share in known_shares(placed[0].candidate, placed[1].candidate)}

    assert any(re.fullmatch(r"noise \(\+\d\.\d; noise at \d+ % load .* to .*\)", one) for one in told)
    assert any(re.fullmatch(r"price per watt \(.* to .*, \+\d\.\d\)", one) for one in told)


def test_an_upper_bound_is_told_as_one_on_either_side(demo: Assessment) -> None:
    """The quieter unit's noise at half load may be less than its figure, whichever of the two is named first."""
    ranking = bracket(demo, "850").ranking
    quiet, loud = (standing.candidate for name in ("brevik-tarn-850", "tallow-and-pike-steady-850") if (standing := ranking.standing(name)))
    told = [words.replace("\N{NO-BREAK SPACE}", " ") for pair in ((quiet, loud), (loud, quiet))
            for share in known_shares(*pair) if (words := criterion_words(share)).startswith("noise")]

    assert [" noise at half load at most 15.8 dB(A) to 23.2 dB(A))", " noise at half load 23.2 to at most 15.8 dB(A))"] == [
        words.partition(";")[2] for words in told]


def test_a_required_limit_that_fails_is_the_drawback(demo: Assessment) -> None:
    """The best value of 550 W falls short of the hold-up time that its standard asks for; the choice says so."""
    found = bracket(demo, "550")
    told = [choice.drawback for choice in describe_choices(found.choices, found.ranking)
            if isinstance(choice, Choice) and choice.unit.text == "Marlowe & Fenn Byway 500"]

    assert told
    assert any(re.search(r"where at least \d+\sms is asked for", one) for one in told)


def test_a_badge_is_told_to_hold_by_no_more_than_it_does(demo: Assessment) -> None:
    """Margins are rounded down, what lies within the doubt is said, and a demand known from memory decides nothing but is told."""
    told = {result.unit.id: badge_sentence(result).replace("\N{NO-BREAK SPACE}", " ") for result in demo.results}

    assert "The Gold badge holds at every load tested, by 0.8 points or more." == told["halmer-quill-850"]
    assert "at 50 % load only within the doubt of the reading" in told["sundby-fjord-sfx-750"]
    assert "lies under the 0.95 that we remember" in told["quennel-belfry-850"]


def test_neighbours_are_set_apart_by_points_that_add_up(demo: Assessment) -> None:
    """Every sentence names the difference that the scores have as they are printed."""
    for one in demo.home:
        for first, second in pairwise(one.ranking.placed):
            high, low = (Decimal(number(standing.candidate.score.low, 1)) for standing in (first, second))
            words = neighbour_words(first, second, above=True).replace("\N{NO-BREAK SPACE}", " ")
            assert not high - low or re.search(rf"\b{high - low} point", words)


def test_remarks_come_one_a_topic_and_the_weightiest_first(demo: Assessment) -> None:
    """A sentence never says the same thing twice."""
    for one in demo.home:
        for standing in one.ranking.standings:
            remarks = remarks_on(standing.candidate)
            chosen = pick(remarks, good=False, most=5)

            assert len(chosen) == len({r.topic for r in chosen})
            assert [r.weight for r in remarks] == sorted((r.weight for r in remarks), reverse=True)
