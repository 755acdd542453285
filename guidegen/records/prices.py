"""Dated prices of one region."""

from dataclasses import field
from typing import Annotated, Literal

from annotated_types import MinLen

from guidegen.records.kinds import Day, Name, Positive, Text, YesNo, record


@record
class PriceRow:
    """One line of ``prices/<region>.csv``."""

    date: Day
    """Day on which the price was seen."""
    unit: Name
    """Unit."""
    price: Positive | None
    """Price in the region's currency; empty where only the stock was seen."""
    currency: Annotated[str, MinLen(3)]
    """Currency; must be the region's."""
    stock: Literal["in_stock", "few_left", "out_of_stock"]
    """Stock."""
    shop: Text
    """Shop, as its name is printed."""
    shop_kind: Literal["shop", "maker", "marketplace"]
    """Kind of shop."""
    link: str = ""
    """Address of the offer, or empty."""
    paid_link: YesNo = False
    """Whether the lab earns when a reader buys through the link."""


@record
class PriceList:
    """All rows of one region, by date."""

    region: str
    """Region."""
    file: str
    """File below the content folder."""
    rows: tuple[PriceRow, ...]
    """Rows in the order of the file."""
    digest: str = field(default="", compare=False, repr=False)
    """SHA-256 of the file; empty where the rows come from no file, or not from one alone."""
    lines: tuple[int, ...] = field(default=(), compare=False, repr=False)
    """Line on which each row begins; empty where the rows come from no file, or not from one alone."""
    _by_unit: dict[str, list[tuple[int, PriceRow]]] = field(init=False, repr=False, compare=False, default_factory=dict)

    def __post_init__(self) -> None:
        for place, row in enumerate(self.rows):
            self._by_unit.setdefault(row.unit, []).append((place, row))

    def of_unit(self, unit: str) -> tuple[tuple[int, PriceRow], ...]:
        """The rows of one unit, each with its place among all rows."""
        return tuple(self._by_unit.get(unit, ()))
