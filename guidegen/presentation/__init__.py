"""Results turned into descriptions of pages: text, tables, drawings. Touches no file and knows no template."""

from guidegen.presentation.addresses import relative
from guidegen.presentation.catalogues import unknown_language
from guidegen.presentation.certainty import stability_words
from guidegen.presentation.changes import ToldChanges, change_lines, other_home, sentence_of, told_of, unit_lines
from guidegen.presentation.charts import recalled_frames
from guidegen.presentation.choosing import describe_choice, place_text, row_note, score_range, score_text
from guidegen.presentation.comparing import compare
from guidegen.presentation.compose import compose
from guidegen.presentation.desk import desk_sheet
from guidegen.presentation.formatting import no_more_than
from guidegen.presentation.frozen import Making, archived_files, edition_record, frozen_assessment
from guidegen.presentation.rundown import (
    USUAL_WORDS_PER_MINUTE,
    Rundown,
    card_files,
    rundown_markdown,
    rundown_of,
)
from guidegen.presentation.shares import Gathered, gather
from guidegen.presentation.sheets import Publication
from guidegen.presentation.sizing_tables import matrix_of

__all__ = [
    "USUAL_WORDS_PER_MINUTE",
    "Gathered",
    "Making",
    "Publication",
    "Rundown",
    "ToldChanges",
    "archived_files",
    "card_files",
    "change_lines",
    "compare",
    "compose",
    "describe_choice",
    "desk_sheet",
    "edition_record",
    "frozen_assessment",
    "gather",
    "matrix_of",
    "no_more_than",
    "other_home",
    "place_text",
    "recalled_frames",
    "relative",
    "row_note",
    "rundown_markdown",
    "rundown_of",
    "score_range",
    "score_text",
    "sentence_of",
    "stability_words",
    "told_of",
    "unit_lines",
    "unknown_language",
]
