"""``corrections.yaml``: what an edition had wrong, and what is right."""

from typing import Annotated

from pydantic import Field

from guidegen.records.kinds import Day, Name, Text, record

CORRECTIONS = "corrections.yaml"
"""File below the content folder."""
Written = object
"""What may stand in a field of a record: text, a number, true or false, a day; ``sources`` refuses groups and lists."""


@record
class Correction:
    """Something that was wrong on a page, told for as long as the page stands.

    It names one of ``unit``, ``bracket`` and ``page``. Where a field of a record was wrong, ``file`` and ``field`` name it
    and ``was`` and ``is`` tell its value; what that did to places, choices and scores is then computed.
    """

    date: Day
    """Day of the correction."""
    words: Text
    """What was wrong and what is right, in a sentence or two of Markdown."""
    unit: Name | None = None
    """Unit whose page was wrong."""
    bracket: Name | None = None
    """Bracket whose page was wrong."""
    page: Name | None = None
    """Page of prose that was wrong."""
    file: Text | None = None
    """File of the record below the content folder; the unit's own ``unit.yaml`` where it is left out."""
    field: Text | None = None
    """Field of the record that was wrong, such as ``load_points[3].input_power_w``."""
    was: Written = None
    """What stood in the field; left out where nothing did."""
    now: Annotated[Written, Field(alias="is")] = None
    """What stands in the field; left out where nothing does."""

    @property
    def about(self) -> tuple[str, str]:
        """What kind of page it names, and which: ``("unit", "kiln-650")``."""
        named = (("unit", self.unit), ("bracket", self.bracket), ("page", self.page))
        return next(((kind, name) for kind, name in named if name is not None), ("", ""))

    @property
    def record_file(self) -> str:
        """File of the record that holds the field; empty where the correction names none."""
        if self.file is not None:
            return self.file
        return f"units/{self.unit}/unit.yaml" if self.unit is not None else ""
