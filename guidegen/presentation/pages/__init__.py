"""One module a kind of page: what it says, composed from the evaluated guide."""

from guidegen.presentation.pages.bench import bench_sheet
from guidegen.presentation.pages.bracket import bracket_sheet, served
from guidegen.presentation.pages.changed import changed_sheet, new_units, since_unit
from guidegen.presentation.pages.context import Context
from guidegen.presentation.pages.corrections import corrections_sheet, noted, notes_at
from guidegen.presentation.pages.data import data_sheet
from guidegen.presentation.pages.editions import editions_sheet, moved_sheets, withdrawn_sheets
from guidegen.presentation.pages.home import STEPS_PAGE, bracket_summary, home_sheet
from guidegen.presentation.pages.reading import ListedUnit, listed_row, lost_sheet, prose_sheet, units_sheet
from guidegen.presentation.pages.unit import editor_note, images_of, shown_of_others, successors, unit_sheet

__all__ = [
    "STEPS_PAGE", "Context", "ListedUnit", "bench_sheet", "bracket_sheet", "bracket_summary", "changed_sheet", "corrections_sheet", "data_sheet",
    "editions_sheet", "editor_note", "home_sheet", "images_of", "listed_row", "lost_sheet", "moved_sheets", "new_units", "noted",
    "notes_at", "prose_sheet", "served", "shown_of_others", "since_unit", "successors", "unit_sheet", "units_sheet", "withdrawn_sheets",
]
