import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.flight import constants
from tactics.flight.court import FULL_SINGLES, Area, Format, Stage, court_for

SIDELINE_M = 4.115


@pytest.mark.parametrize(
    ("court", "height"),
    [
        (court_for(), 1.042),
        (court_for(has_singles_sticks=False), 1.014),
        (court_for(format_=Format.DOUBLES), 1.014),
    ],
    ids=["sticks", "no sticks", "doubles"],
)
def test_the_net_at_the_singles_sideline(court, height):
    assert court.net_height_m(SIDELINE_M) == pytest.approx(height, abs=0.0006)


def test_the_net_rises_from_strap_to_support_and_no_further():
    heights = FULL_SINGLES.net_height_m([0.0, 5.029, -5.029, 9.0])

    assert heights == pytest.approx([0.914, 1.07, 1.07, 1.07])


@given(st.floats(0, 6), st.sampled_from(Stage), st.sampled_from(Format))
def test_the_net_is_the_same_on_both_sides(x, stage, format_):
    court = court_for(stage, format_)

    assert court.net_height_m(x) == court.net_height_m(-x)
    assert court.strap_height_m <= court.net_height_m(x) <= court.support_height_m


@pytest.mark.parametrize(
    ("x", "y", "is_in"),
    [
        (0.0, 11.885, True),
        (0.0, 11.91, True),
        (0.0, 11.92, False),
        (4.14, 5.0, True),
        (-4.15, 5.0, False),
        (0.0, 0.0, False),
        (0.0, -1.0, False),
    ],
)
def test_a_ball_that_touches_a_line_is_in(x, y, is_in):
    box = FULL_SINGLES.box()

    assert box is not None
    assert box.contains(x, y) == is_in


def test_service_boxes_lie_across_from_the_server():
    right, left = FULL_SINGLES.box(Area.FROM_RIGHT), FULL_SINGLES.box(Area.FROM_LEFT)

    assert right is not None
    assert left is not None
    assert right.contains([-2.0, 2.0, -2.0], [6.0, 6.0, 6.5]).tolist() == [True, False, False]
    assert left.contains([-2.0, 2.0, 0.0], [6.0, 6.0, 6.0]).tolist() == [False, True, True]


@pytest.mark.parametrize(("area", "sign"), [(Area.FROM_RIGHT, 1), (Area.FROM_LEFT, -1)])
def test_a_serve_may_touch_the_far_half_of_the_centre_line(area, sign):
    box = FULL_SINGLES.box(area)

    assert box is not None
    assert box.contains([sign * 0.054, sign * 0.056], [5.0, 5.0]).tolist() == [True, False]


def test_service_boxes_of_doubles_are_those_of_singles():
    assert court_for(format_=Format.DOUBLES).box(Area.FROM_LEFT) == FULL_SINGLES.box(Area.FROM_LEFT)


def test_small_courts_have_no_service_box_until_they_are_given_a_line():
    assert court_for(Stage.ORANGE).box(Area.FROM_LEFT) is None
    assert court_for(Stage.ORANGE, service_line_m=4.9).box(Area.FROM_LEFT) is not None


def test_courts_grow_from_stage_to_stage():
    sizes = [court_for(stage) for stage in Stage]

    assert [2 * court.half_length_m for court in sizes] == pytest.approx(
        [10.97, 18.29, 23.77, 23.77]
    )
    assert all(court.ball.mass_kg < 0.052 for court in sizes[:3])


def test_doubles_is_wider():
    assert court_for(format_=Format.DOUBLES).half_width_m == pytest.approx(5.485)


def test_inside_line_is_negative_outside():
    assert FULL_SINGLES.inside_line_m(np.array([0.0, 3.0, -4.5])) == pytest.approx(
        [4.115, 1.115, -0.385]
    )


def test_every_constant_lies_in_its_own_range_and_names_its_source():
    records = [each for each in vars(constants).values() if isinstance(each, constants.Constant)]
    records += [*constants.RESTITUTION.values(), *constants.FRICTION.values()]
    balls = constants.STAGE_BALLS.values()
    records += [each for ball in balls for each in (ball.mass, ball.radius, ball.rebound)]

    assert len(records) > 24
    assert all(each.low <= each.value <= each.high for each in records)
    assert all(each.source and each.unit for each in records)
