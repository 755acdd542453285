"""Drawings: descriptions of numbers in, SVG that is safe inside a page (or a PNG card) out.

Frames of charts are drawn by matplotlib ``Figure`` once per kind with a fixed scale; what was measured is laid on them
as plain paths by the same axes' own map. The load strip is SVG from the first letter. Nothing here reads a file,
a clock or ``pyplot``; the same description gives the same bytes.

No drawing holds a style attribute, a style sheet or a script. Every shape has a presentation attribute that makes it
readable without any style sheet; a theme colours the classes of ``STYLE_NAMES``. The classes are for stroke and fill
of the kind named there: where a ``fill`` is a reference (``url(#...)``) the shape bears no class that a theme fills.
A drawing is 340 units wide (a strip in a table row 290) with letters of 11 units: let it grow to about 560 px.
"""

from guidegen.presentation.charts.cards import presenter_card, share_card
from guidegen.presentation.charts.descriptions import (
    CriterionShare,
    EfficiencyCourse,
    LoadStrip,
    NoiseCourse,
    Panel,
    PanelSet,
    PresenterCard,
    PriceCourse,
    PriceDay,
    PricedUnit,
    PriceField,
    PriceSpan,
    RailRipple,
    Reading,
    RippleCourse,
    ScoreMakeup,
    ShareCard,
    Span,
    StripBand,
    Threshold,
)
from guidegen.presentation.charts.efficiency import efficiency_chart
from guidegen.presentation.charts.frames import ready_to_draw, recalled_frames
from guidegen.presentation.charts.large_strip import large_strip_of, strip_legend
from guidegen.presentation.charts.load_strip import strip_of
from guidegen.presentation.charts.multiples import multiples_chart
from guidegen.presentation.charts.noise import noise_chart
from guidegen.presentation.charts.price_history import price_history_chart
from guidegen.presentation.charts.price_score import price_axis_end, price_score_chart
from guidegen.presentation.charts.ripple import ripple_chart
from guidegen.presentation.charts.score_parts import score_chart
from guidegen.presentation.charts.strip_words import words

STYLE_NAMES = (
    ("chart", "the svg element of a chart"),
    ("c-axis", "stroke: axis line and ticks"),
    ("c-grid", "stroke: hairlines to read values by"),
    ("c-text", "fill: letters"),
    ("c-quiet", "fill: letters that are secondary, such as titles of axes"),
    ("c-strong", "fill, weight: the one number of a row"),
    ("c-limit", "stroke, ink: a limit, or what a level demands; the warning tone is for what lies beyond"),
    ("c-line-1", "stroke, ink: the course of the unit"),
    ("c-line-2", "stroke, accent: a second course, the front of price and score"),
    ("c-line-3", "stroke, grey, dashed: what is out of stock"),
    ("c-band", "fill, ink at a tenth: range of the bracket, what the room hides"),
    ("c-mark", "fill and stroke, ink: measured points and their uncertainty"),
    ("c-mark-2", "fill, accent: points on the front"),
    ("c-warn", "stroke and, for a point, fill; warning tone: beyond a limit, not advised"),
    ("c-warn-text", "fill, warning tone: letters about the same"),
    ("c-hatch", "area filled by a hatch of c-warn lines: leave its fill alone"),
    ("c-track", "stroke: the full worth of a criterion"),
    ("c-fill", "fill, ink: what a criterion reached"),
    ("c-fill-weak", "fill, accent: the same for the criterion that costs most"),
    ("strip", "the svg element of a load strip"),
    ("strip-large", "the svg element of a load strip with letters"),
    ("s-ink", "a gradient: colour its stops, .s-ink stop { stop-color: ink }"),
    ("s-over", "stroke, warning tone: the hatch beyond a limit"),
    ("s-paper", "fill, paper: what the hatch lies on"),
    ("s-frame", "stroke, grey: outline of what was not measured, ticks"),
    ("s-mark", "stroke, accent: the line at the reader's load"),
    ("s-mark-text", "fill, accent: what that line is"),
)
"""Every class that a drawing bears, and what a theme does with it."""

__all__ = [
    "STYLE_NAMES",
    "CriterionShare",
    "EfficiencyCourse",
    "LoadStrip",
    "NoiseCourse",
    "Panel",
    "PanelSet",
    "PresenterCard",
    "PriceCourse",
    "PriceDay",
    "PriceField",
    "PriceSpan",
    "PricedUnit",
    "RailRipple",
    "Reading",
    "RippleCourse",
    "ScoreMakeup",
    "ShareCard",
    "Span",
    "StripBand",
    "Threshold",
    "efficiency_chart",
    "large_strip_of",
    "multiples_chart",
    "noise_chart",
    "presenter_card",
    "price_axis_end",
    "price_history_chart",
    "price_score_chart",
    "ready_to_draw",
    "recalled_frames",
    "ripple_chart",
    "score_chart",
    "share_card",
    "strip_legend",
    "strip_of",
    "words",
]
