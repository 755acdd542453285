"""How long it takes to read."""

from guidegen.presentation.rundown.description import BracketScript, Line, Rundown
from guidegen.presentation.rundown.timing import seconds_for, spoken_words, time_words


def test_words_are_counted_as_they_are_spoken() -> None:
    """By hand: the / Halmer / Quill / eight hundred and fifty (4) / makes / thirty / three / watts."""
    assert 11 == spoken_words("The Halmer Quill 850 makes thirty-three watts.")
    assert 3 == spoken_words("It doesn't – help.")


def test_the_time_of_a_rundown_by_hand() -> None:
    """12 words at 60 a minute: 1 s a word, 12 s; at 100: 7.2 s, rounded up."""
    six = Line(kind="opening", text="One two three four five six.")
    rundown = Rundown(title="A", edition="", date="", region="", invented=False, words_per_minute=60, opening=(six,),
                      brackets=(BracketScript(id="b", title="B", lines=(six,)),), closing=())

    assert 12 == rundown.words == rundown.seconds
    assert 8 == seconds_for(12, 100)
    assert "1\N{NO-BREAK SPACE}min 5\N{NO-BREAK SPACE}s" == time_words(65)
