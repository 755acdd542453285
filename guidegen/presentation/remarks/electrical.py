"""Remarks on what the electrical instruments showed."""

from collections.abc import Iterator

from guidegen.evaluation import BadgeVerdict, UnitResult, Verdict
from guidegen.origins import Origin
from guidegen.presentation.formatting import finding_text, listed, number, with_unit, within_text
from guidegen.presentation.names import BADGES, OUTCOMES, RAILS, lower_first
from guidegen.presentation.remarks.remark import Remark, scale

MAINS_CYCLE_50_HZ_MS = 20.0


def ripple(result: UnitResult) -> Iterator[Remark]:
    """Ripple on the rail that comes nearest to its limit."""
    judged = [v for v in result.verdicts if v.key.startswith("ripple.") and v.finding and v.limit_text]
    over = [v for v in judged if v.outcome == "fail"]
    for verdict in over:
        rail = RAILS[verdict.key.split(".")[1]]
        found = finding_text(verdict.finding) if verdict.finding else ""
        yield Remark(
            topic="ripple", good=False, weight=1.0,
            clause=f"{found} of ripple on {rail} where {verdict.limit_text} is allowed",
            sentence=f"Ripple on {rail} reaches {found}; {verdict.limit_text} is allowed.",
            reader="anyone: the boards it feeds were not designed for that ripple",
            numbers=(verdict.finding,) if verdict.finding else (),
        )
    main = result.finding("ripple.12v.worst")
    if main is None or over:
        return
    found = finding_text(main)
    if main.quantity.value <= 60:
        yield Remark(
            topic="ripple", good=True, weight=0.85 * scale(main.quantity.value, none=50, full=12),
            clause=_little_ripple(main.quantity.value, found),
            sentence=f"Ripple on the 12 V rail never exceeds {found}; 120 mV are allowed.", numbers=(main,),
        )
    else:
        yield Remark(
            topic="ripple", good=False, weight=scale(main.quantity.value, none=50, full=120),
            clause=f"{found} of ripple on 12 V, of 120 mV allowed",
            sentence=f"Ripple on the 12 V rail climbs to {found}, {number(main.quantity.value / 1.2, 0)} % of what is "
            "allowed.",
            numbers=(main,),
        )


def _little_ripple(millivolts: float, found: str) -> str:
    if millivolts <= 20:
        return f"only {found} of ripple on 12 V, a {'sixth' if millivolts > 17 else 'seventh'} of the limit or less"
    if millivolts <= 40:
        return f"ripple on 12 V no higher than {found}, a third of the limit or less"
    return f"{found} of ripple on 12 V, half the limit or less"


def efficiency(result: UnitResult) -> Iterator[Remark]:
    """Efficiency at half load, and how little or much the light load wastes."""
    half = result.finding("efficiency.at_50")
    if half is not None:
        lost = result.finding("heat.at_50")
        heat = f", {finding_text(lost)} of heat" if lost else ""
        good = half.quantity.value >= 90.5
        yield Remark(
            topic="efficiency", good=good,
            weight=scale(half.quantity.value, none=90.5, full=94.5 if good else 85.0),
            clause=f"{finding_text(half)} efficiency at half load{heat}",
            sentence=f"At half load {'' if good else 'only '}{finding_text(half)} of the wall's power arrives{heat and f'; the rest is{heat[1:]}'}.",
            reader="a computer that runs all day" if half.quantity.value >= 93 else "", numbers=(half, *((lost,) if lost else ())),
        )
    light = result.finding("efficiency.light")
    if light is not None and light.quantity.value < 62:
        yield Remark(
            topic="efficiency", good=False, weight=scale(light.quantity.value, none=66, full=50),
            clause=f"only {finding_text(light)} {lower_first(light.title)}",
            sentence=f"With next to nothing to do it wastes much of what it takes: {lower_first(light.title)} is {finding_text(light)}.",
            reader="a computer that is left on with next to nothing to do", numbers=(light,),
        )


