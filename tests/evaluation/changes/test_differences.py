"""Records held against each other, field by field."""

from dataclasses import replace

from guidegen.evaluation import record_differences
from guidegen.records import Anchor, Library


def found(before: object, after: object) -> list[tuple[str, object, object]]:
    """What differs, as plain triples."""
    return [(one.field, one.before, one.after) for one in record_differences(before, after)]


def test_entries_are_matched_by_name_and_not_by_place(small_library: Library) -> None:
    """Criteria in another order (a rotation) with one weight changed: one field differs."""
    policy = small_library.policy
    changed = (*policy.criteria[2:], replace(policy.criteria[0], points=50.0), policy.criteria[1])

    assert [("criteria[efficiency].points", 70.0, 50.0)] == found(policy, replace(policy, criteria=changed))


def test_an_entry_that_came_or_went_is_told_as_a_whole(small_library: Library) -> None:
    """A gate left out, and a limit that is there now."""
    policy = small_library.policy
    fewer = replace(policy, gates=policy.gates[:1])

    assert [("gates[ripple]", "there", None)] == found(policy, fewer)
    assert [("gates[ripple]", None, "there")] == found(fewer, policy)


def test_entries_with_two_names_are_matched_by_both(small_library: Library) -> None:
    """Prices are anchored by region and bracket."""
    part = small_library.policy.criteria[-1].parts[0]

    assert [("local_anchors[ie 550]", "there", None)] == found(part, replace(part, local_anchors=part.local_anchors[1:]))


def test_a_scale_is_told_in_words(small_library: Library) -> None:
    """Worth by worth, as the policy has it."""
    part = small_library.policy.criteria[0].parts[0]
    moved = replace(part, anchors=(Anchor(at=80.0, worth=0.0), Anchor(at=94.0, worth=1.0)))

    assert [("anchors", "0 at 82, 1 at 94", "0 at 80, 1 at 94")] == found(part, moved)


def test_words_that_decide_nothing_are_no_difference(small_library: Library) -> None:
    """A reason or a note in other words leaves every number as it was."""
    unit, criterion = small_library.units[0].record, small_library.policy.criteria[0]

    assert [] == found(unit, replace(unit, editor_note="Said otherwise."))
    assert [] == found(criterion, replace(criterion, reason="Said otherwise."))


def test_a_list_whose_entries_share_a_name_is_told_by_number(small_library: Library) -> None:
    """Two kinds of cable with the same plug."""
    unit = small_library.units[0].record
    twice = replace(unit, cables=(unit.cables[0], unit.cables[0]))
    longer = replace(unit, cables=(unit.cables[0], replace(unit.cables[0], length_mm=1.0)))

    assert [("cables[1].length_mm", unit.cables[0].length_mm, 1.0)] == found(twice, longer)
