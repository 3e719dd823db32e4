"""What a rule file becomes, and how files lie on top of each other."""

from tactics.model.condition import ALWAYS, All, AnyOf, Not, TermTest
from tactics.model.condition import Test as FactTest
from tactics.model.drill import Catalogue
from tactics.model.known import NOT_SEEN, OneOf, ScatterWithin, at_least, number, word
from tactics.model.rule import RuleSet, Strength
from tactics.model.verdict import Grade
from tactics.problem import Reading, Severity
from tactics.reading.codes import Code
from tactics.reading.rules import combine, merged_precedence, read_rules
from tactics.source import Source
from tests.conftest import Read
from tests.reading.rule_texts import FULL

SMALL = """\
rule set: Small
precedence: [safety, court position]
rules:
  low-ball-long-road:
    title: A low ball takes the long road
    concern: court position
    strength: should
    advise: {direction: crosscourt}
    because: The court is longer.
    cue: Low ball, long road
"""


def full() -> RuleSet:
    rules = read_rules(Source(name="club.yaml", text=FULL)).value
    assert rules is not None
    return rules


def codes(reading: Reading[RuleSet]) -> list[str]:
    return [problem.code for problem in reading.problems]


def read_files(name: str, **texts: str) -> Reading[RuleSet]:
    files = {f"{key}.yaml": Source(name=f"{key}.yaml", text=text) for key, text in texts.items()}
    return read_rules(files[f"{name}.yaml"], files.get)


def on_top(text: str, below: str = "below") -> str:
    return f"rule set: On top\nbuilds on: [{below}.yaml]\n{text}"


# --- one file -------------------------------------------------------------------------------


def test_a_set_that_uses_every_line_has_no_problem() -> None:
    reading = read_rules(Source(name="club.yaml", text=FULL))

    assert reading.problems == ()
    assert reading.is_usable


def test_a_rule_says_what_was_written() -> None:
    rule = full().rule("low-ball-long-road")

    assert (rule.title, rule.strength) == ("A low ball takes the long road", Strength.SHOULD)
    assert rule.choosing == FactTest(
        name="intent", allowed=OneOf(frozenset({"build", "neutralise"}))
    )
    assert dict(rule.advice)["inside line"] == ScatterWithin((at_least(1.2),))
    assert dict(rule.aim)["height over net"] == number(1)
    assert [dict(answer)["direction"] for answer in rule.alternatives] == [word("middle")]
    assert (rule.beats, rule.drills) == (("sore-today",), ("diagonal-ladder",))
    assert rule.evidence == "court, practice"
    assert rule.note == "Clay: lift a little more."


def test_conditions_nest_and_use_terms() -> None:
    rules = full()
    wide = rules.terms[0].condition

    assert isinstance(wide, AnyOf)
    assert isinstance(wide.inside[1], All)
    assert isinstance(wide.inside[1].inside[1], Not)
    assert rules.rule("low-ball-long-road").unless[0] == TermTest(term="in trouble")
    assert isinstance(rules.rule("low-ball-long-road").when, All)


def test_a_rule_without_when_always_speaks(read: Read) -> None:
    rules = read(SMALL).value

    assert rules is not None
    assert rules.rules[0].when == ALWAYS


def test_a_test_keeps_the_words_of_the_coach_and_their_place() -> None:
    when = full().rule("low-ball-long-road").when

    assert isinstance(when, All)
    test = when.inside[1]
    assert isinstance(test, FactTest)
    assert test.text == "below knee or thigh"
    assert test.span is not None
    assert (test.span.line, test.span.width) == (35, len("body height"))


def test_the_places_of_lines_inside_a_rule_are_kept() -> None:
    rule = full().rule("low-ball-long-road")

    assert rule.span.line == 31
    assert rule.place_of("advise").line == 40
    assert rule.place_of("advise/direction").line == 41
    assert rule.place_of("beats/sore-today").line == 47
    assert rule.place_of("no such line") == rule.span


def test_examples_hold_what_was_seen_and_what_was_not() -> None:
    first, second = full().rule("low-ball-long-road").examples

    assert first.given.as_dict() == {"balance": word("set"), "wing": NOT_SEEN}
    assert first.grade is Grade.SOUND
    assert second.choose.get("height over net") == number(0.3048)


def test_own_facts_join_the_table() -> None:
    vocabulary = full().vocabulary
    gap, mood = vocabulary.trait("gap to the ball"), vocabulary.trait("mood today")

    assert [(band.name, band.low, band.high) for band in gap.words] == [
        ("small", float("-inf"), 2.5),
        ("medium", 2.5, 4.0),
        ("large", 4.0, float("inf")),
    ]
    assert (gap.own, gap.ordered, gap.low, gap.high) == (True, True, 0, 12)
    assert [(each.name, each.mark) for each in mood.words] == [
        ("bright", "talks between points"),
        ("flat", "looks at the ground"),
    ]
    assert mood.ordinary_value("serving") == word("bright")


def test_equal_rules_from_other_lines_are_equal() -> None:
    moved = read_rules(Source(name="other.yaml", text="# one line more\n" + FULL)).value

    assert moved == full()


# --- what is left out -----------------------------------------------------------------------


def test_a_rule_with_a_problem_is_left_out_and_the_others_are_kept() -> None:
    reading = read_rules(Source(name="club.yaml", text=FULL.replace("thigh", "tigh")))

    assert reading.value is not None
    assert [rule.id for rule in reading.value.rules] == ["sore-today"]
    assert not reading.is_usable


