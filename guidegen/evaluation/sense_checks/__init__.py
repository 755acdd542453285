"""Numbers that can't be: found before a reader finds them. To add a rule: a function, and a line in the tuple."""

from dataclasses import dataclass
from functools import partial
from hashlib import sha256

from guidegen.evaluation.sense_checks import (
    courses,
    energy,
    facts,
    floors,
    hold_ups,
    loads,
    magnitude,
    occasions,
    outlines,
    prices,
    spans,
    temperatures,
    trips,
)
from guidegen.evaluation.sense_checks.acceptance import NOTHING, acceptance, entries, idle_entries
from guidegen.evaluation.sense_checks.shapes import (
    AcceptedObjection,
    Clash,
    Objection,
    Occasion,
    Rule,
    SenseRecords,
    session_rule,
    unit_rule,
)
from guidegen.recalling import Recall, anew

RULES: tuple[Rule, ...] = (
    session_rule("energy-balance", "an efficiency above 98 %, or below 20 % from 5 W on", energy.balance),
    session_rule("power-factor", "a power factor above 1, below 0.02, or below 0.3 from 20 % load on", energy.power_factor),
    session_rule("input-rises", "input power that does not grow although more is delivered", energy.input_rises),
    session_rule("standby-power", "a standby power more than 10 W above what the rail delivers, or above that of a higher standby load", energy.standby),
    session_rule("loss-curve", "a loss in watts that falls towards a higher load, or lies off the curve of the loads beside it, by more than 1 % of the rating and 2 % of the load", courses.losses),
    session_rule("rail-powers", "volts times amperes of the rails that miss the delivered power by more than 2 % (standby alone: 20 %)", loads.rail_powers),
    session_rule("load-share", "a nominal load more than 3 points, or a factor of 2, from delivered power over rating", loads.load_share),
    session_rule("other-rating", "loads of which none lies near 10, 20, 50 or 100 % of the rating, as in a log of another unit", loads.of_another_rating),
    session_rule("readings-twice", "two load points with the very same readings", loads.readings_twice),
    Rule(name="sessions-twice", looks_at="two sessions with the very same load points", check=loads.sessions_twice),
    session_rule("kilowatts", "a power that makes sense only in kW", magnitude.kilowatts),
    session_rule("rail-voltage", "a rail more than 20 % off its nominal voltage, such as one in mV", magnitude.rail_voltages),
    session_rule("span", "a reading that no supply can have, such as one in another unit (`spans.py` has them all)", spans.of_session),
    unit_rule("fact-span", "a fact of the box that no supply can have, such as one in another unit", spans.of_unit),
    unit_rule("outline", "a width or a height more than 5 mm from those of the form factor, such as two sizes that changed places", outlines.outline),
    session_rule("ripple-floor", "ripple of 0, or below the instrument's floor", floors.ripple),
    session_rule("noise-floor", "levels below the background or below the meter's floor", floors.noise),
    session_rule("noise-falls", "a level more than 5 dB above that of a higher load", courses.noise_falls),
    session_rule("exhaust-colder", "exhaust air colder than intake air by more than 0.5 °C", temperatures.exhaust),
    session_rule("colder-than-room", "air more than 5 °C colder than the room", temperatures.room),
    session_rule("mains", "a mains that is neither 115 to 120 V nor 230 V (within 5 %), or neither 50 nor 60 Hz", occasions.mains),
    session_rule("before-release", "a session before the unit's release", occasions.before_release),
    session_rule("calibration", "an instrument whose calibration had run out on the day", occasions.calibration),
    session_rule("trip-below-held", "a protection that would act below a load, current or voltage that was held", trips.below_held),
    session_rule("trip-above-held", "an under-voltage trip above a steady voltage of its rail", trips.above_held),
    session_rule("trip-without-acting", "a trip point of a protection that did not act or was not tested", trips.without_acting),
    session_rule("power-good-late", "a power-good that falls less than 1 ms before the rails (T6)", hold_ups.power_good),
    session_rule("not-tested-why", "a protection not tested without the reason", trips.without_reason),
    session_rule("semi-passive", "a fan that turns at the lightest load of 10 % or less, or stands at any, against what unit.yaml says", facts.semi_passive),
    unit_rule("plug-before-standard", "a 12V-2x6 plug beside a standard older than ATX 3.x", facts.plug_before_standard),
    unit_rule("cables", "more cables than plugs, or words of modular cables where all are fixed", facts.cables),
    unit_rule("cables-twice", "the very same cable in two rows", facts.cables_twice),
    unit_rule("rail-ratings", "rails that together may not give the rated power, or one that alone may give far more", facts.rail_ratings),
    unit_rule("claims-twice", "a protection claimed twice", facts.claims_twice),
    unit_rule("predecessor-later", "a predecessor released after its successor", facts.predecessor),
    unit_rule("revision-behind", "a unit record of another hardware revision than its newest sample", facts.revision_behind),
    unit_rule("withdrawn-early", "a unit withdrawn before its release", occasions.withdrawn_early),
    unit_rule("withdrawn-late", "a unit withdrawn after the edition's day", occasions.withdrawn_late),
    Rule(name="units-twice", looks_at="two units of the same maker, model, revision and rated power", check=facts.units_twice),
    Rule(name="price-outlier", looks_at="a price more than three times the unit's median in the region, or below a third of it",
         check=prices.outliers),
    Rule(name="price-twice", looks_at="two rows of prices for the same unit, shop and day", check=prices.twice),
)
"""All rules, in the order in which their objections to one field are told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SenseFindings:
    """What the sense checks say of the records."""

    objections: tuple[Objection, ...]
    """What has to be put right or accepted."""
    accepted: tuple[AcceptedObjection, ...]
    """What the editor lets stand, in the order of the rules."""

    def accepted_of(self, unit_file: str) -> tuple[AcceptedObjection, ...]:
        """What was accepted in the records of a unit, by the file of its unit record."""
        folder = unit_file.rpartition("/")[0] + "/"
        return tuple(one for one in self.accepted if one.objection.holder.startswith(folder))


def check_sense(records: SenseRecords, recall: Recall = anew) -> SenseFindings:
    """Every rule's objections, those apart that the editor accepted with a reason; what sessions say alone is recalled."""
    lists, known = entries(records), _of_sessions(records, recall)
    pairs = [(one, acceptance(one, lists)) for rule in RULES for one in rule.objections(records, known)]
    accepted = tuple(pair[1] for pair in pairs if pair[1] is not None)
    idle = idle_entries(records, accepted, rules=tuple(rule.name for rule in RULES))
    return SenseFindings(objections=(*(one for one, let in pairs if let is None), *idle), accepted=accepted)


def _of_sessions(records: SenseRecords, recall: Recall) -> dict[str, list[tuple[str, Clash]]]:
    """What the rules about sessions find, by rule."""
    found: dict[str, list[tuple[str, Clash]]] = {}
    guide = sha256(repr(records.guide).encode()).hexdigest()
    for one in records.places():
        session, unit = one.session.digest, one.unit.digest
        key = f"{one.session.file} {session} {unit} {guide}"
        for rule, clash in recall("sense", key, partial(_clashes, one)) if session and unit else _clashes(one):
            found.setdefault(rule, []).append((one.session.file, clash))
    return found


def _clashes(one: Occasion) -> tuple[tuple[str, Clash], ...]:
    """What rules about sessions find in one, each with the rule's name."""
    return tuple((rule.name, clash) for rule in RULES if rule.on_session is not None for clash in rule.on_session(one))


__all__ = [
    "NOTHING",
    "RULES",
    "AcceptedObjection",
    "Clash",
    "Objection",
    "Occasion",
    "Rule",
    "SenseFindings",
    "SenseRecords",
    "check_sense",
]
