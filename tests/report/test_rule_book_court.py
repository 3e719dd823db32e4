"""The court to scale, as shapes and as a small drawing: who stands where, which side is which."""

from hypothesis import given
from hypothesis import strategies as st

from tactics.model.standard import STANDARD
from tactics.report.court_picture import Picture, Spot, picture_of
from tactics.report.court_text import ASCII
from tactics.report.html.court_svg import CourtDrawing, draw_court
from tactics.report.rule_book_court import side_names, small_court
from tests.strategies import situations

SPOTS = st.none() | st.builds(Spot, x_m=st.floats(-30, 30), y_m=st.floats(-30, 30))
PICTURES = st.builds(
    Picture,
    player=SPOTS,
    opponent=SPOTS,
    source=SPOTS,
    bounce=SPOTS,
    target=SPOTS,
    forehand_is_right=st.booleans(),
    their_forehand_is_right=st.booleans(),
    is_doubles=st.booleans(),
)


def box(drawing: CourtDrawing) -> tuple[float, float, float, float]:
    x, y, width, height = map(float, drawing.box.split())
    return x, y, x + width, y + height


def test_the_court_has_the_measures_of_the_rules() -> None:
    single, double = draw_court(Picture(), ""), draw_court(Picture(is_doubles=True), "")

    assert single.ground[2:] == (82.3, 237.7)
    assert double.ground[2] == 109.7
    assert next(s for s in single.strokes if s.kind == "net").y1 == 0.0
    assert len([s for s in double.strokes if s.kind == "line"]) > len(
        [s for s in single.strokes if s.kind == "line"]
    )


@given(st.floats(-6, 6), st.floats(-13, 13))
def test_a_place_is_drawn_ten_units_a_metre_from_the_middle_of_the_net(x: float, y: float) -> None:
    drawing = draw_court(Picture(player=Spot(x_m=x, y_m=y)), "")

    player = next(mark for mark in drawing.marks if mark.kind == "player")
    assert abs(player.x - 10 * x) <= 0.05 + 1e-9
    assert abs(player.y + 10 * y) <= 0.05 + 1e-9


def test_lines_and_net_lie_where_the_rules_put_them() -> None:
    drawing = draw_court(Picture(), "")

    lines = [stroke for stroke in drawing.strokes if stroke.kind == "line"]
    net = next(stroke for stroke in drawing.strokes if stroke.kind == "net")
    assert {s.y1 for s in lines if s.y1 == s.y2} == {-118.8, 118.8, -64.0, 64.0}
    assert {s.x1 for s in lines if s.x1 == s.x2} == {-41.2, 41.2, 0.0}
    assert (net.x1, net.x2) == (-50.3, 50.3)


def test_sides_are_named_by_the_hand_of_each_player() -> None:
    right = draw_court(Picture(), "")
    left = draw_court(Picture(forehand_is_right=False, their_forehand_is_right=False), "")

    assert [n.text for n in right.names][:4] == [
        "their forehand", "their backhand", "backhand side", "forehand side",
    ]  # fmt: skip
    assert [n.text for n in left.names][:4] == [
        "their backhand", "their forehand", "forehand side", "backhand side",
    ]  # fmt: skip
    assert side_names(Picture(forehand_is_right=False)) == ("forehand side", "backhand side")


@given(PICTURES)
def test_everything_drawn_lies_on_the_sheet(picture: Picture) -> None:
    drawing = draw_court(picture, "Somewhere.")
    left, top, right, bottom = box(drawing)

    places = [(mark.x, mark.y) for mark in drawing.marks]
    places += [(stroke.x1, stroke.y1) for stroke in drawing.strokes]
    places += [(stroke.x2, stroke.y2) for stroke in drawing.strokes]

    assert all(left <= x <= right and top <= y <= bottom for x, y in places)
    assert bool(drawing.arrow) == (picture.player is not None and picture.target is not None)


@given(PICTURES)
def test_a_small_court_keeps_its_size_and_shows_the_player(picture: Picture) -> None:
    rows = small_court(picture, ASCII)

    assert len(rows) == 7
    assert max(map(len, rows)) <= 33
    assert ("@" in "".join(rows)) == (picture.player is not None)


@given(situations())
def test_every_situation_can_be_drawn_and_told(situation: object) -> None:
    picture = picture_of(situation, {}, STANDARD)

    drawing = draw_court(picture, "A ball.")

    assert drawing.says.startswith("A ball. Court seen from above")
