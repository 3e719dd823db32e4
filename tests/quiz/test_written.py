"""Quiz files against their rules: the shipped ones, and what holds for any."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tactics.engine.advise import advise
from tactics.engine.judge import judge
from tactics.model.choice import Choice
from tactics.model.known import word
from tactics.model.names import fold
from tactics.model.scenario import Ask, Scenario
from tactics.model.verdict import BROKEN, Grade
from tactics.quiz.ladders import boldness
from tactics.quiz.written_asks import plain_choice
from tactics.source import Source
from tests.golden import CASES
from tests.quiz.written_quizzes import SHIPPED, advisor_of, asked, read, source_of

NAMES = {path.stem for path in SHIPPED}
BY_NAME = pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)


def grades_by_the_rules(source: Source, scenario: Scenario) -> list[Grade]:
    """Return the evaluator's own grades of the options."""
    advisor = advisor_of(source)
    advice = advise(advisor, scenario.situation)
    if scenario.ask is Ask.NAME:
        names = [fold(name) for name in advisor.program.term_names]
        holding = {name for name, truth in zip(names, advice.terms, strict=True) if truth == 2}
        return [
            Grade.SOUND if fold(option.term) in holding else Grade.UNSOUND
            for option in scenario.options
        ]
    given = scenario.context.as_dict()
    return [
        judge(Choice.of({**given, **option.choice.as_dict()}), advice).grade
        for option in scenario.options
    ]


def test_the_quizzes_that_a_player_looks_for_are_there() -> None:
    wanted = {"low-balls", "pulled-wide", "net-and-passing", "serve-and-return"}

    assert wanted | {"orange-court", "doubles"} <= NAMES


@BY_NAME
def test_a_shipped_quiz_has_no_problem_and_ten_to_fourteen_questions(path: Path) -> None:
    source = source_of(path)
    written, _ = read(source)
    scenarios, problems = asked(source)

    assert problems == ()
    assert written is not None
    assert 10 <= len(written.scenarios) == len(scenarios) <= 14
    assert written.about
    assert all(each.note and each.answer for each in written.scenarios)


@BY_NAME
def test_exactly_one_option_is_sound_and_none_acceptable_by_the_evaluator(path: Path) -> None:
    source = source_of(path)
    for scenario in asked(source)[0]:
        grades = grades_by_the_rules(source, scenario)

        assert grades == [option.grade for option in scenario.options]
        assert [place for place, grade in enumerate(grades) if grade is Grade.SOUND] == [
            scenario.sound
        ]
        assert {grade for grade in grades if grade is not Grade.SOUND} <= BROKEN


@BY_NAME
def test_no_habit_answers_a_shipped_quiz(path: Path) -> None:
    shots = [each for each in asked(source_of(path))[0] if each.ask is not Ask.NAME]
    bold = [[boldness(plain_choice(o.choice)) for o in each.options] for each in shots]
    length = [[float(len(o.text)) for o in each.options] for each in shots]
    earned = {
        "safest": sum(share(each, min, s.sound) for each, s in zip(bold, shots, strict=True)),
        "boldest": sum(share(each, max, s.sound) for each, s in zip(bold, shots, strict=True)),
        "longest": sum(share(each, max, s.sound) for each, s in zip(length, shots, strict=True)),
    }

    assert max(earned.values()) <= 0.6 * len(shots), earned


def share(measures: list[float], best: Callable[[list[float]], float], sound: int) -> float:
    """Return what a habit earns: one, shared where several options look alike to it."""
    chosen = [place for place, each in enumerate(measures) if each == best(measures)]
    return (sound in chosen) / len(chosen)


@BY_NAME
def test_a_changed_fact_turns_the_answer_as_it_says(path: Path) -> None:
    source = source_of(path)
    turned = [each for each in asked(source)[0] if each.flip is not None]
    for scenario in turned:
        assert scenario.flip is not None
        changed = scenario.situation.with_facts(scenario.flip.situation.as_dict())
        options = list(scenario.options)
        if scenario.flip.answer is not None:
            options[scenario.flip.sound] = scenario.flip.answer
        there = Scenario(
            **{
                **{name: getattr(scenario, name) for name in Scenario.__dataclass_fields__},
                "situation": changed,
                "options": tuple(options),
            }
        )
        grades = grades_by_the_rules(source, there)

        assert scenario.flip.sound != scenario.sound
        assert grades[scenario.flip.sound] not in BROKEN
        assert tuple(grades) == scenario.flip.grades
    assert len(turned) > 4


@BY_NAME
def test_a_shipped_question_says_what_would_turn_it(path: Path) -> None:
    scenarios = asked(source_of(path))[0]
    silent = [each.seed for each in scenarios if each.flip is None and not each.is_steady]

    assert len(silent) <= 3, silent


def test_serves_and_returns_are_asked_of_both_hands() -> None:
    path = next(path for path in SHIPPED if path.stem == "serve-and-return")
    hands = {
        (str(each.situation.get("own hand")), str(each.situation.get("opponent hand")))
        for each in asked(source_of(path))[0]
        if each.ask is Ask.SERVE
    }

    assert len(hands) == 4


