import math

import pytest

from tactics.flight.court import Stage, court_for
from tactics.flight.limits import Quantity, check_numbers, limits_for


@pytest.mark.parametrize(
    ("quantity", "value", "sentence"),
    [
        (
            Quantity.CONTACT_HEIGHT,
            -0.2,
            "contact height -0.2 m cannot be: 0.03 to 4 m is possible "
            "(from a ball on the ground to the highest jump with a racket)",
        ),
        (
            Quantity.COURT_DEPTH,
            25.0,
            "distance from the net 25 m cannot be: 0 to 21.88 m is possible "
            "(between the net and the back fence)",
        ),
        (
            Quantity.PACE,
            400.0,
            "pace 400 km/h cannot be: 5 to 270 km/h is possible "
            "(slower is no stroke, and no human hits harder)",
        ),
        (
            Quantity.TOPSPIN,
            9000.0,
            "topspin 9000 rpm cannot be: -7000 to 7000 rpm is possible "
            "(no human spins the ball more)",
        ),
        (
            Quantity.HEIGHT_OVER_NET,
            -0.1,
            "height over net -0.1 m cannot be: 0 to 25 m is possible (below 0 is in the net)",
        ),
        (
            Quantity.NET_CROSSING,
            6.0,
            "place over the net, from its middle 6 m cannot be: -5.03 to 5.03 m is possible "
            "(further out there is no net, and this model knows no ball around the post)",
        ),
        (
            Quantity.OPPONENT_WIDTH,
            20.0,
            "opponent's distance from the middle 20 m cannot be: -12.12 to 12.12 m is possible "
            "(between the side fences)",
        ),
        (
            Quantity.PACE,
            math.nan,
            "pace nan km/h cannot be: 5 to 270 km/h is possible "
            "(slower is no stroke, and no human hits harder)",
        ),
    ],
)
def test_an_impossible_number_is_named_with_its_range(quantity, value, sentence):
    (remark,) = check_numbers({quantity: value})

    assert remark.is_impossible
    assert remark.sentence == sentence


@pytest.mark.parametrize(
    ("quantity", "value", "sentence"),
    [
        (
            Quantity.PACE,
            250.0,
            "pace 250 km/h is unusual: 20 to 235 km/h is common; it was computed all the same",
        ),
        (
            Quantity.WIND_ACROSS,
            -45.0,
            "wind across the court -45 km/h is unusual: -32 to 32 km/h is common; "
            "it was computed all the same",
        ),
    ],
)
def test_an_odd_number_is_flagged_and_computed(quantity, value, sentence):
    (remark,) = check_numbers({quantity: value})

    assert not remark.is_impossible
    assert remark.sentence == sentence


def test_usual_numbers_earn_no_remark():
    assert not check_numbers(
        {Quantity.CONTACT_HEIGHT: 0.95, Quantity.COURT_DEPTH: 12.6, Quantity.PACE: 104.0}
    )


def test_impossible_numbers_come_first():
    remarks = check_numbers({Quantity.PACE: 250.0, Quantity.TOPSPIN: 9000.0})

    assert [remark.quantity for remark in remarks] == [Quantity.TOPSPIN, Quantity.PACE]


@pytest.mark.parametrize("stage", Stage)
def test_every_number_has_a_range_on_every_court(stage):
    limits = limits_for(court_for(stage))

    assert set(limits) == set(Quantity)
    assert all(
        each.low <= each.usual_low < each.usual_high <= each.high for each in limits.values()
    )


def test_a_small_court_is_smaller():
    place = {Quantity.LANDING_DEPTH: 9.0}

    assert not check_numbers(place)
    assert check_numbers(place, court_for(Stage.RED))[0].is_impossible