def badge(result: UnitResult) -> Iterator[Remark]:
    """The badge on the box, held against the bench."""
    verdict = result.badge
    if verdict.claimed == "none":
        if verdict.supported != "none":
            yield Remark(
                topic="badge", good=True, weight=0.35,
                clause=f"no badge claimed, yet the bench measures {BADGES[verdict.supported]} level",
                sentence=f"The box claims no badge; measured here it reaches the {BADGES[verdict.supported]} level.",
                numbers=tuple(row.found for row in verdict.rows if row.found),
            )
        return
    if verdict.outcome in ("fail", "conditional_fail"):
        yield _broken_badge(verdict)


def _broken_badge(verdict: BadgeVerdict) -> Remark:
    short = [row for row in verdict.rows if row.outcome == verdict.outcome and row.found is not None]
    worst = max(short, key=lambda row: (row.floor - (row.found.quantity.value if row.found else 0.0)) / row.floor)
    found = worst.found
    if found is None:
        raise ValueError("a badge can't fall short at a load that was not measured")
    gap = worst.floor - found.quantity.value
    words = (
        f"{with_unit(gap, 'points', 1)} short at {number(worst.load_pct, 0)} % load"
        if worst.what == "efficiency"
        else f"power factor {finding_text(found)} at {number(worst.load_pct, 0)} % load where "
        f"{number(worst.floor, 2)} is asked"
    )
    supports = (
        f"the bench supports {BADGES[verdict.supported]}" if verdict.supported != "none" else "the bench supports no level"
    )
    doubt = ", though within the doubt of the reading" if verdict.outcome == "conditional_fail" else ""
    return Remark(
        topic="badge", good=False, weight=0.95 if verdict.outcome == "fail" else 0.4,
        clause=f"the {BADGES[verdict.claimed]} badge is not confirmed ({words})",
        sentence=f"The {BADGES[verdict.claimed]} badge does not hold: {words}{doubt}; {supports}.",
        reader="anyone who pays for the badge" if verdict.outcome == "fail" else "", numbers=(found,),
    )


def voltage(result: UnitResult) -> Iterator[Remark]:
    """How still the 12 V rail stands."""
    for verdict in result.verdicts:
        if verdict.key.startswith("regulation.") and verdict.outcome == "fail" and verdict.finding:
            rail = RAILS[verdict.key.split(".")[1]]
            yield Remark(
                topic="voltage", good=False, weight=1.0,
                clause=f"{rail} leaves its range ({finding_text(verdict.finding)})",
                sentence=f"{rail} leaves its range: {finding_text(verdict.finding)}, {verdict.limit_text}.",
                reader="anyone: the voltage leaves its range", numbers=(verdict.finding,),
            )
            return
    worst = result.finding("regulation.12v.worst")
    if worst is not None and worst.quantity.value <= 1.0:
        yield Remark(
            topic="voltage", good=True, weight=0.8 * scale(worst.quantity.value, none=1.2, full=0.2),
            clause=f"a 12 V rail within {within_text(worst)} of nominal",
            sentence=f"The 12 V rail stays within {within_text(worst)} of nominal from idle to full load.", numbers=(worst,),
        )


