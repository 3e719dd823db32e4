"""What a quiz can be about."""

from tactics.quiz.topics import askable_rules, rules_of_topic, topic_hint, topics
from tests.quiz.written_quizzes import advisor


def test_a_topic_is_a_concern_a_game_situation_or_a_named_situation() -> None:
    found = topics(advisor())

    assert {"feasibility", "serving", "low ball", "pulled wide"} <= set(found)
    assert len(found) == len(set(found))


def test_every_topic_has_rules_and_every_rule_a_topic() -> None:
    rules = {topic: rules_of_topic(advisor(), topic) for topic in topics(advisor())}

    assert all(rules.values())
    assert {rule for each in rules.values() for rule in each} == set(askable_rules(advisor()))


def test_a_topic_is_found_in_any_spelling_and_a_rule_by_its_id() -> None:
    assert rules_of_topic(advisor(), "Low_Ball") == rules_of_topic(advisor(), "low ball")
    assert rules_of_topic(advisor(), "wide go high") == ("wide-go-high",)


def test_a_game_situation_holds_the_rules_that_can_apply_in_it_and_no_others() -> None:
    serving = set(rules_of_topic(advisor(), "serving"))

    assert "second-serve-spin-first" in serving
    assert "wide-go-high" not in serving
    assert "wide-go-high" in rules_of_topic(advisor(), "baseline rally")


def test_a_slip_is_answered_with_what_was_meant() -> None:
    assert rules_of_topic(advisor(), "low bal") == ()
    assert topic_hint(advisor(), "low bal") == ('did you mean "low ball"?', "low ball")
    assert topic_hint(advisor(), "zzz")[0].startswith("it can be safety, ")
