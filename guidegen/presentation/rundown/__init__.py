"""The guide read aloud: scripts, what a presenter can check, picture cards."""

from guidegen.presentation.rundown.cards import CardFile, card_files
from guidegen.presentation.rundown.composing import rundown_of
from guidegen.presentation.rundown.description import BracketScript, Line, MarginNote, Rundown
from guidegen.presentation.rundown.markdown_sheet import head_words, length_words, rundown_markdown
from guidegen.presentation.rundown.timing import USUAL_WORDS_PER_MINUTE

__all__ = [
    "USUAL_WORDS_PER_MINUTE", "BracketScript", "CardFile", "Line", "MarginNote", "Rundown", "card_files", "head_words",
    "length_words", "rundown_markdown", "rundown_of",
]
