"""The efficiency badge on the box, held against the bench load by load."""

from collections.abc import Iterable
from dataclasses import replace

from guidegen.evaluation.findings import WORST_FIRST, BadgeRow, BadgeVerdict, Finding, Measure, Outcome
from guidegen.evaluation.measures.efficiency import is_measured
from guidegen.evaluation.verdicts import decide
from guidegen.records import Unit
from guidegen.standards import Level, levels, levels_document

UNCLAIMED_CLASS = {115: "115v_internal", 230: "230v_eu_internal"}
"""Table for a unit that claims nothing, by the mains of its session."""


def mains_of(mains_class: str) -> int:
    """Mains voltage of a class, V.

    >>> mains_of("230v_eu_internal")
    230
    """
    return 115 if mains_class.startswith("115v") else 230


def judge_badge(unit: Unit, measures: tuple[Measure, ...] | None, *, mains_volts: int) -> BadgeVerdict:
    """The claimed level against a session at its own mains; for no claim, the level that the bench would support.

    ``measures`` are those of that session, or nothing where there is none at that mains.
    """
    claims = unit.record.claims
    mains_class = claims.badge_mains or UNCLAIMED_CLASS[mains_volts]
    table = levels(mains_class)
    found = {finding.key: finding for measure in measures or () for finding in measure.findings}
    supported = _supported(table, found)
    judged = claims.badge if claims.badge != "none" else supported
    level = next((one for one in table if one.name == judged), None)
    rows = _rows(level, found) if level is not None and measures is not None else ()
    return BadgeVerdict(
        claimed=claims.badge, mains_class=mains_class, outcome=_overall(rows), supported=supported, rows=rows,
        document=levels_document(), told=_told(level, found) if level is not None and measures is not None else None,
    )


def worst_badge(verdicts: Iterable[BadgeVerdict]) -> BadgeVerdict:
    """The verdict of the worst of several samples: the gravest outcome, among equals the lowest level supported, then the
    efficiency that lies least above its floor.
    """
    return min(verdicts, key=lambda one: (WORST_FIRST.index(one.outcome), _rank(one), _least_above(one)))


def _least_above(verdict: BadgeVerdict) -> float:
    """Points of efficiency between a floor and what was found there, where it is least."""
    found = [row.found.quantity.value - row.floor for row in verdict.rows if row.found is not None and row.what == "efficiency"]
    return min(found, default=0.0)


def _rank(verdict: BadgeVerdict) -> int:
    names = [level.name for level in levels(verdict.mains_class)]
    return names.index(verdict.supported) if verdict.supported in names else -1


def _supported(table: tuple[Level, ...], found: dict[str, Finding]) -> str:
    """The highest level whose every load was measured and is reached at face value."""
    reached = "none"
    for level in table:
        values = [(found.get(f"efficiency.at_{load:g}"), floor) for load, floor in level.floors]
        measured = all(finding is not None and is_measured(finding) for finding, _ in values)
        if measured and all(finding is not None and finding.quantity.value >= floor for finding, floor in values):
            reached = level.name
    return reached


def _rows(level: Level, found: dict[str, Finding]) -> tuple[BadgeRow, ...]:
    rows = [
        _row("efficiency", load, floor, found.get(f"efficiency.at_{load:g}")) for load, floor in level.floors
    ]
    if level.power_factor is not None:
        load, demand = level.power_factor
        rows.append(_row("power_factor", load, demand, found.get(f"power_factor.at_{load:g}")))
    return tuple(rows)


def _told(level: Level, found: dict[str, Finding]) -> BadgeRow | None:
    """The demand on the power factor that is known from memory alone."""
    if level.power_factor_from_memory is None:
        return None
    load, demand = level.power_factor_from_memory
    return replace(_row("power_factor", load, demand, found.get(f"power_factor.at_{load:g}")), outcome="inconclusive")


def _row(what: str, load: float, floor: float, finding: Finding | None) -> BadgeRow:
    """One load; a value that was only interpolated judges nothing."""
    measured = finding if finding is not None and is_measured(finding) else None
    outcome: Outcome = "not_tested"
    if measured is not None:
        outcome = decide(measured.quantity.value, measured.quantity.uncertainty, at_least=floor).outcome
    return BadgeRow(
        load_pct=load, what="efficiency" if what == "efficiency" else "power_factor", floor=floor, found=measured,
        outcome=outcome,
    )


def _overall(rows: tuple[BadgeRow, ...]) -> Outcome:
    return min((row.outcome for row in rows), key=WORST_FIRST.index, default="not_tested")
