"""Facts asked one by one."""

import io

import pytest

from tactics.cli.asking import next_question
from tactics.cli.main import safely
from tactics.cli.rule_files import load_rules
from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.model.choice import Choice
from tactics.model.known import number
from tactics.model.situation import Situation, in_words
from tests.cli.printed import RULES
from tests.golden import Golden


def advisor() -> Advisor:
    """Return the advisor of the evening group's rules."""
    rules = load_rules([str(RULES)]).reading.value
    assert rules is not None
    return compile_rules(rules)


def test_the_phase_of_the_point_is_asked_first() -> None:
    question = next_question(advise(advisor(), Situation()), set())

    assert question is not None
    assert question.name == "game situation"


def test_the_fact_on_which_most_rules_hang_is_asked_next() -> None:
    far = in_words(game_situation="baseline rally").with_facts({"steps to the ball": number(6)})

    question = next_question(advise(advisor(), far), set())

    assert question is not None
    assert question.name == "incoming depth"


def test_a_fact_that_was_passed_over_is_not_asked_again() -> None:
    rally = in_words(game_situation="baseline rally", balance="moving")

    question = next_question(advise(advisor(), rally), {"incoming depth"})

    assert question is not None
    assert question.name != "incoming depth"


def test_nothing_is_asked_that_changes_nothing() -> None:
    facing = in_words(game_situation="opponent at net")

    assert next_question(advise(advisor(), facing), set()) is None


@pytest.mark.parametrize(
    ("name", "answers"),
    [
        pytest.param("asked-to-the-end", ["baseline rally", "set", "", "outside"] + [""] * 9,
                     id="to-the-end"),
        pytest.param("asked-with-a-slip", ["raly", "?", "rally", "stop"], id="a-slip"),
        pytest.param("asked-and-closed", ["opponent at net"], id="end-of-input"),
    ],
)  # fmt: skip
def test_a_conversation_reads_exactly_so(
    name: str,
    answers: list[str],
    golden: Golden,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{each}\n" for each in answers)))

    code = safely(["advise", "--ask", "--rules", str(RULES)])

    assert code == 0
    golden(f"advice/{name}.txt", capsys.readouterr().out)


def test_with_a_choice_only_what_decides_its_verdict_is_asked() -> None:
    rally = in_words(game_situation="baseline rally", ball_line="inside")
    told = advise(advisor(), rally)

    question = next_question(told, set(), Choice.of({"depth": number(10)}))

    assert question is not None
    assert question.name == "incoming depth"
    assert next_question(told, {"incoming depth"}, Choice.of({"depth": number(10)})) is None
