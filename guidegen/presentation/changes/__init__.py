"""What changed between two guides, in words: a sentence for each change, and all of a bracket in as few as tell it."""

from guidegen.presentation.changes.lines import change_lines, unit_lines
from guidegen.presentation.changes.reasons import other_home
from guidegen.presentation.changes.sentences import sentence_of, value_words
from guidegen.presentation.changes.telling import ToldChanges, told_of

__all__ = ["ToldChanges", "change_lines", "other_home", "sentence_of", "told_of", "unit_lines", "value_words"]
