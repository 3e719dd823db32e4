"""Rules that pull against each other, where both can speak about one ball."""

from collections.abc import Iterator, Mapping

from tactics.engine.advisor import Advisor
from tactics.engine.program import Program, ReadyRule
from tactics.model.condition import All, Condition, Not, TermTest, Test
from tactics.model.names import fold
from tactics.model.vocabulary import Vocabulary
from tactics.quiz.play import GAME_SITUATION

Demands = Mapping[str, int]
"""Fact -> the cells a ball has to lie in for a rule to speak."""


def opponents(advisor: Advisor) -> Mapping[int, tuple[int, ...]]:
    """Return rule -> rules of other concerns that ask for something else in the same part.

    Only those that can meet it: a pair whose conditions exclude each other is left out as far as
    single facts show it.
    """
    rules = advisor.program.ready
    demands = [_demands(advisor, rule) for rule in rules]
    return {
        place: tuple(
            other
            for other, against in enumerate(rules)
            if _pull_apart(rule, against)
            and _can_meet(demands[place], demands[other], advisor.vocabulary, advisor.program)
        )
        for place, rule in enumerate(rules)
    }


def _pull_apart(rule: ReadyRule, other: ReadyRule) -> bool:
    if rule.is_option_only or other.is_option_only:
        return False
    if rule.rank == other.rank and rule.rule.strength is other.rule.strength:
        return False
    theirs = dict(other.advice)
    return any(part in theirs and not theirs[part] & mask for part, mask in rule.advice)


def _demands(advisor: Advisor, rule: ReadyRule) -> Demands:
    """Return what a rule asks of every fact by itself; alternatives are passed over."""
    grid, found = advisor.program.grid, dict[str, int]()
    terms = {fold(term.name): term.condition for term in advisor.rules.terms}
    for test, is_wanted in _tests(rule, terms):
        axis = grid.axes[test.name]
        mask = axis.mask_of(test.allowed)
        mask = mask if is_wanted else ~mask & (axis.everything | axis.absent)
        found[test.name] = found.get(test.name, axis.everything | axis.absent) & mask
    return found


def _tests(rule: ReadyRule, terms: Mapping[str, Condition]) -> Iterator[tuple[Test, bool]]:
    """Yield every test that has to come out one way, and which."""
    waiting = [(rule.rule.when, True), *((each, False) for each in rule.rule.unless)]
    while waiting:
        condition, is_wanted = waiting.pop()
        match condition:
            case Test():
                yield condition, is_wanted
            case TermTest(term=term, wanted=wanted):
                waiting.append((terms[fold(term)], is_wanted is wanted))
            case Not(inside):
                waiting.append((inside, not is_wanted))
            case All(inside) if is_wanted:
                waiting += [(each, True) for each in inside]
            case _:
                pass


def _can_meet(one: Demands, other: Demands, words: Vocabulary, program: Program) -> bool:
    both = {
        fact: one.get(fact, -1) & other.get(fact, -1) for fact in {**one, **other}
    }  # fmt: skip
    return all(both.values()) and all(
        _exists(fact, mask, both, words, program) for fact, mask in both.items()
    )


def _exists(fact: str, mask: int, both: Demands, words: Vocabulary, program: Program) -> bool:
    """Say whether a fact may have such a value in a game situation that is left."""
    absent_in = words.trait(fact).absent_in
    axes = program.grid.axes
    if not absent_in or mask & axes[fact].absent or GAME_SITUATION not in both:
        return True
    phases = words.trait(GAME_SITUATION).words
    left = {word.name for place, word in enumerate(phases) if both[GAME_SITUATION] >> place & 1}
    return not left <= absent_in
