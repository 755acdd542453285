"""Hold-up: the computer is told that the mains is gone before its rails fall."""

from collections.abc import Iterator

from guidegen.evaluation.sense_checks.shapes import Clash, Occasion

WARNED_MS, ROUNDING_MS = 1.0, 1e-6
"""How long before the rails power-good falls at least: T6 of the ATX design guide (3.0 Table 4-9, 3.1 Table 4-10, seen), and
what floating-point differences may take from it."""
SHORTEST_MS = 0.5
"""Below this ``spans.py`` speaks."""


def power_good(occasion: Occasion) -> Iterator[Clash]:
    """Power-good that falls with the rails or after them: two readings that changed places, or a supply that gives no warning."""
    for place, row in enumerate(occasion.session.record.hold_up):
        if row.rails_ms >= SHORTEST_MS and row.rails_ms - row.power_good_ms < WARNED_MS - ROUNDING_MS:
            came = f"{row.power_good_ms:g} ms with rails_ms {row.rails_ms:g} ms at {row.load_pct:g} % load"
            expected = f"at least {WARNED_MS:g} ms less than rails_ms (T6 of the ATX design guide)"
            yield Clash(occasion.at("hold_up", place, "power_good_ms"), came, expected)
