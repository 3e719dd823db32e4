"""A question of the quiz line by line, in the order in which it is best heard."""

from collections.abc import Iterator

from tactics.model.scenario import Scenario
from tactics.model.vocabulary import Vocabulary
from tactics.report.quiz_places import clauses, picture_words, shown_picture, target_words
from tactics.report.quiz_view import Reply

HOW_SURE = "How sure are you? s: sure, n: not sure, 1 2 3: change the answer, q: stop."


def question_lines(
    scenario: Scenario, words: Vocabulary, heading: str, before: Scenario | None = None
) -> tuple[str, ...]:
    """Return facts, question and answers, and then the picture in words.

    before: the question that this one is the twin of.
    """
    return tuple(_asked(scenario, words, heading, before))


def _asked(
    scenario: Scenario, words: Vocabulary, heading: str, before: Scenario | None
) -> Iterator[str]:
    yield ""
    yield heading
    if before is not None:
        old = clauses(before.facts)
        new = [clause for clause in clauses(scenario.facts) if clause not in old]
        yield f"What changed: {'; '.join(new)}."
    yield scenario.facts
    yield scenario.prompt
    for place, option in enumerate(scenario.options):
        yield f"{place + 1}: {option.text}"
    picture = shown_picture(scenario, is_answered=False, words=words)
    yield " ".join(("On the court:", *picture_words(scenario, picture, words)))


def feedback_lines(scenario: Scenario, reply: Reply, words: Vocabulary) -> tuple[str, ...]:
    """Return credit, answers with their grades, why, target and the one change."""
    return tuple(each for each in _answered(scenario, reply, words) if each)


def _answered(scenario: Scenario, reply: Reply, words: Vocabulary) -> Iterator[str]:
    yield reply.heading
    for place, (grade, text, is_picked, _) in enumerate(reply.lines):
        yours = " (your answer)" if is_picked else ""
        yield f"{place + 1}, {grade}{yours}: {text}"
    yield f"Why: {reply.why}" if reply.why else ""
    yield target_words(scenario, shown_picture(scenario, is_answered=True, words=words))
    yield reply.flip
    yield reply.then or (f"In short: {reply.cue}" if reply.cue else "")
    yield f"From your coach: {scenario.note}" if scenario.note else ""
