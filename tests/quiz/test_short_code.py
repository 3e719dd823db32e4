"""Codes of results: what is written is read, and no slip of a typist passes."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.quiz.short_code import (
    MOST_DAYS,
    MOST_MARKS,
    SIGNS,
    Mark,
    Result,
    Slip,
    page_words,
    read_code,
    write_code,
)

marks = st.one_of(
    st.just(Mark(picked=None)),
    st.builds(Mark, picked=st.integers(0, 2), is_sure=st.booleans(), took=st.integers(0, 3)),
)
results = st.builds(
    Result,
    page=st.integers(0, 2**30 - 1),
    paper=st.integers(0, 31),
    day=st.integers(0, MOST_DAYS),
    marks=st.lists(marks, max_size=MOST_MARKS).map(tuple),
    nickname=st.text(max_size=31).filter(lambda text: len(text.encode()) <= 31),
)


@pytest.fixture(scope="module")
def fifty() -> list[Result]:
    rng = random.Random("codes")
    return [
        Result(
            page=rng.getrandbits(30),
            paper=rng.randrange(6),
            day=rng.randrange(60),
            marks=tuple(
                Mark(picked=None)
                if rng.random() < 0.1
                else Mark(
                    picked=rng.randrange(3), is_sure=rng.random() < 0.5, took=rng.randrange(4)
                )
                for _ in range(rng.choice([1, 5, 10, 12, 20]))
            ),
            nickname=rng.choice(["", "Wren", "Zoë"]),
        )
        for _ in range(50)
    ]


@given(results)
def test_a_code_says_what_was_put_into_it(result: Result):
    assert read_code(write_code(result)) == result


@given(results, st.randoms(use_true_random=False))
def test_it_is_read_as_people_write_it(result: Result, rng: random.Random):
    as_typed = "".join(
        rng.choice((sign, sign.lower(), {"0": "o", "1": "l"}.get(sign, sign)))
        + rng.choice(("", "", "", " ", "\n", "\r\n> ", "\u2011", "\u200b"))
        for sign in write_code(result)
    )

    assert read_code(as_typed) == result


def test_no_single_slip_passes_at_any_place_of_fifty_codes(fifty):
    for result in fifty:
        code = write_code(result)
        for place, sign in enumerate(code):
            if sign == "-":
                continue
            for other in SIGNS:
                if other != sign:
                    told = read_code(code[:place] + other + code[place + 1 :])
                    assert isinstance(told, Slip)
                    assert told.groups == (place // 7 + 1,)


def test_no_sign_left_out_or_typed_twice_or_swapped_passes(fifty):
    for result in fifty:
        code = write_code(result).replace("-", "")
        for place in range(len(code)):
            assert isinstance(read_code(code[:place] + code[place + 1 :]), Slip)
            assert isinstance(read_code(code[:place] + code[place] + code[place:]), Slip)
            swapped = code[:place] + code[place : place + 2][::-1] + code[place + 2 :]
            if swapped != code:
                assert isinstance(read_code(swapped), Slip)


def test_groups_left_out_or_in_another_order_do_not_pass(fifty):
    for result in fifty:
        groups = write_code(result).split("-")
        for place in range(len(groups)):
            assert isinstance(read_code("-".join(groups[:place] + groups[place + 1 :])), Slip)
            turned = [*groups[:place], *groups[place : place + 2][::-1], *groups[place + 2 :]]
            if turned != groups:
                assert isinstance(read_code("-".join(turned)), Slip)


def test_a_code_of_twenty_answers_is_short():
    result = Result(page=2**30 - 1, paper=5, day=200, marks=(Mark(picked=2),) * 20, nickname="Wren")

    assert len(write_code(result)) <= 70
    assert len(write_code(Result(page=1, paper=0, day=0, marks=(Mark(picked=1),) * 10))) <= 48


def test_a_damaged_code_says_where():
    code = write_code(Result(page=77, paper=0, day=3, marks=(Mark(picked=0),) * 6))
    second = code.split("-")[1]
    broken = code.replace(second, "Z" + second[1:] if second[0] != "Z" else "Y" + second[1:])

    told = read_code(broken)

    assert isinstance(told, Slip)
    assert told.sentence.startswith(f'group 2 ("{broken.split("-")[1]}") does not fit')


@pytest.mark.parametrize(
    ("text", "start"),
    [
        ("", "there is no code here"),
        ("  - \n", "there is no code here"),
        ("U00000", '"U" does not occur in a code; it stands in group 1'),
        ("123456 7?", '"?" does not occur in a code; it stands in group 2'),
        ("12345", "the code has 5 signs"),
    ],
)
def test_what_is_no_code_is_said_to_be_none(text, start):
    told = read_code(text)

    assert isinstance(told, Slip)
    assert told.sentence.startswith(start)


@given(st.text(max_size=120))
def test_no_text_breaks_the_reader(text: str):
    told = read_code(text)

    assert isinstance(told, Slip | Result)


def test_a_long_nickname_is_cut_between_characters():
    told = read_code(
        write_code(
            Result(page=1, paper=0, day=0, marks=(), nickname="\N{TENNIS RACQUET AND BALL}" * 9)
        )
    )

    assert isinstance(told, Result)
    assert told.nickname == "\N{TENNIS RACQUET AND BALL}" * 7


def test_the_number_of_a_page_is_six_signs():
    assert page_words(0) == "000000"
    assert page_words(2**30 - 1) == "ZZZZZZ"
