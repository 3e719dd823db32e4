"""The net with the ball over it: to scale, and the same in words."""

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.report.court_picture import Picture, Spot
from tactics.report.html.net_svg import UNITS_A_METRE, NetDrawing, draw_net


def drawn(low: float, high: float, *, x_m: float = 0.0, to_m: float | None = None) -> NetDrawing:
    target = Spot(x_m=x_m if to_m is None else to_m, y_m=10.0)
    found = draw_net(
        Picture(player=Spot(x_m=x_m, y_m=-10.0), target=target, over_net_m=(low, high))
    )
    assert found is not None
    return found


def test_over_the_strap_the_height_is_measured_from_the_strap() -> None:
    found = drawn(0.5, 0.5)

    assert found.bottom == pytest.approx(-UNITS_A_METRE * (0.914 + 0.5), abs=0.05)
    assert found.top == found.bottom
    assert "0,-27.4" in found.net


def test_at_the_post_the_net_is_higher_and_ends() -> None:
    found = drawn(0.5, 0.5, x_m=4.115 + 0.914)

    assert found.bottom == pytest.approx(-UNITS_A_METRE * (1.07 + 0.5), abs=0.05)
    assert found.net.endswith("0,0")


def test_the_whole_ball_is_on_the_sheet_up_to_a_lob() -> None:
    found = drawn(2.5, 2.5)
    _, sky, _, _ = map(float, found.box.split())

    assert found.bottom - 3.5 >= sky


@given(st.floats(0, 12), st.floats(0, 12), st.floats(-7, 7), st.floats(-7, 7))
def test_whatever_the_height_it_stays_on_the_sheet(
    low: float, more: float, x_m: float, to_m: float
) -> None:
    found = drawn(low, low + more, x_m=x_m, to_m=to_m)
    _, sky, _, _ = map(float, found.box.split())

    assert sky <= found.top <= found.bottom <= 0


@pytest.mark.parametrize(
    ("low", "high", "says"),
    [
        pytest.param(0.2, 0.2, "0.2 m over the net", id="one height"),
        pytest.param(0.3, 0.7, "0.3 to 0.7 m over the net", id="band"),
        pytest.param(1.3, inf, "1.3 m or more over the net", id="at least"),
        pytest.param(1.2192, 1.2192, "1.22 m over the net", id="four feet"),
    ],
)
def test_a_height_is_said_as_it_is_known(low: float, high: float, says: str) -> None:
    assert drawn(low, high).says == says


def test_without_a_way_or_a_height_no_net_is_drawn() -> None:
    here = Spot(x_m=0.0, y_m=-10.0)

    assert draw_net(Picture(player=here, target=here)) is None
    assert draw_net(Picture(over_net_m=(0.5, 0.5))) is None
