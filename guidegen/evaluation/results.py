"""What the bench says about one unit: every session measured, samples combined, limits judged."""

import math

from guidegen.evaluation.badges import UNCLAIMED_CLASS, judge_badge, mains_of
from guidegen.evaluation.findings import BadgeVerdict, Bench, Finding, Measure, UnitResult, Verdict
from guidegen.evaluation.measures import MEASURES
from guidegen.evaluation.verdicts import judge, of_check, worst
from guidegen.quantities import Quantity
from guidegen.records import GuideRecord, PolicyRecord, Session, Unit
from guidegen.standards import limits

Measured = tuple[Session, tuple[Measure, ...]]
"""A session with what it said."""


def evaluate(unit: Unit, sessions: tuple[Session, ...], guide: GuideRecord, policy: PolicyRecord) -> UnitResult:
    """The result of a unit from its sessions, oldest first; at least one session is needed.

    Compared numbers rest on the sessions at the policy's mains, of the newest hardware revision, the newest of each
    sample; where there is none at that mains, on those at the other one. A number is the mean over samples; a verdict
    is that of the worst sample.
    """
    by_session = tuple((session, _measured(unit, session, guide, policy)) for session in sessions)
    used = _used(by_session, policy)
    findings = _combined(used)
    return UnitResult(
        unit=unit, sessions=sessions, used=tuple(session for session, _ in used), findings=findings,
        by_session=by_session, verdicts=_verdicts(unit, used, policy), badge=_badge(unit, by_session, policy),
        curves=tuple(curve for measure in used[-1][1] for curve in measure.curves),
    )


def _measured(unit: Unit, session: Session, guide: GuideRecord, policy: PolicyRecord) -> tuple[Measure, ...]:
    bench = Bench(unit=unit, session=session, guide=guide, policy=policy)
    return tuple(measure(bench) for measure in MEASURES)


def _used(by_session: tuple[Measured, ...], policy: PolicyRecord) -> tuple[Measured, ...]:
    at_mains = [one for one in by_session if one[0].mains_volts == policy.reference_mains_v] or list(by_session)
    newest = max(at_mains, key=lambda one: one[0].record.date)[0].record.sample.hardware_revision
    same_revision = [one for one in at_mains if one[0].record.sample.hardware_revision == newest]
    latest = {one[0].record.sample.id: one for one in same_revision}
    return tuple(sorted(latest.values(), key=lambda one: (one[0].record.date, one[0].file)))


def _combined(used: tuple[Measured, ...]) -> tuple[Finding, ...]:
    """Findings over samples, in the order of the measures."""
    grouped: dict[str, list[Finding]] = {}
    for _, measures in used:
        for measure in measures:
            for finding in measure.findings:
                grouped.setdefault(finding.key, []).append(finding)
    return tuple(_mean(tuple(group)) for group in grouped.values())


def _mean(group: tuple[Finding, ...]) -> Finding:
    """One finding from those of several samples: own doubt shrinks, shared doubt stays, the spread is said."""
    first = group[0]
    if len(group) == 1:
        return first
    count = len(group)
    values = [finding.quantity.value for finding in group]
    spread = max(values) - min(values)
    quantity = Quantity(
        math.fsum(values) / count, first.quantity.unit,
        own=math.sqrt(math.fsum(f.quantity.own**2 for f in group)) / count,
        shared=math.fsum(f.quantity.shared for f in group) / count,
    )
    places = f"{spread:.{first.decimals}f}\N{NO-BREAK SPACE}{first.quantity.unit}".rstrip()
    told = f"Mean of {count} samples, {places} apart." if spread else ""
    return Finding(
        key=first.key, title=first.title, quantity=quantity, decimals=first.decimals, better=first.better,
        origins=tuple(origin for finding in group for origin in finding.origins),
        note=" ".join(part for part in (first.note, told) if part),
    )


def _verdicts(unit: Unit, used: tuple[Measured, ...], policy: PolicyRecord) -> tuple[Verdict, ...]:
    """Verdicts by the worst sample, in the order of the limits, then of the checks."""
    grouped: dict[tuple[str, str], list[Verdict]] = {}
    for _, measures in used:
        findings = [finding for measure in measures for finding in measure.findings]
        judged = judge(findings, (*limits(), *policy.limits), claimed_standard=unit.record.claims.standard)
        checked = tuple(of_check(check) for measure in measures for check in measure.checks)
        for verdict in (*judged, *checked):
            grouped.setdefault((verdict.key, verdict.limit_text), []).append(verdict)
    return tuple(worst(group) for group in grouped.values())


def _badge(unit: Unit, by_session: tuple[Measured, ...], policy: PolicyRecord) -> BadgeVerdict:
    claimed = unit.record.claims.badge_mains
    volts = mains_of(claimed) if claimed else int(policy.reference_mains_v)
    there = [measures for session, measures in by_session if session.mains_volts == volts]
    if not claimed and not there:
        volts = next(v for v in UNCLAIMED_CLASS if v != volts)
        there = [measures for session, measures in by_session if session.mains_volts == volts]
    return judge_badge(unit, there[-1] if there else None, mains_volts=volts)
