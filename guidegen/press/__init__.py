"""The published folder and the press beside it: an edition made ready, put in place at once, taken back, remembered.

Knows files, hashes and paths, and nothing of pages; may import origins and errors.
"""

from guidegen.press.exchanging import exchange
from guidegen.press.files import File, is_fit_path
from guidegen.press.handouts import hand_out
from guidegen.press.manifests import MANIFEST, Manifest, Mark
from guidegen.press.memory import Memory, Remembered, forget
from guidegen.press.program import program_digest, program_version, versions
from guidegen.press.rooms import Press
from guidegen.press.shelves import Shelves
from guidegen.press.staging import Staging, Written, step_back
from guidegen.press.standing import Lay, Standing, lay_of, note_standing, still_standing

__all__ = [
    "MANIFEST", "File", "Lay", "Manifest", "Mark", "Memory", "Press", "Remembered", "Shelves", "Staging", "Standing", "Written",
    "exchange", "forget", "hand_out", "is_fit_path", "lay_of", "note_standing", "program_digest", "program_version",
    "step_back", "still_standing", "versions",
]
