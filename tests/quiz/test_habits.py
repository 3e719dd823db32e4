"""Nobody gets anywhere with a habit, and everybody who knows the rules gets everything."""

from collections.abc import Callable, Mapping, Sequence

import pytest

from tactics.model.scenario import Ask, Scenario
from tactics.quiz import tested_facts as report
from tactics.quiz.balance import HABITS, Look, look_of, picks, words_in
from tactics.quiz.ladders import boldness
from tactics.quiz.plain import value_of
from tests.quiz.made import IS_THOROUGH, maker, scenarios

BAND = 0.10 if IS_THOROUGH else 0.14
"""Four hundred quizzes are held to +-0.10; in a few, chance alone reaches a little further."""
SETS = ("singles-club", "junior-green")

Bot = Callable[[Scenario], tuple[int, ...]]
"""Takes one option, or several that it cannot tell apart and draws from."""


def looks(scenario: Scenario) -> list[Look]:
    return [
        look_of(option.text, boldness({p: value_of(k) for p, k in option.choice.parts}))
        for option in scenario.options
    ]


def habit(name: str) -> Bot:
    def bot(scenario: Scenario) -> tuple[int, ...]:
        question = words_in(f"{scenario.facts} {scenario.prompt}")
        return picks(name, looks(scenario), question)

    return bot


BOTS: Mapping[str, Bot] = {
    **{name: habit(name) for name in HABITS if name not in ("shortest", "most alike")},
    "first": lambda _: (0,),
    "last": lambda scenario: (len(scenario.options) - 1,),
}


def score(bot: Bot, some: Sequence[Scenario]) -> float:
    """Return the mean credit, corrected for guessing: 1 is everything, 0 is what chance gives."""
    total = 0.0
    for scenario in some:
        taken = bot(scenario)
        total += sum(scenario.options[n].grade.value == "sound" for n in taken) / len(taken)
    return (total / len(some) - 1 / 3) / (2 / 3)


@pytest.mark.parametrize("name", SETS)
@pytest.mark.parametrize("bot", BOTS)
def test_a_habit_earns_what_a_guess_does(name, bot):
    assert abs(score(BOTS[bot], scenarios(name))) <= BAND


@pytest.mark.parametrize("name", SETS)
def test_knowing_the_rules_earns_everything(name):
    assert score(lambda scenario: (scenario.sound,), scenarios(name)) == pytest.approx(1.0)


def test_who_does_not_look_at_a_fact_that_matters_loses_by_it():
    some = [each for each in scenarios("singles-club") if each.ask is not Ask.NAME]
    found = {each.fact: each for each in report.tested_facts(maker("singles-club"), some)}

    for fact in ("body height", "court depth", "balance", "serve number"):
        assert found[fact].asked >= 10
        assert found[fact].loss >= 0.15, fact


def test_a_fact_that_no_rule_asks_about_is_not_in_the_report():
    found = report.tested_facts(maker("junior-green"), scenarios("junior-green"))

    assert "open court" not in {each.fact for each in found}


def test_the_sample_is_the_same_every_time():
    made = maker("junior-red")

    assert report.sample(made, 20) == report.sample(made, 20)