def hold_up(result: UnitResult) -> Iterator[Remark]:
    """How long it carries on without mains."""
    short = next((v for v in result.verdicts if v.key.startswith("hold_up.") and v.outcome == "fail" and v.finding), None)
    if short is not None and short.finding is not None:
        title = lower_first(short.finding.title)
        yield Remark(
            topic="hold_up", good=False, weight=0.9,
            clause=f"{title} of {finding_text(short.finding)} where {short.limit_text} is asked for",
            sentence=f"{short.finding.title} is {finding_text(short.finding)}; {short.limit_text} is asked for, and a gap in the mains that others "
            "ride through may switch the computer off.",
            reader="a house where the lights flicker, or a UPS that switches slowly", numbers=(short.finding,),
        )
        return
    rails = result.finding("hold_up.rails_at_100")
    if rails is None:
        return
    if rails.quantity.value >= MAINS_CYCLE_50_HZ_MS:
        yield Remark(
            topic="hold_up", good=True, weight=0.7 * scale(rails.quantity.value, none=16, full=30),
            clause=f"{finding_text(rails)} of hold-up at full load, more than a whole mains cycle",
            sentence=f"It rides through {finding_text(rails)} without mains at full load, more than a whole cycle at 50 Hz.",
            reader="a house where the lights flicker", numbers=(rails,),
        )
    elif rails.quantity.value < 16:
        yield Remark(
            topic="hold_up", good=False, weight=0.8 * scale(rails.quantity.value, none=18, full=10),
            clause=f"only {finding_text(rails)} of hold-up at full load",
            sentence=f"Without mains it lasts only {finding_text(rails)} at full load, less than a cycle at 50 Hz.",
            reader="a house where the lights flicker, or a UPS that switches slowly", numbers=(rails,),
        )


def protections(result: UnitResult) -> Iterator[Remark]:
    """Protections that did not act, were not tested, or all acted."""
    tested = [v for v in result.verdicts if v.key.startswith("protections.") and v.finding is None]
    absent = [v for v in tested if v.outcome == "fail"]
    if absent:
        yield Remark(
            topic="safety", good=False, weight=1.0,
            clause=f"{lower_first(_protections(absent))} did not act",
            sentence=f"{_protections(absent)} did not act when called upon ({_details(absent)}).",
            reader="anyone: a protection is missing", fields=_fields(absent),
        )
    untested = [v for v in tested if v.outcome == "not_tested"]
    if untested and not absent:
        yield Remark(
            topic="protections", good=False, weight=0.75,
            clause=f"{lower_first(_protections(untested))} not tested",
            sentence=f"{_protections(untested)} {'was' if len(untested) == 1 else 'were'} not tested; not tested is "
            "not passed.", fields=_fields(untested),
        )
    late = [v for v in tested if v.outcome == "conditional_fail"]
    if late and not absent:
        yield Remark(
            topic="protections", good=False, weight=0.45,
            clause=f"{lower_first(_protections(late))} acts outside the lab's band",
            sentence=f"{_protections(late)} acts, but outside the lab's band ({_details(late)}).", fields=_fields(late),
        )
    if tested and all(v.outcome == "pass" for v in tested):
        yield Remark(
            topic="protections", good=True, weight=0.25,
            clause=f"all {len(tested)} protections acted where they should",
            sentence=f"All {len(tested)} protections were called upon and acted where they should.", fields=_fields(tested),
        )


def _protections(verdicts: list[Verdict]) -> str:
    names = tuple(lower_first(verdict.title) for verdict in verdicts)
    text = listed(names[:3] if len(names) <= 3 else (*names[:2], f"{len(names) - 2} more"))
    return text[:1].upper() + text[1:]


def _fields(verdicts: list[Verdict]) -> tuple[Origin, ...]:
    return tuple(dict.fromkeys(origin for verdict in verdicts for origin in verdict.origins))


def _details(verdicts: list[Verdict]) -> str:
    return "; ".join(verdict.detail or OUTCOMES[verdict.outcome] for verdict in verdicts[:2])


def label(result: UnitResult) -> Iterator[Remark]:
    """Whether the label's power is there."""
    share = result.finding("maximum_power.sustained_share")
    if share is None:
        return
    if share.quantity.value < 100:
        yield Remark(
            topic="label", good=False, weight=1.0,
            clause=f"it holds only {finding_text(share)} of the power on its label",
            sentence=f"It holds only {finding_text(share)} of the power on its label and then switches off.",
            reader="anyone: the label promises power that isn't there", numbers=(share,),
        )
    elif share.quantity.value >= 125:
        yield Remark(
            topic="label", good=True, weight=0.3 * scale(share.quantity.value, none=110, full=150),
            clause=f"it held {finding_text(share)} of its label",
            sentence=f"It held {finding_text(share)} of the power on its label for the length of the test.", numbers=(share,),
        )
