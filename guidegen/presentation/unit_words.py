"""What is said of one unit on its page: verdict, place, badge, predecessor, construction."""

import math

from guidegen.evaluation import BadgeVerdict, Ranking, Standing, UnitResult, mains_of
from guidegen.presentation.catalogues import Words
from guidegen.presentation.choosing import neighbour_words, place_text, standing_note, unknown_words
from guidegen.presentation.formatting import counted, listed, number, with_unit
from guidegen.presentation.names import (
    BADGES,
    BEARINGS,
    GATE_OUTCOMES,
    INRUSH_LIMITERS,
    MAKER_CLASSES,
    PRIMARIES,
    SECONDARIES,
)
from guidegen.presentation.pieces import Fact
from guidegen.presentation.remarks import Remark, pick
from guidegen.records import Bracket


def verdict_words(standing: Standing, remarks: tuple[Remark, ...], bracket: Bracket) -> str:
    """The verdict on a unit in one sentence: tier, place, what speaks for it and what against."""
    one = standing.candidate
    against = pick(remarks, good=False, most=2)
    if one.fails:
        return f"Not advised: {'; '.join(remark.clause for remark in against)}."
    strong = pick(remarks, good=True, most=2)
    place = place_text(standing)
    position = f"{standing.tier.title}, {_place_words(place)} among {bracket.title}"
    likes = f": {listed(tuple(remark.clause for remark in strong))}" if strong else ""
    but = f", but {against[0].clause}" if against and against[0].weight >= 0.35 else ""
    return f"{position}{likes}{but}."


def _place_words(place: str) -> str:
    return f"places {place.replace('–', ' to ')}" if "–" in place else f"place {place}"


def place_reasons(standing: Standing, ranking: Ranking) -> tuple[str, ...]:
    """Why it stands where it stands: gates that hold it back, then what sets it apart from its neighbours."""
    held = [gate for gate in standing.candidate.gates if gate.holds_back]
    gates = tuple(f"{gate.gate.title}: {GATE_OUTCOMES[gate.outcome]}. {gate.gate.reason}" for gate in held)
    placed = ranking.placed
    if standing not in placed:
        return gates
    here = placed.index(standing)
    above = placed[here - 1] if here else None
    below = placed[here + 1] if here + 1 < len(placed) else None
    return (
        *gates,
        *((neighbour_words(above, standing, above=True),) if above else ()),
        *((neighbour_words(standing, below, above=False),) if below else ()),
    )


def score_words(standing: Standing) -> str:
    """What stands under the score: its doubt, the score before price, and why it has none where it has none."""
    score = standing.candidate.score
    note, warns = standing_note(standing, None)
    if standing.candidate.fails:
        return f"No place: {note}."
    technical = f"{number(score.technical, 1)} before price"
    doubt = f"± {number(2 * score.uncertainty, 1)} from the measurements (k = 2)"
    unknown = "" if score.complete else f"; the range is left open by what is not known: {unknown_words(standing.candidate)}"
    held = f"; {note}" if warns else ""
    count = score.beyond
    beyond = f"; {counted(count, 'number')} beyond {'its' if count == 1 else 'their'} scale, where more no longer counts" if count else ""
    return f"Of 100, {doubt}; {technical}{unknown}{beyond}{held}."


def badge_sentence(result: UnitResult) -> str:
    """What the bench says of the badge on the box, in a sentence."""
    badge = result.badge
    if badge.claimed == "none":
        if badge.supported == "none":
            return "The box claims no efficiency badge, and the bench found no level that it reaches."
        return f"The box claims no efficiency badge; measured here, not certified, it reaches {BADGES[badge.supported]}."
    claimed = BADGES[badge.claimed]
    if badge.outcome == "not_tested":
        return _untested_badge(result, claimed)
    short = [row for row in badge.rows if row.outcome in ("fail", "conditional_fail") and row.found]
    if not short:
        return _holding_badge(badge, claimed)
    where = listed(tuple(f"{number(row.load_pct, 0)} %" for row in short))
    word = "does not hold" if badge.outcome == "fail" else "is within the doubt of the reading"
    supports = BADGES[badge.supported] if badge.supported != "none" else "no level"
    return f"The {claimed} badge {word} at {where} load; the bench supports {supports}."


