"""What a score is made of: per criterion a bar as long as its worth and as high as its weight, so that areas add up."""

from guidegen.presentation.charts.coordinates import Box
from guidegen.presentation.charts.descriptions import CriterionShare, ScoreMakeup
from guidegen.presentation.charts.marks import TEXT_SIZE, WIDTH, drawing, element, safe
from guidegen.presentation.formatting import number, order, with_unit
from guidegen.presentation.pieces import Cell, Chart, Column, Table

_LEAST, _MOST = 3.0, 20.0
_GAP = 10.0


def _lost(part: CriterionShare) -> float:
    """Points of the score that a criterion leaves on the table, 0 to 100."""
    return part.weight * (100 - part.worth) if part.worth is not None else 0.0


def _height(part: CriterionShare, heaviest: float) -> float:
    """Height of a bar: in proportion to the weight, never too thin to be seen."""
    return max(_LEAST, _MOST * part.weight / heaviest) if heaviest else _LEAST


def _bar(part: CriterionShare, box: Box, *, weakest: bool) -> str:
    """The full worth as an outline, what was reached as ink."""
    height = box.bottom - box.top
    outline: dict[str, str | float] = {
        "class": "c-track", "x": box.left + 0.5, "y": box.top, "width": box.right - box.left - 1, "height": height,
        "fill": "none", "stroke": "currentColor", "stroke-opacity": "0.4"}
    if part.worth is None:
        outline["stroke-dasharray"] = "3 3"
    track = element("rect", outline)
    if part.worth is None:
        return track
    reached = element("rect", {"class": "c-fill-weak" if weakest else "c-fill", "x": box.left, "y": box.top,
                               "width": (box.right - box.left) * part.worth / 100, "height": height,
                               "fill": "currentColor"})
    return track + reached


def _row(part: CriterionShare, box: Box, *, weakest: bool) -> str:
    """A criterion: name and weight, worth and loss, bar."""
    baseline = box.top - 5
    worth = "not tested" if part.worth is None else number(part.worth, 1)
    loss = f"loses {number(_lost(part), 1)} · " if _lost(part) >= 0.05 else ""
    return (element("text", {"class": "c-text", "x": 0, "y": baseline, "font-size": TEXT_SIZE, "fill": "currentColor"},
                    safe(part.title), element("tspan", {"class": "c-quiet"}, _weight(part)))
            + element("text", {"class": "c-text", "x": WIDTH, "y": baseline, "text-anchor": "end",
                               "font-size": TEXT_SIZE, "fill": "currentColor"},
                      *([element("tspan", {"class": "c-quiet"}, loss)] if loss else []),
                      element("tspan", {"class": "c-strong"}, worth))
            + _bar(part, box, weakest=weakest))


def _weight(part: CriterionShare) -> str:
    return f" · weight {with_unit(100 * part.weight, '%', 1)}"


def _weakest(makeup: ScoreMakeup) -> CriterionShare | None:
    """The criterion that costs most, the first of equals; nothing where nothing is lost."""
    costly = [part for part in makeup.criteria if _lost(part) >= 0.05]
    return max(costly, key=_lost) if costly else None


def _words(makeup: ScoreMakeup) -> tuple[str, str]:
    """Title and description."""
    weakest = _weakest(makeup)
    told = "; ".join(f"{part.title}: " + ("not tested" if part.worth is None else f"{number(part.worth, 1)} of 100")
                     + f", weight {with_unit(100 * part.weight, '%', 1)}" for part in makeup.criteria)
    whole = f"{makeup.name}: score {number(makeup.score, 1)} of 100. " if makeup.score is not None else f"{makeup.name}: no score. "
    if weakest is None:
        return "Nothing is lost on what was tested", f"{whole}{told}."
    return f"{weakest.title} costs most: {number(_lost(weakest), 1)} of 100 points", f"{whole}{told}."


def _table(makeup: ScoreMakeup) -> Table:
    rows = tuple((Cell(text=part.title),
                  Cell(text=number(100 * part.weight, 1), order=order(100 * part.weight, 2)),
                  Cell(text="not tested" if part.worth is None else number(part.worth, 1),
                       order="" if part.worth is None else order(part.worth, 2)),
                  Cell(text="" if part.worth is None else number(_lost(part), 1),
                       order="" if part.worth is None else order(_lost(part), 2))) for part in makeup.criteria)
    columns = (Column(key="criterion", title="Criterion"), Column(key="weight", title="Weight, %", numeric=True),
               Column(key="worth", title="Worth, 0 to 100", numeric=True),
               Column(key="lost", title="Points lost", numeric=True))
    return Table(id=f"{makeup.id}-data", caption=f"Parts of the score of {makeup.name}", columns=columns, rows=rows)


def score_chart(makeup: ScoreMakeup) -> Chart:
    """The parts of a score: the area of a bar is what the criterion brings in."""
    heaviest = max((part.weight for part in makeup.criteria), default=0.0)
    weakest = _weakest(makeup)
    rows, top = [], 0.0
    for part in makeup.criteria:
        top += TEXT_SIZE + 5
        height = _height(part, heaviest)
        rows.append(_row(part, Box(0, top, WIDTH, top + height), weakest=part is weakest))
        top += height + _GAP
    words = _words(makeup)
    return Chart(id=makeup.id, title=words[0], description=words[1], table=_table(makeup),
                 note="A bar is as long as the worth and as high as the weight: its area is what it adds to the score.",
                 svg=drawing(makeup.id, (WIDTH, max(top - _GAP + 1, 1)), words=words, body="".join(rows)))
