"""The catalogues: alike in every language, complete, and the only place of the interface's words."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Comment
from jinja2 import Environment

from guidegen.presentation.catalogues import fields_of, languages, words_in
from tests.presentation.script_texts import sentences_in

ROOT = Path(__file__).parents[2]
SHEETS = sorted((ROOT / "themes").rglob("*.html"))
SCRIPTS = sorted((ROOT / "themes").rglob("*.js"))
MODULES = sorted((ROOT / "guidegen").rglob("*.py"))
SPOKEN = ("aria-label", "title", "placeholder", "alt", "data-label")
"""Attributes that readers see or hear."""
IN_THE_RECORDS_LANGUAGE = {"2-answer.js", "3-table.js", "comparison.js"}
"""Scripts that tell reasons, rows and differences in the very words of the guide's own."""
ENGLISH = words_in("en").texts


def printed(sheet: str) -> Iterator[str]:
    """Words that a sheet prints without asking for them: between tags, in spoken attributes, and as texts of expressions."""
    calls = re.sub(r"\{[%#].*?[%#]\}", "", sheet, flags=re.DOTALL)
    soup = BeautifulSoup(re.sub(r"\{\{.*?\}\}", "", calls, flags=re.DOTALL), "html.parser")
    yield from (str(text) for text in soup.find_all(string=True) if not isinstance(text, Comment))
    yield from (str(tag[name]) for tag in soup.find_all(True) for name in SPOKEN if tag.get(name))
    for kind, token in ((kind, token) for _, kind, token in Environment(autoescape=True).lex(sheet)):
        if kind == "string":
            yield token[1:-1]


def literal(sheet: str) -> list[str]:
    """What of it are words: a capital with small letters, or words with spaces between."""
    return [text.strip() for text in printed(sheet) if re.search(r"\b[A-Z][a-z]+|[a-z]+ [a-z]+", text) and text.strip() not in KNOWN]


KNOWN = {"doctype html", "width=device-width, initial-scale=1"}
"""What looks like words and is HTML."""


def asked() -> set[str]:
    """Every name that a sheet, a script or a module asks for."""
    texts = [path.read_text(encoding="utf-8") for path in (*SHEETS, *SCRIPTS)]
    names = {name for text in texts for name in re.findall(r"\"([a-z]+\.[a-z0-9_]+)\"", text)}
    for path in MODULES:
        nodes = ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        names |= {node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str)}
    return names


@pytest.mark.parametrize("language", languages())
def test_every_language_has_the_same_names_and_values(language: str) -> None:
    """A text for a text, with the same names in braces."""
    texts = words_in(language).texts

    assert sorted(ENGLISH) == sorted(texts)
    assert {name: fields_of(text) for name, text in ENGLISH.items()} == {name: fields_of(text) for name, text in texts.items()}
    assert [] == [name for name, text in texts.items() if not text.strip()]


def test_every_text_is_asked_for() -> None:
    """No text lies unused."""
    assert [] == sorted(set(ENGLISH) - asked())


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda path: path.name)
def test_a_script_asks_for_texts_that_there_are(path: Path) -> None:
    """A sheet's unknown name stops publication; a script's would be found by a reader."""
    calls = re.findall(r"\bsay\(((?:[^()]|\([^()]*\))*)\)", path.read_text(encoding="utf-8"))
    names = {name for call in calls for name in re.findall(r"\"([a-z]+\.[a-z0-9_]+)\"", call)}

    assert [] == sorted(names - set(ENGLISH))


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.name)
def test_a_sheet_holds_no_words_of_its_own(path: Path) -> None:
    """Everything that a reader reads comes from the publication or from the catalogue."""
    assert [] == literal(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize("path", [p for p in SCRIPTS if p.name not in IN_THE_RECORDS_LANGUAGE], ids=lambda path: path.name)
def test_a_script_holds_no_words_of_its_own(path: Path) -> None:
    """The same of the scripts, but for sentences computed from records."""
    assert [] == sentences_in(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize(("spoilt", "found"), [
    ("<p>Everything tested</p>", "Everything tested"), ('<nav aria-label="Main"></nav>', "Main"),
    ('<input placeholder="any unit">', "any unit"), ('{{ piece.part("in-short", "In short") }}', "In short"),
    ("<th>{{ say('x') }} and more</th>", "and more"), ("{% if a %}<b>None</b>{% endif %}", "None"),
])
def test_words_in_a_sheet_are_found(spoilt: str, found: str) -> None:
    """Between tags, in attributes, in expressions, beside what is asked for."""
    assert [found] == literal(spoilt)


@pytest.mark.parametrize(("spoilt", "found"), [
    ('status.textContent = "Sorted by the place";', ["Sorted by the place"]), ("const a = `${n} units left`;", ["${n} units left"]),
    ("label.append('Search');", ["Search"]), ('box.className = "message warn"; // Not a text', []),
    ('const x = document.querySelector("table.stacked tbody");', []), ('a.addEventListener("click", b);', []),
])
def test_words_in_a_script_are_found(spoilt: str, found: list[str]) -> None:
    """Texts of every kind of quotes; neither comments nor what is plainly for the machine."""
    assert found == sentences_in(spoilt)


def test_an_unknown_name_and_a_wrong_value_are_said() -> None:
    """With the nearest name, and the values that the text has."""
    with pytest.raises(LookupError, match=r"came the text 'bracket\.choises', expected one of the catalogue en\.toml; did you mean bracket\.choices"):
        words_in("en").say("bracket.choises")
    with pytest.raises(LookupError, match=r"came the values \['number'\] for 'unit.numbers', expected \['count'\]"):
        words_in("en").say("unit.numbers", number=3)
