"""Prices as offers: only fresh ones, and a range only where there are two."""

from guidegen.evaluation import Offer, PriceView
from guidegen.presentation.linked_data.nodes import Node, figure

AVAILABILITY = {
    "in_stock": "https://schema.org/InStock", "few_left": "https://schema.org/LimitedAvailability",
    "out_of_stock": "https://schema.org/OutOfStock",
}
CENTS = 2
"""Decimals of a price."""


def offers(view: PriceView) -> Node:
    """The fresh offers of a region: several, one, or an empty node."""
    fresh = [offer for offer in view.offers if not offer.stale and offer.row.price is not None]
    if len(fresh) < 2:
        return _offer(fresh[0]) if fresh else {}
    prices = [figure(offer.row.price, CENTS) for offer in fresh if offer.row.price is not None]
    return {
        "@type": "AggregateOffer", "priceCurrency": view.region.currency, "lowPrice": min(prices),
        "highPrice": max(prices), "offerCount": len(fresh), "offers": [_offer(offer) for offer in fresh],
    }


def _offer(offer: Offer) -> Node:
    """An offer with the day on which its price was seen."""
    row = offer.row
    node: Node = {
        "@type": "Offer", "price": figure(row.price or 0.0, CENTS), "priceCurrency": row.currency,
        "validFrom": row.date.isoformat(), "availability": AVAILABILITY[row.stock],
        "seller": {"@type": "Organization", "name": row.shop},
    }
    return {**node, "url": row.link} if row.link.startswith("https://") else node
