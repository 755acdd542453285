"""What the bench says about one unit: every session measured, samples combined, limits judged."""

from dataclasses import replace

from guidegen.evaluation.badges import UNCLAIMED_CLASS, judge_badge, mains_of, worst_badge
from guidegen.evaluation.findings import BadgeVerdict, Bench, Finding, Measure, UnitResult, Verdict
from guidegen.evaluation.measures import MEASURES
from guidegen.evaluation.uncertainty import mean
from guidegen.evaluation.verdicts import judge, of_check, worst
from guidegen.records import GuideRecord, PolicyRecord, Session, Unit
from guidegen.standards import limits

Measured = tuple[Session, tuple[Measure, ...]]
"""A session with what it said."""
DEPEND_ON_MAINS = ("efficiency", "power_factor", "heat", "standby", "hold_up", "inrush", "maximum_power", "temperature")
"""Measures whose numbers differ between 115 V and 230 V."""


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
    at_mains = tuple(one for one in by_session if one[0].mains_volts == policy.reference_mains_v)
    if at_mains:
        return _newest(at_mains)
    return tuple((session, _at_other_mains(session, measures, policy)) for session, measures in _newest(by_session))


def _newest(measured: tuple[Measured, ...]) -> tuple[Measured, ...]:
    """The newest session of each sample of the newest hardware revision, oldest first."""
    revision = max(measured, key=lambda one: one[0].record.date)[0].record.sample.hardware_revision
    latest = {one[0].record.sample.id: one for one in measured if one[0].record.sample.hardware_revision == revision}
    return tuple(sorted(latest.values(), key=lambda one: (one[0].record.date, one[0].file)))


def _at_other_mains(session: Session, measures: tuple[Measure, ...], policy: PolicyRecord) -> tuple[Measure, ...]:
    """The measures with the other mains said beside every number that depends on it."""
    told = f"At {session.mains_volts}\N{NO-BREAK SPACE}V; the guide compares at {policy.reference_mains_v}\N{NO-BREAK SPACE}V."
    return tuple(
        replace(measure, findings=tuple(replace(f, note=f"{f.note} {told}".strip()) for f in measure.findings))
        if measure.id in DEPEND_ON_MAINS else measure
        for measure in measures
    )


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
    values = [finding.quantity.value for finding in group]
    spread = max(values) - min(values)
    places = f"{spread:.{first.decimals}f}\N{NO-BREAK SPACE}{first.quantity.unit}".rstrip()
    told = f"Mean of {len(group)} samples, {places} apart." if spread else ""
    return Finding(
        key=first.key, title=first.title, quantity=mean(tuple(f.quantity for f in group)), decimals=first.decimals, better=first.better,
        origins=tuple(dict.fromkeys(origin for finding in group for origin in finding.origins)),
        note=" ".join(part for part in (first.note, told) if part),
    )


def _verdicts(unit: Unit, used: tuple[Measured, ...], policy: PolicyRecord) -> tuple[Verdict, ...]:
    """Verdicts by the worst sample, in the order of the limits, then of the checks."""
    grouped: dict[tuple[str, str], list[Verdict]] = {}
    for session, measures in used:
        findings = [finding for measure in measures for finding in measure.findings]
        holding = [one for one in (*limits(), *policy.limits) if one.mains_v in (None, session.mains_volts)]
        judged = judge(findings, holding, claimed_standard=unit.record.claims.standard)
        checked = tuple(of_check(check) for measure in measures for check in measure.checks)
        for verdict in (*judged, *checked):
            grouped.setdefault((verdict.key, verdict.limit_text), []).append(verdict)
    return tuple(worst(group) for group in grouped.values())


def _badge(unit: Unit, by_session: tuple[Measured, ...], policy: PolicyRecord) -> BadgeVerdict:
    """The badge by the worst sample at its own mains; for no claim, at the mains where there is a session."""
    claimed = unit.record.claims.badge_mains
    volts = mains_of(claimed) if claimed else int(policy.reference_mains_v)
    there = tuple(one for one in by_session if one[0].mains_volts == volts)
    if not claimed and not there:
        volts = next(v for v in UNCLAIMED_CLASS if v != volts)
        there = by_session
    if not there:
        return judge_badge(unit, None, mains_volts=volts)
    return worst_badge(judge_badge(unit, measures, mains_volts=volts) for _, measures in _newest(there))
