"""Dated prices of one region."""

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
