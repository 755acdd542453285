"""The picture card."""

import io
import struct
from dataclasses import replace

from matplotlib.image import imread

from guidegen.presentation.charts import LoadStrip, ShareCard, share_card


def card(strip: LoadStrip | None) -> ShareCard:
    """A card with words that matplotlib could take for formulas, and letters that its font lacks."""
    return ShareCard(title="Halmer $Quill$ 850: silent_until^465 W 電源", sentence="31 mV of ripple where 120 are allowed.",
                     publisher="The Harrow Bench", strip=strip)


def chunks(png: bytes) -> list[bytes]:
    """Names of the chunks of a PNG file (ISO/IEC 15948, 5.3)."""
    names, at = [], 8
    while at < len(png):
        (length,) = struct.unpack(">I", png[at:at + 4])
        names.append(png[at + 4:at + 8])
        at += 12 + length
    return names


def test_the_card_has_the_size_that_pages_announce(load_strip: LoadStrip) -> None:
    """1200 by 630 pixels, read from the header (ISO/IEC 15948, 11.2.2)."""
    assert struct.unpack(">II", share_card(card(load_strip))[16:24]) == (1200, 630)


def test_the_card_is_the_same_each_time(load_strip: LoadStrip) -> None:
    """Same words, same bytes; no time or program is written into it."""
    png = share_card(card(load_strip))
    assert png == share_card(card(load_strip))
    assert {b"tEXt", b"iTXt", b"zTXt", b"tIME"} & set(chunks(png)) == set()


def test_long_words_stay_on_the_card(load_strip: LoadStrip) -> None:
    """A title of the widest letters is written smaller: the right margin is bare paper."""
    wide = replace(card(load_strip), title="W" * 200, sentence="M" * 300, publisher="W" * 90)
    margin = imread(io.BytesIO(share_card(wide)))[:, 1140:, :]
    assert (margin == margin[0, -1]).all()


def test_no_word_is_cut(load_strip: LoadStrip) -> None:
    """A name of 200 letters and a sentence of 500 are written smaller and whole: another last letter, another picture."""
    long = replace(card(load_strip), title="Marlowe and Fenn " * 11 + "one", sentence="Ripple of 31 mV. " * 30 + "End")
    cards = {share_card(one) for one in (long, replace(long, title=f"{long.title}s"), replace(long, sentence=f"{long.sentence}s"))}
    assert 3 == len(cards)


def test_the_card_shows_the_strip(load_strip: LoadStrip) -> None:
    """Another load, another picture; none, yet another."""
    seen = {share_card(card(strip)) for strip in (None, load_strip, replace(load_strip, mark_pct=20.0))}
    assert len(seen) == 3
