"""`name=value` and files of facts."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.cli.arguments import arguments_source, combined, read_arguments, read_facts
from tactics.model.choice import Choice
from tactics.model.known import NOT_APPLICABLE, NOT_SEEN, OneOf, Within, at_least, number, word
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD
from tactics.source import Source


def told(*written: str) -> dict:
    """Return the facts and parts that arguments give; they must be without a problem."""
    read = read_arguments(arguments_source(written), STANDARD)

    assert read.value is not None
    assert read.problems == ()
    return {**read.value[0].as_dict(), **read.value[1].as_dict()}


@pytest.mark.parametrize(
    ("written", "name", "known"),
    [
        pytest.param("balance=set", "balance", word("set"), id="word"),
        pytest.param("Contact_Height = 0.7", "contact height", number(0.7), id="folded-name"),
        pytest.param("steps=6", "steps to the ball", number(6), id="other-name"),
        pytest.param("court depth=40 ft", "court depth", number(12.192), id="imperial"),
        pytest.param("balance=set,moving", "balance", OneOf(frozenset({"set", "moving"})),
                     id="several-words"),
        pytest.param("opponent depth=at least 9.1 m", "opponent depth", Within((at_least(9.1),)),
                     id="comparison"),
        pytest.param("balance=not seen", "balance", NOT_SEEN, id="not-seen"),
        pytest.param("serve side=not applicable", "serve side", NOT_APPLICABLE, id="no-such"),
        pytest.param("direction=straight", "direction", word("straight"), id="part"),
        pytest.param("choose.direction=straight", "direction", word("straight"), id="choose"),
    ],
)  # fmt: skip
def test_an_argument_says_a_fact_or_a_part(written: str, name: str, known: object) -> None:
    assert told(written) == {name: known}


def test_facts_and_parts_do_not_mix() -> None:
    read = read_arguments(arguments_source(["balance=set"], ["pace=90 %"]), STANDARD)

    assert read.value == (
        Situation.of({"balance": word("set")}),
        Choice.of({"pace": number(90)}),
    )


def test_what_comes_later_counts() -> None:
    first = (Situation.of({"balance": word("set"), "wind": word("none")}), Choice())
    second = (Situation.of({"balance": word("moving")}), Choice.of({"pace": number(90)}))

    assert combined(first, second) == (
        Situation.of({"balance": word("moving"), "wind": word("none")}),
        Choice.of({"pace": number(90)}),
    )


def test_a_file_of_facts_may_put_the_choice_apart() -> None:
    text = "given:\n  balance: set\nchoose: {direction: [straight, middle]}\n"

    read = read_facts(Source(name="facts.yaml", text=text), STANDARD)

    assert read.problems == ()
    assert read.value == (
        Situation.of({"balance": word("set")}),
        Choice.of({"direction": OneOf(frozenset({"straight", "middle"}))}),
    )


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("", id="empty"),
        pytest.param("- balance\n", id="list"),
        pytest.param("choose: straight\n", id="no-section"),
        pytest.param("balance: {set: yes}\n", id="section"),
        pytest.param("balance: [set, [moving]]\n", id="list-in-list"),
        pytest.param("balance:\n", id="no-value"),
    ],
)
def test_a_file_of_another_shape_is_a_problem(text: str) -> None:
    read = read_facts(Source(name="facts.yaml", text=text), STANDARD)

    assert len(read.problems) >= 1


def test_a_line_of_a_rule_file_is_shown_as_it_is_written_here() -> None:
    read = read_arguments(arguments_source(["wing: forehand"]), STANDARD)

    assert [each.hint for each in read.problems] == ['here it is written "wing=forehand"']


@given(st.lists(st.text(max_size=40)))
def test_no_argument_whatever_makes_the_reader_raise(written: list[str]) -> None:
    source = arguments_source(written)

    read = read_arguments(source, STANDARD)

    assert all(1 <= problem.span.line <= len(source.lines) for problem in read.problems)
