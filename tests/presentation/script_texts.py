"""Texts in JavaScript that a reader may see, told from those that are for the machine."""

import re

_TOKENS = re.compile(
    r"""//[^\n]*|/\*.*?\*/|(?<=[(,=:]\s)/(?![/*])(?:\\.|\[[^\]]*\]|[^/\n])+/[a-z]*|(?<=[(!])/(?![/*])(?:\\.|\[[^\]]*\]|[^/\n])+/[a-z]*"""
    r"""|"(?:\\.|[^"\\])*"|'(?:\\.|[^'\\])*'|`(?:\\.|[^`\\])*`""",
    re.DOTALL,
)
"""Comments, regular expressions and texts. A template within a template's braces is not looked into."""
_MACHINE = re.compile(r"(?:querySelector(?:All)?|closest|addEventListener|matches|getElementById|getAttribute|normalize)\($|\bclass: $|className = $")
_WORDS = re.compile(r"\b[A-Z][a-z]+\b|[a-z]+ [a-z]+")
KNOWN = {
    "use strict",
    "ArrowDown", "ArrowUp", "Escape",  # keys
    "linearGradient",  # an element of SVG
    "NaN",
}
"""Texts for the machine that look like words."""


def sentences_in(script: str) -> list[str]:
    """The texts that hold words: a word with a capital, or two words with a space between. A lone small word is let pass."""
    found = []
    for token in _TOKENS.finditer(script):
        text = token.group()
        if text[0] not in "\"'`" or _MACHINE.search(script[:token.start()]):
            continue
        inside = re.sub(r"\$\{[^{}]*\}", "", text[1:-1])
        if text[1:-1] not in KNOWN and _WORDS.search(inside):
            found.append(text[1:-1])
    return found
