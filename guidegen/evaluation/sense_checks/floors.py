"""Floors: no instrument shows less than it can, and nothing is quieter with the unit running than without."""

from collections.abc import Iterator

from guidegen.evaluation.sense_checks.shapes import Clash, Occasion

RAILS = ("12v", "5v", "3v3", "5vsb")
LARGEST_CORRECTION_DB = 1.3
"""What removing the background may take from a level at most (ISO 3744:2010, 8.2.3, from a second text)."""
SCATTER_DB = 1.0
"""By how much a level may read below the background by scatter alone (common practice, no source)."""


def ripple(occasion: Occasion) -> Iterator[Clash]:
    """Ripple below what the oscilloscope can show."""
    floor = occasion.floor("ripple_mv")
    for place, point in enumerate(occasion.session.record.load_points):
        values = (point.ripple_12v_mv, point.ripple_5v_mv, point.ripple_3v3_mv, point.ripple_5vsb_mv)
        for rail, value in zip(RAILS, values, strict=True):
            at = occasion.at("load_points", place, f"ripple_{rail}_mv")
            if value is not None and (value < floor or value == 0):
                expected = f"{floor:g} mV or more, the floor of the instrument" if floor else "more than 0; no rail is free of ripple"
                yield Clash(at, f"{value:g} mV", expected)


def noise(occasion: Occasion) -> Iterator[Clash]:
    """Levels below the background, or below what the sound-level meter can show."""
    floor, record = occasion.floor("noise_dba"), occasion.session.record
    for place, point in enumerate(record.load_points):
        lowest = floor - LARGEST_CORRECTION_DB
        if point.noise_dba is not None and point.noise_dba < lowest:
            expected = f"{lowest:g} dB(A) or more: the meter's floor less the largest correction for the background"
            yield Clash(occasion.at("load_points", place, "noise_dba"), f"{point.noise_dba:g} dB(A)", expected)
    for place, row in enumerate(record.noise_sweep.points if record.noise_sweep else ()):
        at = occasion.at("noise_sweep", "points", place)
        if row.background_dba < floor:
            expected = f"{floor:g} dB(A) or more, the floor of the meter"
            yield Clash(at.at("background_dba"), f"{row.background_dba:g} dB(A)", expected)
        for microphone, level in enumerate(row.levels_dba):
            if level < max(floor, row.background_dba - SCATTER_DB):
                expected = f"no less than the background, {row.background_dba:g} dB(A), and the meter's floor, {floor:g} dB(A)"
                yield Clash(at.at("levels_dba", microphone), f"{level:g} dB(A)", expected)
