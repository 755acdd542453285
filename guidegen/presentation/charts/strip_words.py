"""The load strip said in words."""

from guidegen.presentation.charts.coordinates import crossings, value_at
from guidegen.presentation.charts.descriptions import LoadStrip, StripBand
from guidegen.presentation.formatting import listed, with_unit

_FRACTIONS = ((0.1, "a tenth"), (0.25, "a quarter"), (1 / 3, "a third"), (0.5, "half"))


def _load(value: float) -> str:
    return f"{with_unit(value, '%', 0)} load"


def _beyond(band: StripBand) -> str:
    """Where a band lies beyond its limit."""
    first, last = band.shares[0][0], band.shares[-1][0]
    said = []
    for stretch in crossings(band.shares, 1):
        begin, end = stretch[0][0], stretch[-1][0]
        if begin == first and end == last:
            said.append("at every load measured")
        elif end == last:
            said.append(f"from {_load(begin)} on" if begin < end else f"at {_load(end)}")
        elif begin == first:
            said.append(f"up to {_load(end)}")
        else:
            said.append(f"from {with_unit(begin, '%', 0)} to {_load(end)}")
    return f"{band.title.lower()} is beyond its limit {listed(tuple(said))}"


def band_words(band: StripBand) -> str:
    """What one band shows, without a full stop.

    >>> band_words(StripBand(title="Ripple", shares=((10, 0.2), (100, 0.3))))
    'ripple never above a third of its limit'
    """
    title = band.title.lower()
    if not band.shares:
        return f"{title} not measured"
    load, most = max(band.shares, key=lambda pair: pair[1])
    if most > 1:
        return _beyond(band)
    for share, words in _FRACTIONS:
        if most <= share:
            return f"{title} never above {words} of its limit"
    highest = f"at most {with_unit(100 * most, '%', 0)} of it, at {_load(load)}"
    half = crossings(band.shares, 0.5)[0][0][0]
    if half > band.shares[0][0]:
        return f"{title} reaches half its limit at {_load(half)}, {highest}"
    return f"{title} at most {with_unit(100 * most, '%', 0)} of its limit, at {_load(load)}"


def _at_mark(strip: LoadStrip) -> str:
    """What the bands say at the marked load."""
    if strip.mark_pct is None or not strip.mark_words:
        return ""
    found = tuple((band.title.lower(), share) for band in strip.bands
                  if (share := value_at(band.shares, strip.mark_pct)) is not None)
    if not found:
        return ""
    said = listed(tuple(f"{title} {with_unit(100 * share, '%', 0)}" for title, share in found))
    return f" At {strip.mark_words}, as a share of the limit: {said}."


def bands_words(strip: LoadStrip) -> str:
    """What the bands show, in a sentence."""
    said = "; ".join(band_words(band) for band in strip.bands)
    return f"{said[:1].upper()}{said[1:]}."


def words(strip: LoadStrip) -> str:
    """The strip in a sentence, and in a second one what holds at the marked load."""
    return bands_words(strip) + _at_mark(strip)
