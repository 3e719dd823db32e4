"""What a rule set still needs to decide a ball, and which parts of a choice it speaks about."""

from collections import Counter
from functools import lru_cache
from math import prod

from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.coverage import as_covered
from tactics.engine.judge import Case, case_of, judge
from tactics.engine.match import NO
from tactics.engine.matter import classes, mattering_rules
from tactics.engine.open_tests import open_leaves
from tactics.model.choice import Choice
from tactics.model.situation import Situation
from tactics.model.verdict import Grade

MOST_COMPLETIONS = 72
"""Up to here every completion of the open facts is gone through; beyond, rules are counted."""
_REMEMBERED = 4096


class Decider:
    """Asks one rule set; the same question is worked out once."""

    def __init__(self, advisor: Advisor) -> None:
        self.advisor = advisor
        self._case = lru_cache(_REMEMBERED)(self._work_out_case)
        self.waiting = lru_cache(_REMEMBERED)(self._waiting)

    def speaks(self, part: str, situation: Situation, choice: Choice) -> bool:
        """Say whether a rule that may apply to this choice says anything about a part."""
        case = self._case(situation, choice)
        return any(
            name == part
            for rule, truth in zip(case.program.ready, case.truths, strict=True)
            if truth is not NO
            for answer in (rule.advice, *rule.options)
            for name, _ in answer
        )

    def _waiting(self, situation: Situation, choice: Choice) -> tuple[str, ...]:
        """Return the facts and parts that decide the grade, the one to ask for first in front.

        None are left once the grade is decided.
        """
        case = self._case(situation, choice)
        rules = mattering_rules(case.program, case.truths, case.charted)
        groups = classes(case.program, rules, case.masks, case.leaves, case.terms)
        if prod(map(len, groups.values())) > MOST_COMPLETIONS:
            return _by_rules(case, rules)
        verdict = judge(choice, advise(self.advisor, self._covered(situation)))
        return verdict.missing if verdict.grade is Grade.UNDECIDED else ()

    def _work_out_case(self, situation: Situation, choice: Choice) -> Case:
        return case_of(choice, advise(self.advisor, self._covered(situation)))

    def _covered(self, situation: Situation) -> Situation:
        return as_covered(self.advisor.rules, situation)


def _by_rules(case: Case, rules: frozenset[int]) -> tuple[str, ...]:
    """Return the open facts, the one on which most of these rules hang first."""
    hanging: Counter[str] = Counter()
    for place in sorted(rules):
        rule = case.program.ready[place]
        indexes = frozenset[int]().union(
            *(
                open_leaves(case.program, node, case.leaves, case.terms)
                for node in (rule.when, rule.unless, rule.choosing)
            )
        )
        hanging.update({case.program.leaves[index].name for index in indexes})
    order = list(case.program.grid.axes)
    return tuple(sorted(hanging, key=lambda name: (-hanging[name], order.index(name))))
