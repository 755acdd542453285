"""All that matplotlib draws: frames of charts and whole picture cards. It alone loads matplotlib, which takes long, so that
it is imported where something is drawn anew and nowhere else.
"""

from guidegen.presentation.charts.drawn.axes import drawn_frame
from guidegen.presentation.charts.drawn.presenter_card import presenter_card
from guidegen.presentation.charts.drawn.share_card import share_card

__all__ = ["drawn_frame", "presenter_card", "share_card"]
