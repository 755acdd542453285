"""The demo read aloud: nothing that can't be said, nothing that can't be checked, everything that must be told."""

import re
from itertools import chain

import pytest
from bs4 import BeautifulSoup
from markdown_it import MarkdownIt

from guidegen.evaluation import Assessment
from guidegen.presentation.rundown import BracketScript, Line, Rundown, rundown_markdown, rundown_of
from guidegen.presentation.rundown.units import UNITS
from guidegen.presentation.rundown.voices import Desk
from guidegen.rounding import NO_BREAK


def lines_of(rundown: Rundown) -> list[Line]:
    """Every line, in order."""
    return list(chain(rundown.opening, *(one.lines for one in rundown.brackets), rundown.closing))


def script(rundown: Rundown, bracket: str) -> BracketScript:
    """The script of a bracket."""
    return next(one for one in rundown.brackets if one.id == bracket)


def kinds(one: BracketScript, kind: str) -> list[Line]:
    """The lines of a kind."""
    return [line for line in one.lines if line.kind == kind]


@pytest.mark.parametrize("region", ["ie", "us"])
def test_no_digit_and_no_sign_of_a_unit_is_spoken(demo: Assessment, region: str) -> None:
    """Digits stand only in names; no unit or currency is a sign."""
    told = rundown_of(demo, tuple(demo.in_region(region)))
    names = Desk(library=demo.library, region=demo.home[0].ranking.region).voice().names
    for line in lines_of(told):
        text = line.text
        for name in sorted(names, key=len, reverse=True):
            text = text.replace(name, "")
        assert not re.search(r"[\d€$%°±()–−]|\b(?:mV|dB|kWh|mm|ms|Hz|W|V)\b", text), line.text
        assert NO_BREAK not in line.text


def test_every_finding_has_a_unit_that_can_be_said(demo: Assessment) -> None:
    """Of all units in the demo, whatever a policy may ask for."""
    assert {finding.quantity.unit for result in demo.results for finding in result.findings} - {""} <= set(UNITS)


def test_safety_comes_before_any_choice(demo: Assessment, rundown: Rundown) -> None:
    """Each unit that fails a gate is warned of with the reason, and is none of the choices."""
    for one, assessed in zip(rundown.brackets, demo.home, strict=True):
        failing = [s.candidate.name for s in assessed.ranking.standings if s.candidate.fails]
        order = [line.kind for line in one.lines]
        warned = kinds(one, "warning")
        assert len(failing) == len(warned)
        assert all(name in line.text for name, line in zip(failing, warned, strict=True))
        assert not warned or order.index("warning") < order.index("choice")
        assert not [line for line in kinds(one, "choice") if any(f": the {name}" in line.text for name in failing)]


def test_every_unit_of_a_bracket_is_spoken_of(demo: Assessment, rundown: Rundown) -> None:
    """Chosen, warned of, or left out with the reason."""
    for one, assessed in zip(rundown.brackets, demo.home, strict=True):
        said = " ".join(line.text for line in one.lines)
        assert [] == [s.candidate.name for s in assessed.ranking.standings if s.candidate.name not in said]


def test_level_units_are_called_level(rundown: Rundown) -> None:
    """Quill 850 and Level 850 II are level in the ranking; Spark 450 is not."""
    first, other = (kinds(script(rundown, bracket), "choice")[0].text for bracket in ("850", "450"))

    assert "The Ostrand Level 850 II is level with it: our measurements can't tell the two apart." in first
    assert "level" not in other


def test_a_unit_chosen_once_has_reason_drawback_and_dated_price(rundown: Rundown) -> None:
    """The price with its day and country in words."""
    for one in rundown.brackets:
        units = {line.cue_words.split(", ", 1)[1] for line in kinds(one, "choice")}
        assert len(units) == len(kinds(one, "drawback")) == len(kinds(one, "price"))
        assert all("sixteenth of November" in line.text and "in Ireland, with tax." in line.text for line in kinds(one, "price"))


def test_sentences_differ_by_more_than_names(demo: Assessment, rundown: Rundown) -> None:
    """With names and numbers left out, most reasons, drawbacks and choices of the demo still differ."""
    names = Desk(library=demo.library, region=demo.home[0].ranking.region).voice().names
    bare = [re.sub("|".join(sorted(map(re.escape, names), key=len, reverse=True)), "", line.text)
            for line in lines_of(rundown) if line.kind in ("choice", "warning", "closing", "drawback")]

    assert len(set(bare)) > 0.8 * len(bare)


def test_every_line_with_a_number_of_a_record_has_a_margin(rundown: Rundown) -> None:
    """All reasons, drawbacks, prices and warnings; each note names a record and each record is there."""
    lines = [line for line in lines_of(rundown) if line.kind in ("reason", "drawback", "price", "warning", "choice")]

    assert [] == [line.text for line in lines if not line.margin]
    assert [] == [note for line in lines for note in line.margin if not note.places]


def test_the_margin_is_the_record(demo: Assessment, rundown: Rundown) -> None:
    """Worked by hand: the price row of the Quill 850 and the noise that the bench found."""
    one = script(rundown, "850")
    price = kinds(one, "price")[0].margin[0]
    noise = kinds(one, "reason")[0].margin[0]
    found = next(r for r in demo.results if r.unit.id == "halmer-quill-850").finding("acoustic_noise.at_50")
    line = int(price.places[0].removeprefix("prices/ie.csv: line "))
    row = next(p for p in demo.library.prices if p.region == "ie").rows[line - 2]

    assert ("halmer-quill-850", 122.9) == (row.unit, row.price)
    assert f"€{NO_BREAK}122.90, {row.shop}" == price.exact
    assert found is not None
    assert noise.exact.startswith(f"≤{NO_BREAK}{found.quantity.value:.1f}{NO_BREAK}±")
    assert ("units/halmer-quill-850/2026-01-28.yaml: noise_sweep.points",) == noise.places


def test_markdown_holds_every_line_and_note(rundown: Rundown) -> None:
    """Read back by a Markdown reader: each text stands there as it is spoken."""
    text = BeautifulSoup(MarkdownIt().render(rundown_markdown(rundown)), "html.parser").get_text()
    notes = [note for line in lines_of(rundown) for note in line.margin]

    assert [] == [line.text for line in lines_of(rundown) if line.text not in text]
    assert [] == [place for note in notes for place in note.places if place not in text]


def test_a_bracket_alone_is_the_same_script(demo: Assessment, rundown: Rundown) -> None:
    """What is said of a bracket doesn't hang on the others."""
    alone = rundown_of(demo, tuple(one for one in demo.home if one.ranking.bracket.id == "650"), words_per_minute=100)

    assert (script(rundown, "650"),) == alone.brackets
    assert -(-alone.words * 60 // 100) == alone.seconds
