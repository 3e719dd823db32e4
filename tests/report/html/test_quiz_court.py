"""The court of a question on the page: figures of options never hide one another."""

from hypothesis import given
from hypothesis import strategies as st

from tactics.report.court_picture import Picture, Spot
from tactics.report.html.quiz_court import quiz_court

NOBODY = Picture()
SPOTS = st.builds(Spot, x_m=st.floats(-4.1, 4.1), y_m=st.floats(1.0, 11.8))


@given(st.tuples(SPOTS, SPOTS, SPOTS))
def test_figures_of_options_stand_apart(aims: tuple[Spot, Spot, Spot]) -> None:
    figures = quiz_court(NOBODY, NOBODY, aims).aims

    assert [each.text for each in figures] == ["1", "2", "3"]
    pairs = [(figures[0], figures[1]), (figures[0], figures[2]), (figures[1], figures[2])]
    assert all(abs(one.x - other.x) >= 12 or abs(one.y - other.y) >= 13 for one, other in pairs)


def test_figures_that_have_room_stand_where_the_options_aim() -> None:
    figures = quiz_court(NOBODY, NOBODY, (Spot(x_m=-3.0, y_m=10.0), Spot(x_m=3.0, y_m=4.0))).aims

    assert [(each.x, each.y) for each in figures] == [(100, -25), (40, 35)]