def test_the_same_seed_gives_the_same_quiz_and_another_one_other_places() -> None:
    source = source_of(SHIPPED[0])

    first, again, other = (asked.__wrapped__(source, seed)[0] for seed in ("a", "a", "b"))

    assert first == again
    assert {each.rule for each in first} == {each.rule for each in other}
    assert [each.sound for each in first] != [each.sound for each in other]
    assert len({each.pair for each in first}) == len(first)


def test_written_and_drawn_questions_come_mixed_and_none_twice() -> None:
    text = source_of(SHIPPED[0]).text.replace(
        "scenarios:", "draw: 3\ntopics: [low ball]\nscenarios:"
    )
    scenarios, problems = asked(Source(name="mixed.yaml", text=text))

    drawn = [place for place, each in enumerate(scenarios) if not each.note]

    assert problems == ()
    assert len(drawn) == 3
    assert len({each.pair for each in scenarios}) == len(scenarios)


def test_without_options_the_program_finds_two_answers_that_break_a_rule() -> None:
    source = Source(
        name="found.yaml",
        text="quiz: Found\nscenarios:\n  low:\n"
        "    given: {body height: thigh, court depth: behind, balance: moving}\n"
        "    rule: low-from-the-back-lift\n"
        "    answer: {direction: crosscourt, height over net: 1 m}\n",
    )

    (scenario,), problems = asked(source)

    assert problems == ()
    assert scenario.rule == "low-from-the-back-lift"
    assert scenario.options[scenario.sound].text == "Crosscourt, 1.0 m over the net"
    assert grades_by_the_rules(source, scenario).count(Grade.SOUND) == 1


FACTS = {
    "body height": ("below knee", "thigh", "waist", "chest", "shoulder"),
    "court depth": ("on baseline", "behind", "inside baseline", "midcourt"),
    "court width": ("middle third", "wide forehand", "wide backhand"),
    "balance": ("set", "moving", "stretched"),
    "ball line": ("inside", "outside"),
    "incoming spin": ("top", "slice"),
}
OPTIONS = st.lists(
    st.tuples(
        st.sampled_from(("crosscourt", "straight", "middle")),
        st.sampled_from(("0.1 m", "0.5 m", "1 m", "1.5 m")),
        st.sampled_from(("60 %", "80 %", "95 %")),
    ),
    min_size=3, max_size=3, unique=True,
)  # fmt: skip


@settings(max_examples=25)
@given(
    facts=st.fixed_dictionaries({}, optional={k: st.sampled_from(v) for k, v in FACTS.items()}),
    options=OPTIONS,
)
def test_a_written_scenario_is_a_problem_or_has_the_evaluators_one_answer(
    facts: dict[str, str], options: list[tuple[str, str, str]]
) -> None:
    told = ", ".join(f"{name}: {value}" for name, value in {"wing": "forehand", **facts}.items())
    lines = "".join(
        f"      - {{intent: build, direction: {way}, height over net: {high}, pace: {pace}}}\n"
        for way, high, pace in options
    )
    source = Source(
        name="drawn.yaml",
        text=f"quiz: Drawn\nscenarios:\n  one:\n    given: {{{told}}}\n    options:\n{lines}",
    )

    scenarios, problems = asked.__wrapped__(source, "law")

    assert len(scenarios) + bool(problems) == 1
    for scenario in scenarios:
        grades = grades_by_the_rules(source, scenario)
        assert grades == [option.grade for option in scenario.options]
        assert grades.count(Grade.SOUND) == 1
        assert Grade.ACCEPTABLE not in grades


def test_a_left_handed_player_gets_the_same_questions_in_the_mirror() -> None:
    path = next(path for path in SHIPPED if path.stem == "pulled-wide")
    right = source_of(path)
    left = Source(name=right.name, text=right.text.replace("for: ", "hand: left\nfor: "))
    by_note = {each.note: each for each in asked(right)[0]}
    mirrored = asked(left)[0]

    assert len(mirrored) == len(by_note)
    for scenario in mirrored:
        like = by_note[scenario.note]
        assert scenario.situation.get("own hand") == word("left")
        assert {o.text: o.grade for o in scenario.options} == {
            o.text: o.grade for o in like.options
        }


WORDS = (
    "thigh", "set", "stretched", "close net", "serving", "overhead", "smash", "volley", "lob",
    "not seen", "not applicable", "", "left", "wide", "3 m", "200 %", "inside", "{", "red",
    "opponent at net", "approaching or at net", "yes", "7", "low ball",
)  # fmt: skip
EVERY_KIND = (CASES / "feedback" / "every-kind.yaml").read_text(encoding="utf-8")
PLACES = [found.span() for found in re.finditer(r"(?<=: )[a-zA-Z0-9. %-]+(?=[,}\n])", EVERY_KIND)]


@settings(max_examples=15)
@given(place=st.sampled_from(PLACES), other=st.sampled_from(WORDS), cut=st.integers(0, 12))
def test_a_spoilt_file_earns_problems_and_never_a_question_with_two_answers(
    place: tuple[int, int], other: str, cut: int
) -> None:
    text = f"{EVERY_KIND[: place[0]]}{other}{EVERY_KIND[place[1] + cut :]}"

    scenarios, problems = asked.__wrapped__(Source(name="spoilt.yaml", text=text), "spoilt")

    assert all(problem.sentence and problem.span.line for problem in problems)
    for scenario in scenarios:
        assert [option.grade for option in scenario.options].count(Grade.SOUND) == 1
