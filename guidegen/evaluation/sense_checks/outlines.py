"""Outlines: width and height that a form factor has, whatever the depth."""

from collections.abc import Iterator

from guidegen.evaluation.sense_checks.shapes import Clash, SenseRecords
from guidegen.origins import Origin
from guidegen.records import Unit

OUTLINES_MM = {"ATX": (150.0, 86.0), "SFX": (125.0, 63.5), "SFX-L": (125.0, 63.5), "TFX": (85.0, 65.0)}
"""Width and height of each form factor, mm (common practice, no source; the cases are made for them)."""
NEAR_MM = 5.0
"""How far a supply may lie from its outline, mm (common practice, no source)."""
SPAN_MM = (30.0, 400.0)
"""Outside these ``spans.py`` speaks."""


def outline(unit: Unit, records: SenseRecords) -> Iterator[Clash]:
    """A width or a height that no supply of the form factor has, such as two sizes that changed places."""
    del records
    form, size = unit.record.form_factor, unit.record.size
    width, height = OUTLINES_MM[form]
    far = [name for name, value, wanted in (("width_mm", size.width_mm, width), ("height_mm", size.height_mm, height))
           if abs(value - wanted) > NEAR_MM and SPAN_MM[0] <= value <= SPAN_MM[1]]
    if far:
        sizes = (size.width_mm, size.height_mm, size.depth_mm)
        swapped = all(any(abs(value - wanted) <= NEAR_MM for value in sizes) for wanted in (width, height))
        hint = "; did two sizes change places?" if swapped else ""
        came = f"{size.width_mm:g} mm wide and {size.height_mm:g} mm high with the form factor {form}"
        yield Clash(Origin(unit.file, ("size", far[0])), came, f"{width:g} by {height:g} mm within {NEAR_MM:g} mm{hint}")