def _holding_badge(badge: BadgeVerdict, claimed: str) -> str:
    """A claim that no load contradicts: by how much it holds, rounded down, or where that is within the doubt."""
    told = badge.told
    but = ("" if told is None or told.found is None or told.found.quantity.value >= told.floor else
           f" Its power factor of {number(told.found.quantity.value, 2)} at {number(told.load_pct, 0)} % load lies under the {number(told.floor, 2)} "
           "that we remember the level to ask for at this mains; we have not seen that in writing, so it decides nothing.")
    close = tuple(row for row in badge.rows if row.found and row.outcome == "conditional_pass")
    if close:
        where = listed(tuple(f"{number(row.load_pct, 0)} %" for row in close))
        return f"The {claimed} badge holds at every load tested, at {where} load only within the doubt of the reading.{but}"
    margin = min(row.found.quantity.value - row.floor for row in badge.rows if row.found and row.what == "efficiency")
    least = math.floor(round(10 * margin, 6)) / 10
    return f"The {claimed} badge holds at every load tested, by {with_unit(least, 'points', 1)} or more.{but}"


def _untested_badge(result: UnitResult, claimed: str) -> str:
    """A claim that the bench can't settle: no session at its mains, none there of this revision, or a load never reached."""
    badge = result.badge
    measured = [row for row in badge.rows if row.found is not None]
    if not measured:
        there = [one.record.sample.hardware_revision for one in result.sessions if one.mains_volts == mains_of(badge.mains_class)]
        if there and result.revision not in there:
            return (f"The {claimed} badge was not tested in hardware revision {result.revision} at its own mains voltage; "
                    f"what was measured there is of revision {there[-1]}.")
        return f"The {claimed} badge was not tested at its own mains voltage."
    absent = listed(tuple(f"{number(row.load_pct, 0)} %" for row in badge.rows if row.found is None))
    return f"The {claimed} badge holds at the loads tested; {absent} load is missing, so it is not confirmed."


def construction_facts(result: UnitResult, words: Words) -> tuple[Fact, ...]:
    """What is inside, as facts."""
    build, fan = result.unit.record.construction, result.unit.record.fan
    bulk, output = build.bulk_capacitors, build.output_capacitors
    facts = (
        Fact(label=words.say("inside.primary"), text=PRIMARIES[build.primary]),
        Fact(label=words.say("inside.secondary"), text=SECONDARIES[build.secondary]),
        Fact(
            label=words.say("inside.bulk"),
            text=f"{bulk.count} × {with_unit(bulk.capacitance_uf, 'µF', 0)}, {with_unit(bulk.voltage_v, 'V', 0)}, "
            f"{with_unit(bulk.temperature_c, '°C', 0)}, {MAKER_CLASSES[bulk.maker_class]}",
        ),
        Fact(
            label=words.say("inside.output"),
            text=f"{'polymer and electrolytic' if output.polymer else 'electrolytic'}, "
            f"{with_unit(output.temperature_c, '°C', 0)}, {MAKER_CLASSES[output.maker_class]}",
        ),
        Fact(label=words.say("inside.inrush"), text=INRUSH_LIMITERS[build.inrush_limiter]),
        Fact(
            label=words.say("inside.fan"),
            text=f"{with_unit(fan.size_mm, 'mm', 0)}, {BEARINGS[fan.bearing]} bearing, "
            f"{'stands still at low load' if fan.semi_passive else 'always turning'}",
        ),
    )
    return (*facts, Fact(label=words.say("inside.remarks"), text=build.remarks)) if build.remarks else facts
