"""The drawing of shots: nothing hides anything, and no words run over the edge."""

import re
from itertools import combinations
from math import hypot

from hypothesis import given
from hypothesis import strategies as st

from tactics.flight.court import FULL_SINGLES, Stage, court_for
from tactics.report.court_scene import CourtScene, Flight, Mark, Way, What
from tactics.report.html.label_places import free_place, label_at
from tactics.report.html.shot_svg import shot_svg

SHEET = st.tuples(st.floats(0, 700), st.floats(0, 300))
ARC = [(10.0 * step, 200.0 - step * (40 - step) * 0.3) for step in range(41)]


@given(st.lists(SHEET, max_size=4), SHEET)
def test_a_number_finds_a_place_of_its_own(taken, wanted):
    place = free_place(wanted, taken, 19.0)

    assert all(hypot(place[0] - x, place[1] - y) >= 19.0 for x, y in taken)


def test_numbers_of_balls_that_fly_alike_stand_apart_and_above_the_ground():
    places = []
    for _ in range(5):
        places.append(label_at(ARC, [ARC] * 4, places, 191.0))

    apart = [hypot(a[0] - b[0], a[1] - b[1]) for a, b in combinations(places, 2)]

    assert min(apart) >= 13.0
    assert all(y <= 191.0 for _, y in places)


def drawn(court, labels):
    far = 0.7 * court.half_length_m
    landings = tuple(
        Mark(what=What.LANDING, x_m=0.3, y_m=far, text=str(number))
        for number in range(1, len(labels) + 1)
    )
    scene = CourtScene(
        court=court,
        marks=(*landings, Mark(what=What.PLAYER, x_m=0.0, y_m=-court.half_length_m)),
        ways=tuple(Way(start=(0.0, -far), end=(0.3, far), number=n + 1) for n in range(2)),
    )
    flights = [Flight(number=1, places=((-far, 1.0), (0.0, 2.0), (far, 0.03)))]
    return shot_svg(scene, flights, labels)


LONG = "direction crosscourt, depth very deep, height over net 2 m, inside line 2.41 m, pace 65 %"


def test_shots_that_land_in_one_place_show_every_number():
    page = drawn(FULL_SINGLES, [LONG, LONG, LONG])

    circles = re.findall(r'class="landing" cx="([\d.]+)" cy="([\d.]+)"', page)
    places = [(float(x), float(y)) for x, y in circles]

    assert len(places) == 3
    assert all(hypot(a[0] - b[0], a[1] - b[1]) >= 19 for a, b in combinations(places, 2))
    assert page.count('class="leader"') == 2


def test_words_stay_on_the_sheet_and_a_shot_that_is_none_is_called_so():
    pages = [drawn(court_for(stage), [LONG, f"as the rules advise: {LONG}"]) for stage in Stage]

    words = [text for page in pages for text in re.findall(r'<text x="[^>]*>([^<]*)<', page)]

    assert max(map(len, words)) <= 92
    assert all('width="720.0"' in page for page in pages)
    assert all("(no shot)" in page for page in pages)
    assert all("1.8 times" in page for page in pages)
