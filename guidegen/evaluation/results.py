"""What the bench says about one unit: every session measured, samples combined, limits judged."""

from collections.abc import Iterator
from dataclasses import replace
from statistics import fmean

from guidegen.evaluation.badges import UNCLAIMED_CLASS, judge_badge, mains_of, worst_badge
from guidegen.evaluation.findings import BadgeVerdict, Bench, Curve, CurvePoint, Finding, Measure, UnitResult, Verdict
from guidegen.evaluation.measures import MEASURES
from guidegen.evaluation.uncertainty import mean
from guidegen.evaluation.verdicts import judge, of_check, worst
from guidegen.records import GuideRecord, PolicyRecord, Session, Unit
from guidegen.standards import limits

Measured = tuple[Session, tuple[Measure, ...]]
"""A session with what it said."""
SAME_LOAD_PCT = 1.0
"""Loads of two samples no further apart than this, in % of the rating, are the same step of the sweep."""
DEPEND_ON_MAINS = ("efficiency", "power_factor", "heat", "standby", "hold_up", "inrush", "maximum_power", "temperature")
"""Measures whose numbers differ between 115 V and 230 V."""
OF_OTHER_FIELDS = {"hold_up.predicted": "hold_up.predicted", "fan.begins_at": "fan.run", "fan.stops_at": "fan.run"}
"""Findings of other fields than the rest of their measure, each with the part that is taken with it: steady loads alone give a
predicted hold-up and the fan's speed, and must not count as having measured the hold-up or the run of the fan."""


def evaluate(unit: Unit, sessions: tuple[Session, ...], guide: GuideRecord, policy: PolicyRecord) -> UnitResult:
    """The result of a unit from its sessions, oldest first; at least one session is needed.

    Compared numbers rest on the sessions at the policy's mains, of the newest hardware revision; where there is none at that
    mains, on those at the other one. Of each sample a measure counts from the newest session that took it, and a protection
    from the newest that tried it, so that a session of one measure leaves the others as they were. A number is the mean over
    samples; a verdict is that of the worst sample.
    """
    by_session = tuple((session, _measured(unit, session, guide, policy)) for session in sessions)
    used = _used(by_session, policy)
    findings = _combined(used)
    compared = used[-1][0]
    return UnitResult(
        unit=unit, sessions=sessions, used=tuple(session for session, _ in used), findings=findings,
        by_session=by_session, verdicts=_verdicts(unit, used, policy),
        badge=_badge(unit, by_session, policy, revision=compared.record.sample.hardware_revision), curves=_courses(used),
        mains_missed_v=0 if compared.mains_volts == policy.reference_mains_v else int(policy.reference_mains_v),
    )


def _measured(unit: Unit, session: Session, guide: GuideRecord, policy: PolicyRecord) -> tuple[Measure, ...]:
    bench = Bench(unit=unit, session=session, guide=guide, policy=policy)
    return tuple(measure(bench) for measure in MEASURES.values())


def _used(by_session: tuple[Measured, ...], policy: PolicyRecord) -> tuple[Measured, ...]:
    at_mains = tuple(one for one in by_session if one[0].mains_volts == policy.reference_mains_v)
    if at_mains:
        return _counted(at_mains)
    return tuple((session, _at_other_mains(session, measures, policy)) for session, measures in _counted(by_session))


def _counted(measured: tuple[Measured, ...]) -> tuple[Measured, ...]:
    """What counts of the sessions of the newest hardware revision, oldest first; sessions of which nothing counts are left out."""
    counted = (one for sample in _by_sample(measured).values() for one in _newest(sample) if one[1])
    return tuple(sorted(counted, key=lambda one: (one[0].record.date, one[0].file)))


def _by_sample(measured: tuple[Measured, ...]) -> dict[str, list[Measured]]:
    """The sessions of each sample of the newest hardware revision, in their order."""
    revision = max(measured, key=lambda one: one[0].record.date)[0].record.sample.hardware_revision
    samples: dict[str, list[Measured]] = {}
    for one in measured:
        if one[0].record.sample.hardware_revision == revision:
            samples.setdefault(one[0].record.sample.id, []).append(one)
    return samples


def _newest(sample: list[Measured]) -> Iterator[Measured]:
    """The sessions of one sample, each with what it was the last to take; what none took is the newest session's to say."""
    if len(sample) == 1:
        yield from sample
        return
    whole = [{name: part for measure in measures for name, part in _repeated_alone(measure)} for _, measures in sample]
    last: dict[str, int] = {}
    for place, parts in enumerate(whole):
        for name, part in parts.items():
            if part.taken or name not in last or not whole[last[name]][name].taken:
                last[name] = place
    for place, (session, _) in enumerate(sample):
        yield session, tuple(part for name, part in whole[place].items() if last[name] == place)


