"""Each set of mix rules in cases/mixes: what it finds in its chart, or what is wrong with it."""

from pathlib import Path

import pytest

from tactics.checks.broken_mix_example import broken_mix_examples
from tactics.engine.compile import compile_rules
from tactics.model.rule import RuleSet
from tactics.problem import Reading
from tactics.reading.charts import read_chart
from tactics.reading.rules import read_rules
from tactics.report.layout import text_of
from tactics.report.mix import asked_words, mix_section
from tactics.report.mix_json import mixes_as_json
from tactics.report.problems import render_problems
from tactics.review.mix import review_mixes
from tactics.source import Source
from tests.golden import Golden

FOLDER = Path(__file__).parents[1] / "cases" / "mixes"
WITH_CHART = sorted(path.stem for path in FOLDER.glob("*.csv"))
WRONG = sorted(path.stem for path in FOLDER.glob("wrong-*.yaml"))


def file_named(name: str) -> Source | None:
    path = FOLDER / name
    return Source(name=name, text=path.read_text("utf-8")) if path.is_file() else None


def reading_of(name: str) -> Reading[RuleSet]:
    source = file_named(f"{name}.yaml")
    assert source is not None
    return read_rules(source, file_named)


def told(name: str) -> str:
    rules = reading_of(name).value
    chart = read_chart(Source(name=f"{name}.csv", text=text(f"{name}.csv")), rules.vocabulary).value
    reviews = review_mixes(rules, chart.balls)
    asked = [f"{mix.id}: {asked_words(mix, rules.vocabulary)}\n" for mix in rules.mixes]
    return "".join(asked) + "\n" + text_of([mix_section(reviews, rules.vocabulary)])


def text(name: str) -> str:
    return (FOLDER / name).read_text("utf-8")


@pytest.mark.parametrize("name", WITH_CHART)
def test_a_set_of_mixes_says_exactly_this_about_its_chart(name: str, golden: Golden) -> None:
    assert reading_of(name).problems == ()

    golden(f"mixes/{name}.txt", told(name))


@pytest.mark.parametrize("name", WRONG)
def test_wrong_mixes_earn_exactly_this_text(name: str, golden: Golden) -> None:
    problems = reading_of(name).problems
    source = Source(name=f"{name}.yaml", text=text(f"{name}.yaml"))

    golden(f"mixes/{name}.txt", render_problems(problems, (source,)))


def test_the_sentence_a_coach_asked_for_is_said() -> None:
    rules = reading_of("serves").value
    chart = read_chart(Source(name="serves.csv", text=text("serves.csv")), rules.vocabulary).value

    lines = mix_section(review_mixes(rules, chart.balls), rules.vocabulary).lines
    said = " ".join(" ".join(lines).split())

    assert (
        "13 of 16 to the T (81 %, 54 to 96 %), asked for at most two in three: early sign" in said
    )
    assert "serve side ad: not enough first serves yet (n = 7)" in said


def test_the_same_comes_out_as_plain_values() -> None:
    rules = reading_of("replaces-and-drops").value
    source = Source(name="c.csv", text=text("replaces-and-drops.csv"))
    chart = read_chart(source, rules.vocabulary).value

    (found,) = mixes_as_json(review_mixes(rules, chart.balls))
    (group,) = found["groups"]

    assert found["mix"] == "every-road-open"
    assert (found["at most"], found["at least"]) == ([80, 100], None)
    assert (found["not counted"], found["not charted"]) == (1, {"returner": 1})
    assert [(each["place"], each["balls"]) for each in group["places"]] == [("T", 9), ("wide", 2)]


def test_an_example_that_its_mix_does_not_keep_is_a_problem() -> None:
    wrong = text("serves.yaml").replace("says: too often", "says: kept")
    source = Source(name="serves.yaml", text=wrong)

    (problem,) = broken_mix_examples(compile_rules(read_rules(source).value, engine="matcher"))

    assert (problem.code, problem.span.line) == ("example-fails", 27)
    assert problem.sentence == (
        'an example of mix "every-road-open" says kept, and of 13 in 16 the mix says too often'
    )
