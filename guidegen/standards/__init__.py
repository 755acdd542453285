"""Published limits as data files, each value with its document and how sure it is, and the small reader for them."""

from guidegen.standards.reading import (
    ExcursionPair,
    Level,
    ProtectionRule,
    TransientStep,
    TripWindow,
    excursion_pairs,
    levels,
    levels_document,
    limits,
    protection_rule,
    transient_step,
    trip_window,
)

__all__ = [
    "ExcursionPair", "Level", "ProtectionRule", "TransientStep", "TripWindow", "excursion_pairs", "levels",
    "levels_document", "limits", "protection_rule", "transient_step", "trip_window",
]