def test_a_broken_term_is_one_problem_however_many_rules_use_it() -> None:
    reading = read_rules(Source(name="club.yaml", text=FULL.replace("wide backhand", "wide bac")))

    assert codes(reading) == [Code.UNKNOWN_WORD]
    assert reading.value is not None
    assert reading.value.terms == ()
    assert [rule.id for rule in reading.value.rules] == ["sore-today"]


def test_a_broken_fact_is_one_problem_however_many_terms_use_it() -> None:
    reading = read_rules(Source(name="club.yaml", text=FULL.replace("2.5 m to 4", "2.5 m to 3")))

    assert codes(reading) == [Code.BANDS_APART]
    assert reading.value is not None
    assert [term.name for term in reading.value.terms] == ["pulled wide"]


def test_beating_a_rule_that_was_left_out_is_no_second_problem() -> None:
    reading = read_rules(Source(name="club.yaml", text=FULL.replace("at most 75", "at most 75 kg")))

    assert codes(reading) == [Code.UNKNOWN_UNIT]
    assert reading.value is not None
    assert reading.value.rule("low-ball-long-road").beats == ()


def test_a_drill_nobody_knows_is_a_warning() -> None:
    reading = read_rules(Source(name="club.yaml", text=FULL), catalogue=Catalogue())

    assert codes(reading) == [Code.UNKNOWN_DRILL]
    assert reading.problems[0].severity is Severity.WARNING
    assert reading.is_usable


# --- files on top of each other -------------------------------------------------------------


def test_a_set_inherits_what_it_builds_on() -> None:
    rules = read_files("top", top=on_top(""), below=FULL).value

    assert rules is not None
    assert rules.name == "On top"
    assert rules.author == "the Wednesday coaches"
    assert (rules.rules, rules.terms, rules.precedence) == (
        full().rules, full().terms, full().precedence,
    )  # fmt: skip
    assert rules.vocabulary.find("gap to the ball") is not None


def test_the_same_id_replaces_and_off_drops() -> None:
    upper = on_top(SMALL[SMALL.index("rules:") :].replace("should", "must") + "  sore-today: off\n")

    rules = read_files("top", top=upper, below=FULL).value

    assert rules is not None
    assert [(rule.id, rule.strength) for rule in rules.rules] == [
        ("low-ball-long-road", Strength.MUST)
    ]


def test_rules_may_use_facts_and_terms_from_below() -> None:
    upper = on_top(
        SMALL[SMALL.index("rules:") :].replace("advise", "when: {in trouble: yes}\n    advise")
    )

    reading = read_files("top", top=upper, below=FULL)

    assert reading.problems == ()


def test_a_file_reached_on_two_roads_counts_once() -> None:
    reading = read_files(
        "top",
        top="rule set: Top\nbuilds on: [left.yaml, right.yaml]\n",
        left=on_top("rules: {sore-today: off}\n"),
        right=on_top(""),
        below=FULL,
    )

    assert reading.problems == ()
    assert reading.value is not None
    assert [rule.id for rule in reading.value.rules] == ["low-ball-long-road"]


def test_a_circle_of_files_is_told_with_its_road() -> None:
    bottom = SMALL.replace("rules:", "builds on: [a.yaml]\nrules:")

    reading = read_files("a", a=on_top("", "b"), b=on_top("", "c"), c=bottom)

    assert codes(reading) == [Code.BUILDS_IN_A_CIRCLE]
    assert "a.yaml -> b.yaml -> c.yaml -> a.yaml" in reading.problems[0].sentence
    assert reading.problems[0].span.file == "c.yaml"


def test_a_missing_file_does_not_make_its_rules_look_unknown() -> None:
    upper = on_top("rules:\n  sore-today: off\n", "nowhere")

    assert codes(read_files("top", top=upper)) == [Code.MISSING_FILE]


def test_a_path_counts_from_the_folder_of_the_file_it_stands_in() -> None:
    files = {
        "coach/sets/top.yaml": Source(name="coach/sets/top.yaml", text=on_top("", "../below")),
        "coach/below.yaml": Source(name="coach/below.yaml", text=SMALL),
    }

    reading = read_rules(files["coach/sets/top.yaml"], files.get)

    assert reading.problems == ()


def test_a_problem_in_a_file_below_has_its_place_there() -> None:
    reading = read_files("top", top=on_top(""), below=FULL.replace("thigh", "tigh"))

    assert {problem.span.file for problem in reading.problems} == {"below.yaml"}


def test_files_named_together_are_one_set() -> None:
    other = SMALL.replace("low-ball-long-road", "another-rule").replace("Small", "Other")
    sources = [Source(name="full.yaml", text=FULL), Source(name="other.yaml", text=other)]

    rules = combine(sources).value

    assert rules is not None
    assert [rule.id for rule in rules.rules] == ["low-ball-long-road", "sore-today", "another-rule"]
    assert rules.precedence == ("safety", "feasibility", "court position")


def test_the_precedence_of_the_upper_file_goes_first_and_loses_nothing() -> None:
    lower = ("safety", "conditions", "feasibility", "position")

    assert merged_precedence(("safety", "house rule", "position"), lower) == (
        "safety", "conditions", "feasibility", "house rule", "position",
    )  # fmt: skip
    assert merged_precedence(("position", "safety"), lower) == (
        "position", "safety", "conditions", "feasibility",
    )  # fmt: skip
    assert merged_precedence((), lower) == lower
