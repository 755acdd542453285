"""The guide shown on this machine while it is edited: pages from a folder of the preview's own, refreshed as records change.

A maintained server (waitress) speaks HTTP, watchfiles tells of changes; ours is what may be asked for, and what is shown
in the meantime. May import errors alone.
"""

from guidegen.preview.application import Application
from guidegen.preview.pages import ended_page, fault_page, waiting_page
from guidegen.preview.rounds import Rounds
from guidegen.preview.serving import serve

__all__ = ["Application", "Rounds", "ended_page", "fault_page", "serve", "waiting_page"]
