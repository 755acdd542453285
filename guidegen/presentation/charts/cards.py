"""Picture cards, described here and drawn by matplotlib, which is loaded for them only when one is drawn."""

from importlib import import_module

from guidegen.presentation.charts.descriptions import PresenterCard, ShareCard
from guidegen.presentation.charts.frames import DRAWN


def share_card(card: ShareCard) -> bytes:
    """The picture card that stands for a page elsewhere, as PNG."""
    drawn: bytes = import_module(DRAWN).share_card(card)
    return drawn


def presenter_card(card: PresenterCard, size: tuple[int, int]) -> bytes:
    """The picture that is shown while a choice is read aloud, as PNG, lying or standing."""
    drawn: bytes = import_module(DRAWN).presenter_card(card, size)
    return drawn
