"""The load strip: three bands over 0 to 110 % of a unit's rating; the more ink, the nearer the limit.

Ink density and not hue carries the meaning, so that a strip can be read in black and white. Beyond the limit a band
takes the warning tone and a hatch. A band that was not measured is an empty outline. The gap stands at 100 %, the
accent line at the load that the reader has in mind.
"""

from dataclasses import dataclass

from guidegen.presentation.charts.coordinates import Box, Point, coordinate, crossings, value_at
from guidegen.presentation.charts.descriptions import LoadStrip, StripBand
from guidegen.presentation.charts.marks import NAMESPACE, element, element_id, hatch, safe
from guidegen.presentation.charts.strip_words import bands_words, words
from guidegen.presentation.pieces import Strip

FULL = 110.0
"""Right end, % of the rating."""
LIGHTEST = 0.06
"""Ink of a band far from its limit: just not paper."""
_MOST_STOPS = 11
_UNSEEN = 0.012
_GAP = 2.0


@dataclass(frozen=True, slots=True)
class Layout:
    """Where the bands of a strip stand, in units."""

    left: float
    """Left end: idle."""
    right: float
    """Right end: ``FULL``."""
    tops: tuple[float, ...]
    """Upper edges of the bands."""
    thickness: float
    """Height of a band."""

    def at(self, load_pct: float) -> float:
        """The place of a load, kept inside the strip."""
        return self.left + (self.right - self.left) * min(max(load_pct, 0.0), FULL) / FULL


ROW = Layout(0.0, 290.0, (2.0, 11.5, 21.0), 7.0)
"""The strip of a table row: 290 by 30 units."""
ROW_HEIGHT = 30.0


def density(share: float) -> float:
    """How much ink a share of the limit takes, from ``LIGHTEST`` to 1 at the limit.

    >>> density(0.0), density(1.0), density(3.0)
    (0.06, 1.0, 1.0)
    """
    return LIGHTEST + (1 - LIGHTEST) * min(max(share, 0.0), 1.0)


def _inked(shares: tuple[Point, ...]) -> tuple[Point, ...]:
    """The course as far as ink can follow it: full from where the limit is crossed."""
    ends = tuple(end for stretch in crossings(shares, 1) for end in (stretch[0], stretch[-1]))
    return tuple(sorted({(load, min(share, 1.0)) for load, share in (*shares, *ends)}))


def _needed(shares: tuple[Point, ...], unseen: float) -> tuple[Point, ...]:
    """The ends, and between them the points that lie off the straight line by more than the eye would miss."""
    if len(shares) < 3:
        return shares
    ends = (shares[0], shares[-1])
    off = [abs(share - (value_at(ends, load) or 0.0)) for load, share in shares]
    farthest = max(range(len(shares)), key=off.__getitem__)
    if off[farthest] <= unseen:
        return ends
    return _needed(shares[: farthest + 1], unseen)[:-1] + _needed(shares[farthest:], unseen)


def stops(shares: tuple[Point, ...]) -> tuple[Point, ...]:
    """The course as few gradient stops: those that the straight line between their neighbours gives are left out.

    >>> stops(((0, 0.0), (50, 0.5), (100, 1.0)))
    ((0, 0.0), (100, 1.0))
    """
    inked, unseen = _inked(shares), _UNSEEN
    kept = _needed(inked, unseen)
    while len(kept) > _MOST_STOPS:
        unseen *= 1.5
        kept = _needed(inked, unseen)
    return kept


def _part(value: float, decimals: int) -> str:
    """A number from 0 to 1 in few letters.

    >>> _part(0.25, 3), _part(1.0, 2), _part(0.0, 2)
    ('.25', '1', '0')
    """
    return f"{value:.{decimals}f}".rstrip("0").rstrip(".").removeprefix("0") or "0"


def gradient(gradient_id: str, shares: tuple[Point, ...], layout: Layout) -> str:
    """One gradient for a whole band; stops are black until the theme colours ``.s-ink stop``."""
    first, last = layout.at(shares[0][0]), layout.at(shares[-1][0])
    width = last - first or 1.0
    marks = "".join(f'<stop offset="{_part((layout.at(load) - first) / width, 3)}" stop-opacity="{_part(density(share), 2)}"/>'
                    for load, share in stops(shares))
    return (f'<linearGradient id="{gradient_id}" class="s-ink" gradientUnits="userSpaceOnUse" '
            f'x1="{coordinate(first)}" x2="{coordinate(last)}">{marks}</linearGradient>')