def _repeated_alone(measure: Measure) -> Iterator[tuple[str, Measure]]:
    """The parts of a measure that a later session may take alone, by name."""
    keys = (*(check.key for check in measure.checks), *(finding.key for finding in measure.findings))
    names = dict.fromkeys(map(_alone, keys))
    if names.keys() <= {measure.id}:
        yield measure.id, measure
        return
    for name in names:
        yield name, replace(measure, checks=tuple(check for check in measure.checks if _alone(check.key) == name),
                            findings=tuple(finding for finding in measure.findings if _alone(finding.key) == name),
                            curves=measure.curves if name == measure.id else ())


def _alone(key: str) -> str:
    """What is taken alone: each protection, voltages under cross load and over the mains range, the run of the fan, what the
    loads alone let one expect of the hold-up, and every other measure as a whole.
    """
    measure, part, *more = key.split(".")
    if measure == "protections":
        return f"{measure}.{part}"
    if key in OF_OTHER_FIELDS:
        return OF_OTHER_FIELDS[key]
    return f"{measure}.{more[0]}" if measure == "regulation" and more and more[0] in ("cross", "line") else measure


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
    for measure in _in_order(used):
        for finding in measure.findings:
            grouped.setdefault(finding.key, []).append(finding)
    return tuple(_mean(tuple(group)) for group in grouped.values())


def _courses(used: tuple[Measured, ...]) -> tuple[Curve, ...]:
    """Each course over samples: the mean where they were taken at the same loads, else that of the newest session."""
    grouped: dict[str, list[Curve]] = {}
    for measure in _in_order(used):
        for curve in measure.curves:
            grouped.setdefault(curve.key, []).append(curve)
    return tuple(_mean_course(group) for group in grouped.values())


def _mean_course(group: list[Curve]) -> Curve:
    newest = group[-1]
    if len(group) == 1 or any(len(curve.points) != len(newest.points) for curve in group):
        return newest
    pairs = tuple(zip(*(curve.points for curve in group), strict=True))
    if any(abs(point.load_pct - points[-1].load_pct) > SAME_LOAD_PCT for points in pairs for point in points):
        return newest
    return replace(newest, bounded_w=max(curve.bounded_w for curve in group), points=tuple(
        CurvePoint(load_w=fmean(p.load_w for p in points), load_pct=fmean(p.load_pct for p in points),
                   quantity=mean(tuple(p.quantity for p in points)))
        for points in pairs
    ))


def _in_order(used: tuple[Measured, ...]) -> list[Measure]:
    """What was measured in the order of the test report, of a kind in the order of the sessions."""
    order = {name: place for place, name in enumerate(MEASURES)}
    return sorted((measure for _, measures in used for measure in measures), key=lambda measure: order[measure.id])


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
        note=" ".join(part for part in (first.note, told) if part), upper_bound=any(f.upper_bound for f in group),
        milder=any(f.milder for f in group),
    )


def _verdicts(unit: Unit, used: tuple[Measured, ...], policy: PolicyRecord) -> tuple[Verdict, ...]:
    """Verdicts by the worst sample, in the order of the limits, then of the checks."""
    grouped: dict[tuple[str, str], list[Verdict]] = {}
    for session, measures in used:
        findings = [finding for measure in measures for finding in measure.findings]
        holding = [one for one in (*limits(), *policy.limits) if one.mains_v in (None, session.mains_volts)]
        for verdict in judge(findings, holding, claimed_standard=unit.record.claims.standard):
            grouped.setdefault((verdict.key, verdict.limit_text), []).append(verdict)
    for check in (check for measure in _in_order(used) for check in measure.checks):
        verdict = of_check(check)
        grouped.setdefault((verdict.key, verdict.limit_text), []).append(verdict)
    return tuple(worst(group) for group in grouped.values())


def _badge(unit: Unit, by_session: tuple[Measured, ...], policy: PolicyRecord, *, revision: str) -> BadgeVerdict:
    """The badge by the worst sample at its own mains; for no claim, at the mains where there is a session. Of other hardware
    revisions than the one that is compared no session says anything of it.
    """
    by_session = tuple(one for one in by_session if one[0].record.sample.hardware_revision == revision)
    claimed = unit.record.claims.badge_mains
    volts = mains_of(claimed) if claimed else int(policy.reference_mains_v)
    there = tuple(one for one in by_session if one[0].mains_volts == volts)
    if not claimed and not there:
        volts = next(v for v in UNCLAIMED_CLASS if v != volts)
        there = by_session
    if not there:
        return judge_badge(unit, None, mains_volts=volts)
    samples = (tuple(part for _, parts in _newest(sample) for part in parts) for sample in _by_sample(there).values())
    return worst_badge(judge_badge(unit, measures, mains_volts=volts) for measures in samples)
