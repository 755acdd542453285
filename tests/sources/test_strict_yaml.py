"""YAML as the guide accepts it, held against what YAML 1.1 and 1.2 readers make of the same words."""

from datetime import date
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guidegen.sources.scalars import Refused, plain_value
from guidegen.sources.strict_yaml import DEEPEST, Places, read_yaml
from tests.damage import watched
from tests.examples import examples
from tests.tally import Tally

# PyYAML leaves 08 and 1e3 without quotes, which are text to it and numbers to YAML 1.2: the reader refuses them.
WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["C"]), max_size=12).filter(lambda word: word[:1] not in tuple("+-.0123456789"))
PLAIN = st.recursive(
    st.one_of(
        st.booleans(), st.integers(-(10**9), 10**9), WORDS,
        st.floats(-1e6, 1e6, width=32).map(lambda x: round(x, 3)), st.dates(date(1900, 1, 1)),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=4), st.dictionaries(st.from_regex(r"[a-z][a-z0-9_]{0,8}", fullmatch=True), inner, max_size=4)
    ),
    max_leaves=12,
)


@pytest.mark.parametrize(
    ("word", "value"),
    [
        ("0", 0), ("-3", -3), ("+5", 5), ("12.04", 12.04), ("true", True), ("false", False), ("2026-03-02", date(2026, 3, 2)),
        ("3v3", "3v3"), ("12v", "12v"), ("atx_3.0", "atx_3.0"), ("2026-3-2", "2026-3-2"), ("1.2.3", "1.2.3"), ("-", "-"),
        ("12,5", "12,5"), ("850 W", "850 W"), (".", "."), ("...", "..."),
    ],
)
def test_plain_words_have_one_reading(word: str, value: object) -> None:
    """Numbers, days, true and false are values; all other words are text."""
    assert (type(value), value) == (type(plain_value(word)), plain_value(word))


@pytest.mark.parametrize(
    "word",
    ["yes", "No", "ON", "off", "True", "FALSE", "~", "null", "Null", "", "010", "-007", "0x1F", "0o17", "0b11", "12:30", "1:2:3.5",
     "1e3", "5E10", "1.5e-7", "1e9999", ".nan", "-.INF", ".5", "5.", "1_000", "2026-02-30", "9" * 26],
)
def test_words_that_two_readers_read_differently_are_refused(word: str) -> None:
    """YAML 1.1 (yaml.org/type: bool, int, float, null) and YAML 1.2.2, 10.3 differ on these, or they hide a slip."""
    assert isinstance(plain_value(word), Refused)


@pytest.mark.parametrize(
    ("word", "remedy"),
    [("010", "10 "), ("-007", "-7 "), ("1e3", "1000 "), ("1.5e-7", "0.00000015 "), (".5", "0.5 "), ("5.", "5.0 "), ("1_000.5", "1000.5 ")],
)
def test_the_remedy_is_the_number_meant(word: str, remedy: str) -> None:
    """What to write instead stands at the beginning of the sentence."""
    refused = plain_value(word)

    assert isinstance(refused, Refused)
    assert refused.expected.startswith(remedy)


@settings(max_examples=60, deadline=None)
@given(PLAIN)
def test_what_a_yaml_writer_writes_is_read_back(value: Any) -> None:
    """Against PyYAML's own writer: the same values, and never a fault (its ``null`` and exponents are left out above)."""
    text = yaml.safe_dump({"value": value}, allow_unicode=True)

    reading = read_yaml("x.yaml", text)
    assert ({"value": value}, ()) == (reading.value, reading.faults)


@settings(max_examples=examples(500), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.text(st.sampled_from("ab: -[]{},'\"#&*!|>%@`\n\t12.~?é"), max_size=40))
def test_any_text_is_read_or_refused_in_words(tally: Tally, text: str) -> None:
    """No text breaks the reader; every fault has a line of the text and says what was expected."""
    lines = text.split("\n")
    tally.tried("damaged files: YAML")
    with watched():
        faults = read_yaml("x.yaml", text).faults
    for fault in faults:
        assert 1 <= fault.line <= len(lines)
        assert fault.expected
        assert fault.text == lines[fault.line - 1]


