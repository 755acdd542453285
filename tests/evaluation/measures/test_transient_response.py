"""Transient response: the swing of each rail, and whether the step was as large as the design guide's."""

import pytest

from guidegen.evaluation.measures import transient_response
from guidegen.records import Transient
from tests.evaluation.invented import bench, found, value


def step(to_a: float, low: float = 11.8, high: float = 12.2) -> Transient:
    """A step on 12 V from 10 A."""
    return Transient(rail="12v", from_a=10.0, to_a=to_a, lowest_v=low, highest_v=high)


def test_the_lowest_and_highest_of_all_steps_of_a_rail() -> None:
    """From different steps, each with its own origin."""
    made = transient_response.measure(bench(transients=(step(40.0, 11.7, 12.2), step(40.0, 11.8, 12.4))))

    assert (11.7, 12.4) == tuple(value(made, f"transient_response.12v.{w}") for w in ("lowest", "highest"))
    assert [0, 1] == [found(made)[f"transient_response.12v.{w}"].origins[0].path[1] for w in ("lowest", "highest")]


@pytest.mark.parametrize(("to_a", "smaller"), [(35.0, False), (34.0, True)])
def test_a_step_below_the_design_guides_says_so(to_a: float, smaller: bool) -> None:
    """336521 table 4-3: 40 % of 62.5 A on 12 V is 25 A."""
    lowest = found(transient_response.measure(bench(transients=(step(to_a),))))["transient_response.12v.lowest"]

    assert smaller == lowest.note.endswith("Smaller than the 25.0 A of the design guide.") == lowest.milder


def test_no_steps_no_findings() -> None:
    """Not tested is not zero."""
    assert () == transient_response.measure(bench()).findings
