"""A rundown described: what is said, when which picture is shown, and where each number can be checked."""

from dataclasses import dataclass
from typing import Literal

from guidegen.presentation.rundown.timing import seconds_for, spoken_words

LineKind = Literal["opening", "warning", "choice", "reason", "drawback", "price", "left_out", "closing"]
"""What a line is for."""
SIZES = ((1920, 1080), (1080, 1920))
"""Pixels of the picture cards: lying and standing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MarginNote:
    """Where a spoken number can be checked."""

    title: str
    """What it is."""
    exact: str
    """The published value with its uncertainty, as printed; empty where only the records are named."""
    places: tuple[str, ...]
    """Files and fields of records."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A few sentences that belong together."""

    kind: LineKind
    """What they are for."""
    text: str
    """What is said: numbers and units in words."""
    margin: tuple[MarginNote, ...] = ()
    """Where its numbers come from."""
    cue: str = ""
    """Name of the picture to be shown, the stem of its files; empty where it stays as it is."""
    cue_words: str = ""
    """What the picture shows."""

    @property
    def words(self) -> int:
        """How many words are spoken."""
        return spoken_words(self.text)

    @property
    def files(self) -> tuple[str, ...]:
        """The picture's files below the folder of the rundown: lying, then standing."""
        return tuple(card_file(self.cue, size) for size in SIZES) if self.cue else ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketScript:
    """What is said of a bracket."""

    id: str
    """Short name of the bracket."""
    title: str
    """Its heading, as printed."""
    lines: tuple[Line, ...]
    """What is said, in order."""

    @property
    def words(self) -> int:
        """How many words are spoken."""
        return sum(line.words for line in self.lines)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rundown:
    """A guide, or one bracket of it, for someone who reads it aloud."""

    title: str
    """Title of the guide."""
    edition: str
    """Edition and printing, in words."""
    date: str
    """Day of the edition, as printed."""
    region: str
    """Region whose prices are told."""
    invented: bool
    """Whether everything in it is invented."""
    words_per_minute: int
    """How fast it is read."""
    opening: tuple[Line, ...]
    """What is said before the brackets."""
    brackets: tuple[BracketScript, ...]
    """The brackets."""
    closing: tuple[Line, ...]
    """What is said after them."""

    @property
    def words(self) -> int:
        """How many words are spoken in all."""
        return sum(line.words for line in (*self.opening, *self.closing)) + sum(one.words for one in self.brackets)

    @property
    def seconds(self) -> int:
        """How long it takes in all, s."""
        return self.seconds_of(self.words)

    def seconds_of(self, words: int) -> int:
        """How long so many words take, s."""
        return seconds_for(words, self.words_per_minute)


def card_file(cue: str, size: tuple[int, int]) -> str:
    """Path of a picture below the folder of the rundown.

    >>> card_file("850-first", (1920, 1080))
    'cards/850-first-1920x1080.png'
    """
    return f"cards/{cue}-{size[0]}x{size[1]}.png"
