"""Power factor at nominal loads and over load."""

from guidegen.evaluation.measures import power_factor
from tests.evaluation.invented import found, value, with_points


def test_power_factor_at_nominal_loads() -> None:
    """As the analyser showed it, to three decimals."""
    made = power_factor.measure(with_points(power_factor=(0.91, 0.96, 0.98, 0.99)))

    assert [0.91, 0.96, 0.99] == [value(made, f"power_factor.at_{load}") for load in (20, 50, 100)]
    assert {3} == {finding.decimals for finding in made.findings}
    assert {0.002} == {finding.quantity.shared for finding in made.findings}


def test_the_course_has_every_load_also_those_without_a_finding() -> None:
    """80 % is on the curve, and no row of the table."""
    made = power_factor.measure(with_points(power_factor=(0.91, 0.96, 0.98, 0.99)))

    assert [0.91, 0.96, 0.98, 0.99] == [p.quantity.value for p in made.curves[0].points]
    assert "power_factor.at_80" not in found(made)
