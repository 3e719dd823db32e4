"""Papers that travel: what is packed is unpacked, and results find their questions again."""

import bz2
import json
from base64 import b64encode, b85encode
from dataclasses import replace
from datetime import date
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.cli.rule_files import load_rules
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.model.scenario import Credit
from tactics.quiz.generate import make_quizzes
from tactics.quiz.handing_out import day_words, page_of
from tactics.quiz.handout import (
    Handout,
    Paper,
    dealt,
    even_days,
    handout_in,
    handout_out,
    on_paper,
    packed,
    returned,
    unpacked,
)
from tactics.quiz.packing import data_of, text_of
from tactics.quiz.record import values_out
from tactics.quiz.requests import Request
from tactics.quiz.short_code import Mark, Result
from tactics.report.html.quiz_page import quiz_html
from tests.strategies import choices, situations

MOST_BYTES = 135_000
SIXTY = 6, 10


@cache
def advisor_of(name: str) -> Advisor:
    rules = load_rules([name], with_drills=False).reading.value
    assert rules is not None
    return compile_rules(rules, "matcher")


@cache
def sixty(name: str) -> Handout:
    advisor, (papers, count) = advisor_of(name), SIXTY
    requests = [Request(seed=f"paper/{number}", count=count) for number in range(papers)]
    days = even_days(date(2026, 2, 27), papers, 2)
    made = zip(days, make_quizzes(advisor, requests), strict=True)
    return Handout(
        made=days[0],
        nickname="Wren",
        rules_name=advisor.rules.name,
        papers=tuple(Paper(day=day, quiz=on_paper(quiz)) for day, quiz in made),
    )


@pytest.fixture(scope="module")
def handout() -> Handout:
    return sixty("singles-club")


@pytest.mark.parametrize("name", ["singles-club", "doubles-club"])
def test_a_page_of_sixty_questions_is_small_and_carries_them_all(name):
    handout = sixty(name)

    page = quiz_html(page_of(handout, advisor_of(name).vocabulary))

    assert len(page.encode()) <= MOST_BYTES
    assert unpacked(page) == handout
    assert page.count("<article") == handout.questions > 57
    assert handout.name in page


def test_what_is_packed_is_unpacked_and_keeps_its_number(handout):
    again = unpacked(packed(handout))

    assert again == handout
    assert again is not None
    assert again.number == handout.number
    assert handout_in(handout_out(handout)) == handout
    assert replace(handout, nickname="Lark").number != handout.number


def test_a_page_carries_its_papers_in_signs_that_html_leaves_alone(handout):
    assert not set(packed(handout)) & set(" \n&<>'\"\\")


def test_a_page_of_the_first_kind_is_still_read_under_its_number(handout):
    told = handout_out(handout)
    for paper in told["papers"]:
        for question in paper["scenarios"]:
            question["flip"] = None
    page = b64encode(bz2.compress(json.dumps(told).encode())).decode()

    again = unpacked(page)

    assert again is not None
    assert again.papers[0].quiz.scenarios[0].options == handout.papers[0].quiz.scenarios[0].options
    assert again.number == unpacked(packed(again)).number == replace(again, printed=None).number


def test_a_number_that_is_printed_stays_however_questions_are_written_later(handout):
    printed = replace(handout, printed=handout.number ^ 1)

    assert unpacked(packed(printed)).number == handout.number ^ 1


@given(st.text(alphabet="ABCabc+/=019 <>", max_size=80), st.sampled_from(["", "2:"]))
def test_what_is_no_page_is_none(text, mark):
    assert unpacked(mark + text) is None
    assert unpacked(f'<script type="text/plain" id="papers">{mark}{text}</script>') is None


@pytest.mark.parametrize(
    "told",
    [
        pytest.param(b"0" * 20_000_000, id="without an end"),
        pytest.param(b"[" * 3_000_000, id="nested deeper than anything"),
        pytest.param(b'{"papers": [{"scenarios": 7}]}', id="of another shape"),
        pytest.param(b'{"number": 1e9, "papers": []}', id="numbered by a fraction"),
    ],
)
def test_a_page_that_unpacks_to_something_else_is_none(told):
    squeezed = bz2.compress(told)

    assert unpacked(b64encode(squeezed).decode()) is None
    assert unpacked(f"2:{b85encode(squeezed).decode()}") is None


@given(situations(), situations(), choices())
def test_values_written_briefly_are_read_as_they_were(before, after, choice):
    question = {
        "situation": {name: values_out(known) for name, known in before.facts},
        "options": [{"choice": {name: values_out(known) for name, known in choice.parts}}],
        "flip": {"situation": {name: values_out(known) for name, known in after.facts}},
    }
    data = {"papers": [{"scenarios": [question, {**question, "flip": None}]}]}

    assert data_of(text_of(data)) == data


def test_marks_become_answers_on_their_day(handout):
    scenarios = handout.papers[2].quiz.scenarios
    marks = [Mark(picked=each.sound, is_sure=True, took=1) for each in scenarios]
    marks[1] = Mark(picked=(scenarios[1].sound + 1) % 3)
    marks[2] = Mark(picked=None)
    result = Result(page=handout.number, paper=2, day=4, marks=tuple(marks))

    answers = returned(handout, result)

    assert answers is not None
    assert {each.day for each in answers} == {date(2026, 3, 3)}
    assert [each.credit for each in answers[:4]] == [
        Credit.FULL,
        Credit.NONE,
        None,
        Credit.FULL,
    ]
    assert [each.sure for each in answers[:3]] == [True, False, None]
    assert [each.rule for each in answers] == [each.rule for each in scenarios]
    assert answers[0].took_ms == 30_000


@pytest.mark.parametrize(
    "change",
    [{"page": 0}, {"paper": 6}, {"marks": (Mark(picked=0),) * 9}],
    ids=["another page", "no such paper", "too few answers"],
)
def test_a_result_of_something_else_is_none(handout, change):
    result = Result(page=handout.number, paper=0, day=0, marks=(Mark(picked=0),) * 10)

    assert returned(handout, result) is not None
    assert returned(handout, replace(result, **change)) is None


@given(
    st.lists(st.text("abc", min_size=1, max_size=3), unique=True, max_size=25),
    st.integers(1, 9),
    st.integers(1, 12),
)
def test_rules_are_dealt_to_papers_at_even_gaps(rules, papers, length):
    hands = dealt(rules, papers, length)

    assert len(hands) == papers
    assert all(set(hand) <= set(rules) and len(set(hand)) == len(hand) for hand in hands)
    groups = -(-len(rules) // length)
    assert all(hands[place] == hands[place - groups] for place in range(groups, papers) if groups)
    if papers >= groups:
        assert {rule for hand in hands for rule in hand} == set(rules)


def test_days_are_even_and_said_as_people_say_them():
    days = even_days(date(2028, 2, 28), 3, 2)

    assert [day_words(day) for day in days] == ["28 February 2028", "1 March 2028", "3 March 2028"]