def test_quotes_make_text_of_anything() -> None:
    """What is refused bare is welcome in quotes."""
    assert {"a": "yes", "b": "010", "c": "~"} == read_yaml("x.yaml", 'a: "yes"\nb: \'010\'\nc: "~"').value


def test_places_are_those_of_names_and_values() -> None:
    """A value is at its first character, a group at its name, an item at itself; columns count characters."""
    places: Places = {}
    read_yaml("x.yaml", "é: 1\nlist:\n  - {a: x}\n", places=places)

    assert (1, 4) == (places["é",].line, places["é",].column)
    assert (2, 1) == (places["list",].line, places["list",].column)
    assert (3, 5) == (places["list", 0].line, places["list", 0].column)
    assert (3, 9) == (places["list", 0, "a"].line, places["list", 0, "a"].column)
    assert (3, 6) == (places["list", 0, "a"].key_line, places["list", 0, "a"].key_column)


def test_the_first_of_two_equal_names_counts() -> None:
    """The second is a fault, and its value changes nothing."""
    reading = read_yaml("x.yaml", "a: 1\na: {b: 2}\nc: 3")

    assert {"a": 1, "c": 3} == reading.value
    assert ["x.yaml:2, a: came a a second time, expected each name once in a group"] == [f.message for f in reading.faults]


def test_depth_has_a_limit() -> None:
    """Twenty levels are read; the next is refused, however many follow."""
    assert () == read_yaml("x.yaml", "[" * DEEPEST + "]" * DEEPEST).faults
    reading = read_yaml("x.yaml", "[" * 100)

    assert [(1, DEEPEST + 1)] == [(fault.line, fault.column) for fault in reading.faults]


@pytest.mark.parametrize("text", ["[" * 100_000, "- " * 5_000, "{a: " * 3_000])
def test_depth_that_the_parser_itself_refuses_is_told_alike(text: str) -> None:
    """No depth exhausts the stack; the fault speaks of the depth."""
    (fault,) = read_yaml("x.yaml", text).faults

    assert "inside each other" in fault.came + fault.expected


def test_an_alias_bomb_is_refused_before_it_grows() -> None:
    """Each alias is a fault at its place; nothing is copied."""
    bomb = "a: &a [x, x]\n" + "".join(f"{chr(98 + i)}: &{chr(98 + i)} [*{chr(97 + i)}, *{chr(97 + i)}]\n" for i in range(8))

    assert 9 + 16 == len(read_yaml("x.yaml", bomb).faults)


@pytest.mark.parametrize(
    ("text", "line", "column", "expected"),
    [
        ("a: b: c", 1, 5, 'one "name: value" on a line; text that holds ": " needs quotes'),
        ("a:\n\tb: 1", 2, 1, "spaces; a tab can't indent"),
        ("a: [1,", 1, 7, "a value, and every bracket closed"),
        ("a: @x", 1, 4, "quotes round text that begins with @"),
        ("a: 1\n---\nb: 2", 2, 1, "one document a file"),
        ("%YAML 1.1\n---\na: 1", 1, 1, "the record at once"),
        ('a: "\\q"', 1, 5, "single quotes round the text, or \\\\ for a backslash"),
        ("a: 'it", 1, 4, "the same quote again where the text ends"),
        ("a: 1\nb", 2, 2, "a colon and a space behind the field's name"),
        ("a: 1\nambient_c:22.6\nb: 2", 2, 11, "a space behind the colon, ambient_c: 22.6"),
        ("a:\n  ambient_c:22.6\n  b: 2", 2, 13, "a space behind the colon, ambient_c: 22.6"),
        ("a: 1\nambient_c:22.6", 2, 11, "a space behind the colon, ambient_c: 22.6"),
        ("? [a]\n: 1", 1, 3, "a plain word before the colon, or quotes around text that begins with a brace"),
    ],
)
def test_broken_syntax_is_explained(text: str, line: int, column: int, expected: str) -> None:
    """The parser's complaint in words for the writer, at the right character."""
    faults = read_yaml("x.yaml", text).faults

    assert [(line, column, expected)] == [(fault.line, fault.column, fault.expected) for fault in faults]
