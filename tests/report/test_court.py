"""The court picture: places in metres, then characters."""

import pytest
from hypothesis import given

from tactics.model.known import Within, at_least, number, word
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD
from tactics.report.court_picture import Picture, Spot, middle_of, picture_of
from tactics.report.court_text import ASCII, court_lines
from tests.report.test_sentences import situation
from tests.strategies import situations

WIDE = {
    "game_situation": "baseline rally",
    "wing": "forehand",
    "court_depth": number(13.0),
    "court_width": number(4.5),
    "opponent_depth": number(12.0),
    "opponent_width": number(0.5),
    "own_hand": "right",
    "opponent_hand": "right",
}
ACROSS = {"direction": word("crosscourt"), "inside line": number(1.5), "depth": number(10.0)}


def test_the_forehand_side_of_a_right_hander_is_to_the_right() -> None:
    picture = picture_of(situation(**WIDE), ACROSS, STANDARD)

    assert picture.player == Spot(x_m=4.5, y_m=-13.0)
    assert picture.opponent == Spot(x_m=-0.5, y_m=12.0)


def test_a_crosscourt_ball_goes_to_the_other_half_inside_its_line() -> None:
    picture = picture_of(situation(**WIDE), ACROSS, STANDARD)

    assert picture.target is not None
    assert picture.target.x_m == pytest.approx(-(4.115 - 1.5))
    assert picture.target.y_m == 10.0


@pytest.mark.parametrize(
    ("road", "x_m"),
    [
        pytest.param("straight", 2.615, id="straight"),
        pytest.param("middle", 0.0, id="middle"),
        pytest.param("behind", -0.5, id="behind"),
    ],
)
def test_a_road_leads_to_its_side(road: str, x_m: float) -> None:
    picture = picture_of(situation(**WIDE), {**ACROSS, "direction": word(road)}, STANDARD)

    assert picture.target is not None
    assert picture.target.x_m == pytest.approx(x_m)


@pytest.mark.parametrize(("intent", "past_net_m"), [("drop", 2.2), ("dip at the feet", 5.8)])
def test_a_short_ball_is_drawn_short_though_no_depth_is_said(
    intent: str, past_net_m: float
) -> None:
    wanted = {"direction": word("straight"), "intent": word(intent)}

    picture = picture_of(situation(**WIDE), wanted, STANDARD)

    assert picture.target is not None
    assert picture.target.y_m == past_net_m


def test_no_ball_comes_in_to_a_server() -> None:
    serve = situation(**WIDE | {"game_situation": "serving", "serve_side": "deuce"})

    picture = picture_of(serve, {"direction": word("T")}, STANDARD)

    assert picture.opponent is not None
    assert picture.source is None


@given(situations())
def test_two_left_handers_are_the_mirror_image(facts: Situation) -> None:
    seen = facts.with_facts({"own hand": word("right"), "opponent hand": word("right")})

    right = picture_of(seen, ACROSS, STANDARD)
    left = picture_of(seen.mirrored(), ACROSS, STANDARD)

    assert flipped(left) == right


def flipped(picture: Picture) -> Picture:
    """Return a picture with left and right exchanged."""

    def turn(spot: Spot | None) -> Spot | None:
        return None if spot is None else Spot(x_m=-spot.x_m + 0.0, y_m=spot.y_m)

    return Picture(
        player=turn(picture.player),
        opponent=turn(picture.opponent),
        source=turn(picture.source),
        bounce=turn(picture.bounce),
        target=turn(picture.target),
        forehand_is_right=not picture.forehand_is_right,
        their_forehand_is_right=not picture.their_forehand_is_right,
        is_doubles=picture.is_doubles,
        notes=picture.notes,
    )


def test_the_ball_bounces_on_its_way_to_the_player() -> None:
    picture = picture_of(situation(**WIDE, incoming_depth=number(7.0)), ACROSS, STANDARD)

    assert picture.bounce is not None
    assert picture.bounce.y_m == -7.0
    assert -0.5 < picture.bounce.x_m < 4.5


def test_who_was_not_seen_is_not_drawn_and_said() -> None:
    picture = picture_of(situation(court_depth="behind"), ACROSS, STANDARD)

    assert (picture.player, picture.opponent, picture.target) == (None, None, None)
    assert court_lines(picture) == (
        "  (No court is drawn: court depth and court width say where the player is.)",
    )


@pytest.mark.parametrize(
    ("side", "road", "x_m"),
    [
        pytest.param("deuce", "wide", -3.315, id="deuce-wide"),
        pytest.param("deuce", "T", -0.5, id="deuce-middle"),
        pytest.param("ad", "wide", 3.315, id="ad-wide"),
    ],
)
def test_a_serve_goes_into_the_box_across(side: str, road: str, x_m: float) -> None:
    served = situation(game_situation="serving", serve_side=side)

    picture = picture_of(served, {"direction": word(road)}, STANDARD)

    assert picture.target is not None
    assert picture.target.x_m == pytest.approx(x_m)


@pytest.mark.parametrize(
    ("fact", "known", "drawn_at"),
    [
        pytest.param("court depth", "behind", 13.9, id="band"),
        pytest.param("court depth", "close net", 1.5, id="lowest-band"),
        pytest.param("court depth", "far behind", 15.9, id="open-band"),
        pytest.param("court width", "wide backhand", -5.115, id="open-side"),
        pytest.param("opponent depth", Within((at_least(9.1),)), 10.1, id="half-line"),
    ],
)
def test_an_uncertain_place_is_drawn_in_its_middle(
    fact: str, known: object, drawn_at: float
) -> None:
    trait = STANDARD.trait(fact)
    value = trait.value_of(known) if isinstance(known, str) else known

    assert middle_of(value, trait) == pytest.approx(drawn_at)  # type: ignore[arg-type]


@given(situations())
def test_any_picture_fits_a_small_terminal(facts: Situation) -> None:
    lines = court_lines(picture_of(facts, ACROSS, STANDARD), ASCII)

    assert len(lines) <= 21
    assert all(len(line) <= 80 and line.isascii() for line in lines)


def test_a_doubles_court_has_alleys() -> None:
    picture = picture_of(situation(**WIDE, format="doubles"), {}, STANDARD)

    singles = court_lines(picture_of(situation(**WIDE), {}, STANDARD), ASCII)

    assert len(court_lines(picture, ASCII)) == len(singles) + 2
