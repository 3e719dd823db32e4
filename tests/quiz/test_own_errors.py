"""What a player's own chart says to drill."""

from collections import Counter
from pathlib import Path

import tactics
from tactics.engine.audit import audit
from tactics.quiz.own_errors import own_errors
from tactics.reading.charts import read_chart_bytes
from tests.quiz.written_quizzes import advisor

SAMPLE = Path(tactics.__file__).parent / "samples" / "three-lessons.csv"
READ = read_chart_bytes("sample.csv", SAMPLE.read_bytes(), advisor().vocabulary)


def test_the_rule_broken_most_often_comes_first_with_the_player_s_own_choices() -> None:
    assert READ.value is not None
    judged = audit([READ.value], advisor())
    broken = Counter(rule for each in judged.judged for rule in each.verdict.charged)

    found = own_errors(judged)

    assert set(found) == set(broken)
    assert [broken[rule] for rule in found] == sorted(broken.values(), reverse=True)
    for rule, choices in found.items():
        charted = [
            {part for part, _ in each.ball.choice.parts}
            for each in judged.judged
            if rule in each.verdict.charged
        ]
        assert 0 < len(choices) <= 6
        assert all(any(set(choice) <= parts for parts in charted) for choice in choices)


def test_no_choice_comes_twice_for_a_rule() -> None:
    assert READ.value is not None
    for choices in own_errors(audit([READ.value], advisor())).values():
        keys = [tuple(sorted(choice.items())) for choice in choices]
        assert len(keys) == len(set(keys))


def test_a_chart_without_broken_choices_gives_nothing() -> None:
    assert dict(own_errors(audit([], advisor()))) == {}
