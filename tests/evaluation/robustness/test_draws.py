"""Draws that brackets have in common."""

from guidegen.evaluation.robustness.draws import any_weights, near_weights


def test_weights_in_common_cannot_be_changed() -> None:
    """They are drawn once and handed out again, so nobody may write into them."""
    one, again = near_weights(7, {"a": 0.25, "b": 0.75}), near_weights(7, {"a": 0.25, "b": 0.75})

    assert one is again
    assert (False, False) == (one.flags.writeable, any_weights(7, ("a", "b")).flags.writeable)
