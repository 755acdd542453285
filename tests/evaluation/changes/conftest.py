"""A guide of one's own making: units that differ in warranty and price alone, so that scores are worked in the head."""

from collections.abc import Callable, Mapping
from dataclasses import replace

import pytest

from guidegen.records import Anchor, Criterion, Library, LocalAnchors, Part, PriceList, PriceRow

Make = Callable[..., Library]
"""Makes a guide from units: name → (years of warranty, price in €)."""
RATED_W = 500.0


@pytest.fixture(scope="session")
def make(small_library: Library) -> Make:
    """A guide with one bracket: worth of warranty is years/10, worth of price is 1 − price/500 €."""
    def made(units: Mapping[str, tuple[float, float]], *, points: tuple[float, float] = (50.0, 50.0)) -> Library:
        template, session = small_library.units[0], small_library.sessions[0]
        edition = small_library.guide.edition
        return replace(
            small_library,
            guide=replace(small_library.guide, brackets=small_library.guide.brackets[:1]),
            policy=replace(
                small_library.policy, criteria=_criteria(small_library.policy.criteria[0], points), gates=(),
                choices=tuple(replace(c, least_score=0.0) for c in small_library.policy.choices[:1]),
            ),
            units=tuple(
                replace(template, id=name, file=f"units/{name}/unit.yaml", record=replace(
                    template.record, maker="Invented", model=name.title(), rated_power_w=RATED_W, warranty_years=years,
                ))
                for name, (years, _) in units.items()
            ),
            sessions=tuple(
                replace(session, unit=name, file=f"units/{name}/2026-02-17.yaml") for name in units
            ),
            prices=(PriceList(region="ie", file="prices/ie.csv", rows=tuple(
                PriceRow(date=edition.date, unit=name, price=price, currency="EUR", stock="in_stock", shop="A", shop_kind="shop")
                for name, (_, price) in units.items()
            )),),
        )

    return made


def _criteria(like: Criterion, points: tuple[float, float]) -> tuple[Criterion, ...]:
    scale = (Anchor(at=0.0, worth=1.0), Anchor(at=1.0, worth=0.0))
    return (
        replace(like, id="warranty", title="Warranty", points=points[0], parts=(
            Part(finding="warranty.years", points=100.0, reason="test",
                 anchors=(Anchor(at=0.0, worth=0.0), Anchor(at=10.0, worth=1.0))),
        )),
        replace(like, id="price", title="Price", kind="price", points=points[1], parts=(
            Part(finding="price.per_watt", points=100.0, reason="test",
                 local_anchors=(LocalAnchors(region="ie", bracket="550", anchors=scale),)),
        )),
    )
