"""A bracket's units in small panels that share one frame, so that courses can be compared by eye."""

from guidegen.presentation.charts.descriptions import Panel, PanelSet, Reading
from guidegen.presentation.charts.efficiency import band, printed
from guidegen.presentation.charts.frames import AxisDescription, Frame, FrameDescription, Rule, frame_of
from guidegen.presentation.charts.marks import WIDTH, clip, drawing, element, element_id, line, text, text_width
from guidegen.presentation.formatting import no_more_than, number, order, with_unit
from guidegen.presentation.pieces import Cell, Chart, Column, Table

_COLUMNS = 2
_PITCH = (174.0, 84.0)
_LOADS = AxisDescription(low=0, high=110, ticks=((0.0, "0"), (50.0, "50"), (100.0, "100")))
_AXES = {
    "efficiency": AxisDescription(low=70, high=98, ticks=((70.0, "70"), (80.0, "80"), (90.0, "90"))),
    "noise": AxisDescription(low=15, high=50, ticks=((20.0, "20"), (30.0, "30"), (40.0, "40")))}
_UNITS = {"efficiency": ("Efficiency", "%"), "noise": ("Noise", "dB(A)")}


def frame_description(panels: PanelSet) -> FrameDescription:
    """The frame that all panels share."""
    axis = _AXES[panels.measure]
    return FrameDescription(x=_LOADS, y=axis, width=WIDTH - _PITCH[0], height=_PITCH[1] - 4, top=18, bottom=18, left=22,
                            right=2, rules=tuple(Rule(value=value) for value, _ in axis.ticks if value > axis.low))


def fitted(words: str, width: float) -> str:
    """The words, shortened with an ellipsis where they are wider than ``width``.

    >>> fitted("Halmer Quill 850", 60)
    'Halmer Q…'
    """
    if text_width(words) <= width:
        return words
    kept = words
    while kept and text_width(kept + "…") > width:
        kept = kept[:-1]
    return f"{kept.rstrip()}…"


def _panel(panel: Panel, frame: Frame, *, set_id: str, index: int) -> str:
    """One unit: name, shared frame, course."""
    across, down = index % _COLUMNS * _PITCH[0], index // _COLUMNS * _PITCH[1]
    course = tuple((r.load_pct, r.value) for r in panel.readings)
    ink = (element("g", {"clip-path": f"url(#{element_id(set_id, 'clip')})"},
                   element("use", {"href": f"#{element_id(set_id, 'band')}"}),
                   line(frame.places(course), style="c-warn" if panel.warning else "c-line-1", width="1.6"))
           if course else text((frame.box.left + 6, frame.box.bottom - 6), "not measured", style="c-quiet"))
    return element("g", {"transform": f"translate({across:.0f} {down:.0f})"},
                   element("use", {"href": f"#{element_id(set_id, 'frame')}"}),
                   text((0, 11), fitted(panel.name, frame.size[0]), style="c-warn-text" if panel.warning else "c-text"), ink)


SHOWN_LOADS = (10, 20, 50, 80, 100, 110)
"""Loads of the table, %: few enough to compare units by eye."""


def _cell(reading: Reading) -> Cell:
    return Cell(text=no_more_than(number(reading.value, 1), bound=reading.bound), order=order(reading.value, 1))


def _table(panels: PanelSet) -> Table:
    """A row a unit, a column a load."""
    title, unit = _UNITS[panels.measure]
    at = {panel.name: {round(r.load_pct): r for r in panel.readings} for panel in panels.panels}
    loads = tuple(load for load in SHOWN_LOADS if any(load in values for values in at.values()))
    rows = tuple(
        (Cell(text=panel.name),
         *(_cell(at[panel.name][load]) if load in at[panel.name] else Cell(text="not measured") for load in loads))
        for panel in panels.panels
    )
    columns = (Column(key="unit", title="Unit"),
               *(Column(key=f"at-{load}", title=f"at {with_unit(load, '%', 0)}", numeric=True) for load in loads))
    return Table(id=f"{panels.id}-data", caption=f"{title} in {unit} by load, {panels.bracket}", columns=columns, rows=rows)


def _words(panels: PanelSet) -> tuple[str, str]:
    """Title and description: who is best at its own worst load, or loudest at the most."""
    title, unit = _UNITS[panels.measure]
    best = max if panels.measure == "efficiency" else min
    peaks = [(max(panel.readings, key=lambda r: r.value), panel.name) for panel in panels.panels if panel.readings]
    if not peaks:
        return f"{title} was not measured in {panels.bracket}", "Empty panels."
    top = best(peaks, key=lambda peak: peak[0].value)
    told = "; ".join(f"{name} {printed(peak, unit)}" for peak, name in peaks)
    said = "reaches the highest efficiency" if panels.measure == "efficiency" else "is the quietest at its loudest"
    return f"{top[1]} {said}: {printed(top[0], unit)}", f"{title} over load in {panels.bracket}. Highest values: {told}."


def multiples_chart(panels: PanelSet) -> Chart:
    """Small panels, two beside each other, in the order of the places."""
    frame = frame_of(frame_description(panels))
    title, unit = _UNITS[panels.measure]
    shared = element("defs", {}, element("g", {"id": element_id(panels.id, "frame")}, frame.svg),
                     element("g", {"id": element_id(panels.id, "band")}, band(frame, panels.span)))
    body = "".join(_panel(panel, frame, set_id=panels.id, index=i) for i, panel in enumerate(panels.panels))
    words = _words(panels)
    better = "higher" if panels.measure == "efficiency" else "lower"
    height = -(-len(panels.panels) // _COLUMNS) * _PITCH[1]
    return Chart(id=panels.id, title=words[0], description=words[1], table=_table(panels),
                 note=f"{title}, {unit}, over load, % of the rating; {better} is better."
                      + (" ≤: an upper bound." if any(r.bound for panel in panels.panels for r in panel.readings) else "")
                      + (" Shaded: the range of the bracket." if len(panels.span) > 1 else ""),
                 svg=drawing(panels.id, (WIDTH, max(height, 1)), words=words,
                             body=clip(element_id(panels.id, "clip"), frame.box) + shared + body))