def _pieces(begin: float, end: float, *, gap: float) -> tuple[Point, ...]:
    """A stretch without the gap at full load."""
    before = (begin, min(end, gap - _GAP / 2))
    after = (max(begin, gap + _GAP / 2), end)
    return tuple(piece for piece in (before, after) if piece[1] - piece[0] > 0.05)


def _rectangles(begin: float, end: float, top: float, layout: Layout) -> str:
    """Path data of a stretch of a band."""
    height = coordinate(layout.thickness)
    return "".join(f"M{coordinate(x0)} {coordinate(top)}H{coordinate(x1)}v{height}H{coordinate(x0)}Z"
                   for x0, x1 in _pieces(begin, end, gap=layout.at(100)))


def _outline(begin: float, end: float, top: float, layout: Layout) -> str:
    """An empty outline where nothing was measured."""
    height = coordinate(layout.thickness - 1)
    data = "".join(f"M{coordinate(x0 + 0.5)} {coordinate(top + 0.5)}H{coordinate(x1 - 0.5)}v{height}H{coordinate(x0 + 0.5)}Z"
                   for x0, x1 in _pieces(begin, end, gap=layout.at(100)) if x1 - x0 > 3)
    return element("path", {"class": "s-frame", "d": data, "fill": "none", "stroke": "currentColor",
                            "stroke-opacity": "0.4"}) if data else ""


def _over(strip_id: str, band: StripBand, top: float, layout: Layout) -> str:
    """Stretches beyond the limit, hatched in the warning tone; the shortest can still be seen."""
    least = 1.5
    data = ""
    for stretch in crossings(band.shares, 1):
        begin, end = layout.at(stretch[0][0]), layout.at(stretch[-1][0])
        if end - begin < least:
            begin = max(layout.left, end - least)
        data += _rectangles(begin, end, top, layout)
    return element("path", {"d": data, "fill": f"url(#{element_id(strip_id, 'over')})"}) if data else ""


def _band(strip_id: str, index: int, band: StripBand, layout: Layout) -> str:
    """One band with its gradient."""
    top = layout.tops[index]
    if not band.shares:
        return _outline(layout.left, layout.right, top, layout)
    gradient_id = element_id(strip_id, str(index))
    first, last = layout.at(band.shares[0][0]), layout.at(band.shares[-1][0])
    ink = element("path", {"d": _rectangles(first, last, top, layout), "fill": f"url(#{gradient_id})"})
    untold = _outline(last, layout.right, top, layout) if layout.right - last > 0.06 * layout.right else ""
    early = _outline(layout.left, first, top, layout) if first - layout.left > 0.06 * layout.right else ""
    return gradient(gradient_id, band.shares, layout) + ink + early + untold + _over(strip_id, band, top, layout)


def bands(strip: LoadStrip, layout: Layout) -> str:
    """All bands, with the hatch where one is needed."""
    beyond = any(share > 1 for band in strip.bands for _, share in band.shares)
    paper = element("rect", {"class": "s-paper", "width": 5, "height": 5, "fill": "#fff"})
    pattern = hatch(element_id(strip.id, "over"), style="s-over", under=paper) if beyond else ""
    return pattern + "".join(_band(strip.id, i, band, layout) for i, band in enumerate(strip.bands))


def mark(load_pct: float | None, layout: Layout, *, span: tuple[float, float]) -> str:
    """The accent line at a load; nothing without one."""
    if load_pct is None:
        return ""
    return element("path", {"class": "s-mark", "d": f"M{coordinate(layout.at(load_pct))} {coordinate(span[0])}V{coordinate(span[1])}",
                            "fill": "none", "stroke": "currentColor", "stroke-width": "2"})


def outer(strip: LoadStrip, box: Box, *, kind: str, body: str) -> str:
    """The drawing with its name; what it says stands beside it in words."""
    title = element_id(strip.id, "title")
    return element("svg", {"xmlns": NAMESPACE, "class": kind, "viewBox": f"0 0 {coordinate(box.right)} {coordinate(box.bottom)}",
                           "width": box.right, "height": box.bottom, "role": "img", "aria-labelledby": title},
                   element("title", {"id": title}, safe(f"{strip.name}: {bands_words(strip)}")), body)


def strip_of(strip: LoadStrip) -> Strip:
    """The strip of a table row, and what it says."""
    body = bands(strip, ROW) + mark(strip.mark_pct, ROW, span=(0, ROW_HEIGHT))
    return Strip(svg=outer(strip, Box(0, 0, ROW.right, ROW_HEIGHT), kind="strip", body=body), words=words(strip))
