"""The pictures shown while a choice is read: of the announced size, the same each time, every letter on the card."""

import struct
from dataclasses import replace

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.transforms import Bbox

from guidegen.presentation.charts import LoadStrip, PresenterCard, presenter_card
from guidegen.presentation.charts.drawn.presenter_card import card_figure

SIZES = [(1920, 1080), (1080, 1920)]
HOSTILE = {
    "usual": "Halmer Quill 850",
    "long": "Marlowe and Fenn of the Upper Valley " * 6,
    "wide": "W" * 160,
    "wide words": "WWWWWWWWWWWWWWWW " * 12,
    "other letters": "電源ユニット 850 $x_1$ & <b>" * 4,
}


def card(strip: LoadStrip, name: str) -> PresenterCard:
    """A card on which everything is as long as the name."""
    return PresenterCard(
        heading=f"First choice of {name}", unit=name, number="64.7–87.2", number_words=f"of 100, {name}",
        lines=(f"Drawback: {name}. Leave it for {name}.", f"€ 123, {name}, 16 November 2026"), publisher=f"{name}, edition 2026",
        notice=f"{name} is invented.", strip=strip,
    )


def letters(strip: LoadStrip, name: str, size: tuple[int, int]) -> list[tuple[str, Bbox]]:
    """Every text of the card with its extent in pixels, as drawn."""
    figure = card_figure(card(strip, name), size)
    renderer = FigureCanvasAgg(figure).get_renderer()  # type: ignore[no-untyped-call]
    return [(text.get_text(), text.get_window_extent(renderer)) for text in figure.texts if text.get_text()]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", HOSTILE.values(), ids=HOSTILE.keys())
def test_every_letter_is_on_the_card(load_strip: LoadStrip, name: str, size: tuple[int, int]) -> None:
    """However long a name, its text lies inside the canvas, 24 pixels from its edge or more."""
    out = [(words, box) for words, box in letters(load_strip, name, size)
           if box.x0 < 24 or box.y0 < 24 or box.x1 > size[0] - 24 or box.y1 > size[1] - 24]

    assert [] == out


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", HOSTILE.values(), ids=HOSTILE.keys())
def test_no_text_lies_on_another(load_strip: LoadStrip, name: str, size: tuple[int, int]) -> None:
    """No two lines cover each other."""
    there = letters(load_strip, name, size)
    covered = [(a, b) for i, (a, one) in enumerate(there) for b, other in there[i + 1:]
               if min(one.x1, other.x1) - max(one.x0, other.x0) > 1 and min(one.y1, other.y1) - max(one.y0, other.y0) > 1]

    assert [] == covered


@pytest.mark.parametrize("name", HOSTILE.values(), ids=HOSTILE.keys())
def test_no_letter_is_left_out(load_strip: LoadStrip, name: str) -> None:
    """Joined again, the lines hold as many letters as the words; letters that the font lacks are boxes."""
    there = "".join(words for words, _ in letters(load_strip, name, SIZES[0])).replace(" ", "")
    one = card(load_strip, name)
    words = "".join((one.heading, one.unit, one.number, one.number_words, *one.lines, one.publisher, one.notice))
    strip = "".join((*(band.title for band in load_strip.bands), load_strip.mark_words, "idle", "50 %", "100 % load"))

    assert len("".join(f"{words}{strip}".split())) == len("".join(there.split()))


@pytest.mark.parametrize("size", SIZES)
def test_the_picture_has_its_size_and_the_same_bytes(load_strip: LoadStrip, size: tuple[int, int]) -> None:
    """Width and height read from the header (ISO/IEC 15948, 11.2.2); other words, another picture."""
    one = card(load_strip, "Halmer Quill 850")
    png = presenter_card(one, size)

    assert size == struct.unpack(">II", png[16:24])
    assert png == presenter_card(one, size)
    assert png != presenter_card(replace(one, notice=""), size)
