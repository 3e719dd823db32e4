"""What cannot happen: its words exist, it is explained, and authors can add to it."""

import re

import pytest

from tactics.checks.replay import breaks, law_of
from tactics.checks.witness import Witness
from tactics.engine.examples import ordinary_ball
from tactics.model import condition
from tactics.model.choice import Choice
from tactics.model.known import OneOf, Within, word
from tactics.model.legality import FOLLOWING, LEGALITY, Impossible
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD
from tactics.report.layout import text_of
from tactics.report.legality_page import line_page
from tests.conftest import Read
from tests.engine.rule_sets import DRAWN

NOTHING = RuleSet(name="nothing", precedence=(), vocabulary=STANDARD, span=DRAWN)
PHASES = [each.name for each in STANDARD.trait("game situation").words]
HEAD = """
    rule set: Tuesday group
    precedence: [safety]
    rules:
      over-first:
        title: Over the net first
        concern: safety
        strength: should
        advise: {height over net: at least 0.3 m}
        because: It is so.
        cue: Over
"""


@pytest.mark.parametrize("line", LEGALITY, ids=lambda line: line.id)
def test_a_line_is_about_facts_and_words_that_exist(line: Impossible) -> None:
    for asked in condition.tests_in(line.when):
        assert isinstance(asked, condition.Test)
        trait = STANDARD.trait(asked.name)
        match asked.allowed:
            case OneOf(words):
                assert words <= {each.name for each in trait.words}
            case Within(intervals):
                assert all(
                    trait.low <= each.low[0] or each.high[0] <= trait.high for each in intervals
                )


def test_ids_are_kebab_case_and_differ() -> None:
    ids = [each.id for each in (*LEGALITY, *FOLLOWING)]

    assert all(re.fullmatch(r"[a-z]+(-[a-z]+)+", each) for each in ids)
    assert len(set(ids)) == len(ids)


@pytest.mark.parametrize("phase", [each for each in PHASES if each != "returning"])
def test_an_ordinary_ball_can_happen(phase: str) -> None:
    ball = ordinary_ball(NOTHING, Situation.of({"game situation": word(phase)}))

    told = {name: known for name, known in ball.facts if name != "serve number"}
    assert breaks(law_of(NOTHING), _witness(Situation.of(told))) == ()


def test_a_line_is_broken_by_what_it_rules_out() -> None:
    known = {"game situation": word("returning"), "bounce": word("volley")}

    assert breaks(law_of(NOTHING), _witness(Situation.of(known))) == ("serve-is-not-volleyed",)


def test_a_line_about_something_not_seen_is_not_broken() -> None:
    known = {"game situation": word("returning")}

    assert breaks(law_of(NOTHING), _witness(Situation.of(known))) == ()


def _witness(situation: Situation) -> Witness:
    return Witness(situation=situation, choice=Choice(), telling=())


@pytest.mark.parametrize("line_id", [each.id for each in (*LEGALITY, *FOLLOWING)])
def test_every_line_has_a_page_of_its_own(line_id: str) -> None:
    assert text_of(line_page(line_id, STANDARD)).startswith(line_id)


def test_nothing_else_has_a_page() -> None:
    assert line_page("no-such-line", STANDARD) == ()


def test_an_author_adds_lines(read: Read) -> None:
    reading = read(f"""{HEAD}
    cannot happen:
      - when: {{wind: across, surface: fast}}
        because: we play indoors
      - when: {{balance: jammed}}
        if choosing: {{stroke: smash}}
        because: nobody can
    """)

    assert reading.problems == ()
    lines = reading.value.cannot_happen
    assert [line.because for line in lines] == ["we play indoors", "nobody can"]
    assert [len(list(condition.tests_in(line.when))) for line in lines] == [2, 2]


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("{when: {wind: across}}", "missing-key"),
        ("{because: we play indoors}", "missing-key"),
        ("{when: {wind: acros}, because: indoors}", "unknown-word"),
        ("{when: {direction: wide}, because: indoors}", "part-for-fact"),
        ("{if choosing: {wind: across}, when: {surface: fast}, because: no}", "fact-for-part"),
        ("{when: {wind: across}, because: indoors, then: no}", "unknown-key"),
        ("across", "section-wanted"),
    ],
)
def test_a_mistake_in_a_line_is_one_problem_and_the_line_is_left_out(
    read: Read, line: str, code: str
) -> None:
    reading = read(f"{HEAD}\n    cannot happen:\n      - {line}\n")

    assert [problem.code for problem in reading.problems] == [code]
    assert reading.value.cannot_happen == ()


def test_an_author_promises_parts(read: Read) -> None:
    reading = read(f"{HEAD}\n    always says: [direction, Height_over_net]\n")

    assert reading.problems == ()
    assert reading.value.always_says == ("direction", "height over net")


def test_only_parts_can_be_promised(read: Read) -> None:
    reading = read(f"{HEAD}\n    always says: [balance, directoin]\n")

    assert [problem.code for problem in reading.problems] == ["fact-for-part", "unknown-part"]
