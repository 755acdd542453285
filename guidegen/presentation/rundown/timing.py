"""How long a text takes to be read aloud."""

import re
from decimal import Decimal

from guidegen.presentation.rundown.ear import number_words

USUAL_WORDS_PER_MINUTE = 150
"""Common practice, no source."""


def spoken_words(text: str) -> int:
    """How many words are spoken: hyphened words one by one, numbers in names as they are said.

    >>> spoken_words("Halmer Quill 850: about thirty-three watts.")
    10
    """
    said = re.sub(r"\d+", lambda found: f" {number_words(Decimal(found[0]))} ", text)
    return len(re.findall(r"[^\W_]+(?:['’][^\W_]+)*", said))


def seconds_for(words: int, words_per_minute: int) -> int:
    """Seconds that so many words take, rounded up to whole ones.

    >>> seconds_for(75, 150), seconds_for(76, 150)
    (30, 31)
    """
    return -(-60 * words // words_per_minute)


def time_words(seconds: int) -> str:
    r"""A time as a reader plans with it.

    >>> time_words(45), time_words(60), time_words(135)
    ('45\xa0s', '1\xa0min', '2\xa0min 15\xa0s')
    """
    minutes, rest = divmod(seconds, 60)
    parts = (f"{minutes}\N{NO-BREAK SPACE}min" if minutes else "", f"{rest}\N{NO-BREAK SPACE}s" if rest or not minutes else "")
    return " ".join(part for part in parts if part)
