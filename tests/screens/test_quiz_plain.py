"""The quiz line by line: heard in order, for pipes and screen readers."""

from collections.abc import Iterator

import pytest

from tactics.screens.plain import Talk, run_talk
from tactics.screens.quiz_closing import closing_lines
from tactics.screens.view import End
from tests.golden import Golden
from tests.screens.questions import HEIGHT, SHOT, TO_SERVE, WHERE
from tests.screens.sittings import AHEAD, Behind, Set, lines, seated


def talked(seats: Set, answers: list[str], *, plain_signs: bool = False) -> tuple[str, End]:
    """Return everything said and typed in a quiz, and how it ended."""
    heard: list[str] = []
    waiting: Iterator[str] = iter(answers)

    def read() -> str:
        answer = next(waiting, None)
        if answer is None:
            raise EOFError
        heard.append(f"< {answer}")
        return answer

    talk = lines(seats)
    end = run_talk(Talk(ask=talk.ask, take=talk.take, plain_signs=plain_signs), heard.append, read)
    return "\n".join(heard) + "\n", end


def test_a_whole_quiz_reads_like_this(golden: Golden) -> None:
    seats = seated(SHOT, TO_SERVE, HEIGHT, WHERE)
    answers = ["3", "s", "i  too far for me", "c", "3", "n", ""]
    answers += ["2", "s", "", "l", "", "3", "s", ""]

    said, end = talked(seats, answers)

    closing = closing_lines(seats.sitting.state, AHEAD)
    golden("quiz_screens/plain.txt", said + "\n".join(closing) + "\n")
    assert end is End.FINISHED
    assert len(seats.notebook.kept) == 5
    assert seats.notebook.remarks == ["too far for me"]


def test_the_order_is_question_answers_picture() -> None:
    said, _ = talked(seated(SHOT), [])

    parts = ["Which shot would you play?", "1: Force", "3: Build", "On the court:", "Type 1, 2"]
    places = [said.index(part) for part in parts]
    assert places == sorted(places)


def test_the_target_is_not_told_before_the_answer() -> None:
    said, _ = talked(seated(WHERE), ["3", "s"])

    asked, answered = said.split("How sure are you?")
    assert "target is" not in asked
    assert "The target is 1.5 m inside the left sideline" in answered


@pytest.mark.parametrize("answer", ["4", "yes", "-1", "²", "", "sound"])
def test_what_is_no_answer_is_asked_again(answer: str) -> None:
    seats = seated(SHOT)

    said, end = talked(seats, [answer, "2", "s"])

    assert "That was not one of the answers." in said
    assert end is End.STOPPED
    assert len(seats.notebook.kept) == 1


def test_r_says_it_again() -> None:
    said, _ = talked(seated(SHOT), ["r", "2", "r", "s", "r"])

    assert said.count("Which shot would you play?") == 2
    assert said.count("Why: ") == 2


def test_a_line_for_the_coach_without_words_is_asked_for() -> None:
    seats = seated(SHOT)

    said, _ = talked(seats, ["1", "s", "i", "i I would wait"])

    assert "Type i and your words on one line, then Enter." in said
    assert seats.notebook.remarks == ["I would wait"]


@pytest.mark.parametrize("answers", [["q"], ["2", "q"], ["2", "s", "q"]], ids=len)
def test_q_stops_at_any_time(answers: list[str]) -> None:
    seats = seated(SHOT, TO_SERVE)

    _, end = talked(seats, answers)

    assert end is End.FINISHED
    assert seats.sitting.state.is_stopped
    assert len(seats.notebook.kept) == answers.count("s")


def test_a_full_disk_ends_the_quiz_without_feedback() -> None:
    seats = seated(SHOT)
    seats.notebook.full = "The disk is full."

    said, end = talked(seats, ["2", "s"])

    assert end is End.FINISHED
    assert "Why:" not in said


def test_the_rest_is_begun_once_the_first_question_was_heard() -> None:
    behind = Behind((TO_SERVE,))

    said, end = talked(seated(SHOT, behind=behind, planned=2), ["2", "s", "", "2", "n", ""])

    assert behind.begun > 0
    assert "Question 2 of 2" in said
    assert end is End.FINISHED
