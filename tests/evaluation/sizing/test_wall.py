"""Plug meter and parts: there and back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.errors import RequestError
from guidegen.evaluation import Assessment
from guidegen.evaluation.sizing import delivered_from_wall, delivered_through, lost_w, wall_from_delivered
from guidegen.evaluation.sizing.wall import checked_power


@given(st.floats(1, 3000), st.floats(50, 99))
def test_there_and_back_is_where_one_started(wall_w: float, efficiency_pct: float) -> None:
    """Delivered behind the wall, and the wall before what is delivered."""
    assert wall_w == pytest.approx(wall_from_delivered(delivered_from_wall(wall_w, efficiency_pct), efficiency_pct))


@given(st.floats(1, 3000), st.floats(50, 98))
def test_a_better_supply_loses_less(delivered_w: float, efficiency_pct: float) -> None:
    """Heat falls with efficiency and is never below nothing."""
    assert lost_w(delivered_w, efficiency_pct) > lost_w(delivered_w, efficiency_pct + 1) > 0


def test_the_measured_loss_leads_back_to_a_measured_load(small: Assessment) -> None:
    """Wall power of a load point, read backwards, is that load point."""
    loss = small.results[0].curve("loss")
    assert loss is not None
    for point in loss.points[1:-1]:
        assert point.load_w == pytest.approx(delivered_through(point.load_w + point.quantity.value, loss) or 0.0)


def test_beyond_the_measured_loads_nothing_is_said(small: Assessment) -> None:
    """Neither below the lightest nor above the heaviest."""
    loss = small.results[0].curve("loss")
    assert loss is not None

    assert (None, None) == (delivered_through(1.0, loss), delivered_through(5000.0, loss))


@pytest.mark.parametrize("value", [0.0, -5.0, float("nan"), float("inf"), 20_000.0])
def test_what_can_be_no_computer_is_refused(value: float) -> None:
    """The message says what came and what was expected."""
    with pytest.raises(RequestError) as raised:
        checked_power(value, "plug-meter reading")

    assert f"plug-meter reading of {value:g} W: expected more than 0 and at most 10000 W" == str(raised.value)
