"""What the editor accepts stands; what matches nothing is a fault of its own."""

from dataclasses import replace

from guidegen.evaluation import SenseFindings, SenseRecords, check_sense
from guidegen.evaluation.sense_checks import NOTHING
from guidegen.records import Accepted
from tests.evaluation.invented import FILE, UNIT, unit
from tests.evaluation.sense_checks.planted import MIDDLE, PRICES, UNIT_FILE, of_unit, priced, records, with_point

FIELD = f"load_points[{MIDDLE}].input_power_w"
REASON = "Looked into."


def let(rule: str, field: str) -> tuple[Accepted, ...]:
    """An ``accepted`` list of one entry."""
    return (Accepted(rule=rule, field=field, reason=REASON),)


def too_little(*, accepted: tuple[Accepted, ...]) -> SenseFindings:
    """A session with more out than in at half load, and what its record accepts."""
    points = with_point(input_power_w=374.0).sessions[0].record.load_points
    return check_sense(records(load_points=points, accepted=accepted))


def test_an_accepted_objection_is_no_fault_and_keeps_what_was_said() -> None:
    """It moves from one list to the other, with the reason."""
    found = too_little(accepted=let("energy-balance", FIELD))
    (one,) = found.accepted

    assert () == found.objections
    assert ("energy-balance", FIELD, "374 W in for 375 W delivered", REASON) == (
        one.objection.rule, one.objection.origin.field, one.objection.came, one.accepted.reason)


def test_acceptance_is_of_one_field_and_one_rule() -> None:
    """Another field, or another rule on the same field, lets nothing stand; the entry is then idle."""
    for entry in (let("energy-balance", "load_points[5].input_power_w"), let("kilowatts", FIELD)):
        found = too_little(accepted=entry)

        assert () == found.accepted
        assert ["energy-balance", NOTHING] == [one.rule for one in found.objections]


def test_an_entry_that_matches_nothing_is_named_with_its_place() -> None:
    """The field of the entry, and what it was meant to accept."""
    (one,) = check_sense(records(accepted=let("calibration", "instruments[0]"))).objections

    assert (NOTHING, FILE, "accepted[0].field", "calibration on instruments[0]") == (
        one.rule, one.origin.file, one.origin.field, one.came)


def test_a_misspelt_rule_is_answered_with_the_nearest() -> None:
    """As with every other name."""
    (one,) = check_sense(records(accepted=let("calibrations", "instruments[0]"))).objections

    assert ("accepted[0].rule", "calibration") == (one.origin.field, one.nearest)


def test_a_unit_record_accepts_what_is_said_of_it() -> None:
    """In ``unit.yaml``, beside the contradiction."""
    twice = replace(UNIT.record.claims, protections=("scp", "scp"))
    found = check_sense(of_unit(claims=twice, accepted=let("claims-twice", "claims.protections[1]")))

    assert ((), 1) == (found.objections, len(found.accepted))


def test_a_unit_record_accepts_a_price_by_region_day_and_shop() -> None:
    """Rows of a table move, so a price is named by what it is; the row's path does as well."""
    for field in ("here 2026-01-22 A shop", "[3].price"):
        accepting = replace(priced(99.0, 98.0, 97.0, 979.0), units=(unit(accepted=let("price-outlier", field)),))
        found = check_sense(accepting)

        assert ((), [(UNIT_FILE, PRICES)]) == (
            found.objections, [(one.objection.holder, one.objection.origin.file) for one in found.accepted])


def test_a_session_accepts_nothing_for_its_unit() -> None:
    """Each file answers for itself."""
    twice = replace(UNIT.record.claims, protections=("scp", "scp"))
    found = check_sense(records(units=(unit(claims=twice),), accepted=let("claims-twice", "claims.protections[1]")))

    assert ["claims-twice", NOTHING] == [one.rule for one in found.objections]


def test_idle_entries_wait_until_all_can_be_read() -> None:
    """A unit's entry on a price is not idle because the price list could not be read."""
    units = (unit(accepted=let("price-outlier", "here 2026-01-22 A shop")),)
    unread = SenseRecords(guide=records().guide, units=units, sessions=(), complete=False)

    assert [] == list(check_sense(unread).objections)
    assert [NOTHING] == [one.rule for one in check_sense(replace(unread, complete=True)).objections]


def test_what_was_accepted_is_found_by_unit() -> None:
    """A unit's page shows what its own records accept."""
    found = too_little(accepted=let("energy-balance", FIELD))

    assert found.accepted == found.accepted_of(UNIT.file)
    assert () == found.accepted_of("units/an-invented/unit.yaml")
