"""The court picture of pages: its names stay off its lines."""

import pytest

from tactics.report.court_picture import Picture
from tactics.report.html.court_svg import draw_court

LETTER_UNITS, HEIGHT_UNITS = 6.5, 9.0


@pytest.mark.parametrize("is_doubles", [False, True], ids=["singles", "doubles"])
def test_the_name_of_the_net_is_not_struck_through_by_it(is_doubles: bool) -> None:
    drawing = draw_court(Picture(is_doubles=is_doubles), "")
    (name,) = [each for each in drawing.names if each.text == "net"]
    (net,) = [each for each in drawing.strokes if each.kind == "net"]
    left, top = name.x - 1.5 * LETTER_UNITS, name.y - HEIGHT_UNITS

    assert left > max(net.x1, net.x2) or not top <= net.y1 <= name.y
