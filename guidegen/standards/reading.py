"""The reader of the packaged limits."""

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from guidegen.records import Limit


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """What one badge level demands in one mains class."""

    name: str
    """Level, such as ``gold``."""
    floors: tuple[tuple[float, float], ...]
    """(load in %, efficiency in %), rising in load."""
    power_factor: tuple[float, float] | None
    """(load in %, power factor), or nothing where no demand is known well enough to judge by."""
    power_factor_from_memory: tuple[float, float] | None = None
    """The same of a demand that is known from memory alone: it is told and decides nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TripWindow:
    """Between which voltages an over-voltage protection has to trip."""

    from_v: float
    """Lowest trip voltage, V."""
    to_v: float
    """Highest trip voltage, V."""
    document: str
    """Document and clause."""
    standing: str
    """How sure the window is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ExcursionPair:
    """A short load above the rating."""

    peak_pct: float
    """Peak, % of the rating."""
    duration_ms: float
    """Time at the peak, ms."""
    duty_pct: float
    """Share of the time at the peak, %."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProtectionRule:
    """What a protection is held against."""

    document: str
    """Document with clause and what it asks for, or that it asks for nothing."""
    standing: str
    """How sure the rule is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TransientStep:
    """The step of load that a rail has to stand: a share of its rated current, or a current."""

    share_pct: float | None
    """Step, % of the rated current."""
    current_a: float | None
    """Step, A."""


@cache
def _data(name: str) -> dict[str, Any]:
    return tomllib.loads(files("guidegen.standards").joinpath(name).read_text(encoding="utf-8"))


@cache
def limits() -> tuple[Limit, ...]:
    """All published limits on findings."""
    return tuple(
        Limit(**{**row, "applies_to": tuple(row.get("applies_to", ()))}) for row in _data("limits.toml")["limit"]
    )


@cache
def levels(mains_class: str) -> tuple[Level, ...]:
    """The levels of a mains class, lowest first; a level that the class doesn't have is left out.

    >>> levels("115v_internal")[3].floors
    ((20.0, 87.0), (50.0, 90.0), (100.0, 87.0))
    """
    found = []
    for row in _data("efficiency_levels.toml")["level"]:
        floors = row.get(mains_class)
        if floors is not None:
            sure = "power_factor_115v" if mains_class.startswith("115v") else ""
            found.append(
                Level(
                    name=row["name"],
                    floors=tuple(sorted((float(load), float(floor)) for load, floor in floors.items())),
                    power_factor=_demand(row.get(sure)),
                    power_factor_from_memory=None if sure else _demand(row.get("power_factor_230v_from_memory")),
                )
            )
    return tuple(found)


def _demand(row: dict[str, float] | None) -> tuple[float, float] | None:
    return (float(row["load"]), float(row["at_least"])) if row else None


def levels_document() -> str:
    """Document of the efficiency levels."""
    return str(_data("efficiency_levels.toml")["document"])


@cache
def trip_window(protection: str) -> TripWindow | None:
    """The window of a protection, or nothing where no document states one."""
    for row in _data("trips_and_peaks.toml")["window"]:
        if row["protection"] == protection:
            return TripWindow(
                from_v=float(row["from_v"]), to_v=float(row["to_v"]), document=row["document"], standing=row["standing"]
            )
    return None


@cache
def excursion_pairs(*, large: bool) -> tuple[ExcursionPair, ...]:
    """The excursions of the table; ``large`` for supplies above 450 W with a 16-pin plug."""
    rows = _data("trips_and_peaks.toml")["excursions"]["pairs"]
    return tuple(
        ExcursionPair(
            peak_pct=float(row["large_pct" if large else "small_pct"]), duration_ms=float(row["duration_ms"]),
            duty_pct=float(row["duty_pct"]),
        )
        for row in rows
    )


@cache
def protection_rule(protection: str) -> ProtectionRule:
    """What the design guides ask of a protection; every protection has a row.

    >>> protection_rule("uvp_5v").standing
    'second_hand'
    """
    row = next(row for row in _data("trips_and_peaks.toml")["rule"] if protection in row["protections"])
    return ProtectionRule(document=row["document"], standing=row["standing"])


@cache
def transient_step(rail: str) -> TransientStep | None:
    """The step that the design guide asks of a rail, or nothing where it names none.

    >>> transient_step("5v")
    TransientStep(share_pct=30.0, current_a=None)
    """
    row = next((row for row in _data("trips_and_peaks.toml")["step"] if row["rail"] == rail), None)
    if row is None:
        return None
    share, current = row.get("share_pct"), row.get("current_a")
    return TransientStep(
        share_pct=None if share is None else float(share), current_a=None if current is None else float(current)
    )
