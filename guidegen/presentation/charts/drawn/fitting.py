"""Text that fits its box: written as large as it can be, in lines broken by measure, never cut."""

from dataclasses import dataclass
from functools import lru_cache

from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.textpath import TextToPath

from guidegen.presentation.charts.drawn.card_ink import INK, SANS, drawable

LEADING = 1.3
"""From line to line, in sizes of the letters."""
_STEP = 0.95
_MEASURE = TextToPath()
"""Measures outlines, which grow with the size; hinting is no matter."""
_HUNDRED = 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TextBox:
    """Where a text may stand and how it is written there."""

    left: float
    """Left edge, pixels."""
    top: float
    """Upper edge, pixels from below."""
    width: float
    """Width, pixels."""
    height: float
    """Height, pixels."""
    size: float
    """Largest height of its letters, pixels."""
    family: str = SANS
    """Font."""
    colour: str = INK
    """Colour."""
    bold: bool = False
    """Whether it is set bold."""


def _width(words: str, box: TextBox, size: float) -> float:
    """Width of a line, pixels."""
    return _outline_width(words, box.family, "bold" if box.bold else "normal") * size / _HUNDRED


@lru_cache(maxsize=4096)
def _outline_width(words: str, family: str, weight: str) -> float:
    """Width of a line in letters of a hundred pixels."""
    font = FontProperties(family=family, weight=weight, size=_HUNDRED)
    return float(_MEASURE.get_text_width_height_descent(words, font, ismath=False)[0])


def _broken(words: str, box: TextBox, size: float) -> list[str]:
    """The words in lines no wider than the box; a word that is wider alone is broken where it must be."""
    lines: list[str] = []
    for word in words.split(" "):
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and _width(joined, box, size) <= box.width:
            lines[-1] = joined
            continue
        rest = word
        while (wide := _width(rest, box, size)) > box.width and len(rest) > 1:
            guess = min(len(rest) - 1, int(len(rest) * box.width / wide))
            kept = next(n for n in range(guess, -1, -1) if n <= 1 or _width(rest[:n], box, size) <= box.width) or 1
            lines.append(rest[:kept])
            rest = rest[kept:]
        lines.append(rest)
    return lines


def _too_large(words: str, lines: list[str], box: TextBox, size: float) -> bool:
    """Whether the lines leave the box, or a word had to be broken that smaller letters would keep whole."""
    high = size * LEADING * len(lines) > box.height
    torn = any(_width(word, box, size) > box.width for word in words.split(" ")) and size > box.size / 3
    return high or torn or any(_width(line, box, size) > box.width for line in lines)


def write_in(figure: Figure, words: str, box: TextBox) -> float:
    """Write the words into the box as large as fits; their lower edge comes back, pixels from below."""
    told = drawable(words, box.family)
    size = box.size
    lines = _broken(told, box, size)
    while _too_large(told, lines, box, size):
        size *= _STEP
        lines = _broken(told, box, size)
    width, height = figure.get_size_inches() * figure.dpi
    for i, line in enumerate(lines):
        figure.text(
            box.left / width, (box.top - size * (LEADING * i + 1.0)) / height, line, va="baseline", color=box.colour,
            fontsize=size * 72.0 / figure.dpi, family=box.family, weight="bold" if box.bold else "normal", parse_math=False,
        )
    return box.top - size * LEADING * len(lines)
