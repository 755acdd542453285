"""Measured numbers as property values, with their units by code."""

from guidegen.evaluation import Finding
from guidegen.presentation.formatting import COVERAGE
from guidegen.presentation.linked_data.nodes import Node, figure
from guidegen.rounding import rounded

UNIT_CODES = {
    "W": "WTT", "V": "VLT", "mV": "2Z", "A": "AMP", "%": "P1", "dB(A)": "2N", "ms": "C26", "°C": "CEL", "mm": "MMT", "Hz": "HTZ",
    "years": "ANN", "": "C62",
}
"""Codes of UNECE Recommendation 20 by the unit as printed (2Z, 2N and C26 looked up, the rest from memory). There is
none for dB(A): the decibel's stands in, and the text tells the weighting."""

INTERVAL = f"From the least to the greatest value: expanded uncertainty, k = {COVERAGE}"
"""What the two ends beside a value are."""
BOUND = "An upper bound: it may be less"
"""What a greatest value without a value is."""


def measured(finding: Finding) -> Node:
    """A finding as it is printed, with the ends of its expanded uncertainty (k = 2) where it has one; an upper bound as
    the greatest value alone.
    """
    quantity, value = finding.quantity, rounded(finding.quantity.value, finding.decimals)
    node: Node = {"@type": "PropertyValue", "propertyID": finding.key, "name": finding.title}
    if finding.upper_bound:
        return {**node, "description": BOUND, "maxValue": figure(quantity.value, finding.decimals), **units(quantity.unit)}
    node["value"] = figure(quantity.value, finding.decimals)
    doubt = rounded(COVERAGE * quantity.uncertainty, finding.decimals)
    if doubt:
        node["description"] = INTERVAL
        node["minValue"] = figure(float(value - doubt), finding.decimals)
        node["maxValue"] = figure(float(value + doubt), finding.decimals)
    return {**node, **units(quantity.unit)}


def units(unit: str) -> Node:
    """The unit by code and as printed."""
    node: Node = {"unitCode": UNIT_CODES[unit]} if unit in UNIT_CODES else {}
    return {**node, "unitText": unit} if unit else node
