"""Processor classes by graphics classes: the rating to look for, when there is no time for a sum."""

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.evaluation.sizing.builds import BuildLoad, build_load
from guidegen.evaluation.sizing.rating import Load, RatingOnOffer, Recommendation, recommend_for
from guidegen.records import PartClass, PartsRecord, SizingRules


@dataclass(frozen=True, slots=True, kw_only=True)
class MatrixCell:
    """One processor with one graphics card, or without one."""

    processor: PartClass
    """The processor."""
    graphics: PartClass | None
    """The graphics card, or nothing."""
    full_w: float
    """Usual full load, W."""
    found: Recommendation
    """The rating to look for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Matrix:
    """The whole table."""

    processors: tuple[PartClass, ...]
    """Rows."""
    graphics: tuple[PartClass | None, ...]
    """Columns; the first is no graphics card."""
    cells: tuple[MatrixCell, ...]
    """Row by row."""

    def cell(self, processor: str, graphics: str | None) -> MatrixCell | None:
        """The cell of two classes, or nothing."""
        wanted = (processor, graphics)
        return next((c for c in self.cells if (c.processor.id, c.graphics.id if c.graphics else None) == wanted), None)


def sizing_matrix(
    parts: PartsRecord, offers: tuple[RatingOnOffer, ...], rules: SizingRules, *, beside: Mapping[str, int] | None = None
) -> Matrix:
    """The recommended rating for every processor with every graphics card; beside them count the parts named, or the
    rest of a median platform where none is.
    """
    processors = tuple(part for part in parts.classes if part.kind == "processor")
    graphics = (None, *(part for part in parts.classes if part.kind == "graphics"))
    cells = []
    for processor in processors:
        for card in graphics:
            wanted = {processor.id: 1, **({card.id: 1} if card else {}), **(beside or {})}
            load = load_of(build_load(parts, wanted), rest_w=0.0 if beside else parts.rest_of_platform_w)
            cells.append(
                MatrixCell(
                    processor=processor, graphics=card, full_w=load.full_w, found=recommend_for(load, offers, rules)
                )
            )
    return Matrix(processors=processors, graphics=graphics, cells=tuple(cells))


def load_of(build: BuildLoad, *, rest_w: float = 0.0, headroom_pct: float = 0.0) -> Load:
    """What a rating is chosen for: the build, and ``rest_w`` on 12 V for what isn't named in it."""
    return Load(
        full_w=build.full_w + rest_w, rail_12v_w=build.rail_watts("12v") + rest_w,
        peaks=tuple(peak.raised(rest_w) for peak in build.peaks()), headroom_pct=headroom_pct,
    )
