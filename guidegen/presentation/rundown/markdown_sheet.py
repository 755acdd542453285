"""A rundown as Markdown: what is said as paragraphs, cues as quotes, the margin as lists below each paragraph."""

import re
from collections.abc import Iterator

from guidegen.presentation.rundown.description import Line, MarginNote, Rundown
from guidegen.presentation.rundown.timing import time_words

_MEANT = re.compile(r"([\\`*_\[\]<>#|~])")


def rundown_markdown(rundown: Rundown) -> str:
    """The whole rundown as Markdown, with a newline at its end."""
    return "\n\n".join(_blocks(rundown)) + "\n"


def head_words(rundown: Rundown) -> tuple[str, ...]:
    """What stands under the title: edition, prices, time, and that it is invented where it is."""
    pace = f"{rundown.words} words, about {time_words(rundown.seconds)} at {rundown.words_per_minute} words a minute"
    notice = "Units, makers, prices and people are invented." if rundown.invented else ""
    return tuple(words for words in (f"{rundown.edition}, {rundown.date}. Prices: {rundown.region}.", f"{pace}.", notice) if words)


def length_words(rundown: Rundown, words: int) -> str:
    """How long a part takes to be read."""
    return f"{words} words, {time_words(rundown.seconds_of(words))}"


def _blocks(rundown: Rundown) -> Iterator[str]:
    yield f"# {_safe(rundown.title)}, to be read aloud"
    yield from (_safe(words) for words in head_words(rundown))
    for line in rundown.opening:
        yield from _line(line)
    for one in rundown.brackets:
        yield f"## {_safe(one.title)}"
        yield f"*{length_words(rundown, one.words)}*"
        for line in one.lines:
            yield from _line(line)
    yield "## To close"
    for line in rundown.closing:
        yield from _line(line)


def _line(line: Line) -> Iterator[str]:
    if line.cue:
        yield f"> Picture: {_safe(line.cue_words)} ({', '.join(f'`{path}`' for path in line.files)})"
    yield _safe(line.text)
    if line.margin:
        yield "\n".join(_note(note) for note in line.margin)


def _note(note: MarginNote) -> str:
    exact = f": {_safe(note.exact.rstrip('.'))}" if note.exact else ""
    return f"- {_safe(note.title)}{exact}; {', '.join(f'`{place}`' for place in note.places)}"


def _safe(words: str) -> str:
    """The words with what Markdown would read as marks written plain."""
    return _MEANT.sub(r"\\\1", words)
