"""What a quiz can be about: a concern, a game situation, a named situation, or one rule."""

from collections.abc import Iterator

from tactics.engine.advisor import Advisor
from tactics.engine.match import NO, infer, test_leaves
from tactics.engine.program import Program, ReadyRule, flags_in
from tactics.model.known import word
from tactics.model.names import fold
from tactics.reading.suggest import did_you_mean, near
from tactics.reading.wording import either

_PHASE = "game situation"


def askable_rules(advisor: Advisor) -> tuple[str, ...]:
    """Return the ids of the rules that can be drilled; a rule that only opens doors cannot."""
    return tuple(ready.rule.id for ready in _askable(advisor.program))


def topics(advisor: Advisor) -> tuple[str, ...]:
    """Return the topics that some rule is about: concerns, game situations, terms."""
    return tuple(dict.fromkeys(name for name, _ in _all(advisor)))


def rules_of_topic(advisor: Advisor, topic: str) -> tuple[str, ...]:
    """Return the ids of the rules of a topic, in any spelling, or of one rule; () for no topic."""
    wanted = fold(topic)
    ids = {fold(rule): rule for rule in askable_rules(advisor)}
    if wanted in ids:
        return (ids[wanted],)
    return tuple(dict.fromkeys(rule for name, rule in _all(advisor) if fold(name) == wanted))


def topic_hint(advisor: Advisor, topic: str) -> tuple[str, str]:
    """Return what may have been meant instead, in a sentence, and the one word to paste."""
    known = topics(advisor)
    close = near(topic, (*known, *askable_rules(advisor)))
    if close:
        return did_you_mean(close), close[0] if len(close) == 1 else ""
    return f"it can be {either(known)}, or the id of a rule", ""


def _askable(program: Program) -> tuple[ReadyRule, ...]:
    return tuple(ready for ready in program.ready if not ready.is_option_only)


def _all(advisor: Advisor) -> Iterator[tuple[str, str]]:
    """Yield (topic, rule id), topic by topic."""
    rules = _askable(advisor.program)
    for concern in advisor.rules.precedence:
        yield from ((concern, each.rule.id) for each in rules if each.rule.concern == concern)
    phases = {each.name: _possible_in(advisor.program, each.name)
              for each in advisor.vocabulary.trait(_PHASE).words}  # fmt: skip
    # a rule that speaks in every game situation is about none of them
    general = frozenset[str]().union(*phases.values()).intersection(*phases.values())
    for phase, possible in phases.items():
        yield from ((phase, each.rule.id) for each in rules if each.rule.id in possible - general)
    used = {each.rule.id: _terms_of(advisor.program, each) for each in rules}
    for number, name in enumerate(advisor.program.term_names):
        yield from ((name, each.rule.id) for each in rules if number in used[each.rule.id])


def _possible_in(program: Program, phase: str) -> frozenset[str]:
    """Return the ids of the rules that can apply in a game situation."""
    leaves = test_leaves(program, {_PHASE: program.grid.mask(_PHASE, word(phase))})
    truths = infer(program, leaves)[1]
    return frozenset(
        ready.rule.id for ready, truth in zip(program.ready, truths, strict=True) if truth is not NO
    )


def _terms_of(program: Program, ready: ReadyRule) -> frozenset[int]:
    """Return the numbers of the terms a rule uses, and of those they use."""
    found: set[int] = set()
    waiting = [ready.when, ready.unless]
    while waiting:
        for number in flags_in(waiting.pop()):
            if number not in found:
                found.add(number)
                waiting.append(program.terms[number])
    return frozenset(found)
