"""What a drill file becomes."""

import pytest

from tactics.model.drill import Catalogue
from tactics.problem import Reading
from tactics.reading.codes import Code
from tactics.reading.drills import one_catalogue, read_drills
from tactics.source import Source

LADDER = """\
drills:
  diagonal-ladder:
    title: Diagonal ladder
    minutes: 15 min
    trains: [low-ball-long-road, sore-today]
    set up: Two players rally crosscourt.
    scoring: One point a ball.
    harder: Deeper.
    easier: Feed by hand.
    safety: No balls lying about.
    strains: serve
"""


def read(text: str) -> Reading[Catalogue]:
    return read_drills(Source(name="drills.yaml", text=text))


def test_a_drill_says_what_was_written() -> None:
    reading = read(LADDER)

    assert reading.problems == ()
    assert reading.value is not None
    drill = reading.value.find("diagonal-ladder")
    assert drill is not None
    assert (drill.minutes, drill.trains) == (15, ("low-ball-long-road", "sore-today"))
    assert (drill.strains, drill.safety) == (("serve",), "No balls lying about.")


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("15 min", "a while", Code.WORD_FOR_NUMBER),
        ("15 min", "0", Code.WORD_FOR_NUMBER),
        ("    scoring: One point a ball.\n", "", Code.MISSING_KEY),
        ("harder", "hader", Code.UNKNOWN_KEY),
        ("Deeper.", "[deeper, faster]", Code.ONE_VALUE),
        ("drills:", "drill:", Code.UNKNOWN_KEY),
    ],
)
def test_a_slip_in_a_drill_leaves_it_out(old: str, new: str, code: Code) -> None:
    reading = read(LADDER.replace(old, new))

    assert [problem.code for problem in reading.problems] == [code]
    assert not reading.is_usable


def test_of_two_drills_with_one_id_the_later_file_counts() -> None:
    first, second = read(LADDER).value, read(LADDER.replace("15", "20")).value
    assert first is not None
    assert second is not None

    assert [drill.minutes for drill in one_catalogue([first, second]).drills] == [20]
